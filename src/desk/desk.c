// Pages on each other, and what may be done on any of them.

#include "desk_inner.h"

#include <stdio.h>
#include <string.h>

struct desk_page *desk_top(struct desk *desk) {
    return &desk->page[desk->depth - 1];
}

const struct desk_page *desk_top_of(const struct desk *desk) {
    return &desk->page[desk->depth - 1];
}

void desk_say(struct desk *desk, enum view_tone tone, const char *message) {
    SET(desk->message, message);
    desk->tone = tone;
}

const struct worker *desk_who(const struct desk *desk) {
    return desk->supervisor.badge[0] != '\0' ? &desk->supervisor : &desk->worker;
}

static void menu(struct desk *desk) {
    memset(desk->page, 0, sizeof desk->page);
    memset(&desk->work, 0, sizeof desk->work);
    memset(&desk->wanted, 0, sizeof desk->wanted);
    desk->page[0].place.goes = GOES_MENU;
    desk->depth = 1;
    desk_say(desk, TONE_PLAIN, "");
}

void desk_init(struct desk *desk, const struct desk_ops *ops) {
    memset(desk, 0, sizeof *desk);
    desk->ops = ops;
    desk->scale.mass = MASS_UNKNOWN;
    desk->scale.taken = MASS_UNKNOWN;
    menu(desk);
}

static bool supervised(const struct desk *desk) {
    return desk->supervisor.badge[0] != '\0';
}

static bool needs_supervisor(const struct desk_place *place) {
    return (place->goes == GOES_FORM && form_spec((enum desk_form)place->which)->supervisor) ||
           (place->goes == GOES_LIST && place->which == DESK_LIST_SETTINGS) ||
           (place->goes == GOES_DEED &&
            (place->which == DESK_DEED_RELEASE || place->which == DESK_DEED_START_AGAIN));
}

static void deed(struct desk *desk, const struct desk_place *place) {
    struct desk_said said;
    char id[CONFIRM_ID_MAX];
    memset(&said, 0, sizeof said);
    desk->ops->random_id(desk->ops->ctx, id);
    enum desk_result result = desk->ops->deed(desk->ops->ctx, desk_who(desk),
                                              (enum desk_deed)place->which, &place->of, id, &said);
    desk_say(desk, result == DESK_DONE ? said.tone : TONE_STOP, said.message);
}

static bool room(struct desk *desk) {
    if (desk->depth == DESK_DEPTH) {
        desk_say(desk, TONE_CAUTION, _("Too many pages are open: go back first."));
    }
    return desk->depth < DESK_DEPTH;
}

static void push(struct desk *desk, const struct desk_place *place) {
    memset(&desk->page[desk->depth], 0, sizeof desk->page[0]);
    desk->page[desk->depth++].place = *place;
}

enum desk_wish desk_open(struct desk *desk, const struct desk_place *place) {
    if (needs_supervisor(place) && !supervised(desk)) {
        desk->wanted = *place;
        return DESK_WANTS_SUPERVISOR;
    }
    desk_say(desk, TONE_PLAIN, "");
    switch (place->goes) {
    case GOES_LIST:
        if (room(desk)) {
            push(desk, place);
        }
        break;
    case GOES_FORM:
        if (room(desk) && form_open(desk, place)) {
            push(desk, place);
        }
        break;
    case GOES_DEED:
        deed(desk, place);
        break;
    case GOES_MENU:
        menu(desk);
        break;
    case GOES_NOWHERE:
        break;
    }
    return DESK_STAYS;
}

void desk_back(struct desk *desk) {
    if (desk->depth > 1) {
        if (desk_top(desk)->place.goes == GOES_FORM) {
            memset(&desk->work, 0, sizeof desk->work);
        }
        desk->depth--;
    }
}

void desk_enter(struct desk *desk, const struct worker *worker, const struct worker *supervisor) {
    if (strcmp(desk->worker.badge, worker->badge) != 0) {
        menu(desk);
    }
    desk->worker = *worker;
    desk->supervisor = *supervisor;
    struct desk_place wanted = desk->wanted;
    memset(&desk->wanted, 0, sizeof desk->wanted);
    if (supervised(desk) && wanted.goes != GOES_NOWHERE) {
        desk_open(desk, &wanted);
    } else if (desk_top(desk)->place.goes == GOES_FORM) {
        form_consider(desk); // somebody else may save it now
    }
}

static enum desk_wish back(struct desk *desk) {
    if (desk->depth == 1) {
        return DESK_LEAVES;
    }
    if (desk_top(desk)->place.goes == GOES_FORM && form_unsaved(desk) && !desk->work.leaving) {
        desk->work.leaving = true;
        desk_say(desk, TONE_CAUTION, _("Not saved. Back once more leaves it as it was."));
        return DESK_STAYS;
    }
    desk_say(desk, TONE_PLAIN, "");
    desk_back(desk);
    return DESK_STAYS;
}

// On menu and lists whatever is scanned or typed leads to what it names.
static enum desk_wish scan(struct desk *desk, const char *text) {
    struct desk_place place;
    memset(&place, 0, sizeof place);
    if (desk->ops->find(desk->ops->ctx, text, &place)) {
        return desk_open(desk, &place);
    }
    if (desk_top(desk)->place.goes == GOES_LIST &&
        !list_spec((enum desk_list)desk_top(desk)->place.which)->whole) {
        struct desk_page *page = desk_top(desk);
        SET(page->find, text);
        page->page = 0;
        page->has_selected = false;
        return DESK_STAYS;
    }
    char message[VIEW_TEXT_MAX];
    snprintf(message, sizeof message, _("Nothing here is called %.60s."), text);
    desk_say(desk, TONE_CAUTION, message);
    return DESK_STAYS;
}

static enum desk_wish menu_event(struct desk *desk, const struct event *event) {
    size_t count;
    const struct tile_spec *tiles = tile_specs(&count);
    if (event->kind == EVENT_ACTION && event->action == ACTION_TILE && event->argument >= 0 &&
        (size_t)event->argument < count) {
        const struct tile_spec *tile = &tiles[event->argument];
        struct desk_place place = {.goes = tile->goes, .which = tile->which};
        return desk_open(desk, &place);
    }
    return DESK_STAYS;
}

enum desk_wish desk_event(struct desk *desk, const struct event *event) {
    enum desk_goes goes = desk_top(desk)->place.goes;
    memset(&desk->wanted, 0, sizeof desk->wanted); // whoever goes on does not wait for it
    if (event->kind == EVENT_ACTION && event->action == ACTION_BACK) {
        return back(desk);
    }
    if (event->kind == EVENT_ACTION && event->action == ACTION_SUPERVISOR) {
        return DESK_WANTS_SUPERVISOR;
    }
    if (goes == GOES_FORM) {
        return form_event(desk, event);
    }
    if (event->kind == EVENT_SCAN) {
        return scan(desk, event->text);
    }
    return goes == GOES_LIST ? list_event(desk, event) : menu_event(desk, event);
}

// --- view ----------------------------------------------------------------------------------------

static void menu_view(const struct desk *desk, struct view *view) {
    size_t count;
    const struct tile_spec *tiles = tile_specs(&count);
    view->body = VIEW_MENU;
    SET(view->menu.title, _("Desk"));
    SET(view->menu.subtitle, _("Orders, parts and charts. Scan a ticket to see what it names."));
    for (size_t i = 0; i < count; i++) {
        struct desk_place place = {.goes = tiles[i].goes, .which = tiles[i].which};
        int64_t waiting = desk->ops->waiting(desk->ops->ctx, &place);
        SET(view->menu.tile[i].line, _(tiles[i].line));
        if (waiting >= 0) {
            snprintf(view->menu.tile[i].count, sizeof view->menu.tile[i].count, "%lld",
                     (long long)waiting);
        }
        view_offer(view, ACTION_TILE, (int64_t)i, _(tiles[i].label), tiles[i].key, TONE_PLAIN);
    }
    view->menu.tile_count = count;
    SET(view->band, _("Touch what you want to do, or press its key."));
}

void desk_view(const struct desk *desk, struct view *view) {
    enum desk_goes goes = desk_top_of(desk)->place.goes;
    view->action_count = 0;
    if (goes == GOES_FORM) {
        form_view(desk, view);
    } else if (goes == GOES_LIST) {
        list_view(desk, view);
    } else {
        menu_view(desk, view);
    }
    view_offer(view, ACTION_BACK, 0, desk->depth == 1 ? _("Back to the saw") : _("Back"), "F3",
               TONE_PLAIN);
    if (!supervised(desk)) {
        view_offer(view, ACTION_SUPERVISOR, 0, _("Supervisor"), "F9", TONE_PLAIN);
    }
    view_offer(view, ACTION_SIGN_OUT, 0, _("Sign off"), "F10", TONE_PLAIN);
    if (desk->message[0] != '\0') {
        SET(view->band, desk->message);
        view->band_tone = desk->tone;
    }
}

void desk_where(const struct desk *desk, char *buffer, size_t size) {
    static const char *const lists[] = {
#define X(name) #name,
        DESK_LISTS(X)
#undef X
    };
    static const char *const forms[] = {
#define X(name) #name,
        DESK_FORMS(X)
#undef X
    };
    const struct desk_place *place = &desk_top_of(desk)->place;
    if (place->goes == GOES_FORM) {
        struct form_field fields[VIEW_FORM_FIELDS];
        int count = form_fields(&desk->work, fields);
        snprintf(buffer, size, "FORM %s %s", forms[place->which],
                 desk->work.field < count ? fields[desk->work.field].cell : "");
    } else {
        snprintf(buffer, size, "%s%s", place->goes == GOES_LIST ? "LIST " : "MENU",
                 place->goes == GOES_LIST ? lists[place->which] : "");
    }
}

// A list: pages of rows, one of them selected, what can be done with it.

#include "desk_inner.h"

#include <stdio.h>
#include <string.h>

static enum desk_result load(const struct desk *desk, struct desk_table *table) {
    const struct desk_page *page = desk_top_of(desk);
    struct desk_query query;
    memset(&query, 0, sizeof query);
    query.list = (enum desk_list)page->place.which;
    query.of = page->place.of;
    query.after = page->after[page->page];
    query.has_selected = page->has_selected;
    query.selected = page->selected;
    memcpy(query.find, page->find, sizeof query.find);
    memset(table, 0, sizeof *table);
    table->set.selected = -1;
    enum desk_result result = desk->ops->list(desk->ops->ctx, &query, table);
    for (size_t i = 0; i < table->set.row_count; i++) {
        if (page->has_selected &&
            memcmp(&table->ref[i], &page->selected, sizeof page->selected) == 0) {
            table->set.selected = (int)i;
        }
    }
    table->set.first = 0;
    table->set.total = (int)table->set.row_count;
    return result;
}

static enum desk_wish press(struct desk *desk, const struct desk_button *button) {
    const struct desk_page *page = desk_top(desk);
    struct desk_place place = {.goes = button->goes, .which = button->which};
    if (button->row && !page->has_selected) {
        desk_say(desk, TONE_CAUTION, _("Choose a row first."));
        return DESK_STAYS;
    }
    place.of = button->row ? page->selected : page->place.of;
    return desk_open(desk, &place);
}

static enum desk_wish open_row(struct desk *desk) {
    const struct list_spec *spec = list_spec((enum desk_list)desk_top(desk)->place.which);
    for (size_t i = 0; i < spec->count; i++) {
        if (spec->button[i].row) {
            return press(desk, &spec->button[i]);
        }
    }
    return DESK_STAYS;
}

static enum desk_wish choose_row(struct desk *desk, int64_t row) {
    struct desk_page *page = desk_top(desk);
    struct desk_table table;
    if (load(desk, &table) != DESK_DONE || row < 0 || (size_t)row >= table.set.row_count) {
        return DESK_STAYS;
    }
    if (table.set.selected == (int)row) {
        return open_row(desk);
    }
    page->has_selected = true;
    page->selected = table.ref[row];
    return DESK_STAYS;
}

static void turn(struct desk *desk, bool on) {
    struct desk_page *page = desk_top(desk);
    struct desk_table table;
    if (!on && page->page > 0) {
        page->page--;
        page->has_selected = false;
    } else if (on && page->page + 1 < DESK_PAGES && load(desk, &table) == DESK_DONE && table.more &&
               table.set.row_count > 0) {
        page->after[++page->page] = table.ref[table.set.row_count - 1];
        page->has_selected = false;
    }
}

static enum desk_wish action(struct desk *desk, enum view_action_id id, int64_t argument) {
    struct desk_page *page = desk_top(desk);
    const struct list_spec *spec = list_spec((enum desk_list)page->place.which);
    switch ((int)id) {
    case ACTION_ROW:
        return choose_row(desk, argument);
    case ACTION_OLDER:
    case ACTION_NEWER:
        turn(desk, id == ACTION_OLDER);
        return DESK_STAYS;
    case ACTION_FILTER_CLEAR:
        memset(page->find, 0, sizeof page->find);
        page->page = 0;
        page->has_selected = false;
        return DESK_STAYS;
    case ACTION_DESK_BUTTON:
        if (argument >= 0 && (size_t)argument < spec->count) {
            return press(desk, &spec->button[argument]);
        }
        return DESK_STAYS;
    default:
        return DESK_STAYS;
    }
}

enum desk_wish list_event(struct desk *desk, const struct event *event) {
    if (event->kind == EVENT_KEY && event->key == '\n') {
        return desk_top(desk)->has_selected ? open_row(desk) : choose_row(desk, 0);
    }
    if (event->kind == EVENT_ACTION) {
        desk_say(desk, TONE_PLAIN, "");
        return action(desk, (enum view_action_id)event->action, event->argument);
    }
    return DESK_STAYS;
}

// What an empty list is begun with: its first button that makes something.
static void empty_words(const struct list_spec *spec, char *buffer, size_t size) {
    memset(buffer, 0, size);
    for (size_t i = 0; i < spec->count; i++) {
        if (!spec->button[i].row && spec->button[i].goes == GOES_FORM) {
            snprintf(buffer, size, _("Nothing here yet. %s: %s."), spec->button[i].key,
                     _(spec->button[i].label));
            return;
        }
    }
    snprintf(buffer, size, "%s", _("Nothing here yet. F3 goes back."));
}

void list_view(const struct desk *desk, struct view *view) {
    const struct desk_page *page = desk_top_of(desk);
    const struct list_spec *spec = list_spec((enum desk_list)page->place.which);
    struct desk_table table;
    enum desk_result result = load(desk, &table);
    view->body = VIEW_SET;
    view->set = table.set;
    SET(view->band,
        spec->count == 0 ? _("F3 goes back.")
        : spec->whole    ? _("Up and down choose a row, Enter opens it.")
                      : _("Up and down choose a row, Enter opens it. Type to look for something."));
    if (result != DESK_DONE) {
        view->band_tone = TONE_STOP;
        SET(view->band, result == DESK_NONE ? _("There is nothing of the kind any more.")
                                            : _("The database cannot be read."));
    }
    if (result == DESK_DONE && table.set.row_count == 0 && page->find[0] == '\0') {
        empty_words(spec, view->band, sizeof view->band);
    }
    if (page->find[0] != '\0') {
        if (table.set.subtitle[0] == '\0') {
            snprintf(view->set.subtitle, sizeof view->set.subtitle, _("Only those with %s"),
                     page->find);
        }
        view_offer(view, ACTION_FILTER_CLEAR, 0, _("Show all"), "Del", TONE_PLAIN);
    }
    for (size_t i = 0; i < spec->count; i++) {
        const struct desk_button *button = &spec->button[i];
        if (!button->row || table.set.selected >= 0) {
            view_offer(view, ACTION_DESK_BUTTON, (int64_t)i, _(button->label), button->key,
                       button->tone);
        }
    }
    if (table.more) {
        view_offer(view, ACTION_OLDER, 0, _("Next page"), "PgDn", TONE_PLAIN);
    }
    if (page->page > 0) {
        view_offer(view, ACTION_NEWER, 0, _("Page before"), "PgUp", TONE_PLAIN);
    }
}

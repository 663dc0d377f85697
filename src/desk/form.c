// A form: fields that are typed into, looked at whenever one is left, saved as a whole.

#include "desk_inner.h"
#include "text.h"

#include <stdio.h>
#include <string.h>

bool form_active(const struct desk_work *work, struct form_field *ret_field) {
    struct form_field fields[VIEW_FORM_FIELDS];
    int count = form_fields(work, fields);
    if (work->field >= count || fields[work->field].fixed) {
        return false;
    }
    *ret_field = fields[work->field];
    return true;
}

void form_consider(struct desk *desk) {
    memset(&desk->work.remarks, 0, sizeof desk->work.remarks);
    desk->ops->consider(desk->ops->ctx, desk_who(desk), &desk->work.draft, &desk->work.remarks);
}

// The next field from `at` on, in steps of 1 or -1, that can be typed into; `work->field` if none.
static int free_field(const struct desk_work *work, int at, int step) {
    struct form_field fields[VIEW_FORM_FIELDS];
    int count = form_fields(work, fields);
    for (; at >= 0 && at < count; at += step) {
        if (!fields[at].fixed) {
            return at;
        }
    }
    return work->field;
}

static bool begin(struct desk *desk, const struct desk_place *place) {
    struct desk_work *work = &desk->work;
    work->draft.form = (enum desk_form)place->which;
    work->draft.of = place->of;
    work->draft.exists = false;
    desk->ops->random_id(desk->ops->ctx, work->draft.id);
    switch (desk->ops->begin(desk->ops->ctx, &work->draft)) {
    case DESK_DONE:
        break;
    case DESK_NONE:
        desk_say(desk, TONE_CAUTION, _("There is nothing of the kind any more."));
        return false;
    case DESK_REFUSED:
    case DESK_FAILED:
        desk_say(desk, TONE_STOP, _("The database cannot be read."));
        return false;
    }
    work->selected = true;
    work->leaving = false;
    work->tried = false;
    form_consider(desk);
    int first = form_spec(work->draft.form)->run ? form_empty(work, -1) : -1;
    work->field = first >= 0 ? first : free_field(work, 0, 1);
    return true;
}

bool form_open(struct desk *desk, const struct desk_place *place) {
    struct desk_work before = desk->work;
    memset(&desk->work, 0, sizeof desk->work);
    if (!begin(desk, place)) {
        desk->work = before;
        return false;
    }
    return true;
}

bool form_unsaved(const struct desk *desk) {
    struct change change;
    struct document now = desk->work.draft.now;
    const struct form_spec *spec = form_spec(desk->work.draft.form);
    if (spec->passing != NULL) {
        document_drop(&now, spec->passing);
    }
    change_between(&desk->work.draft.before, &now, &change);
    return !change_empty(&change) || desk->work.extra[0] != '\0';
}

// Leaves the active field. False: what stands there cannot stay.
static bool leave(struct desk *desk) {
    struct desk_work *work = &desk->work;
    struct form_field field;
    if (!form_active(work, &field)) {
        return true;
    }
    if (desk->ops->metric && !work->selected) {
        form_say_unit(work, &field);
    }
    if (!form_settle(work, &field)) {
        desk_say(desk, TONE_STOP,
                 _("A column is a name not there yet, a weight and a trim: 5 221 1 1/2"));
        return false;
    }
    desk_say(desk, TONE_PLAIN, "");
    form_weighed(desk);
    form_consider(desk);
    work->leaving = false;
    work->selected = true;
    return true;
}

// Leaving a field may take a column away or make one: where the field `to` stands afterwards.
static bool leave_for(struct desk *desk, int *to) {
    struct form_field fields[VIEW_FORM_FIELDS];
    char cell[CHANGE_NAME_MAX];
    form_fields(&desk->work, fields);
    SET(cell, fields[*to].cell);
    if (!leave(desk)) {
        return false;
    }
    int count = form_fields(&desk->work, fields);
    for (int i = 0; i < count; i++) {
        if (strcmp(fields[i].cell, cell) == 0) {
            *to = i;
            return true;
        }
    }
    *to = *to < count ? *to : count - 1;
    return true;
}

static void go(struct desk *desk, int to, int step) {
    if (leave_for(desk, &to)) {
        desk->work.field = free_field(&desk->work, to, step);
    }
}

// Where the first complaint is mended.
static void to_complaint(struct desk_work *work) {
    struct form_field fields[VIEW_FORM_FIELDS];
    int count = form_fields(work, fields);
    for (int i = 0; i < count; i++) {
        if (!fields[i].fixed && strcmp(fields[i].cell, work->remarks.complaint[0].cell) == 0) {
            work->field = i;
        }
    }
}

static enum desk_wish save(struct desk *desk) {
    struct desk_work *work = &desk->work;
    const struct form_spec *spec = form_spec(work->draft.form);
    struct desk_place place = desk_top(desk)->place;
    struct desk_said said;
    memset(&said, 0, sizeof said);
    if (!leave(desk)) {
        return DESK_STAYS;
    }
    bool supervised =
        spec->supervised != NULL && document_value(&work->draft.now, spec->supervised)[0] != '\0';
    if ((spec->supervisor || supervised) && desk->supervisor.badge[0] == '\0') {
        return DESK_WANTS_SUPERVISOR;
    }
    if (work->remarks.complaint_count > 0) {
        char words[VIEW_TEXT_MAX];
        form_complaint(work, 0, words, sizeof words);
        desk_say(desk, TONE_STOP, words);
        to_complaint(work);
        work->tried = true;
        return DESK_STAYS;
    }
    if (desk->ops->save(desk->ops->ctx, desk_who(desk), &work->draft, &said) != DESK_DONE) {
        desk_say(desk, TONE_STOP, said.message);
        return DESK_STAYS;
    }
    if (spec->run && begin(desk, &place)) {
        desk_say(desk, said.tone, said.message);
        return DESK_STAYS;
    }
    desk_back(desk);
    enum desk_wish wish = desk_open(desk, &said.next);
    desk_say(desk, said.tone, said.message);
    return wish;
}

// On to the next field, of a run to the next that is empty; from a new column to the next new one.
// True: there is none.
static bool at_end(struct desk *desk) {
    struct desk_work *work = &desk->work;
    bool column = work->extra[0] != '\0';
    int to = column ? work->field : free_field(work, work->field + 1, 1);
    bool end = to == work->field && !column;
    if (!leave_for(desk, &to)) {
        return false;
    }
    if (form_spec(work->draft.form)->run) {
        to = form_empty(work, work->field);
        end = to < 0;
    }
    work->field = end ? work->field : to;
    return end;
}

static enum desk_wish next(struct desk *desk) {
    return at_end(desk) ? save(desk) : DESK_STAYS;
}

// --- what is typed -------------------------------------------------------------------------------

// Cuts off the last character, however many bytes it has.
static void rub_out(char *text) {
    size_t size = strlen(text);
    while (size > 0 && ((unsigned char)text[size - 1] & 0xC0) == 0x80) {
        size--;
    }
    text[size > 0 ? size - 1 : 0] = '\0';
}

static void type(struct desk *desk, char key) {
    struct desk_work *work = &desk->work;
    struct form_field field;
    char text[CHANGE_VALUE_MAX + 1] = "";
    if (!form_active(work, &field)) {
        return;
    }
    if (!work->selected || key == '\b') {
        SET(text, form_text(work, &field));
    }
    size_t size = strlen(text);
    if (key == '\b') {
        rub_out(text);
    } else if (size + 2 < sizeof text) {
        text[size] = key;
        text[size + 1] = '\0';
    }
    form_set(work, &field, text);
    work->selected = false;
    work->weighed = false;
    work->leaving = false;
}

// A choice begun is meant as a whole, but where something else may stand that begins like it.
static void complete(struct desk *desk) {
    const struct desk_work *work = &desk->work;
    struct form_field field;
    char texts[VIEW_CHOICES_MAX][DESK_KEY_MAX];
    if (work->selected || !form_active(work, &field) || form_text(work, &field)[0] == '\0') {
        return;
    }
    int count = form_offered(desk, &field, texts, VIEW_CHOICES_MAX);
    int at = 0;
    while (at < count && !text_same(texts[at], form_text(work, &field))) {
        at++;
    }
    if (at < count) {
        form_set(&desk->work, &field, texts[at]);
    } else if (count > 0 && !form_open_choice(work, &field)) {
        form_set(&desk->work, &field, texts[0]);
    }
}

// A code that names something goes where that belongs, and the cursor stays.
static bool put_home(struct desk *desk, const char *text) {
    struct form_field fields[VIEW_FORM_FIELDS];
    int home = form_home(&desk->work, text);
    if (home < 0 || home == desk->work.field) {
        return false;
    }
    form_fields(&desk->work, fields);
    form_set(&desk->work, &fields[home], text);
    form_consider(desk);
    return true;
}

static enum desk_wish put(struct desk *desk, const char *text) {
    struct form_field field;
    if (put_home(desk, text)) {
        return DESK_STAYS;
    }
    if (!form_active(&desk->work, &field) || !form_set(&desk->work, &field, text)) {
        desk_say(desk, TONE_CAUTION, _("That cannot stand here."));
        return DESK_STAYS;
    }
    if (desk->ops->metric) {
        form_say_unit(&desk->work, &field);
    }
    desk->work.selected = true;
    desk->work.weighed = false;
    if (at_end(desk)) { // a scan alone saves nothing
        desk_say(desk, TONE_PLAIN, _("Enter saves it."));
    }
    return DESK_STAYS;
}

static enum desk_wish choose(struct desk *desk, int64_t which) {
    struct form_field field;
    char texts[VIEW_CHOICES_MAX][DESK_KEY_MAX];
    if (form_active(&desk->work, &field) && which >= 0 &&
        which < form_offered(desk, &field, texts, VIEW_CHOICES_MAX)) {
        form_set(&desk->work, &field, texts[which]);
        int to = free_field(&desk->work, desk->work.field + 1, 1);
        go(desk, to, 1); // the last one stays: a touch alone saves nothing
    }
    return DESK_STAYS;
}

static enum desk_wish key(struct desk *desk, int64_t code) {
    if (code == '\n' || code == '\t') {
        complete(desk);
        return next(desk);
    }
    if (code == '\b' || (code >= ' ' && code <= '~')) {
        type(desk, (char)code);
    }
    return DESK_STAYS;
}

static void touch_field(struct desk *desk, int64_t at) {
    struct form_field fields[VIEW_FORM_FIELDS];
    if (at >= 0 && at < form_fields(&desk->work, fields)) {
        complete(desk);
        go(desk, (int)at, at < desk->work.field ? -1 : 1);
    }
}

static enum desk_wish button(struct desk *desk, int64_t which) {
    if (which == FORM_SAVE) {
        complete(desk);
        return save(desk);
    }
    if (which == FORM_KEYS) {
        desk->work.keys = !desk->work.keys;
    }
    return DESK_STAYS;
}

static enum desk_wish action(struct desk *desk, enum view_action_id id, int64_t argument) {
    switch ((int)id) {
    case ACTION_FIELD:
        touch_field(desk, argument);
        return DESK_STAYS;
    case ACTION_CHOICE:
        return choose(desk, argument);
    case ACTION_KEY:
        return key(desk, argument);
    case ACTION_DESK_BUTTON:
        return button(desk, argument);
    default:
        return DESK_STAYS;
    }
}

static enum desk_wish take(struct desk *desk, const struct event *event) {
    switch ((int)event->kind) {
    case EVENT_KEY:
        return key(desk, event->key);
    case EVENT_SCAN:
        return put(desk, event->text);
    case EVENT_ACTION:
        return action(desk, (enum view_action_id)event->action, event->argument);
    default:
        return DESK_STAYS;
    }
}

enum desk_wish form_event(struct desk *desk, const struct event *event) {
    enum desk_wish wish = take(desk, event);
    if (desk->work.selected) { // nothing was typed into the field that is active now
        form_weigh(desk);
    }
    return wish;
}

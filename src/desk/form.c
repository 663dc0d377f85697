// A form: fields that are typed into, looked at whenever one is left, saved as a whole.

#include "desk_inner.h"
#include "text.h"

#include <stdio.h>
#include <string.h>

static bool active_field(const struct desk_work *work, struct form_field *ret_field) {
    struct form_field fields[VIEW_FORM_FIELDS];
    int count = form_fields(work, fields);
    if (work->field >= count || fields[work->field].fixed) {
        return false;
    }
    *ret_field = fields[work->field];
    return true;
}

static void consider(struct desk *desk) {
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
    work->field = free_field(work, 0, 1);
    work->selected = true;
    work->leaving = false;
    work->tried = false;
    consider(desk);
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
    const struct desk_draft *draft = &desk->work.draft;
    change_between(&draft->before, &draft->now, &change);
    return !change_empty(&change) || desk->work.extra[0] != '\0';
}

// Leaves the active field. False: what stands there cannot stay.
static bool leave(struct desk *desk) {
    struct desk_work *work = &desk->work;
    struct form_field field;
    if (!active_field(work, &field)) {
        return true;
    }
    if (!form_settle(work, &field)) {
        desk_say(desk, TONE_STOP,
                 _("A column is a name not there yet, a weight and a trim: 5 221 1 1/2"));
        return false;
    }
    desk_say(desk, TONE_PLAIN, "");
    consider(desk);
    work->leaving = false;
    work->selected = true;
    return true;
}

static void go(struct desk *desk, int to, int step) {
    if (leave(desk)) {
        desk->work.field = free_field(&desk->work, to, step);
    }
}

// `Weight: this is no weight`.
static void complaint_words(const struct desk_work *work, size_t which, char *buffer, size_t size) {
    struct form_field fields[VIEW_FORM_FIELDS];
    struct text text = text_open(buffer, size);
    int count = form_fields(work, fields);
    for (int i = 0; i < count; i++) {
        if (strcmp(fields[i].cell, work->remarks.complaint[which].cell) == 0) {
            text_add(&text, fields[i].label);
            text_add(&text, ": ");
        }
    }
    text_add(&text, work->remarks.complaint[which].text);
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

// What is still to be filled in is no mistake before somebody wants to save.
static bool shown_complaint(const struct desk_work *work, size_t which) {
    const char *cell = work->remarks.complaint[which].cell;
    return work->tried || cell[0] == '\0' || document_value(&work->draft.now, cell)[0] != '\0';
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
    if (spec->supervisor && desk->supervisor.badge[0] == '\0') {
        return DESK_WANTS_SUPERVISOR;
    }
    if (work->remarks.complaint_count > 0) {
        char words[VIEW_TEXT_MAX];
        complaint_words(work, 0, words, sizeof words);
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

static enum desk_wish next(struct desk *desk) {
    int to = free_field(&desk->work, desk->work.field + 1, 1);
    if (to == desk->work.field) {
        return save(desk);
    }
    go(desk, to, 1);
    return DESK_STAYS;
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
    if (!active_field(work, &field) || (key != '\b' && (unsigned char)key < ' ')) {
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
    work->leaving = false;
}

// Choices that begin with what stands in the field; all of them when nothing was typed there.
static int offered(const struct desk *desk, const struct form_field *field,
                   char texts[][DESK_KEY_MAX], int max) {
    const struct desk_work *work = &desk->work;
    char all[DESK_CHOICES_MAX][DESK_KEY_MAX];
    const char *typed = work->selected ? "" : form_text(work, field);
    int count = 0;
    int known =
        desk->ops->choices(desk->ops->ctx, &work->draft, field->cell, all, DESK_CHOICES_MAX);
    for (int i = 0; i < known && count < max; i++) {
        bool fits = true;
        for (size_t at = 0; typed[at] != '\0' && fits; at++) {
            char a[2] = {typed[at], '\0'};
            char b[2] = {all[i][at], '\0'};
            fits = text_same(a, b);
        }
        if (fits) {
            memcpy(texts[count++], all[i], DESK_KEY_MAX);
        }
    }
    return count;
}

// A choice begun is meant as a whole.
static void complete(struct desk *desk) {
    struct form_field field;
    char texts[VIEW_CHOICES_MAX][DESK_KEY_MAX];
    if (!desk->work.selected && active_field(&desk->work, &field) &&
        form_text(&desk->work, &field)[0] != '\0' &&
        offered(desk, &field, texts, VIEW_CHOICES_MAX) > 0) {
        form_set(&desk->work, &field, texts[0]);
    }
}

static enum desk_wish put(struct desk *desk, const char *text) {
    struct form_field field;
    if (!active_field(&desk->work, &field) || !form_set(&desk->work, &field, text)) {
        desk_say(desk, TONE_CAUTION, _("That cannot stand here."));
        return DESK_STAYS;
    }
    desk->work.selected = true;
    return next(desk);
}

static enum desk_wish choose(struct desk *desk, int64_t which) {
    struct form_field field;
    char texts[VIEW_CHOICES_MAX][DESK_KEY_MAX];
    if (active_field(&desk->work, &field) && which >= 0 &&
        which < offered(desk, &field, texts, VIEW_CHOICES_MAX)) {
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
    if (code > 0 && code < VIEW_KEY_SIXTEENTH) {
        type(desk, (char)code);
    }
    return DESK_STAYS;
}

static enum desk_wish action(struct desk *desk, enum view_action_id id, int64_t argument) {
    switch ((int)id) {
    case ACTION_FIELD:
        complete(desk);
        go(desk, (int)argument, argument < desk->work.field ? -1 : 1);
        return DESK_STAYS;
    case ACTION_CHOICE:
        return choose(desk, argument);
    case ACTION_KEY:
        return key(desk, argument);
    case ACTION_DESK_BUTTON:
        if (argument == FORM_SAVE) {
            complete(desk);
            return save(desk);
        }
        desk->work.keys = !desk->work.keys;
        return DESK_STAYS;
    default:
        return DESK_STAYS;
    }
}

enum desk_wish form_event(struct desk *desk, const struct event *event) {
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

// --- view ----------------------------------------------------------------------------------------

static void note(struct view_form *form, enum view_tone tone, const char *text) {
    if (form->note_count < VIEW_FORM_NOTES) {
        SET(form->note[form->note_count], text);
        form->note_tone[form->note_count++] = tone;
    }
}

static void fill_notes(const struct desk_work *work, struct view_form *form) {
    const struct desk_remarks *remarks = &work->remarks;
    for (size_t i = 0; i < remarks->complaint_count; i++) {
        char words[VIEW_TEXT_MAX];
        if (shown_complaint(work, i)) {
            complaint_words(work, i, words, sizeof words);
            note(form, TONE_STOP, words);
        }
    }
    for (size_t i = 0; i < remarks->note_count; i++) {
        note(form, remarks->note_tone[i], remarks->note[i]);
    }
    form->plot_count = remarks->plot_count;
    memcpy(form->plot, remarks->plot, sizeof form->plot);
}

static bool complained(const struct desk_work *work, const char *cell) {
    for (size_t i = 0; i < work->remarks.complaint_count; i++) {
        if (strcmp(work->remarks.complaint[i].cell, cell) == 0 && shown_complaint(work, i)) {
            return true;
        }
    }
    return false;
}

static void fill_field(const struct desk_work *work, const struct form_field *field, int at,
                       struct view_form *form) {
    const char *text = form_text(work, field);
    bool active = at == work->field;
    SET(form->field[at].label, field->label);
    SET(form->field[at].text, text);
    SET(form->field[at].unit, field->unit != NULL ? _(field->unit) : "");
    form->field[at].fixed = field->fixed;
    form->field[at].selected = active && work->selected;
    form->field[at].changed = work->draft.exists && field->kind != FIELD_EXTRA &&
                              strcmp(document_value(&work->draft.before, field->cell), text) != 0;
    form->field[at].tone = complained(work, field->cell) ? TONE_STOP : TONE_PLAIN;
}

void form_view(const struct desk *desk, struct view *view) {
    const struct desk_work *work = &desk->work;
    const struct form_spec *spec = form_spec(work->draft.form);
    struct view_form *form = &view->form;
    struct form_field fields[VIEW_FORM_FIELDS];
    char texts[VIEW_CHOICES_MAX][DESK_KEY_MAX];
    int count = form_fields(work, fields);
    view->body = VIEW_FORM;
    SET(form->title, _(spec->title));
    for (size_t i = 0; i < work->draft.now.keys && work->draft.exists; i++) {
        words_copy(form->subtitle + strlen(form->subtitle),
                   sizeof form->subtitle - strlen(form->subtitle), i > 0 ? " · " : "");
        words_copy(form->subtitle + strlen(form->subtitle),
                   sizeof form->subtitle - strlen(form->subtitle), work->draft.now.cell[i].value);
    }
    for (int i = 0; i < count; i++) {
        fill_field(work, &fields[i], i, form);
    }
    form->field_count = (size_t)count;
    form->active = work->field;
    form->keys = work->keys;
    if (work->field < count && !fields[work->field].fixed) {
        int choices = offered(desk, &fields[work->field], texts, VIEW_CHOICES_MAX);
        for (int i = 0; i < choices; i++) {
            SET(form->choice[i], texts[i]);
        }
        form->choice_count = (size_t)choices;
    }
    fill_notes(work, form);
    desk_action(view, ACTION_DESK_BUTTON, FORM_SAVE, _("Save"), "F4", TONE_WORK);
    desk_action(view, ACTION_DESK_BUTTON, FORM_KEYS, work->keys ? _("No keys") : _("Keys"), "F12",
                TONE_PLAIN);
    SET(view->band, _("Enter goes on, the last one saves."));
}

// What a form shows.

#include "desk_inner.h"
#include "text.h"

#include <string.h>

int form_offered(const struct desk *desk, const struct form_field *field,
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

void form_complaint(const struct desk_work *work, size_t which, char *buffer, size_t size) {
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

bool form_shown(const struct desk_work *work, size_t complaint) {
    struct form_field fields[VIEW_FORM_FIELDS];
    int count = form_fields(work, fields);
    for (int i = 0; i < count && !work->tried; i++) {
        if (strcmp(fields[i].cell, work->remarks.complaint[complaint].cell) == 0) {
            return form_text(work, &fields[i])[0] != '\0';
        }
    }
    return true;
}

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
        if (form_shown(work, i)) {
            form_complaint(work, i, words, sizeof words);
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
        if (strcmp(work->remarks.complaint[i].cell, cell) == 0 && form_shown(work, i)) {
            return true;
        }
    }
    return false;
}

static void fill_field(const struct desk *desk, const struct form_field *field, int at,
                       struct view_form *form) {
    const struct desk_work *work = &desk->work;
    const char *text = form_text(work, field);
    bool active = at == work->field;
    SET(form->field[at].label, field->label);
    SET(form->field[at].text, text);
    if (!form_weight_words(desk, field, form->field[at].unit, sizeof form->field[at].unit)) {
        SET(form->field[at].unit, field->unit != NULL ? _(field->unit) : "");
    }
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
    struct text subtitle = text_open(form->subtitle, sizeof form->subtitle);
    for (size_t i = 0; i < work->draft.now.keys && work->draft.exists; i++) {
        const char *value = work->draft.now.cell[i].value;
        text_add(&subtitle, subtitle.used > 0 && value[0] != '\0' ? " · " : "");
        text_add(&subtitle, value);
    }
    for (int i = 0; i < count; i++) {
        fill_field(desk, &fields[i], i, form);
    }
    form->field_count = (size_t)count;
    form->active = work->field;
    form->keys = work->keys;
    if (work->field < count && !fields[work->field].fixed) {
        int choices = form_offered(desk, &fields[work->field], texts, VIEW_CHOICES_MAX);
        for (int i = 0; i < choices; i++) {
            SET(form->choice[i], texts[i]);
        }
        form->choice_count = (size_t)choices;
    }
    fill_notes(work, form);
    view_offer(view, ACTION_DESK_BUTTON, FORM_SAVE, _("Save"), "F4", TONE_WORK);
    view_offer(view, ACTION_DESK_BUTTON, FORM_KEYS, work->keys ? _("No keys") : _("Keys"), "F12",
               TONE_PLAIN);
    SET(view->band, spec->run ? _("Enter goes on to what is empty, then saves.")
                              : _("Enter goes on, the last one saves."));
}

// Which fields a form has now, and what stands in them.

#include "desk_inner.h"

#include <stdio.h>
#include <string.h>

static int columns(const struct desk_work *work, struct form_field *fields, int count) {
    const struct document *now = &work->draft.now;
    for (size_t i = now->keys; i < now->count && count < VIEW_FORM_FIELDS - 2; i++) {
        if (now->cell[i].name[0] == ':') {
            struct form_field *field = &fields[count++];
            field->kind = FIELD_COLUMN;
            field->unit = N_("weight in g, tip trim or -");
            SET(field->cell, now->cell[i].name);
            SET(field->label, now->cell[i].name + 1);
        }
    }
    struct form_field *field = &fields[count++];
    field->kind = FIELD_EXTRA;
    field->unit = N_("name, weight in g, tip trim or -");
    SET(field->cell, ":");
    SET(field->label, _("One more column"));
    return count;
}

int form_fields(const struct desk_work *work, struct form_field fields[VIEW_FORM_FIELDS]) {
    const struct form_spec *spec = form_spec(work->draft.form);
    int count = 0;
    memset(fields, 0, VIEW_FORM_FIELDS * sizeof *fields);
    for (size_t i = 0; i < spec->count; i++) {
        struct form_field *field = &fields[count++];
        field->unit = spec->field[i].unit;
        field->fixed = spec->field[i].fixed && work->draft.exists;
        SET(field->cell, spec->field[i].cell);
        SET(field->label, _(spec->field[i].label));
    }
    if (spec->columns) {
        count = columns(work, fields, count);
    }
    if (spec->why) {
        struct form_field *field = &fields[count++];
        field->unit = "";
        SET(field->cell, "why");
        SET(field->label, _("Why"));
    }
    return count;
}

const char *form_text(const struct desk_work *work, const struct form_field *field) {
    return field->kind == FIELD_EXTRA ? work->extra : document_value(&work->draft.now, field->cell);
}

bool form_set(struct desk_work *work, const struct form_field *field, const char *text) {
    if (field->kind != FIELD_EXTRA) {
        return document_set(&work->draft.now, field->cell, text);
    }
    if (strlen(text) >= sizeof work->extra) {
        return false;
    }
    SET(work->extra, text);
    return true;
}

static bool is_length(const char *cell) {
    static const char *const cells[] = {
        "dry_fit_overall", "dry_fit_raw",   "bore_height", "raw_length",     "balance",
        "tip_diameter",    "butt_diameter", "tip_section", "max_tip_trim",   "max_butt_trim",
        "bore_reference",  "tip_wall",      "butt_wall",   "hosel_bore",     "insertion",
        "cg_beyond",       "grip_cap",      "given_trim",  "playing_length", "first_length",
        "length_step",     "tip_cut",       "pin_goes",    "pin_stops",      "rod",
        "rod_outside",     "hosel_top",     "missing",     "length"};
    for (size_t i = 0; i < sizeof cells / sizeof *cells; i++) {
        if (strcmp(cells[i], cell) == 0) {
            return true;
        }
    }
    return false;
}

bool form_open_choice(const struct desk_work *work, const struct form_field *field) {
    return strcmp(field->cell, "flex") == 0 || strcmp(field->cell, "bore_note_kinds") == 0 ||
           (work->draft.form == DESK_FORM_REPAIR && strcmp(field->cell, "model") == 0);
}

void form_say_unit(struct desk_work *work, const struct form_field *field) {
    char text[CHANGE_VALUE_MAX];
    SET(text, form_text(work, field));
    size_t size = strlen(text);
    if (is_length(field->cell) && size > 0 && strspn(text, "0123456789.,/- ") == size &&
        size + sizeof " mm" <= sizeof text) {
        strcat(text, " mm");
        form_set(work, field, text);
    }
}

bool form_settle(struct desk_work *work, const struct form_field *field) {
    char name[CHANGE_NAME_MAX] = ":";
    char word[CHANGE_NAME_MAX - 1];
    int used = 0;
    if (field->kind == FIELD_COLUMN && form_text(work, field)[0] == '\0') {
        document_drop(&work->draft.now, field->cell);
        return true;
    }
    if (field->kind != FIELD_EXTRA || work->extra[0] == '\0') {
        return true;
    }
    if (sscanf(work->extra, " %22s %n", word, &used) != 1 || work->extra[used] == '\0') {
        return false;
    }
    strcat(name, word);
    if (document_value(&work->draft.now, name)[0] != '\0' ||
        !document_set(&work->draft.now, name, work->extra + used)) {
        return false;
    }
    memset(work->extra, 0, sizeof work->extra);
    return true;
}

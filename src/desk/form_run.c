// A run of parts, one after the other: what is still to be filled in, where a scanned code belongs,
// what lies on the scale.

#include "desk_inner.h"
#include "text.h"

#include <stdlib.h>
#include <string.h>

// The shop's own rule: less is no part but dust and draught, and by so much the scale must have
// moved before what lies there is another part.
#define PART_LEAST (5 * MASS_GRAM)

// --- fields --------------------------------------------------------------------------------------

int form_empty(const struct desk_work *work, int at) {
    struct form_field fields[VIEW_FORM_FIELDS];
    int count = form_fields(work, fields);
    for (int i = at + 1; i < count; i++) {
        bool reason = strcmp(fields[i].cell, "why") == 0;
        if (!fields[i].fixed && form_text(work, &fields[i])[0] == '\0' &&
            (!reason || work->remarks.complaint_count > 0)) {
            return i;
        }
    }
    return -1;
}

int form_home(const struct desk_work *work, const char *text) {
    struct form_field fields[VIEW_FORM_FIELDS];
    struct ticket ticket;
    const char *cell = ticket_parse(text, &ticket) == TICKET_OK ? "ticket"
                       : ticket_gtin_valid(text)                ? "model"
                                                                : NULL;
    int count = form_fields(work, fields);
    for (int i = 0; i < count && cell != NULL && form_spec(work->draft.form)->run; i++) {
        if (!fields[i].fixed && strcmp(fields[i].cell, cell) == 0) {
            return i;
        }
    }
    return -1;
}

// --- the scale -----------------------------------------------------------------------------------

// The active field, if a scale may fill it.
static bool weighing(const struct desk *desk, struct form_field *ret_field) {
    const struct form_spec *spec = form_spec(desk->work.draft.form);
    return desk_top_of(desk)->place.goes == GOES_FORM && spec->scale != NULL &&
           form_active(&desk->work, ret_field) && strcmp(ret_field->cell, spec->scale) == 0;
}

static bool lies_there(const struct desk_scale *scale) {
    return scale->mass != MASS_UNKNOWN && scale->mass >= PART_LEAST;
}

static void set(struct desk *desk, const struct form_field *field, const char *text) {
    form_set(&desk->work, field, text);
    desk->work.selected = true;
    form_consider(desk);
}

bool form_weigh(struct desk *desk) {
    struct desk_scale *scale = &desk->scale;
    struct form_field field;
    char text[LENGTH_TEXT_MAX] = "";
    if (!weighing(desk, &field)) {
        return false;
    }
    if (!desk->work.weighed && form_text(&desk->work, &field)[0] != '\0') {
        return true; // typed
    }
    if (scale->stable && lies_there(scale) && scale->taken == MASS_UNKNOWN) {
        mass_text(scale->mass, text);
    }
    if (strcmp(text, form_text(&desk->work, &field)) != 0) {
        set(desk, &field, text);
    }
    desk->work.weighed = text[0] != '\0';
    return true;
}

void form_weighed(struct desk *desk) {
    if (desk->work.weighed) {
        desk->scale.taken = desk->scale.mass;
        desk->work.weighed = false;
    }
}

bool desk_weigh(struct desk *desk, mass_mg mass, bool stable) {
    struct desk_scale *scale = &desk->scale;
    scale->mass = mass;
    scale->stable = stable;
    if (mass != MASS_UNKNOWN && scale->taken != MASS_UNKNOWN &&
        llabs(mass - scale->taken) >= PART_LEAST) {
        scale->taken = MASS_UNKNOWN;
    }
    return form_weigh(desk);
}

bool form_weight_words(const struct desk *desk, const struct form_field *field, char *buffer,
                       size_t size) {
    const struct desk_scale *scale = &desk->scale;
    struct form_field active;
    struct text text = text_open(buffer, size);
    if (!weighing(desk, &active) || strcmp(active.cell, field->cell) != 0 || !lies_there(scale)) {
        return false;
    }
    if (scale->taken != MASS_UNKNOWN) {
        text_add(&text, _("g. Take the last one off"));
        return true;
    }
    char mass[LENGTH_TEXT_MAX];
    struct text grams = text_open(mass, sizeof mass);
    text_add_mass(&grams, scale->mass);
    // TRANSLATORS: on the scale, %1 as `203.5 g`.
    text_say(&text, scale->stable ? _("%1 lies there") : _("%1, still moving"), mass);
    return true;
}

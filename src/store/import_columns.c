#include "import_columns.h"

#include <string.h>

// Limits are wide: they catch millimetres taken for inches and slips of a digit, no more.
#define TEXT(bytes) .read = import_read_text, .limits = {.size = bytes}
#define TICKET(which) .read = import_read_ticket, .limits = {.ticket = which}
#define THOUSANDTHS(from, to)                                                                      \
    .read = import_read_length,                                                                    \
    .limits = {.low = (from)*LENGTH_INCH / 1000, .high = (to)*LENGTH_INCH / 1000}
#define INCHES(from, to) THOUSANDTHS((from)*1000, (to)*1000)
#define GRAMS(from, to)                                                                            \
    .read = import_read_mass, .limits = {.low = (from)*MASS_GRAM, .high = (to)*MASS_GRAM}
#define DEGREES .read = import_read_angle, .limits = {.low = 0, .high = 90000}
#define KEY .key = true, .needed = true
#define NEEDED .needed = true
#define IN(field) .offset = offsetof(struct ROW, field)

#define ROW import_shaft_model
static const struct import_column shaft_models[] = {
    {"model", IN(model.name), TEXT(PARTS_NAME_MAX), KEY},
    {"material", IN(model.material), .read = import_read_material, NEEDED},
    {"tip", IN(model.tip), .read = import_read_tip, NEEDED},
    {"tip_diameter", IN(model.tip_diameter), THOUSANDTHS(100, 1000)},
    {"butt_diameter", IN(model.butt_diameter), THOUSANDTHS(100, 2000)},
    {"raw_length", IN(model.raw_length), INCHES(5, 80)},
    {"weight_g", IN(model.weight), GRAMS(10, 500)},
    {"tip_section", IN(model.tip_section), INCHES(0, 80)},
    {"max_tip_trim", IN(model.max_tip_trim), INCHES(0, 80)},
    {"max_butt_trim", IN(model.max_butt_trim), INCHES(0, 80)},
    {"bore_note", IN(model.bore_note), .read = import_read_bore_note, NEEDED},
    {"bore_reference", IN(model.bore_reference), INCHES(0, 2)},
    {"bore_note_kinds", IN(model), .read = import_read_note_kinds},
};
#undef ROW

#define ROW import_chart_cell
static const struct import_column charts[] = {
    {"model", IN(model), TEXT(PARTS_NAME_MAX), KEY},
    {"flex", IN(flex), TEXT(PARTS_SHORT_MAX), KEY},
    {"kind", IN(kind), .read = import_read_chart_kind, KEY},
    {"column", IN(column.name), TEXT(PARTS_SHORT_MAX), KEY},
    {"column_weight_g", IN(column.weight), GRAMS(50, 1000), KEY},
    {"tip_trim", IN(column.tip_trim), INCHES(0, 80)},
};
#undef ROW

#define ROW import_head_model
static const struct import_column head_models[] = {
    {"model", IN(name), TEXT(PARTS_NAME_MAX), KEY},
    {"kind", IN(kind), .read = import_read_head_kind, NEEDED},
    {"engraved", IN(engraved), TEXT(PARTS_SHORT_MAX)},
    {"weight_g", IN(weight), GRAMS(50, 1000)},
    {"hosel_bore", IN(hosel_bore), THOUSANDTHS(100, 1000)},
    {"insertion", IN(insertion), THOUSANDTHS(100, 5000)},
    {"bore_height", IN(bore_height), INCHES(0, 2)},
    {"loft", IN(loft), DEGREES},
    {"lie", IN(lie), DEGREES},
    {"bore", IN(bore), .read = import_read_bore_kind, .optional = true},
};
#undef ROW

#define ROW import_head
static const struct import_column heads[] = {
    {"ticket", IN(ticket), TICKET(TICKET_HEAD), KEY},
    {"model", IN(model), TEXT(PARTS_NAME_MAX), NEEDED},
    {"weight_g", IN(weight), GRAMS(50, 1000)},
    {"dry_fit_overall", IN(dry_fit_overall), INCHES(5, 80)},
    {"dry_fit_raw", IN(dry_fit_raw), INCHES(5, 80)},
    {"bore_height", IN(bore_height), INCHES(0, 2)},
};
#undef ROW

#define ROW import_shaft
static const struct import_column shafts[] = {
    {"ticket", IN(shaft.ticket), TICKET(TICKET_SHAFT), KEY},
    {"model", IN(shaft.model), TEXT(PARTS_NAME_MAX), NEEDED},
    {"flex", IN(shaft.flex), TEXT(PARTS_SHORT_MAX), NEEDED},
    {"raw_length", IN(shaft.raw_length), INCHES(5, 80)},
    {"weight_g", IN(shaft.weight), GRAMS(10, 500)},
    {"rack", IN(shaft.rack), TEXT(PARTS_RACK_MAX)},
};
#undef ROW

#define ROW import_club
static const struct import_column builds[] = {
    {"build", IN(order.build), .read = import_read_build, KEY},
    {"club", IN(order.club), TEXT(PARTS_SHORT_MAX), KEY},
    {"due", IN(order.due), .read = import_read_date},
    {"head", IN(head), TICKET(TICKET_HEAD)},
    {"shaft", IN(shaft), TICKET(TICKET_SHAFT)},
    {"playing_length", IN(order.playing_length), INCHES(5, 80)},
    {"grip_cap", IN(order.grip_cap), INCHES(0, 1)},
    {"grip_weight_g", IN(order.grip_weight), GRAMS(0, 500)},
    {"swingweight", IN(order.swingweight), .read = import_read_swingweight},
    {"step", IN(order.step), .read = import_read_number, .limits = {.low = -99, .high = 99}},
    {"uniform_flex", IN(order.uniform_flex), .read = import_read_yes},
};
#undef ROW

#define ROW import_worker
static const struct import_column workers[] = {
    {"badge", IN(worker.badge), TICKET(TICKET_WORKER), KEY},
    {"name", IN(worker.name), TEXT(PARTS_NAME_MAX), NEEDED},
    {"role", IN(worker.role), .read = import_read_role, NEEDED},
};
#undef ROW

#define COLUMNS(array)                                                                             \
    { array, sizeof(array) / sizeof(array)[0] }
static const struct {
    const struct import_column *column;
    size_t count;
} tables[IMPORT_KIND_COUNT] = {
    [IMPORT_SHAFT_MODELS] = COLUMNS(shaft_models),
    [IMPORT_CHARTS] = COLUMNS(charts),
    [IMPORT_HEAD_MODELS] = COLUMNS(head_models),
    [IMPORT_HEADS] = COLUMNS(heads),
    [IMPORT_SHAFTS] = COLUMNS(shafts),
    [IMPORT_BUILDS] = COLUMNS(builds),
    [IMPORT_WORKERS] = COLUMNS(workers),
};

const struct import_column *import_columns(enum import_kind kind, size_t *ret_count) {
    *ret_count = tables[kind].count;
    return tables[kind].column;
}

void import_row_clear(enum import_kind kind, union import_row *ret_row) {
    const int64_t unknown = LENGTH_UNKNOWN; // MASS_UNKNOWN is the same
    memset(ret_row, 0, sizeof *ret_row);
    for (size_t i = 0; i < tables[kind].count; i++) {
        const struct import_column *column = &tables[kind].column[i];
        if (column->read == import_read_length || column->read == import_read_mass ||
            column->read == import_read_angle) {
            memcpy((unsigned char *)ret_row + column->offset, &unknown, sizeof unknown);
        }
    }
}

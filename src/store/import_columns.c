#include "import_columns.h"

#include <string.h>

// Limits are wide: they catch millimetres taken for inches, slips of a digit, and figures that no
// part has. Common practice, no source: heads weigh 180 g (drivers) to 500 g (putters), children's
// a little less; raw shafts are 33 in (putters) to 50 in (long drive), children's from 26 in, a
// broom putter's 55 in, and weigh 35 to 140 g, a broom putter's more. Value from memory: the
// Equipment Rules end a driver's inertia at 5900 g cm2; mallet putters have twice that.
#define TEXT(bytes) .read = import_read_text, .limits = {.size = bytes}
#define TICKET(which) .read = import_read_ticket, .limits = {.ticket = which}
#define THOUSANDTHS(from, to)                                                                      \
    .read = import_read_length,                                                                    \
    .limits = {.low = (from)*LENGTH_INCH / 1000, .high = (to)*LENGTH_INCH / 1000}
#define INCHES(from, to) THOUSANDTHS((from)*1000, (to)*1000)
#define GRAMS(from, to)                                                                            \
    .read = import_read_mass, .limits = {.low = (from)*MASS_GRAM, .high = (to)*MASS_GRAM}
#define DEGREES .read = import_read_angle, .limits = {.low = 0, .high = 90000}
#define HEAD_GRAMS GRAMS(100, 600)
#define SHAFT_GRAMS GRAMS(20, 250)
#define SHAFT_INCHES INCHES(24, 60)
#define WALL THOUSANDTHS(2, 500)
#define KEY .key = true, .needed = true
#define NEEDED .needed = true
#define OPTIONAL .optional = true
#define IN(field) .offset = offsetof(struct ROW, field)

#define ROW import_shaft_model
static const struct import_column shaft_models[] = {
    {"model", IN(model.name), TEXT(PARTS_NAME_MAX), KEY},
    {"material", IN(model.material), .read = import_read_material, NEEDED},
    {"tip", IN(model.tip), .read = import_read_tip, NEEDED},
    {"tip_diameter", IN(model.tip_diameter), THOUSANDTHS(100, 1000)},
    {"butt_diameter", IN(model.butt_diameter), THOUSANDTHS(100, 2000)},
    {"raw_length", IN(model.raw_length), SHAFT_INCHES},
    {"weight_g", IN(model.weight), SHAFT_GRAMS},
    {"tip_section", IN(model.tip_section), INCHES(0, 80)},
    {"max_tip_trim", IN(model.max_tip_trim), INCHES(0, 80)},
    {"max_butt_trim", IN(model.max_butt_trim), INCHES(0, 80)},
    {"bore_note", IN(model.bore_note), .read = import_read_bore_note, NEEDED},
    {"bore_reference", IN(model.bore_reference), INCHES(0, 2)},
    {"bore_note_kinds", IN(model), .read = import_read_note_kinds},
    {"balance", IN(model.balance), INCHES(1, 60), OPTIONAL},
    {"tip_wall", IN(model.tip_wall), WALL, OPTIONAL},
    {"butt_wall", IN(model.butt_wall), WALL, OPTIONAL},
};
#undef ROW

#define ROW import_chart_cell
static const struct import_column charts[] = {
    {"model", IN(model), TEXT(PARTS_NAME_MAX), KEY},
    {"flex", IN(flex), TEXT(PARTS_SHORT_MAX), KEY},
    {"kind", IN(kind), .read = import_read_chart_kind, KEY},
    {"column", IN(column.name), TEXT(PARTS_SHORT_MAX), KEY},
    {"column_weight_g", IN(column.weight), HEAD_GRAMS, KEY},
    {"tip_trim", IN(column.tip_trim), INCHES(0, 80)},
};
#undef ROW

#define ROW import_profile_point
static const struct import_column profiles[] = {
    {"model", IN(model), TEXT(PARTS_NAME_MAX), KEY},
    {"flex", IN(flex), TEXT(PARTS_SHORT_MAX), KEY},
    {"from_tip", IN(point.from_tip), INCHES(0, 60), KEY},
    {"stiffness_nm2", IN(point.stiffness), .read = import_read_stiffness,
     .limits = {.low = 1000, .high = 500000}, NEEDED},
};
#undef ROW

#define ROW import_head_model
static const struct import_column head_models[] = {
    {"model", IN(name), TEXT(PARTS_NAME_MAX), KEY},
    {"kind", IN(kind), .read = import_read_head_kind, NEEDED},
    {"engraved", IN(engraved), TEXT(PARTS_SHORT_MAX)},
    {"weight_g", IN(weight), HEAD_GRAMS},
    {"hosel_bore", IN(hosel_bore), THOUSANDTHS(100, 1000)},
    {"insertion", IN(insertion), THOUSANDTHS(100, 5000)},
    {"bore_height", IN(bore_height), INCHES(0, 2)},
    {"loft", IN(loft), DEGREES},
    {"lie", IN(lie), DEGREES},
    {"bore", IN(bore), .read = import_read_bore_kind, OPTIONAL},
    {"cg_beyond", IN(cg_beyond), THOUSANDTHS(-2000, 4000), OPTIONAL},
    {"inertia_gcm2", IN(inertia), .read = import_read_inertia,
     .limits = {.low = 100, .high = 20000}, OPTIONAL},
};
#undef ROW

#define ROW import_head
static const struct import_column heads[] = {
    {"ticket", IN(ticket), TICKET(TICKET_HEAD), KEY},
    {"model", IN(model), TEXT(PARTS_NAME_MAX), NEEDED},
    {"weight_g", IN(weight), HEAD_GRAMS},
    {"dry_fit_overall", IN(dry_fit_overall), INCHES(5, 80)},
    {"dry_fit_raw", IN(dry_fit_raw), INCHES(5, 80)},
    {"bore_height", IN(bore_height), INCHES(0, 2)},
    {"lot", IN(lot), TEXT(PARTS_LOT_MAX), OPTIONAL},
};
#undef ROW

#define ROW import_shaft
static const struct import_column shafts[] = {
    {"ticket", IN(shaft.ticket), TICKET(TICKET_SHAFT), KEY},
    {"model", IN(shaft.model), TEXT(PARTS_NAME_MAX), NEEDED},
    {"flex", IN(shaft.flex), TEXT(PARTS_SHORT_MAX), NEEDED},
    {"raw_length", IN(shaft.raw_length), SHAFT_INCHES},
    {"weight_g", IN(shaft.weight), SHAFT_GRAMS},
    {"rack", IN(shaft.rack), TEXT(PARTS_RACK_MAX)},
    {"balance", IN(shaft.balance), INCHES(1, 60), OPTIONAL},
    {"frequency_cpm", IN(shaft.raw_frequency), .read = import_read_frequency,
     .limits = {.low = 500, .high = 6000}, OPTIONAL},
    {"frequency_mass_g", IN(shaft.frequency_mass), GRAMS(20, 600), OPTIONAL},
    {"tip_cut", IN(shaft.tip_cut), INCHES(0, 40), OPTIONAL},
    {"from_shaft", IN(shaft.from_shaft), TICKET(TICKET_SHAFT), OPTIONAL},
    {"lot", IN(shaft.lot), TEXT(PARTS_LOT_MAX), OPTIONAL},
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
    {"shaft_model", IN(order.wished_model), TEXT(PARTS_NAME_MAX), OPTIONAL},
    {"flex", IN(order.wished_flex), TEXT(PARTS_SHORT_MAX), OPTIONAL},
    {"given_trim", IN(order.given_trim), INCHES(0, 80), OPTIONAL},
    {"extension", IN(order.extension), .read = import_read_yes, OPTIONAL},
    {"loft", IN(order.loft), DEGREES, OPTIONAL},
    {"lie", IN(order.lie), DEGREES, OPTIONAL},
    {"cancelled", IN(cancelled), .read = import_read_answer, OPTIONAL},
};
#undef ROW

#define ROW import_order
static const struct import_column orders[] = {
    {"build", IN(build), .read = import_read_build, KEY},
    {"status", IN(status), .read = import_read_order_status, NEEDED},
    {"priority", IN(priority), .read = import_read_number,
     .limits = {.low = ORDER_PRIORITY_URGENT, .high = ORDER_PRIORITY_LAST}, NEEDED},
    {"reference", IN(reference), TEXT(ORDER_REFERENCE_MAX)},
    {"note", IN(note), TEXT(ORDER_NOTE_MAX)},
};
#undef ROW

#define ROW import_stock_level
static const struct import_column stock_levels[] = {
    {"head_model", IN(head_model), TEXT(PARTS_NAME_MAX)},
    {"shaft_model", IN(shaft_model), TEXT(PARTS_NAME_MAX)},
    {"flex", IN(flex), TEXT(PARTS_SHORT_MAX)},
    {"least", IN(least), .read = import_read_number, .limits = {.low = 0, .high = 9999}, NEEDED},
    {"wanted", IN(wanted), .read = import_read_number, .limits = {.low = 0, .high = 9999}, NEEDED},
};
#undef ROW

#define ROW import_worker
static const struct import_column workers[] = {
    {"badge", IN(worker.badge), TICKET(TICKET_WORKER), KEY},
    {"name", IN(worker.name), TEXT(PARTS_NAME_MAX), NEEDED},
    {"role", IN(worker.role), .read = import_read_role, NEEDED},
};
#undef ROW

#define ROW import_gtin
static const struct import_column gtins[] = {
    {"gtin", IN(gtin), .read = import_read_gtin, KEY},
    {"head_model", IN(head_model), TEXT(PARTS_NAME_MAX)},
    {"shaft_model", IN(shaft_model), TEXT(PARTS_NAME_MAX)},
    {"flex", IN(flex), TEXT(PARTS_SHORT_MAX), OPTIONAL},
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
    [IMPORT_PROFILES] = COLUMNS(profiles),
    [IMPORT_HEAD_MODELS] = COLUMNS(head_models),
    [IMPORT_HEADS] = COLUMNS(heads),
    [IMPORT_SHAFTS] = COLUMNS(shafts),
    [IMPORT_BUILDS] = COLUMNS(builds),
    [IMPORT_WORKERS] = COLUMNS(workers),
    [IMPORT_GTINS] = COLUMNS(gtins),
    [IMPORT_ORDERS] = COLUMNS(orders),
    [IMPORT_STOCK_LEVELS] = COLUMNS(stock_levels),
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
            column->read == import_read_angle || column->read == import_read_inertia ||
            column->read == import_read_frequency) {
            memcpy((unsigned char *)ret_row + column->offset, &unknown, sizeof unknown);
        }
    }
}

// The fields of every form. Cells are the columns of the CSV files; the office knows those that are
// the form's own.

#include "desk_inner.h"

#include <string.h>

#define INCH N_("in, or mm")
#define GRAM N_("g")
#define DATE N_("2026-03-31")

static const struct field_spec new_order[] = {
    {"build", N_("Order"), N_("digits and letters"), false},
    {"clubs", N_("Clubs"), N_("4 5 6 7 8 9 P"), false},
    {"due", N_("Due"), DATE, false},
    {"priority", N_("Priority"), N_("1 first, 5 last"), false},
    {"reference", N_("Reference"), "", false},
    {"shaft_model", N_("Shaft model"), "", false},
    {"flex", N_("Flex"), "", false},
    {"first_length", N_("Length of the first"), INCH, false},
    {"length_step", N_("Each next shorter by"), INCH, false},
    {"swingweight", N_("Swingweight"), N_("D2"), false},
    {"grip_cap", N_("Grip cap"), INCH, false},
    {"grip_weight_g", N_("Grip"), GRAM, false},
    {"uniform_flex", N_("Uniform flex"), "", false},
    {"step", N_("Step"), N_("soft -1, hard 1"), false},
    {"note", N_("Note"), "", false},
};
static const struct field_spec copy_order[] = {
    {"from", N_("Copy of"), "", true},
    {"build", N_("New order"), N_("digits and letters"), false},
    {"due", N_("Due"), DATE, false},
    {"reference", N_("Reference"), "", false},
};
static const struct field_spec order[] = {
    {"build", N_("Order"), "", true},
    {"status", N_("Status"), "", false},
    {"priority", N_("Priority"), N_("1 first, 5 last"), false},
    {"reference", N_("Reference"), "", false},
    {"note", N_("Note"), "", false},
};
static const struct field_spec club[] = {
    {"build", N_("Order"), "", true},
    {"club", N_("Club"), "", true},
    {"due", N_("Due"), DATE, false},
    {"head", N_("Head"), N_("ticket"), false},
    {"shaft", N_("Shaft"), N_("ticket"), false},
    {"shaft_model", N_("or shaft model"), "", false},
    {"flex", N_("and flex"), "", false},
    {"playing_length", N_("Playing length"), INCH, false},
    {"grip_cap", N_("Grip cap"), INCH, false},
    {"grip_weight_g", N_("Grip"), GRAM, false},
    {"swingweight", N_("Swingweight"), N_("D2"), false},
    {"step", N_("Step"), N_("soft -1, hard 1"), false},
    {"uniform_flex", N_("Uniform flex"), "", false},
    {"loft", N_("Loft"), N_("degrees"), false},
    {"lie", N_("Lie"), N_("degrees"), false},
    {"given_trim", N_("Tip trim given"), N_("instead of the chart"), false},
    {"extension", N_("Extend the butt"), N_("if too short"), false},
    {"cancelled", N_("Cancelled"), "", false},
};
static const struct field_spec head[] = {
    {"ticket", N_("Ticket"), "", true},
    {"model", N_("Model"), "", false},
    {"weight_g", N_("Weight"), GRAM, false},
    {"dry_fit_overall", N_("Dry fit, overall"), INCH, false},
    {"dry_fit_raw", N_("Dry fit, raw shaft"), INCH, false},
    {"bore_height", N_("Bore height"), INCH, false},
};
static const struct field_spec take_heads[] = {
    {"model", N_("Model"), N_("or its barcode"), false},
    {"lot", N_("Delivery"), "", false},
    {"weight_g", N_("Weight"), N_("g, or from the scale"), false},
    {"dry_fit_overall", N_("Dry fit, overall"), INCH, false},
    {"dry_fit_raw", N_("Dry fit, raw shaft"), INCH, false},
    {"bore_height", N_("or bore height"), INCH, false},
    {"ticket", N_("Ticket"), N_("proposed"), false},
};
static const struct field_spec shaft[] = {
    {"ticket", N_("Ticket"), "", true},
    {"model", N_("Model"), "", false},
    {"flex", N_("Flex"), "", false},
    {"raw_length", N_("Raw length"), INCH, false},
    {"weight_g", N_("Weight"), GRAM, false},
    {"rack", N_("Rack"), "", false},
    {"balance", N_("Balance point"), N_("from the tip"), false},
    {"frequency_cpm", N_("Frequency"), N_("cpm, raw"), false},
    {"frequency_mass_g", N_("with on the tip"), GRAM, false},
};
static const struct field_spec take_shafts[] = {
    {"model", N_("Model"), N_("or its barcode"), false},
    {"flex", N_("Flex"), "", false},
    {"lot", N_("Delivery"), "", false},
    {"rack", N_("Rack"), "", false},
    {"raw_length", N_("Raw length"), INCH, false},
    {"weight_g", N_("Weight"), N_("g, or from the scale"), false},
    {"ticket", N_("Ticket"), N_("proposed"), false},
};
static const struct field_spec head_model[] = {
    {"model", N_("Model"), "", true},
    {"kind", N_("Kind"), "", false},
    {"engraved", N_("On its sole"), "", false},
    {"weight_g", N_("Weight"), GRAM, false},
    {"hosel_bore", N_("Hosel bore"), INCH, false},
    {"insertion", N_("Insertion"), INCH, false},
    {"bore_height", N_("Bore height"), N_("a hint only"), false},
    {"bore", N_("Bore"), "", false},
    {"loft", N_("Loft"), N_("degrees"), false},
    {"lie", N_("Lie"), N_("degrees"), false},
    {"cg_beyond", N_("Centre of gravity"), N_("beyond the shaft"), false},
    {"inertia_gcm2", N_("Inertia"), N_("g cm2"), false},
};
static const struct field_spec shaft_model[] = {
    {"model", N_("Model"), "", true},
    {"material", N_("Material"), "", false},
    {"tip", N_("Tip"), "", false},
    {"tip_diameter", N_("Tip diameter"), INCH, false},
    {"butt_diameter", N_("Butt diameter"), INCH, false},
    {"raw_length", N_("Raw length"), INCH, false},
    {"weight_g", N_("Weight"), GRAM, false},
    {"tip_section", N_("Parallel section"), INCH, false},
    {"max_tip_trim", N_("Most off the tip"), INCH, false},
    {"max_butt_trim", N_("Most off the butt"), INCH, false},
    {"bore_note", N_("Bore note"), "", false},
    {"bore_reference", N_("Reference height"), INCH, false},
    {"bore_note_kinds", N_("Note is for"), N_("kinds, not-through"), false},
    {"balance", N_("Balance point"), N_("from the tip"), false},
    {"tip_wall", N_("Wall at the tip"), INCH, false},
    {"butt_wall", N_("Wall at the butt"), INCH, false},
};
static const struct field_spec chart[] = {
    {"model", N_("Shaft model"), "", true},
    {"flex", N_("Flex"), "", true},
    {"kind", N_("For"), "", true},
    {"try", N_("Try it on club"), N_("2041-3"), false},
};
static const struct field_spec stock_level[] = {
    {"model", N_("Model"), "", true},
    {"flex", N_("Flex"), "", true},
    {"least", N_("Never fewer than"), "", false},
    {"wanted", N_("Fill up to"), "", false},
};
static const struct field_spec offcut[] = {
    {"from_shaft", N_("Cut from"), "", true},
    {"ticket", N_("New ticket"), N_("proposed"), false},
    {"raw_length", N_("Length now"), INCH, false},
    {"tip_cut", N_("Off its tip already"), INCH, false},
    {"weight_g", N_("Weight"), GRAM, false},
    {"rack", N_("Rack"), "", false},
};
static const struct field_spec repair[] = {
    {"build", N_("Repair"), N_("digits and letters"), false},
    {"reference", N_("Reference"), "", false},
    {"head", N_("Head's ticket"), N_("proposed"), false},
    {"model", N_("Head"), N_("a model, or a new name"), false},
    {"kind", N_("Kind"), N_("of a new one"), false},
    {"weight_g", N_("Weight"), GRAM, false},
    {"bore", N_("Bore"), "", false},
    {"pin_goes", N_("Pin that goes"), INCH, false},
    {"pin_stops", N_("Pin that does not"), INCH, false},
    {"hosel_bore", N_("Hosel bore"), N_("from the pins"), false},
    {"rod", N_("Rod, whole"), INCH, false},
    {"rod_outside", N_("Rod, outside"), INCH, false},
    {"insertion", N_("Insertion"), N_("from the rod"), false},
    {"dry_fit_overall", N_("Dry fit, overall"), INCH, false},
    {"dry_fit_raw", N_("Dry fit, raw shaft"), INCH, false},
    {"hosel_top", N_("or hosel to ground"), INCH, false},
    {"bore_height", N_("Bore height"), N_("from these"), false},
    // TRANSLATORS: semicolons where a comma is the decimal point.
    {"pieces", N_("Broken pieces"), N_("in, or mm: commas between"), false},
    {"missing", N_("Missing between"), INCH, false},
    {"playing_length", N_("Playing length"), N_("from these, or known"), false},
    {"grip_cap", N_("Grip cap"), INCH, false},
    {"frequency", N_("It had"), N_("cpm, if known"), false},
    {"shaft", N_("Shaft"), N_("ticket"), false},
    {"given_trim", N_("Tip trim given"), N_("if there is no chart"), false},
    {"extension", N_("Extend the butt"), N_("if too short"), false},
    {"due", N_("Due"), DATE, false},
};
static const struct field_spec measured[] = {
    {"build", N_("Order"), "", true},
    {"club", N_("Club"), "", true},
    {"length", N_("Playing length"), INCH, false},
    {"swingweight", N_("Swingweight"), N_("D2"), false},
    {"frequency", N_("Frequency"), N_("cpm"), false},
    {"loft", N_("Loft"), N_("degrees"), false},
    {"lie", N_("Lie"), N_("degrees"), false},
    {"accept", N_("Use it all the same"), N_("if out: a reason"), false},
};
static const struct field_spec take_back[] = {
    {"entry", N_("Entry"), "", true},
};

static const struct field_spec setting[] = {
    {"setting", N_("Setting"), "", true},
    {"line", N_("In the file"), "", true},
    {"standard", N_("Standard"), "", true},
    {"value", N_("Value"), "", false},
};

#define FIELDS(array) .field = (array), .count = sizeof(array) / sizeof *(array)
static const struct form_spec specs[DESK_FORM_COUNT] = {
    [DESK_FORM_NEW_ORDER] = {N_("New order"), FIELDS(new_order), .supervisor = true},
    [DESK_FORM_COPY_ORDER] = {N_("Copy an order"), FIELDS(copy_order), .supervisor = true},
    [DESK_FORM_ORDER] = {N_("Order"), FIELDS(order), .supervisor = true, .why = true},
    [DESK_FORM_CLUB] = {N_("Club"), FIELDS(club), .supervisor = true, .why = true},
    [DESK_FORM_ADD_CLUB] = {N_("One more club"), FIELDS(club), .supervisor = true},
    [DESK_FORM_HEAD] = {N_("Head"), FIELDS(head), .why = true},
    [DESK_FORM_SHAFT] = {N_("Shaft"), FIELDS(shaft), .why = true},
    [DESK_FORM_TAKE_HEADS] = {N_("Take in a head"), FIELDS(take_heads), .run = true,
                              .scale = "weight_g", .why = true},
    [DESK_FORM_TAKE_SHAFTS] = {N_("Take in a shaft"), FIELDS(take_shafts), .run = true,
                               .scale = "weight_g", .why = true},
    [DESK_FORM_HEAD_MODEL] = {N_("Head model"), FIELDS(head_model), .supervisor = true,
                              .why = true},
    [DESK_FORM_NEW_HEAD_MODEL] = {N_("New head model"), FIELDS(head_model), .supervisor = true},
    [DESK_FORM_SHAFT_MODEL] = {N_("Shaft model"), FIELDS(shaft_model), .supervisor = true,
                               .why = true},
    [DESK_FORM_NEW_SHAFT_MODEL] = {N_("New shaft model"), FIELDS(shaft_model), .supervisor = true},
    [DESK_FORM_CHART] = {N_("Trimming chart"), FIELDS(chart), .supervisor = true, .columns = true,
                         .why = true, .passing = "try"},
    [DESK_FORM_NEW_CHART] = {N_("New trimming chart"), FIELDS(chart), .supervisor = true,
                             .columns = true, .why = true, .passing = "try"},
    [DESK_FORM_STOCK_LEVEL] = {N_("Stock level"), FIELDS(stock_level), .supervisor = true},
    [DESK_FORM_OFFCUT] = {N_("An offcut as a shaft"), FIELDS(offcut)},
    [DESK_FORM_REPAIR] = {N_("Repair"), FIELDS(repair), .supervisor = true},
    [DESK_FORM_MEASURED] = {N_("Measured after assembly"), FIELDS(measured),
                            .supervised = "accept"},
    [DESK_FORM_SETTING] = {N_("Setting"), FIELDS(setting), .supervisor = true},
    [DESK_FORM_TAKE_BACK] = {N_("Take a change back"), FIELDS(take_back), .why = true},
};

const char *desk_label(enum desk_form form, const char *cell) {
    for (size_t i = 0; i < specs[form].count; i++) {
        if (strcmp(specs[form].field[i].cell, cell) == 0) {
            return _(specs[form].field[i].label);
        }
    }
    return cell;
}

const struct form_spec *form_spec(enum desk_form form) {
    return &specs[form];
}

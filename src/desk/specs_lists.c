// What the menu and the lists offer. The first button of a list that is about a row opens it.

#include "desk_inner.h"

#define LIST(name) GOES_LIST, DESK_LIST_##name
#define FORM(name) GOES_FORM, DESK_FORM_##name
#define DEED(name) GOES_DEED, DESK_DEED_##name

static const struct tile_spec tiles[] = {
    {N_("Orders"), N_("Make, change, release, hold, cancel; every club's plan"), "1", LIST(ORDERS)},
    {N_("Take in heads"), N_("Weigh, dry fit, ticket, one after the other"), "2", FORM(TAKE_HEADS)},
    {N_("Take in shafts"), N_("Measure, rack, ticket, one after the other"), "3",
     FORM(TAKE_SHAFTS)},
    {N_("Heads"), N_("Every head in the shop"), "4", LIST(HEADS)},
    {N_("Shafts"), N_("Every shaft, raw, cut or scrap"), "5", LIST(SHAFTS)},
    {N_("Deliveries"), N_("What came together, and how much it spreads"), "6", LIST(LOTS)},
    {N_("Stock"), N_("Free, needed, short, to be ordered"), "7", LIST(STOCK)},
    {N_("Charts and models"), N_("Trimming charts, their revisions, models"), "8", LIST(CHARTS)},
    {N_("Repair"), N_("A head from elsewhere, a broken shaft"), "9", FORM(REPAIR)},
    {N_("After the cut"), N_("Assembly cards, final measures, certificate"), "0", LIST(ASSEMBLY)},
    {N_("Changes"), N_("Who changed what, and taking it back"), "F8", LIST(CHANGES)},
    {N_("Settings"), N_("Of this bench: each with its reason"), "Ins", LIST(SETTINGS)},
    {N_("Self-check"), N_("Log, disk, copies, devices: what is well"), "F7", DEED(SELFCHECK)},
    {N_("Practice"), N_("Lessons on a copy: stops, mistakes, a power cut"), "F11", DEED(PRACTICE)},
    {N_("Tour"), N_("One imaginary club, from badge to log"), "F12", DEED(TOUR)},
};

const struct tile_spec *tile_specs(size_t *ret_count) {
    *ret_count = sizeof tiles / sizeof *tiles;
    return tiles;
}

static const struct desk_button orders[] = {
    {N_("Clubs"), "F4", LIST(CLUBS), true, TONE_WORK},
    {N_("New order"), "F2", FORM(NEW_ORDER), false, TONE_PLAIN},
    {N_("Change"), "F6", FORM(ORDER), true, TONE_PLAIN},
    {N_("Release"), "F5", DEED(RELEASE), true, TONE_FINE},
    {N_("Copy"), "F7", FORM(COPY_ORDER), true, TONE_PLAIN},
    {N_("Pick list"), "F11", LIST(PICK), true, TONE_PLAIN},
    {N_("Tickets"), "F12", DEED(TICKETS), true, TONE_PLAIN},
};
static const struct desk_button clubs[] = {
    {N_("Change club"), "F4", FORM(CLUB), true, TONE_WORK},
    {N_("Add a club"), "F2", FORM(ADD_CLUB), false, TONE_PLAIN},
    {N_("The order"), "F6", FORM(ORDER), false, TONE_PLAIN},
    {N_("Release"), "F5", DEED(RELEASE), false, TONE_FINE},
    {N_("Worksheet"), "F7", DEED(WORKSHEET), false, TONE_PLAIN},
    {N_("Tickets"), "F12", DEED(TICKETS), false, TONE_PLAIN},
    {N_("Pick list"), "F11", LIST(PICK), false, TONE_PLAIN},
    {N_("After the cut"), "Ins", LIST(ASSEMBLY), false, TONE_PLAIN},
    {N_("Changes"), "F8", LIST(CHANGES), false, TONE_PLAIN},
};
static const struct desk_button heads[] = {
    {N_("Change"), "F4", FORM(HEAD), true, TONE_WORK},
    {N_("Take in"), "F2", FORM(TAKE_HEADS), false, TONE_PLAIN},
    {N_("Ticket"), "F12", DEED(PART_TICKET), true, TONE_PLAIN},
};
static const struct desk_button shafts[] = {
    {N_("Change"), "F4", FORM(SHAFT), true, TONE_WORK},
    {N_("Take in"), "F2", FORM(TAKE_SHAFTS), false, TONE_PLAIN},
    {N_("Ticket"), "F12", DEED(PART_TICKET), true, TONE_PLAIN},
};
static const struct desk_button lots[] = {
    {N_("Look at it"), "F4", LIST(LOT), true, TONE_WORK},
};
static const struct desk_button lot[] = {
    {N_("Ticket"), "F12", DEED(PART_TICKET), true, TONE_PLAIN},
};
static const struct desk_button stock[] = {
    {N_("Level"), "F4", FORM(STOCK_LEVEL), true, TONE_WORK},
    {N_("Pick list"), "F11", LIST(PICK), false, TONE_PLAIN},
    {N_("Offcuts"), "F6", LIST(OFFCUTS), true, TONE_PLAIN},
    {N_("Scrap"), "F7", LIST(SCRAP), false, TONE_PLAIN},
    {N_("As CSV"), "F2", DEED(STOCK_CSV), false, TONE_PLAIN},
};
static const struct desk_button pick[] = {
    {N_("As CSV"), "F2", DEED(PICK_CSV), false, TONE_PLAIN},
};
static const struct desk_button offcuts[] = {
    {N_("Use as a shaft"), "F4", FORM(OFFCUT), true, TONE_WORK},
};
static const struct desk_button charts[] = {
    {N_("Change"), "F4", FORM(CHART), true, TONE_WORK},
    {N_("New chart"), "F2", FORM(NEW_CHART), false, TONE_PLAIN},
    {N_("Revisions"), "F6", LIST(REVISIONS), true, TONE_PLAIN},
    {N_("Shaft models"), "F7", LIST(SHAFT_MODELS), false, TONE_PLAIN},
    {N_("Head models"), "F11", LIST(HEAD_MODELS), false, TONE_PLAIN},
};
static const struct desk_button revisions[] = {
    {N_("Differences"), "F4", LIST(DIFFERENCES), true, TONE_WORK},
    {N_("With another"), "F6", LIST(REVISIONS), true, TONE_PLAIN},
};
static const struct desk_button shaft_models[] = {
    {N_("Change"), "F4", FORM(SHAFT_MODEL), true, TONE_WORK},
    {N_("New model"), "F2", FORM(NEW_SHAFT_MODEL), false, TONE_PLAIN},
};
static const struct desk_button head_models[] = {
    {N_("Change"), "F4", FORM(HEAD_MODEL), true, TONE_WORK},
    {N_("New model"), "F2", FORM(NEW_HEAD_MODEL), false, TONE_PLAIN},
};
static const struct desk_button assembly[] = {
    {N_("Measured"), "F4", FORM(MEASURED), true, TONE_WORK},
    {N_("Card"), "F6", DEED(CARDS), true, TONE_PLAIN},
    {N_("Certificate"), "F7", DEED(CERTIFICATE), true, TONE_PLAIN},
};
static const struct desk_button changes[] = {
    {N_("Take back"), "F4", FORM(TAKE_BACK), true, TONE_CAUTION},
};

static const struct desk_button settings[] = {
    {N_("Change"), "F4", FORM(SETTING), true, TONE_WORK},
    {N_("Start the bench again"), "F6", DEED(START_AGAIN), false, TONE_PLAIN},
};

#define SPEC(name, buttons)                                                                        \
    [DESK_LIST_##name] = {.button = (buttons), .count = sizeof(buttons) / sizeof *(buttons)}
static const struct list_spec specs[DESK_LIST_COUNT] = {
    SPEC(ORDERS, orders),
    SPEC(CLUBS, clubs),
    SPEC(HEADS, heads),
    SPEC(SHAFTS, shafts),
    SPEC(HEAD_MODELS, head_models),
    SPEC(SHAFT_MODELS, shaft_models),
    SPEC(CHARTS, charts),
    [DESK_LIST_REVISIONS] = {revisions, sizeof revisions / sizeof *revisions, .whole = true},
    [DESK_LIST_DIFFERENCES] = {.whole = true},
    SPEC(LOTS, lots),
    SPEC(LOT, lot),
    SPEC(STOCK, stock),
    SPEC(PICK, pick),
    SPEC(OFFCUTS, offcuts),
    [DESK_LIST_SCRAP] = {0},
    SPEC(ASSEMBLY, assembly),
    SPEC(CHANGES, changes),
    SPEC(SETTINGS, settings),
};

const struct list_spec *list_spec(enum desk_list list) {
    return &specs[list];
}

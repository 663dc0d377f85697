// The desk: what there is to do, lists, forms.

#include "views.h"

#include <stdio.h>
#include <string.h>

static void number_action(struct view *view, enum view_action_id id, int64_t argument,
                          const char *label, const char *key, enum view_tone tone) {
    views_action(view, id, label, key, tone);
    view->action[view->action_count - 1].argument = argument;
}

static void toolbar(struct view *view, const char *back) {
    views_action(view, ACTION_BACK, back, "F3", TONE_PLAIN);
    views_action(view, ACTION_SUPERVISOR, "Supervisor", "F9", TONE_PLAIN);
    views_action(view, ACTION_SIGN_OUT, "Sign off", "F10", TONE_PLAIN);
}

// --- menu ----------------------------------------------------------------------------------------

static void tile(struct view *view, const char *label, const char *key, const char *line,
                 const char *count) {
    size_t at = view->menu.tile_count++;
    PUT(view->menu.tile[at].line, line);
    PUT(view->menu.tile[at].count, count);
    number_action(view, ACTION_TILE, (int64_t)at, label, key, TONE_PLAIN);
}

static void tiles(struct view *view, const char *many) {
    tile(view, "Orders", "1", "Make, change, release, hold, cancel; every club's plan", many);
    tile(view, "Take in heads", "2", "Weigh, dry fit, ticket, one after the other", "");
    tile(view, "Take in shafts", "3", "Measure, rack, ticket, one after the other", "");
    tile(view, "Heads", "4", "Every head in the shop", "");
    tile(view, "Shafts", "5", "Every shaft, raw, cut or scrap", "");
    tile(view, "Deliveries", "6", "What came together, and how much it spreads", "");
    tile(view, "Stock", "7", "Free, needed, short, to be ordered", many);
    tile(view, "Charts and models", "8", "Trimming charts, their revisions, models", "");
    tile(view, "Repair", "9", "A head from elsewhere, a broken shaft", "");
    tile(view, "After the cut", "0", "Assembly cards, final measures, certificate", many);
    tile(view, "Changes", "F8", "Who changed what, and taking it back", "");
    tile(view, "Practice", "F11", "Lessons on a copy: stops, mistakes, a power cut", "");
    tile(view, "Tour", "F12", "One imaginary club, from badge to log", "");
}

void view_menu_desk(struct view *view) {
    views_base(view, VIEW_MENU, -1);
    PUT(view->menu.title, "Desk");
    PUT(view->menu.subtitle, "Orders, parts and charts. Scan a ticket to see what it names.");
    tiles(view, "4");
    toolbar(view, "Back to the saw");
    views_band(view, TONE_PLAIN, false, "Touch what you want to do, or press its key.", "");
}

void view_menu_long(struct view *view) {
    views_base(view, VIEW_MENU, -1);
    PUT(view->worker, "Maximiliane Oberhuber-Lindqvist");
    PUT(view->menu.title, "Desk");
    PUT(view->menu.subtitle, "Orders, parts and charts. Scan a ticket to see what it names.");
    tiles(view, "1204");
    tile(view, "One more of them that is long", "F11",
         "What there is to say about it takes two lines and is read once, by somebody new", "12");
    toolbar(view, "Back to the saw");
    views_band(view, TONE_CAUTION, false,
               "Nothing here is called S-0098765W or whatever else a scanner may have read.", "");
}

// --- forms ---------------------------------------------------------------------------------------

static void field(struct view_form *form, const char *label, const char *text, const char *unit) {
    size_t at = form->field_count++;
    PUT(form->field[at].label, label);
    PUT(form->field[at].text, text);
    PUT(form->field[at].unit, unit);
}

static void fixed(struct view_form *form, const char *label, const char *text) {
    field(form, label, text, "");
    form->field[form->field_count - 1].fixed = true;
}

static void column(struct view_form *form, const char *name, const char *text) {
    field(form, name, text, "weight in g, tip trim or -");
}

static void note(struct view_form *form, enum view_tone tone, const char *text) {
    PUT(form->note[form->note_count], text);
    form->note_tone[form->note_count++] = tone;
}

static void form_actions(struct view *view) {
    number_action(view, ACTION_DESK_BUTTON, 0, "Save", "F4", TONE_WORK);
    number_action(view, ACTION_DESK_BUTTON, 1, view->form.keys ? "No keys" : "Keys", "F12",
                  TONE_PLAIN);
    toolbar(view, "Back");
    views_band(view, TONE_PLAIN, false, "Enter goes on, the last one saves.", "");
}

static void chart(struct view *view) {
    struct view_form *form = &view->form;
    views_base(view, VIEW_FORM, -1);
    PUT(form->title, "Trimming chart");
    PUT(form->subtitle, "Larch 65 · firm · wood");
    fixed(form, "Shaft model", "Larch 65");
    fixed(form, "Flex", "firm");
    fixed(form, "For", "wood");
    field(form, "Try it on club", "2041-3", "2041-3");
    column(form, "1", "200 0");
    column(form, "3", "210 5/8");
    column(form, "5", "220 -");
    column(form, "7", "230 1 1/2");
    field(form, "One more column", "", "name, weight in g, tip trim or -");
    field(form, "Why", "", "");
    form->field[5].changed = form->field[6].changed = true;
    form->field[9].tone = TONE_STOP;
    form->active = 9;
    note(form, TONE_STOP, "Why: marks of open clubs change. Say why.");
    note(form, TONE_CAUTION, "Cut differently: 3 of the open clubs that go by it, 6");
    note(form, TONE_STOP,
         "2041-5: The maker does not offer column 5 (220 g) for firm wood. Choose "
         "another flex or head.");
    note(form, TONE_CAUTION, "2041-1: tip 1/2 to 5/8, butt 43 3/8 stays");
    note(form, TONE_CAUTION, "2041-3 (begun): tip 1/2 to 5/8, butt 41 3/4 stays");
    note(form, TONE_FINE, "2041-3 (begun): tip 5/8, butt 41 3/4");
    note(form, TONE_PLAIN, "Chart, column 3 (210 g): 5/8");
    note(form, TONE_PLAIN, "Bore 1 1/8 in, chart adds nothing");
}

void view_form_chart(struct view *view) {
    chart(view);
    form_actions(view);
    views_band(view, TONE_STOP, false, "Why: marks of open clubs change. Say why.", "");
}

void view_form_keys(struct view *view) {
    struct view_form *form = &view->form;
    views_base(view, VIEW_FORM, -1);
    PUT(form->title, "Shaft model");
    PUT(form->subtitle, "Larch 65");
    fixed(form, "Model", "Larch 65");
    field(form, "Material", "gr", "");
    field(form, "Tip", "parallel", "");
    field(form, "Tip diameter", "0.335", "in, or mm");
    field(form, "Butt diameter", "0.6", "in, or mm");
    field(form, "Raw length", "46", "in, or mm");
    field(form, "Weight", "64.4", "g");
    field(form, "Parallel section", "5", "in, or mm");
    field(form, "Most off the tip", "3", "in, or mm");
    field(form, "Most off the butt", "5", "in, or mm");
    field(form, "Bore note", "above reference", "");
    field(form, "Reference height", "1 1/2", "in, or mm");
    field(form, "Note is for", "driver fairway", "kinds, not-through");
    field(form, "Balance point", "24 1/2", "from the tip");
    field(form, "Wall at the tip", "", "in, or mm");
    field(form, "Wall at the butt", "", "in, or mm");
    field(form, "Why", "", "");
    form->active = 1;
    form->field[1].changed = true;
    PUT(form->choice[0], "graphite");
    PUT(form->choice[1], "graphene");
    form->choice_count = 2;
    form->keys = true;
    note(form, TONE_STOP, "Material: \"gr\" is none of: steel, graphite");
    form_actions(view);
}

// As many fields, choices and notes as there may be.
void view_form_long(struct view *view) {
    static const char *const flexes[] = {
        "ladies", "senior",     "regular",          "regular plus", "firm",   "firm plus",
        "stiff",  "stiff plus", "tour extra stiff", "wedge",        "junior", "one length"};
    struct view_form *form = &view->form;
    views_base(view, VIEW_FORM, -1);
    PUT(view->worker, "Maximiliane Oberhuber-Lindqvist");
    PUT(form->title, "New trimming chart");
    PUT(form->subtitle, "");
    field(form, "Shaft model", "Larch 65 with the long parallel tip section", "");
    field(form, "Flex", "tour extra stiff", "");
    field(form, "For", "hybrid", "");
    field(form, "Try it on club", "2024118R-10", "2041-3");
    for (int i = 0; i < 24; i++) {
        char name[24], text[24];
        snprintf(name, sizeof name, "%d and a half", i + 1);
        snprintf(text, sizeof text, "%d.5 3 61/64", 200 + 7 * i);
        column(form, name, text);
    }
    field(form, "One more column", "24 370.5 3 61/64", "name, weight in g, tip trim or -");
    field(form, "Why", "the maker's letter of 12 May says that all of it is measured anew", "");
    for (size_t i = 0; i < form->field_count; i += 3) {
        form->field[i].tone = TONE_STOP;
        form->field[i].changed = true;
    }
    form->active = 1;
    form->field[1].selected = true;
    for (size_t i = 0; i < VIEW_CHOICES_MAX; i++) {
        PUT(form->choice[i], flexes[i]);
    }
    form->choice_count = VIEW_CHOICES_MAX;
    note(form, TONE_STOP,
         "Flex: there is no flex \"tour extra stiff\" in the shop; choose one of "
         "the list");
    while (form->note_count < VIEW_FORM_NOTES - 1) {
        note(form, TONE_CAUTION, "2024118R-10 (begun): tip 1 29/32 to 2 1/32, butt 43 61/64 stays");
    }
    note(form, TONE_CAUTION, "and 1204 more are cut differently");
    form_actions(view);
}

// --- lists ---------------------------------------------------------------------------------------

static void heads(struct view_set *set, const char *const names[VIEW_CELLS]) {
    for (int i = 0; i < VIEW_CELLS && names[i] != NULL; i++) {
        PUT(set->head[i], names[i]);
    }
}

static void row(struct view_set *set, const char *const cells[VIEW_CELLS], enum view_tone tone) {
    for (int i = 0; i < VIEW_CELLS && cells[i] != NULL; i++) {
        PUT(set->row[set->row_count].cell[i], cells[i]);
    }
    set->row[set->row_count++].tone = tone;
}

void view_list_revisions(struct view *view) {
    static const char *const names[VIEW_CELLS] = {"Revision", "Columns", "When", "Who", "Why"};
    static const char *const rows[][VIEW_CELLS] = {
        {"4", "5", "25 Nov 10:42", "Ida Brandt", "taken back: a mistake"},
        {"3", "5", "25 Nov 10:31", "Ida Brandt", "column 5 is not offered"},
        {"2", "5", "12 May 2025", "Ole Rask", "the maker's letter of May"},
        {"1", "5", "", "", ""},
    };
    struct view_set *set = &view->set;
    views_base(view, VIEW_SET, -1);
    PUT(set->title, "Revisions of Larch 65 firm, wood");
    heads(set, names);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        row(set, rows[i], i == 1 ? TONE_CAUTION : TONE_PLAIN);
    }
    set->total = (int)set->row_count;
    set->selected = 1;
    PUT(set->note[0], "Entry 12297");
    PUT(set->note[1], "Why: column 5 is not offered");
    PUT(set->note[2], "Changed: column 5: 220 1 to 220 -");
    PUT(set->note[3], "Taken back by entry 12303");
    set->note_tone[3] = TONE_CAUTION;
    set->note_count = 4;
    number_action(view, ACTION_DESK_BUTTON, 0, "Differences", "F4", TONE_WORK);
    number_action(view, ACTION_DESK_BUTTON, 1, "With another", "F6", TONE_PLAIN);
    toolbar(view, "Back");
    views_band(view, TONE_PLAIN, false, "Up and down choose a row, Enter opens it.", "");
}

void view_list_orders(struct view *view) {
    static const char *const names[VIEW_CELLS] = {"Order", "Status",  "Due",      "Clubs",
                                                  "Done",  "Waiting", "Reference"};
    static const char *const cells[VIEW_CELLS] = {
        "2024118R", "released", "2026-03-31", "14", "10", "for a shaft", "Oberhuber-Lindqvist"};
    static const char *const buttons[][2] = {
        {"Clubs", "F4"}, {"New order", "F2"},  {"Change", "F6"},  {"Release", "F5"},
        {"Copy", "F7"},  {"Pick list", "F11"}, {"Tickets", "F12"}};
    struct view_set *set = &view->set;
    views_base(view, VIEW_SET, -1);
    PUT(set->title, "Orders");
    PUT(set->subtitle, "Only those with 2024118R");
    heads(set, names);
    while (set->row_count < VIEW_ROWS_MAX) {
        row(set, cells, set->row_count % 5 == 4 ? TONE_CAUTION : TONE_PLAIN);
    }
    set->total = (int)set->row_count;
    set->selected = 3;
    views_action(view, ACTION_FILTER_CLEAR, "Show all", "Del", TONE_PLAIN);
    for (size_t i = 0; i < sizeof buttons / sizeof *buttons; i++) {
        number_action(view, ACTION_DESK_BUTTON, (int64_t)i, buttons[i][0], buttons[i][1],
                      i == 0 ? TONE_WORK : TONE_PLAIN);
    }
    views_action(view, ACTION_OLDER, "Next page", "PgDn", TONE_PLAIN);
    views_action(view, ACTION_NEWER, "Page before", "PgUp", TONE_PLAIN);
    toolbar(view, "Back");
    views_band(view, TONE_PLAIN, false,
               "Up and down choose a row, Enter opens it. Type to look for something.", "");
}

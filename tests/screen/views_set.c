// A build as a set, and its kit list.

#include "views.h"

#include <stdio.h>

static void heads(struct view_set *set, const char *const names[VIEW_CELLS]) {
    for (int i = 0; i < VIEW_CELLS; i++) {
        PUT(set->head[i], names[i]);
    }
}

static void row(struct view_set *set, const char *const cells[VIEW_CELLS], enum view_tone tone) {
    for (int i = 0; i < VIEW_CELLS; i++) {
        PUT(set->row[set->row_count].cell[i], cells[i]);
    }
    set->row[set->row_count++].tone = tone;
    set->total = (int)set->row_count;
}

static void note(struct view_set *set, enum view_tone tone, const char *text) {
    PUT(set->note[set->note_count], text);
    set->note_tone[set->note_count++] = tone;
}

static void plot(struct view_set *set, const char *title, const char *low, const char *high,
                 double first, double last, size_t count, int odd, double off) {
    struct view_plot *to = &set->plot[set->plot_count++];
    double slope = (last - first) / (double)(count - 1);
    PUT(to->title, title);
    PUT(to->low_text, low);
    PUT(to->high_text, high);
    to->low = first < last ? first : last;
    to->high = first < last ? last : first;
    to->count = count;
    for (size_t i = 0; i < count; i++) {
        double wave = (to->high - to->low) * 0.02 * (double)(i % 3);
        to->point[i].planned_known = true;
        to->point[i].planned = first + slope * (double)i + wave + ((int)i == odd ? off : 0);
        to->point[i].measured_known = i < 2;
        to->point[i].measured = to->point[i].planned - 2 * wave;
    }
    to->line_known = true;
    to->at_first = first;
    to->slope = slope;
    to->odd = odd;
}

static void toolbar(struct view *view) {
    views_action(view, ACTION_BACK, "Back", "F3", TONE_PLAIN);
    views_action(view, ACTION_BUILD_BACK, "Build before", "F5", TONE_PLAIN);
    views_action(view, ACTION_BUILD_ON, "Build after", "F6", TONE_PLAIN);
    views_action(view, ACTION_TICKETS, "Tickets", "F2", TONE_PLAIN);
    views_action(view, ACTION_KIT, "Choose shafts", "F4", TONE_WORK);
    views_action(view, ACTION_LIFE, "Its log", "F11", TONE_PLAIN);
    views_action(view, ACTION_FINAL_LENGTH, "+ Length", "F7", TONE_PLAIN);
    views_action(view, ACTION_FINAL_SWINGWEIGHT, "+ Swingweight", "F8", TONE_PLAIN);
    views_action(view, ACTION_FINAL_FREQUENCY, "+ Frequency", "F9", TONE_PLAIN);
    views_action(view, ACTION_FINAL_LOFT, "+ Loft", "F12", TONE_PLAIN);
    views_action(view, ACTION_FINAL_LIE, "+ Lie", "Ins", TONE_PLAIN);
    views_action(view, ACTION_SIGN_OUT, "Sign off", "F10", TONE_PLAIN);
}

static const char *const names[VIEW_CELLS] = {"Club",   "Head",        "Shaft",    "Length",
                                              "Weight", "Swingweight", "Frequency"};

void view_set_odd(struct view *view) {
    static const char *const rows[][VIEW_CELLS] = {
        {"4", "H-0472X", "S-1187K", "38 1/2 in (38 1/2 in)", "404.1 g", "D1.2 (D1.4)",
         "291.2 (290.5)"},
        {"5", "H-0473V", "S-1188H", "38 in (38 3/16 in out)", "410.8 g", "D1.0", "295.4"},
        {"6", "H-0474T", "S-1190M", "37 1/2 in", "417.3 g", "D1.3", "306.8"},
        {"7", "H-0475R", "S-1191J", "37 in", "424.6 g", "D1.1", "304.1"},
        {"8", "H-0476P", "S-1192G", "36 1/2 in", "431.0 g", "D1.2", "308.0"},
        {"9", "H-0477N", "S-1193E", "36 in", "not known", "not known", "312.3"}};
    struct view_set *set = &view->set;
    views_base(view, VIEW_SET, -1);
    PUT(view->worker, "Jonas Ekholm");
    PUT(set->title, "Build 2042 · 6 clubs");
    PUT(set->subtitle, "Planned, and measured in brackets. All estimates but the length.");
    heads(set, names);
    for (size_t i = 0; i < 6; i++) {
        row(set, rows[i], i == 1 ? TONE_STOP : i == 2 ? TONE_CAUTION : TONE_PLAIN);
    }
    set->selected = 1;
    plot(set, "Swingweight", "C9.0", "D3.0", 212, 217, 6, -1, 0);
    plot(set, "Frequency", "291.2", "312.3", 291.2, 312.3, 6, 2, 6.8);
    plot(set, "Length", "36 in", "38 1/2 in", 38.5, 36, 6, -1, 0);
    plot(set, "Weight", "404.1 g", "431.0 g", 404, 431, 6, -1, 0);
    note(set, TONE_CAUTION, "Club 6: frequency about 6.8 cpm above the line of the others");
    note(set, TONE_PLAIN, "Club 9: grip weight not known.");
    toolbar(view);
    views_band(view, TONE_CAUTION, false, "Look at what stands out before it is cut.", "");
}

void view_set_long(struct view *view) {
    static const char *const cells[VIEW_CELLS] = {
        "10 of 14 hybrid", "H-0012345X",  "S-0098765W",   "44 61/64 in (44 61/64 in)",
        "1203.5 g",        "D1.2 (D1.4)", "291.2 (290.5)"};
    struct view_set *set = &view->set;
    views_base(view, VIEW_SET, -1);
    PUT(view->worker, "Maximiliane Oberhuber-Lindqvist");
    PUT(set->title, "Build 2024-118-R · 30 clubs");
    PUT(set->subtitle, "Planned, and measured in brackets. All estimates but the length.");
    heads(set, names);
    for (size_t i = 0; i < VIEW_ROWS_MAX; i++) {
        row(set, cells, i % 4 == 0 ? TONE_CAUTION : TONE_PLAIN);
    }
    set->first = 18;
    set->total = 30;
    set->selected = 11;
    plot(set, "Swingweight", "C9.0", "D3.0", 212, 217, 30, 3, 3);
    plot(set, "Frequency", "291.2", "312.3", 291.2, 312.3, 30, 4, 6.8);
    plot(set, "Length", "36 61/64 in", "44 61/64 in", 38.5, 36, 30, 5, 1);
    plot(set, "Weight", "1203.5 g", "1404.1 g", 404, 431, 30, 6, 10);
    for (int i = 0; i < 4; i++) {
        note(set, TONE_CAUTION,
             "Club 10 of 14 hybrid: swingweight about 12.8 points above the line of the others");
    }
    note(set, TONE_PLAIN, "12 clubs have no shaft yet.");
    note(set, TONE_PLAIN, "Club 10 of 14 hybrid: stiffness of the shaft not known.");
    note(set, TONE_PLAIN, "Club 10 of 14 hybrid: shaft weight not known.");
    toolbar(view);
    views_band(view, TONE_CAUTION, false,
               "Not accepted: a club or a shaft of the list has changed. Look at the new list.",
               "");
}

void view_set_kit(struct view *view) {
    static const char *const kit_names[VIEW_CELLS] = {"Club",       "Head",   "Shaft",      "Rack",
                                                      "Raw length", "Weight", "Swingweight"};
    static const char *const rows[][VIEW_CELLS] = {
        {"4", "H-0472X", "S-1187K", "B5", "41 in", "116.7 g", "D1.2"},
        {"5", "H-0473V", "S-1188H", "B5", "41 1/16 in", "115.9 g", "D1.0"},
        {"6", "H-0474T", "to be chosen", "", "", "", ""}};
    struct view_set *set = &view->set;
    views_base(view, VIEW_SET, -1);
    PUT(view->worker, "Jonas Ekholm");
    PUT(set->title, "Build 2042 · shafts from stock");
    PUT(set->subtitle, "2 of 3 clubs, 26 shafts in stock");
    heads(set, kit_names);
    for (size_t i = 0; i < 3; i++) {
        row(set, rows[i], i == 2 ? TONE_STOP : TONE_PLAIN);
    }
    set->selected = -1;
    plot(set, "Swingweight", "D1.0", "D1.2", 215, 216, 3, -1, 0);
    note(set, TONE_FINE, "Spread 0.2 points: the least that this stock allows (estimate).");
    note(set, TONE_STOP,
         "Club 6: none of 26 shafts gives a valid plan. 26 are too short. Order longer ones.");
    views_action(view, ACTION_BACK, "Back", "F3", TONE_PLAIN);
    views_action(view, ACTION_KIT_ACCEPT, "Accept the list", "F4", TONE_FINE);
    views_action(view, ACTION_KIT_SWINGWEIGHT, "By swingweight", "F7", TONE_PLAIN);
    views_action(view, ACTION_KIT_FLEX, "By flex", "F8", TONE_PLAIN);
    views_action(view, ACTION_SIGN_OUT, "Sign off", "F10", TONE_PLAIN);
    views_band(view, TONE_PLAIN, false, "Accept the list, or choose by what it is matched.", "");
}

void view_set_charts(struct view *view) {
    static const char *const chart_names[VIEW_CELLS] = {"Stops", "Times", "", "", "", "", ""};
    static const char *const rows[][VIEW_CELLS] = {{"wrong pair", "4", "", "", "", "", ""},
                                                   {"tip past mark", "2", "", "", "", "", ""},
                                                   {"not safe", "1", "", "", "", "", ""}};
    struct view_set *set = &view->set;
    struct view_plot *off;
    views_base(view, VIEW_SET, -1);
    PUT(view->worker, "Jonas Ekholm");
    PUT(set->title, "How well it was cut");
    PUT(set->subtitle, "25 Nov · All entries");
    heads(set, chart_names);
    for (size_t i = 0; i < 3; i++) {
        row(set, rows[i], TONE_PLAIN);
    }
    set->selected = -1;
    plot(set, "Off plan, 0.001 in", "-24.1", "31.0", -10, 12, 40, 37, 30);
    off = &set->plot[0];
    off->line_known = false;
    off->low = -24.1;
    off->high = 45;
    off->level_count = 3;
    off->level[0] = -24.1;
    off->level[1] = 1.2;
    off->level[2] = 31;
    plot(set, "Change from club to club", "0.0", "30.2", 5, 8, 39, -1, 0);
    set->plot[1].line_known = false;
    plot(set, "Cuts by hour of the day", "0.0", "14.0", 2, 9, 24, -1, 0);
    set->plot[2].line_known = false;
    for (size_t i = 0; i < 3; i++) {
        for (size_t k = 0; k < 2; k++) {
            set->plot[i].point[k].measured_known = false;
        }
    }
    note(set, TONE_CAUTION,
         "Look at this bench: 2 of 3 points beyond 2 sigma on one side (Western Electric rules).");
    note(set, TONE_PLAIN, "Clubs measured 40, cuts 76, shafts scrapped 1.");
    note(set, TONE_PLAIN, "Mean 1.2, limits -24.1 to 31.0 (individuals chart).");
    note(set, TONE_PLAIN, "Cp 2.31, Cpk 2.27 against the tolerance of 1/16 in.");
    views_action(view, ACTION_BACK, "Back", "F3", TONE_PLAIN);
    views_band(view, TONE_PLAIN, false, "Back to the list: F3", "");
}

void view_final_swingweight(struct view *view) {
    struct view_number *number = &view->number;
    views_base(view, VIEW_NUMBER, -1);
    PUT(number->question, "What does the finished club show on the swingweight scale?");
    PUT(number->help, "Build 2042, club 5. Planned: D1.0.");
    PUT(number->field[0].label, "As D2.3");
    PUT(number->field[0].text, "D1.4");
    number->field[0].active = true;
    number->field_count = 1;
    views_action(view, ACTION_PRESS, "Button", "F1", TONE_WORK);
    views_action(view, ACTION_BACK, "Back", "F3", TONE_PLAIN);
    views_action(view, ACTION_KEY, "C", "", TONE_PLAIN);
    views_action(view, ACTION_KEY, "D", "", TONE_PLAIN);
    views_action(view, ACTION_KEY, "E", "", TONE_PLAIN);
    views_band(view, TONE_WORK, true, "Enter it, then press.", "");
}

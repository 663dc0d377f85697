// A build as a set: a row a club, a plot a value, and in words what stands out or is not known.

#include "balance.h"
#include "station_inner.h"
#include "text.h"

#include <math.h>
#include <string.h>

#define CELL(array, text) words_copy(array, VIEW_CELL_MAX, text)

static void note(struct view_set *view, enum view_tone tone, const char *text) {
    if (view->note_count < VIEW_LINES_MAX && text[0] != '\0') {
        SET(view->note[view->note_count], text);
        view->note_tone[view->note_count] = tone;
        view->note_count++;
    }
}

static void heads(struct view_set *view, const enum word names[VIEW_CELLS]) {
    for (int i = 0; i < VIEW_CELLS; i++) {
        CELL(view->head[i], word(names[i]));
    }
}

void set_point_text(const struct station *s, enum set_value value, double number, char *buffer,
                    size_t size) {
    char scale[BALANCE_SCALE_TEXT_MAX];
    struct text text;
    memset(buffer, 0, size);
    text = text_open(buffer, size);
    if (value == SET_LENGTH) {
        char length[LENGTH_TEXT_MAX];
        say_length(s, (length_nm)llround(number * (double)LENGTH_INCH), length);
        text_add(&text, length);
    } else if (value == SET_SWINGWEIGHT && balance_scale_text(number, scale)) {
        text_add_figure(&text, scale);
    } else {
        text_add_decimal(&text, number, 1);
        if (value == SET_WEIGHT || value == SET_SWINGWEIGHT) {
            text_add(&text, " ");
            text_add(&text, set_value_unit(value));
        }
    }
}

static void point_cell(const struct station *s, enum set_value value, const struct set_point *point,
                       char cell[VIEW_CELL_MAX]) {
    char real[VIEW_CELL_MAX];
    if (point->gap == ESTIMATE_GAP_NONE) {
        set_point_text(s, value, point->planned, cell, VIEW_CELL_MAX);
    } else {
        CELL(cell, word(WORD_SET_UNKNOWN));
    }
    if (point->measured_known) {
        set_point_text(s, value, point->measured, real, sizeof real);
        words_add(cell, VIEW_CELL_MAX, point->measured_out ? WORD_SET_REAL_OUT : WORD_SET_REAL,
                  real, NULL, NULL);
    }
}

static void odd_rows(const struct set *set, bool odd[SET_CLUBS_MAX]) {
    for (int value = 0; value < SET_VALUE_COUNT; value++) {
        if (set->line[value].odd >= 0) {
            odd[set->line[value].odd] = true;
        }
    }
}

static bool any_out(const struct set_club *club) {
    for (int value = 0; value < SET_VALUE_COUNT; value++) {
        if (club->point[value].measured_out) {
            return true;
        }
    }
    return false;
}

static void set_row(const struct station *s, const struct set_club *club, bool odd,
                    struct view_set *view) {
    char(*cell)[VIEW_CELL_MAX] = view->row[view->row_count].cell;
    CELL(cell[0], club->club);
    CELL(cell[1], club->head);
    CELL(cell[2], club->shaft[0] != '\0' ? club->shaft : word(WORD_SET_NO_SHAFT));
    point_cell(s, SET_LENGTH, &club->point[SET_LENGTH], cell[3]);
    point_cell(s, SET_WEIGHT, &club->point[SET_WEIGHT], cell[4]);
    point_cell(s, SET_SWINGWEIGHT, &club->point[SET_SWINGWEIGHT], cell[5]);
    point_cell(s, SET_FREQUENCY, &club->point[SET_FREQUENCY], cell[6]);
    view->row[view->row_count].tone = any_out(club) ? TONE_STOP : odd ? TONE_CAUTION : TONE_PLAIN;
    view->row_count++;
}

static void stretch(struct view_plot *plot, double value, bool *any) {
    plot->low = *any && plot->low < value ? plot->low : value;
    plot->high = *any && plot->high > value ? plot->high : value;
    *any = true;
}

// At least as high as what is worth a word, so that small things look small.
static void frame(const struct station *s, enum set_value value, bool any, struct view_plot *plot) {
    double middle = (plot->low + plot->high) / 2;
    double least = 2 * set_odd_beyond(value);
    if (plot->high - plot->low < least) {
        plot->low = middle - least / 2;
        plot->high = middle + least / 2;
    }
    if (any) {
        set_point_text(s, value, plot->low, plot->low_text, sizeof plot->low_text);
        set_point_text(s, value, plot->high, plot->high_text, sizeof plot->high_text);
    }
}

static void add_plot(const struct station *s, const struct set *set, enum set_value value,
                     enum word title, struct view_set *view) {
    struct view_plot *plot = &view->plot[view->plot_count];
    const struct set_line *line = &set->line[value];
    bool any = false;
    SET(plot->title, word(title));
    plot->count = set->count < VIEW_POINTS_MAX ? set->count : VIEW_POINTS_MAX;
    for (size_t i = 0; i < plot->count; i++) {
        const struct set_point *point = &set->club[i].point[value];
        plot->point[i].planned_known = point->gap == ESTIMATE_GAP_NONE;
        plot->point[i].planned = point->planned;
        plot->point[i].measured_known = point->measured_known;
        plot->point[i].measured = point->measured;
        if (plot->point[i].planned_known) {
            stretch(plot, point->planned, &any);
        }
        if (point->measured_known) {
            stretch(plot, point->measured, &any);
        }
    }
    plot->line_known = line->known;
    plot->at_first = line->at_first;
    plot->slope = line->slope;
    plot->odd = line->odd;
    if (line->known) {
        stretch(plot, line->at_first, &any);
        stretch(plot, line->at_first + line->slope * (double)(set->count - 1), &any);
    }
    frame(s, value, any, plot);
    view->plot_count++;
}

// What stands out, then what is not known, the first of each reason.
static void set_notes(const struct set *set, struct view_set *view) {
    bool told[ESTIMATE_GAP_COUNT] = {[ESTIMATE_GAP_NONE] = true};
    bool lines = false;
    int waiting = 0;
    for (size_t i = 0; i < set->count; i++) {
        waiting += set->club[i].shaft[0] == '\0' ? 1 : 0;
    }
    for (int value = 0; value < SET_VALUE_COUNT; value++) {
        char text[SET_TEXT_MAX];
        lines = lines || set->line[value].known;
        if (set_odd_text(set, (enum set_value)value, text, sizeof text)) {
            note(view, TONE_CAUTION, text);
        }
    }
    if (view->note_count == 0 && lines) {
        note(view, TONE_FINE, word(WORD_SET_EVEN));
    }
    if (waiting > 0) {
        char text[VIEW_TEXT_MAX];
        words_count(text, sizeof text, WORDS_SET_WAITING, waiting, NULL);
        note(view, TONE_PLAIN, text);
        told[ESTIMATE_GAP_PLAN] = true;
    }
    for (size_t i = 0; i < set->count; i++) {
        for (int value = 0; value < SET_VALUE_COUNT; value++) {
            enum estimate_gap gap = set->club[i].point[value].gap;
            char text[VIEW_TEXT_MAX];
            if (!told[gap]) {
                SAY(text, SET_GAP, set->club[i].club, estimate_gap_text(gap), NULL);
                note(view, TONE_PLAIN, text);
                told[gap] = true;
            }
        }
    }
}

// Selected, and no longer there: another program has changed the build.
static bool gone(const struct station *s, const struct set *set) {
    return s->set.selected != 0 && sets_selected(s, set) == NULL;
}

static void plots(const struct station *s, const struct set *set, struct view *view) {
    static const enum word names[VIEW_CELLS] = {
        WORD_SET_CLUB,   WORD_SET_HEAD,        WORD_SET_SHAFT,    WORD_SET_LENGTH,
        WORD_SET_WEIGHT, WORD_SET_SWINGWEIGHT, WORD_SET_FREQUENCY};
    struct view_set *to = &view->set;
    bool odd[SET_CLUBS_MAX] = {false};
    words_count(to->title, sizeof to->title, WORDS_SET_TITLE, (int64_t)set->count, set->build);
    SET(to->subtitle, word(WORD_SET_SUBTITLE));
    heads(to, names);
    odd_rows(set, odd);
    to->total = (int)set->count;
    for (size_t i = (size_t)to->first; i < set->count && to->row_count < VIEW_ROWS_MAX; i++) {
        if (set->club[i].club_id == s->set.selected) {
            to->selected = (int)to->row_count;
        }
        set_row(s, &set->club[i], odd[i], to);
    }
    add_plot(s, set, SET_SWINGWEIGHT, WORD_SET_SWINGWEIGHT, to);
    add_plot(s, set, SET_FREQUENCY, WORD_SET_FREQUENCY, to);
    add_plot(s, set, SET_LENGTH, WORD_SET_LENGTH, to);
    add_plot(s, set, SET_WEIGHT, WORD_SET_WEIGHT, to);
    set_notes(set, to);
    bool look = gone(s, set) || to->note_tone[0] == TONE_CAUTION;
    view_band(view, look ? TONE_CAUTION : TONE_PLAIN, false,
              gone(s, set) ? WORD_SET_GONE
              : look       ? WORD_SET_BAND_ODD
                           : WORD_SET_BAND,
              WORD_EMPTY);
}

static void kit_row(const struct station *s, const struct kit *kit, const struct kit_club *club,
                    struct view_set *view) {
    char(*cell)[VIEW_CELL_MAX] = view->row[view->row_count].cell;
    bool none = club->shaft[0] == '\0';
    char text[KIT_TEXT_MAX];
    CELL(cell[0], club->club);
    CELL(cell[1], club->head);
    CELL(cell[2], none ? word(WORD_SET_NO_SHAFT) : club->shaft);
    CELL(cell[3], club->rack);
    if (!none) {
        say_length(s, club->raw_length, text);
        CELL(cell[4], text);
        struct text grams = text_open(text, sizeof text);
        text_add_mass(&grams, club->shaft_weight);
        CELL(cell[5], text);
        kit_value_text(kit->by, club->value, text);
        CELL(cell[6], text);
    }
    view->row[view->row_count].tone = none ? TONE_STOP : TONE_PLAIN;
    view->row_count++;
}

static void kit_plot(const struct station *s, const struct kit *kit, struct view_set *view) {
    struct view_plot *plot = &view->plot[0];
    enum set_value value = kit->by == MATCH_BY_FLEX ? SET_FREQUENCY : SET_SWINGWEIGHT;
    bool any = false;
    SET(plot->title, word(kit->by == MATCH_BY_FLEX ? WORD_SET_FREQUENCY : WORD_SET_SWINGWEIGHT));
    plot->count = kit->count;
    plot->odd = -1;
    for (size_t i = 0; i < kit->count; i++) {
        plot->point[i].planned_known = kit->club[i].shaft[0] != '\0';
        plot->point[i].planned = kit->club[i].value;
        if (plot->point[i].planned_known) {
            stretch(plot, kit->club[i].value, &any);
        }
    }
    frame(s, value, any, plot);
    view->plot_count = 1;
}

static void kit_notes(const struct station *s, const struct kit *kit, struct view_set *view) {
    char spread[KIT_TEXT_MAX];
    char text[VIEW_TEXT_MAX];
    if (kit->chosen > 0) {
        kit_spread_text(kit->by, kit->spread, spread);
        SAY(text, KIT_SPREAD, spread, NULL, NULL);
        note(view, TONE_FINE, text);
    }
    for (size_t i = 0; i < kit->count; i++) {
        if (kit->club[i].club_id == s->set.selected) {
            note(view, TONE_PLAIN, kit->club[i].words);
        }
    }
    for (size_t i = 0; i < kit->count; i++) {
        if (kit->club[i].shaft[0] == '\0' && kit->club[i].club_id != s->set.selected) {
            note(view, TONE_STOP, kit->club[i].words);
        }
    }
}

static void kit_list(const struct station *s, struct view *view) {
    static const enum word names[VIEW_CELLS] = {
        WORD_SET_CLUB, WORD_SET_HEAD,         WORD_SET_SHAFT,      WORD_SET_RACK,
        WORD_SET_RAW,  WORD_SET_SHAFT_WEIGHT, WORD_SET_SWINGWEIGHT};
    struct view_set *to = &view->set;
    const struct kit *kit = &s->set.kit;
    char chosen[LENGTH_TEXT_MAX];
    char count[LENGTH_TEXT_MAX];
    char stock[LENGTH_TEXT_MAX];
    SAY(to->title, KIT_TITLE, s->set.build, NULL, NULL);
    heads(to, names);
    if (s->set.by == MATCH_BY_FLEX) {
        CELL(to->head[6], word(WORD_SET_FREQUENCY));
    }
    if (kit->count == 0) {
        note(to, TONE_STOP, word(WORD_KIT_NONE));
        return;
    }
    say_number((int64_t)kit->chosen, chosen);
    say_number((int64_t)kit->count, count);
    say_number((int64_t)kit->stock, stock);
    SAY(to->subtitle, KIT_SUBTITLE, chosen, count, stock);
    to->total = (int)kit->count;
    for (size_t i = (size_t)to->first; i < kit->count && to->row_count < VIEW_ROWS_MAX; i++) {
        if (kit->club[i].club_id == s->set.selected) {
            to->selected = (int)to->row_count;
        }
        kit_row(s, kit, &kit->club[i], to);
    }
    kit_plot(s, kit, to);
    kit_notes(s, kit, to);
    view_band(view, TONE_PLAIN, false, WORD_KIT_BAND, WORD_EMPTY);
}

void view_set(const struct station *s, struct view *view) {
    struct set set;
    view->body = VIEW_SET;
    view->set.first = s->set.first;
    view->set.selected = -1;
    if (!sets_load(s, &set)) {
        SET(view->set.title, s->set.build);
        view_band(view, TONE_STOP, false, WORD_SET_BAND_FAILED, WORD_EMPTY);
        return;
    }
    if (s->set.mode == SET_KIT) {
        kit_list(s, view);
    } else {
        plots(s, &set, view);
    }
    if (s->set.message[0] != '\0') {
        SET(view->band, s->set.message);
    }
}

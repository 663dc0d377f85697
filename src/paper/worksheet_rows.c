// What each row says, and the notes behind it.

#include "text.h"
#include "tongue.h"
#include "worksheet_inner.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *const stages[STAGE_COUNT] = {
    [STAGE_PENDING] = "",
    [STAGE_TIP_SHOWN] = N_("at the saw"),
    [STAGE_TIP_CUT] = N_("tip is cut"),
    [STAGE_BUTT_SHOWN] = N_("tip is cut"),
    [STAGE_BUTT_CUT] = N_("both cut"),
    [STAGE_DECISION] = N_("to be decided"),
    [STAGE_DONE] = N_("done"),
};

static void put(char buffer[CELL_TEXT_MAX], const char *before, const char *words) {
    snprintf(buffer, CELL_TEXT_MAX, "%s%s", *words != '\0' ? before : "", words);
}

// In two lines, at the blank of its words.
static void put_unknown(struct cell *cell) {
    const char *words = _("not known");
    size_t first = strcspn(words, " ");
    snprintf(cell->top, CELL_TEXT_MAX, "%.*s", (int)first, words);
    put(cell->below, "", words[first] == '\0' ? "" : words + first + 1);
}

static void put_length(struct cell *cell, length_nm length) {
    length_text_fraction(length, cell->top);
    if (length == LENGTH_UNKNOWN) {
        put_unknown(cell);
    }
}

static void put_mass(char buffer[CELL_TEXT_MAX], mass_mg mass) {
    struct text text = text_open(buffer, CELL_TEXT_MAX);
    text_add_mass(&text, mass);
}

static void local(const char *figure, char buffer[LENGTH_TEXT_MAX]) {
    struct text text = text_open(buffer, LENGTH_TEXT_MAX);
    text_add_figure(&text, figure);
}

static void put_mark(struct cell *cell, length_nm mark) {
    struct length_fraction fraction;
    char words[LENGTH_TEXT_MAX];
    char inch[LENGTH_TEXT_MAX];
    char mm[LENGTH_TEXT_MAX];
    cell->mark = true;
    length_text_inch(mark, 3, words);
    local(words, inch);
    length_text_mm(mark, 1, words);
    local(words, mm);
    if (!length_split(mark, &fraction)) { // the bench marks in millimetres
        snprintf(cell->top, sizeof cell->top, "%s", mm);
        snprintf(cell->below, sizeof cell->below, "%s\n%s %s", T_("unit", "mm"), inch,
                 T_("unit", "in"));
        return;
    }
    if (fraction.whole != 0 || fraction.numerator == 0) {
        snprintf(cell->top, sizeof cell->top, "%lld", (long long)fraction.whole);
    }
    if (fraction.numerator != 0) {
        snprintf(cell->numerator, sizeof cell->numerator, "%d", fraction.numerator);
        snprintf(cell->denominator, sizeof cell->denominator, "%d", fraction.denominator);
    }
    snprintf(cell->below, sizeof cell->below, "%s %s\n%s %s", inch, T_("unit", "in"), mm,
             T_("unit", "mm"));
}

static void put_value(struct cell *cell, const struct estimate_value *value, const char *unit) {
    if (value->gap != ESTIMATE_GAP_NONE) {
        put_unknown(cell);
        return;
    }
    snprintf(cell->top, sizeof cell->top, "%.0f", value->value);
    put(cell->below, "", unit);
}

static void put_swingweight(struct cell *cell, const struct estimate_value *value,
                            const char *wished) {
    char scale[BALANCE_SCALE_TEXT_MAX];
    if (value->gap != ESTIMATE_GAP_NONE) {
        put_value(cell, value, "");
    } else if (balance_scale_text(value->value, scale)) {
        local(scale, cell->top);
    } else {
        struct text text = text_open(cell->top, sizeof cell->top);
        text_add_decimal(&text, value->value, 1);
        text_add(&text, " ");
        text_add(&text, T_("unit", "in oz"));
    }
    if (value->gap == ESTIMATE_GAP_NONE) {
        put(cell->below, "", "");
        struct text text = text_open(cell->below, CELL_TEXT_MAX);
        text_say(&text, wished[0] != '\0' ? _("wish %1") : "", wished);
    }
}

// --- notes -------------------------------------------------------------------------------------

static void note_refusal(struct sheet *sheet, size_t i) {
    const struct club *club = &sheet->of->clubs[i];
    char words[PLAN_LINE_TEXT_MAX];
    if (club->head.ticket[0] == '\0') {
        sheet_note(sheet, i, _("No head is reserved for this club."));
    } else if (club->shaft.ticket[0] == '\0') {
        sheet_note(sheet, i, _("No shaft is reserved for this club."));
    } else {
        plan_line_text(&sheet->row[i].input, &sheet->row[i].plan.refusal, words, sizeof words);
        sheet_note(sheet, i, words);
    }
}

static void note_gap(struct sheet *sheet, size_t i, const char *pattern, enum estimate_gap gap) {
    char words[NOTE_TEXT_MAX];
    struct text text = text_open(words, sizeof words);
    if (gap != ESTIMATE_GAP_NONE) {
        text_say(&text, pattern, estimate_gap_text(gap));
        sheet_note(sheet, i, words);
    }
}

static void note_row(struct sheet *sheet, size_t i) {
    const struct row *row = &sheet->row[i];
    char words[PLAN_LINE_TEXT_MAX];
    for (size_t k = 0; k < row->plan.warning_count; k++) {
        plan_line_text(&row->input, &row->plan.warning[k], words, sizeof words);
        sheet_note(sheet, i, words);
    }
    note_gap(sheet, i, _("No estimate of weight and swingweight: %1."),
             row->estimate.swingweight.gap);
    note_gap(sheet, i, _("No estimate of frequency: %1."), row->estimate.frequency.gap);
    if (row->estimate.swingweight.gap == ESTIMATE_GAP_NONE && row->estimate.balance_assumed) {
        sheet_note(sheet, i, _("Balance point of the shaft not known: taken as even."));
    }
}

// --- rows --------------------------------------------------------------------------------------

static void fill_order(const struct club *club, struct cell *cell) {
    put(cell[COLUMN_CLUB].top, "", club->order.club);
    put(cell[COLUMN_CLUB].below, "", _(stages[club->progress.stage]));
    put(cell[COLUMN_HEAD].top, "", club->head.ticket[0] != '\0' ? club->head.ticket : _("none"));
    put(cell[COLUMN_SHAFT].top, "", club->shaft.ticket[0] != '\0' ? club->shaft.ticket : _("none"));
    put_length(&cell[COLUMN_LENGTH], club->order.playing_length);
    if (club->head.ticket[0] != '\0') {
        put_mass(cell[COLUMN_HEAD].below, club->head.weight);
        put_length(&cell[COLUMN_BORE], head_bore_height(&club->head));
    }
    if (club->shaft.ticket[0] != '\0') {
        struct text text = text_open(cell[COLUMN_SHAFT].below, CELL_TEXT_MAX);
        text_say(&text, club->shaft.rack[0] != '\0' ? _("rack %1") : "", club->shaft.rack);
    }
}

static void fill_plan(const struct club *club, struct row *row) {
    struct cell *cell = row->cell;
    const struct chart_column *column = plan_column(&row->input, &row->plan);
    put(cell[COLUMN_CHART].top, "", column != NULL ? column->name : _("given"));
    if (column != NULL) {
        put_mass(cell[COLUMN_CHART].below, column->weight);
    }
    put_mark(&cell[COLUMN_TIP], row->plan.tip_mark);
    put_mark(&cell[COLUMN_BUTT], row->plan.butt_mark);
    put_value(&cell[COLUMN_WEIGHT], &row->estimate.weight, T_("unit", "g"));
    put_swingweight(&cell[COLUMN_SWINGWEIGHT], &row->estimate.swingweight, club->order.swingweight);
    put_value(&cell[COLUMN_FREQUENCY], &row->estimate.frequency, T_("unit", "cpm"));
    cell[COLUMN_MADE_TIP].box = true;
    cell[COLUMN_MADE_BUTT].box = true;
    cell[COLUMN_MEASURED].box = true;
}

void sheet_fill(struct sheet *sheet) {
    const struct worksheet *of = sheet->of;
    for (size_t i = 0; i < of->count; i++) {
        struct row *row = &sheet->row[i];
        const struct club *club = &of->clubs[i];
        row->planned = club_plan(club, of->rules, &row->input, &row->plan) &&
                       club->head.ticket[0] != '\0' && club->shaft.ticket[0] != '\0';
        estimate_make(club, &row->plan, of->assembly, &row->estimate);
        fill_order(club, row->cell);
        if (row->planned) {
            fill_plan(club, row);
        } else {
            note_refusal(sheet, i); // refusals come first, for they must be read
        }
    }
    for (size_t i = 0; i < of->count; i++) {
        if (sheet->row[i].planned) {
            note_row(sheet, i);
        }
    }
    sheet_number_notes(sheet);
}

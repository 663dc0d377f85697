// Looks for the largest writing at which everything is on one page, lying or upright.

#include "worksheet_inner.h"

#include <math.h>

#define SCALE_MOST 1.3
#define SCALE_LEAST 0.2 // reached by nothing that fits the texts' limits
#define SCALE_STEP 0.02
#define SCALE_CUT_NOTES 0.6 // rather leave notes out than write smaller
#define NOTES_LEAST 60.0    // then at least this much is theirs
#define ROW_MOST 27.0

// The rest is shared out: to the rows until they are easy to write in, then to the plots.
static void share_out(struct arrangement *at, double rest, double count) {
    double rows = fmin(rest * 0.6, (ROW_MOST * at->scale - at->row) * count);
    at->row += fmax(rows, 0) / count;
    rest -= fmax(rows, 0);
    at->plots = fmin(at->plots + rest, plots_most(at->scale));
}

static void widen(struct arrangement *at, double width, double sum) {
    double each = (width - sum) / COLUMN_COUNT;
    for (int i = 0; i < COLUMN_COUNT; i++) {
        at->column[i] += each;
    }
}

// Drops notes from the end until the rest has room.
static void cut_notes(struct sheet *sheet, struct arrangement *at, double width, double room) {
    size_t deep = notes_deep(sheet, width, at->scale, at->notes_shown);
    while (at->notes_shown > 0 && deep > notes_room(room, at->scale)) {
        at->notes_shown--;
        deep = notes_deep(sheet, width, at->scale, at->notes_shown);
    }
    at->notes = notes_height(deep, at->scale);
}

static bool arrange(struct sheet *sheet, bool upright, double scale, bool whole,
                    struct arrangement *ret_at) {
    struct arrangement at = {.sheet = page_sheet(sheet->of->paper, upright), .scale = scale};
    double width = at.sheet.width - 2 * PAGE_MARGIN;
    double height = at.sheet.height - 2 * PAGE_MARGIN;
    double count = (double)sheet->of->count;
    double sum = table_widths(sheet, scale, at.column);
    at.header = header_height(sheet, width);
    at.footer = footer_height(sheet, width);
    at.heads = table_heads(scale);
    at.row = table_row_least(scale);
    at.plots = plots_least(scale);
    at.notes_shown = sheet->note_count;
    at.notes = notes_height(notes_deep(sheet, width, scale, sheet->note_count), scale);
    double others = at.header + at.footer + at.heads + at.row * count + at.plots;
    if (!whole && others + at.notes > height) {
        at.notes = NOTES_LEAST;
    }
    if (sum > width || others + at.notes > height) {
        return false;
    }
    if (!whole) {
        cut_notes(sheet, &at, width, height - others);
    }
    share_out(&at, height - others - at.notes, count);
    widen(&at, width, sum);
    *ret_at = at;
    return true;
}

static bool search(struct sheet *sheet, double least, bool whole) {
    for (int steps = 0; SCALE_MOST - steps * SCALE_STEP >= least; steps++) {
        double scale = SCALE_MOST - steps * SCALE_STEP;
        if (arrange(sheet, false, scale, whole, &sheet->at) ||
            arrange(sheet, true, scale, whole, &sheet->at)) {
            return true;
        }
    }
    return false;
}

void sheet_arrange(struct sheet *sheet) {
    if (!search(sheet, SCALE_CUT_NOTES, true)) {
        search(sheet, SCALE_LEAST, false);
    }
}

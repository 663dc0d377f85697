#include "tongue.h"
#include "worksheet_inner.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

// In points at scale 1.
#define TOP 9.0
#define BELOW 7.0
#define HEADS 6.5
#define WHOLE 15.0
#define PART 8.0
#define PADDING 7.0    // of a column, both sides together
#define BOX_LEAST 46.0 // wide enough to write in, at any scale times 0.75

static const struct {
    const char *first;
    const char *second;
} heads[COLUMN_COUNT] = {
    [COLUMN_CLUB] = {N_("Club"), ""},
    [COLUMN_HEAD] = {N_("Head"), N_("weighed")},
    [COLUMN_SHAFT] = {N_("Shaft"), N_("rack")},
    [COLUMN_LENGTH] = {N_("Playing"), N_("length, in")},
    [COLUMN_BORE] = {N_("Bore"), N_("height, in")},
    [COLUMN_CHART] = {N_("Chart"), N_("column")},
    [COLUMN_TIP] = {N_("TIP MARK"), N_("off, from the tip")},
    [COLUMN_BUTT] = {N_("BUTT MARK"), N_("keep, from new tip")},
    [COLUMN_WEIGHT] = {N_("Weight"), N_("estimate")},
    [COLUMN_SWINGWEIGHT] = {N_("Swingweight"), N_("estimate")},
    [COLUMN_FREQUENCY] = {N_("Frequency"), N_("estimate")},
    [COLUMN_NOTES] = {N_("Notes"), ""},
    [COLUMN_MADE_TIP] = {N_("Made:"), N_("tip off")},
    [COLUMN_MADE_BUTT] = {N_("Made:"), N_("shaft kept")},
    [COLUMN_MEASURED] = {N_("Measured:"), N_("club length")},
};

// --- widths ------------------------------------------------------------------------------------

// The two lines beside a mark are kept in one text.
static void split_lines(const char *words, char first[CELL_TEXT_MAX], char second[CELL_TEXT_MAX]) {
    size_t size = strcspn(words, "\n");
    snprintf(first, CELL_TEXT_MAX, "%.*s", (int)size, words);
    snprintf(second, CELL_TEXT_MAX, "%s", words[size] == '\0' ? "" : words + size + 1);
}

static double widest(struct page *page, enum page_font font, double size, const char *a,
                     const char *b) {
    return fmax(page_width(page, font, size, a), page_width(page, font, size, b));
}

static double mark_width(struct page *page, const struct cell *cell, double scale) {
    char first[CELL_TEXT_MAX];
    char second[CELL_TEXT_MAX];
    split_lines(cell->below, first, second);
    double whole = page_width(page, PAGE_BOLD, WHOLE * scale, cell->top);
    double part = widest(page, PAGE_BOLD, PART * scale, cell->numerator, cell->denominator);
    double lines = widest(page, PAGE_REGULAR, BELOW * scale, first, second);
    return whole + part + lines + 6 * scale;
}

static double cell_width(struct page *page, enum column column, const struct cell *cell,
                         double scale) {
    if (cell->mark) {
        return mark_width(page, cell, scale);
    }
    return fmax(
        page_width(page, column == COLUMN_CLUB ? PAGE_BOLD : PAGE_REGULAR, TOP * scale, cell->top),
        page_width(page, PAGE_REGULAR, BELOW * scale, cell->below));
}

double table_widths(struct sheet *sheet, double scale, double width[COLUMN_COUNT]) {
    double sum = 0;
    for (int k = 0; k < COLUMN_COUNT; k++) {
        width[k] =
            widest(sheet->page, PAGE_BOLD, HEADS * scale, _(heads[k].first), _(heads[k].second));
        for (size_t i = 0; i < sheet->of->count; i++) {
            const struct cell *cell = &sheet->row[i].cell[k];
            width[k] = fmax(width[k], cell_width(sheet->page, (enum column)k, cell, scale));
        }
        width[k] += PADDING * scale;
        if (k >= COLUMN_MADE_TIP) {
            width[k] = fmax(width[k], BOX_LEAST * fmax(scale, 0.75));
        }
        sum += width[k];
    }
    return sum;
}

double table_row_least(double scale) {
    return 20 * scale;
}

double table_heads(double scale) {
    return 24 * scale;
}

// --- drawing -----------------------------------------------------------------------------------

struct place {
    struct page *page;
    double scale;
    double x;
    double middle; // of the row
    double width;
};

static void draw_mark(const struct place *at, const struct cell *cell) {
    double scale = at->scale;
    char line[2][CELL_TEXT_MAX];
    split_lines(cell->below, line[0], line[1]);
    double whole = page_width(at->page, PAGE_BOLD, WHOLE * scale, cell->top);
    double part = widest(at->page, PAGE_BOLD, PART * scale, cell->numerator, cell->denominator);
    double x = at->x + (at->width - mark_width(at->page, cell, scale)) / 2;
    page_text(at->page, PAGE_BOLD, WHOLE * scale, PAGE_LEFT, x,
              at->middle + PAGE_CAP(WHOLE * scale) / 2, cell->top);
    x += whole + (whole > 0 ? 1.5 * scale : 0);
    if (cell->numerator[0] != '\0') {
        page_text(at->page, PAGE_BOLD, PART * scale, PAGE_CENTRE, x + part / 2,
                  at->middle - 1.9 * scale, cell->numerator);
        page_line(at->page, x, at->middle, x + part, at->middle, 0.8 * scale, 0);
        page_text(at->page, PAGE_BOLD, PART * scale, PAGE_CENTRE, x + part / 2,
                  at->middle + 1.9 * scale + PAGE_CAP(PART * scale), cell->denominator);
    }
    x += part + 4 * scale;
    page_text(at->page, PAGE_REGULAR, BELOW * scale, PAGE_LEFT, x, at->middle - 1.6 * scale,
              line[0]);
    page_text(at->page, PAGE_REGULAR, BELOW * scale, PAGE_LEFT, x,
              at->middle + 1.6 * scale + PAGE_CAP(BELOW * scale), line[1]);
}

static void draw_words(const struct place *at, const struct cell *cell, enum page_font font) {
    double top = TOP * at->scale;
    double below = BELOW * at->scale;
    double x = at->x + PADDING * at->scale / 2;
    if (cell->below[0] == '\0') {
        page_text(at->page, font, top, PAGE_LEFT, x, at->middle + PAGE_CAP(top) / 2, cell->top);
        return;
    }
    double gap = 3 * at->scale;
    double high = PAGE_CAP(top) + gap + PAGE_CAP(below);
    page_text(at->page, font, top, PAGE_LEFT, x, at->middle - high / 2 + PAGE_CAP(top), cell->top);
    page_text(at->page, PAGE_REGULAR, below, PAGE_LEFT, x, at->middle + high / 2, cell->below);
}

static void draw_box(const struct sheet *sheet, const struct place *at) {
    double high = sheet->at.row - 4 * at->scale;
    page_frame(at->page, &(struct page_box){at->x + 2, at->middle - high / 2, at->width - 4, high},
               0.6);
}

static double left_of(const struct sheet *sheet, enum column column) {
    double x = PAGE_MARGIN;
    for (int k = 0; k < (int)column; k++) {
        x += sheet->at.column[k];
    }
    return x;
}

static void draw_row(struct sheet *sheet, size_t i, double y) {
    const struct row *row = &sheet->row[i];
    struct place at = {.page = sheet->page,
                       .scale = sheet->at.scale,
                       .x = PAGE_MARGIN,
                       .middle = y + sheet->at.row / 2};
    for (int k = 0; k < COLUMN_COUNT; k++) {
        const struct cell *cell = &row->cell[k];
        at.width = sheet->at.column[k];
        if (cell->mark) {
            draw_mark(&at, cell);
        } else if (cell->box) {
            draw_box(sheet, &at);
        } else {
            draw_words(&at, cell, k == COLUMN_CLUB ? PAGE_BOLD : PAGE_REGULAR);
        }
        at.x += at.width;
    }
    if (!row->planned) {
        char words[CELL_TEXT_MAX];
        snprintf(words, sizeof words, _("NO PLAN, do not cut: note %.16s"),
                 row->cell[COLUMN_NOTES].top);
        page_text(sheet->page, PAGE_BOLD, TOP * at.scale, PAGE_LEFT, left_of(sheet, COLUMN_CHART),
                  at.middle + PAGE_CAP(TOP * at.scale) / 2, words);
    }
}

static void draw_heads(struct sheet *sheet, double y) {
    double scale = sheet->at.scale;
    double size = HEADS * scale;
    double x = PAGE_MARGIN;
    for (int k = 0; k < COLUMN_COUNT; k++) {
        double left = x + PADDING * scale / 2;
        page_text(sheet->page, PAGE_BOLD, size, PAGE_LEFT, left, y + 11 * scale, _(heads[k].first));
        page_text(sheet->page, PAGE_REGULAR, size, PAGE_LEFT, left, y + 19.5 * scale,
                  _(heads[k].second));
        x += sheet->at.column[k];
    }
}

void table_draw(struct sheet *sheet, double y) {
    double right = sheet->at.sheet.width - PAGE_MARGIN;
    double first = y + sheet->at.heads;
    double marks = sheet->at.column[COLUMN_TIP] + sheet->at.column[COLUMN_BUTT];
    double high = sheet->at.heads + sheet->at.row * (double)sheet->of->count;
    page_fill(sheet->page, &(struct page_box){left_of(sheet, COLUMN_TIP), y, marks, high}, 0.92);
    draw_heads(sheet, y);
    page_line(sheet->page, PAGE_MARGIN, first, right, first, 1, 0);
    for (size_t i = 0; i < sheet->of->count; i++) {
        double top = first + sheet->at.row * (double)i;
        draw_row(sheet, i, top);
        page_line(sheet->page, PAGE_MARGIN, top + sheet->at.row, right, top + sheet->at.row, 0.4,
                  0.6);
    }
}

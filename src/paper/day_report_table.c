// Every cut and measure, a row each, with the heads again on every page.

#include "day_report_inner.h"
#include "text.h"
#include "tongue.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define SIZE 8.0
#define ROW 1.45 // in sizes
#define PADDING 8.0

enum column {
    COLUMN_TIME,
    COLUMN_WORKER,
    COLUMN_CLUB,
    COLUMN_SHAFT,
    COLUMN_CUT,
    COLUMN_PLANNED,
    COLUMN_MADE,
    COLUMN_OFF,
    COLUMN_VERDICT,
    COLUMN_COUNT
};
#define CELL_MAX 160
struct cells {
    char text[COLUMN_COUNT][CELL_MAX];
};

static const char *const heads[COLUMN_COUNT] = {
    [COLUMN_TIME] = N_("Time"),   [COLUMN_WORKER] = N_("Worker"), [COLUMN_CLUB] = N_("Club"),
    [COLUMN_SHAFT] = N_("Shaft"), [COLUMN_CUT] = N_("Cut"),       [COLUMN_PLANNED] = N_("Planned"),
    [COLUMN_MADE] = N_("Made"),   [COLUMN_OFF] = N_("Off"),       [COLUMN_VERDICT] = N_("Verdict"),
};

struct table {
    struct flow *flow;
    double size;
    double width[COLUMN_COUNT];
};

static bool to_the_right(int column) {
    return column == COLUMN_PLANNED || column == COLUMN_MADE || column == COLUMN_OFF;
}

// `+0.031` of an inch or `-0.8` millimetres.
static void off_words(const struct flow *flow, const struct day_report_cut *cut, char *buffer) {
    char words[LENGTH_TEXT_MAX];
    buffer[0] = '\0';
    if (cut->made == LENGTH_UNKNOWN || cut->planned == LENGTH_UNKNOWN) {
        return;
    }
    length_nm off = cut->made - cut->planned;
    if (flow->of->metric) {
        length_text_mm(off, 1, words);
    } else {
        length_text_inch(off, 3, words);
    }
    struct text text = text_open(buffer, CELL_MAX);
    text_add(&text, off > 0 ? "+" : "");
    text_add_figure(&text, words);
}

static const char *outcome_words(const struct day_report_cut *cut) {
    if (cut->withdrawn) {
        return _("withdrawn");
    }
    if (cut->open) {
        return _("short, to be decided");
    }
    return verdict_words(cut->verdict);
}

static void fill(const struct flow *flow, const struct day_report_cut *cut, struct cells *cells) {
    memset(cells, 0, sizeof *cells);
    snprintf(cells->text[COLUMN_TIME], CELL_MAX, "%s", cut->time);
    snprintf(cells->text[COLUMN_WORKER], CELL_MAX, "%s", cut->worker);
    snprintf(cells->text[COLUMN_CLUB], CELL_MAX, "%s", cut->club);
    snprintf(cells->text[COLUMN_SHAFT], CELL_MAX, "%s", cut->shaft);
    snprintf(cells->text[COLUMN_CUT], CELL_MAX, "%s", flow_kind(cut->kind));
    flow_length(flow, cut->planned, false, cells->text[COLUMN_PLANNED], CELL_MAX);
    flow_length(flow, cut->made, false, cells->text[COLUMN_MADE], CELL_MAX);
    off_words(flow, cut, cells->text[COLUMN_OFF]);
    snprintf(cells->text[COLUMN_VERDICT], CELL_MAX, "%s", outcome_words(cut));
}

// As wide as the widest cell; what is left goes between them, what lacks off the size.
static void measure(struct table *table) {
    struct flow *flow = table->flow;
    double sum = 0;
    for (int k = 0; k < COLUMN_COUNT; k++) {
        table->width[k] = page_width(flow->page, PAGE_BOLD, SIZE, _(heads[k])) + PADDING;
    }
    for (size_t i = 0; i < flow->of->cut_count; i++) {
        struct cells cells;
        fill(flow, &flow->of->cuts[i], &cells);
        for (int k = 0; k < COLUMN_COUNT; k++) {
            table->width[k] =
                fmax(table->width[k],
                     page_width(flow->page, PAGE_REGULAR, SIZE, cells.text[k]) + PADDING);
        }
    }
    for (int k = 0; k < COLUMN_COUNT; k++) {
        sum += table->width[k];
    }
    double part = fmin(1, flow_width(flow) / sum);
    double more = fmax(0, flow_width(flow) - sum) / COLUMN_COUNT;
    table->size = SIZE * part;
    for (int k = 0; k < COLUMN_COUNT; k++) {
        table->width[k] = table->width[k] * part + more;
    }
}

static void draw(struct table *table, enum page_font font, const char *const text[COLUMN_COUNT]) {
    double x = PAGE_MARGIN;
    double baseline = table->flow->y + table->size;
    for (int k = 0; table->flow->drawn && k < COLUMN_COUNT; k++) {
        double inner = table->width[k] - PADDING * table->size / SIZE;
        page_text(table->flow->page, font, table->size, to_the_right(k) ? PAGE_RIGHT : PAGE_LEFT,
                  to_the_right(k) ? x + inner : x, baseline, text[k]);
        x += table->width[k];
    }
    table->flow->y += SIZE * ROW;
}

static void draw_heads(struct table *table) {
    struct flow *flow = table->flow;
    const char *words[COLUMN_COUNT];
    for (int k = 0; k < COLUMN_COUNT; k++) {
        words[k] = _(heads[k]);
    }
    draw(table, PAGE_BOLD, words);
    if (flow->drawn) {
        double y = flow->y - 1.5;
        page_line(flow->page, PAGE_MARGIN, y, flow->sheet.width - PAGE_MARGIN, y, 0.8, 0);
    }
    flow->y += 2;
}

void flow_cuts(struct flow *flow) {
    struct table table = {.flow = flow};
    flow_heading(flow, flow->of->metric ? _("Cuts, in millimetres") : _("Cuts, in inches"),
                 4 * SIZE * ROW);
    if (flow->of->cut_count == 0) {
        flow_words(flow, PAGE_REGULAR, REPORT_TEXT, _("Nothing was cut."));
        return;
    }
    measure(&table);
    draw_heads(&table);
    for (size_t i = 0; i < flow->of->cut_count; i++) {
        struct cells cells;
        const char *text[COLUMN_COUNT];
        if (flow_need(flow, SIZE * ROW)) {
            draw_heads(&table);
        }
        fill(flow, &flow->of->cuts[i], &cells);
        for (int k = 0; k < COLUMN_COUNT; k++) {
            text[k] = cells.text[k];
        }
        draw(&table, PAGE_REGULAR, text);
        if (flow->drawn) {
            double y = flow->y - 1.2;
            page_line(flow->page, PAGE_MARGIN, y, flow->sheet.width - PAGE_MARGIN, y, 0.25, 0.8);
        }
    }
}

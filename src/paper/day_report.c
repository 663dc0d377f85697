#include "day_report_inner.h"
#include "page_fit.h"
#include "text.h"
#include "tongue.h"

#include <stdio.h>

#define FOOTER 16.0
#define HEADING 11.0

// --- the flow ------------------------------------------------------------------------------------

double flow_width(const struct flow *flow) {
    return flow->sheet.width - 2 * PAGE_MARGIN;
}

static void footer(struct flow *flow) {
    char words[128];
    double y = flow->sheet.height - PAGE_MARGIN - PAGE_DESCENT(REPORT_SMALL);
    double right = flow->sheet.width - PAGE_MARGIN;
    if (!flow->drawn) {
        return;
    }
    page_line(flow->page, PAGE_MARGIN, y - REPORT_SMALL - 2, right, y - REPORT_SMALL - 2, 0.4, 0.6);
    snprintf(words, sizeof words, _("Page %d of %d"), flow->number, flow->pages);
    page_text(flow->page, PAGE_REGULAR, REPORT_SMALL, PAGE_RIGHT, right, y, words);
    snprintf(words, sizeof words, _("Day report, %.60s"), flow->of->title);
    page_text(flow->page, PAGE_REGULAR, REPORT_SMALL, PAGE_LEFT, PAGE_MARGIN, y, words);
}

bool flow_need(struct flow *flow, double height) {
    if (flow->y + height <= flow->sheet.height - PAGE_MARGIN - FOOTER) {
        return false;
    }
    footer(flow);
    if (flow->drawn) {
        page_next(flow->page);
    }
    flow->number++;
    flow->y = PAGE_MARGIN;
    return true;
}

void flow_heading(struct flow *flow, const char *words, double height) {
    flow_need(flow, 2.6 * HEADING + height);
    flow->y += flow->y > PAGE_MARGIN ? 1.1 * HEADING : 0;
    if (flow->drawn) {
        page_text(flow->page, PAGE_BOLD, HEADING, PAGE_LEFT, PAGE_MARGIN, flow->y + HEADING, words);
    }
    flow->y += 1.5 * HEADING;
}

// --- words ---------------------------------------------------------------------------------------

struct words_at {
    struct flow *flow;
    enum page_font font;
    double size;
    double x;
    double y;
};

static void draw_line(void *of, size_t index, const char *words) {
    const struct words_at *at = of;
    page_text(at->flow->page, at->font, at->size, PAGE_LEFT, at->x,
              at->y + at->size * (1 + REPORT_PITCH * (double)index), words);
}

double flow_words_at(struct flow *flow, enum page_font font, double size, double x, double y,
                     double width, const char *words) {
    struct words_at at = {flow, font, size, x, y};
    size_t lines =
        page_wrap(flow->page, font, size, width, words, flow->drawn ? draw_line : NULL, &at);
    return (double)lines * size * REPORT_PITCH;
}

double flow_words(struct flow *flow, enum page_font font, double size, const char *words) {
    double height = flow_words_at(flow, font, size, PAGE_MARGIN, flow->y, flow_width(flow), words);
    flow->y += height;
    return height;
}

void flow_fit(struct flow *flow, enum page_font font, double size, enum page_align align, double x,
              double baseline, double width, const char *words) {
    if (flow->drawn) {
        page_fit(flow->page, font, size, align, x, baseline, width, words);
    }
}

void flow_length(const struct flow *flow, length_nm length, bool unit, char *buffer, size_t size) {
    char words[LENGTH_TEXT_MAX];
    struct text text = text_open(buffer, size);
    if (length == LENGTH_UNKNOWN) {
        return;
    }
    if (flow->of->metric) {
        length_text_mm(length, 1, words);
    } else {
        length_text_fraction(length, words);
    }
    text_add_figure(&text, words);
    if (unit) {
        text_add(&text, " ");
        text_add(&text, flow->of->metric ? T_("unit", "mm") : T_("unit", "in"));
    }
}

const char *flow_kind(enum entry_kind kind) {
    return kind == ENTRY_TIP_CUT    ? T_("cut", "tip")
           : kind == ENTRY_BUTT_CUT ? T_("cut", "butt")
                                    : _("measured");
}

// --- the whole -----------------------------------------------------------------------------------

static void go(struct flow *flow, const struct qr *qr) {
    flow->y = PAGE_MARGIN;
    flow->number = 1;
    flow_head(flow);
    flow_charts(flow);
    flow_cuts(flow);
    flow_decisions(flow);
    flow_seal(flow, qr);
    footer(flow);
    flow->pages = flow->number;
}

bool day_report_write(const struct day_report *report, const char *path,
                      const struct page_watch *watch, size_t *ret_pages, char *message,
                      size_t size) {
    struct flow flow = {.of = report, .sheet = page_sheet(report->paper, true)};
    struct qr qr = {0};
    char title[200];
    if (report->seal->is_signed && !qr_make(report->seal->code, &qr)) {
        snprintf(message, size, "%s", _("Cannot make the code of the checkpoint."));
        return false;
    }
    if (!page_open(path, report->fonts, &flow.page, message, size)) {
        return false;
    }
    snprintf(title, sizeof title, _("Day report, %.60s"), report->title);
    go(&flow, &qr);
    flow.drawn = true;
    page_begin(flow.page, &flow.sheet, title, watch);
    go(&flow, &qr);
    bool done = page_save(flow.page, message, size);
    page_close(flow.page);
    if (done) {
        *ret_pages = (size_t)flow.pages;
    }
    return done;
}

#ifndef DAY_REPORT_INNER_H
#define DAY_REPORT_INNER_H

// What the files of the day report share: a flow of parts, each as high as it says, over as many
// pages as they need. Gone through twice: the first time only counts the pages.

#include "day_report.h"
#include "qr.h"

#define REPORT_SMALL 7.0
#define REPORT_TEXT 8.5
#define REPORT_PITCH 1.3 // lines, in sizes

struct flow {
    const struct day_report *of;
    struct page *page;
    struct page_box sheet;
    double y;   // where the next part begins
    int number; // of this page
    int pages;  // of all, 0: not known yet
    bool drawn; // else only counted
};

// day_report.c
double flow_width(const struct flow *flow);
// Begins the next page unless there is room for so much. True: it did.
bool flow_need(struct flow *flow, double height);
// The heading of a part, which stays with at least `height` of what follows.
void flow_heading(struct flow *flow, const char *words, double height);
// Wrapped words over the whole width, or from x on with a width; returns their height.
double flow_words(struct flow *flow, enum page_font font, double size, const char *words);
double flow_words_at(struct flow *flow, enum page_font font, double size, double x, double y,
                     double width, const char *words);
// One line, made smaller until it fits.
void flow_fit(struct flow *flow, enum page_font font, double size, enum page_align align, double x,
              double baseline, double width, const char *words);
// A length as the bench shows it, with its unit if wanted; empty when not known.
void flow_length(const struct flow *flow, length_nm length, bool unit, char *buffer, size_t size);
const char *flow_kind(enum entry_kind kind); // `tip`, `butt`, `measured`

// day_report_head.c
void flow_head(struct flow *flow);
// day_report_charts.c
void flow_charts(struct flow *flow);
// day_report_bars.c
double bars_height(size_t count);
void bars_draw(struct flow *flow, const struct page_box *box, const char *title,
               const struct cut_cause *causes, size_t count, const char *none);
void hours_draw(struct flow *flow, const struct page_box *box, const int64_t by_hour[24]);
// day_report_table.c
void flow_cuts(struct flow *flow);
// day_report_end.c
void flow_decisions(struct flow *flow);
void flow_seal(struct flow *flow, const struct qr *qr);

#endif

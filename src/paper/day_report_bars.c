// Counts as bars: causes from most to least, cuts by the hour.

#include "cause_text.h"
#include "day_report_inner.h"
#include "text.h"
#include "tongue.h"

#include <math.h>
#include <string.h>

#define TITLE 14.0
#define ROW 11.0
#define NAME 0.52 // of the width
#define COUNT 26.0

double bars_height(size_t count) {
    return TITLE + ROW * (double)(count > 0 ? count : 1);
}

static void count_words(int64_t count, char buffer[32]) {
    struct text text = text_open(buffer, 32);
    text_add_number(&text, count);
}

void bars_draw(struct flow *flow, const struct page_box *box, const char *title,
               const struct cut_cause *causes, size_t count, const char *none) {
    double most = count > 0 ? (double)causes[0].count : 1;
    double left = box->x + box->width * NAME;
    double room = box->width * (1 - NAME) - COUNT;
    if (!flow->drawn) {
        return;
    }
    page_text(flow->page, PAGE_BOLD, REPORT_TEXT, PAGE_LEFT, box->x, box->y + REPORT_TEXT, title);
    if (count == 0) {
        page_text(flow->page, PAGE_REGULAR, REPORT_SMALL + 0.5, PAGE_LEFT, box->x,
                  box->y + TITLE + REPORT_SMALL, none);
    }
    for (size_t i = 0; i < count; i++) {
        double y = box->y + TITLE + ROW * (double)i;
        double wide = room * (double)causes[i].count / most;
        char number[32];
        count_words(causes[i].count, number);
        flow_fit(flow, PAGE_REGULAR, REPORT_SMALL + 0.5, PAGE_LEFT, box->x, y + 7.5,
                 box->width * NAME - 6, cause_text(causes[i].word));
        page_fill(flow->page, &(struct page_box){left, y + 1, wide, ROW - 3.5}, 0.35);
        flow_fit(flow, PAGE_REGULAR, REPORT_SMALL + 0.5, PAGE_LEFT, left + wide + 4, y + 7.5,
                 COUNT - 4, number);
    }
}

void hours_draw(struct flow *flow, const struct page_box *box, const int64_t by_hour[24]) {
    struct page_box area = {box->x, box->y + TITLE + 10, box->width, box->height - TITLE - 20};
    double each = area.width / 24;
    double most = 1;
    if (!flow->drawn) {
        return;
    }
    for (int i = 0; i < 24; i++) {
        most = fmax(most, (double)by_hour[i]);
    }
    page_text(flow->page, PAGE_BOLD, REPORT_TEXT, PAGE_LEFT, box->x, box->y + REPORT_TEXT,
              _("Cuts by the hour"));
    double base = area.y + area.height;
    for (int i = 0; i < 24; i++) {
        double high = area.height * (double)by_hour[i] / most;
        char number[32];
        if (by_hour[i] > 0) {
            count_words(by_hour[i], number);
            page_fill(flow->page,
                      &(struct page_box){area.x + each * i + 0.8, base - high, each - 1.6, high},
                      0.35);
            flow_fit(flow, PAGE_REGULAR, REPORT_SMALL - 1, PAGE_CENTRE, area.x + each * (i + 0.5),
                     base - high - 2, each - 0.6, number);
        }
        if (i % 6 == 0) {
            count_words(i, number);
            page_text(flow->page, PAGE_REGULAR, REPORT_SMALL, PAGE_LEFT, area.x + each * i,
                      base + REPORT_SMALL + 2, number);
        }
    }
    page_text(flow->page, PAGE_REGULAR, REPORT_SMALL, PAGE_RIGHT, area.x + area.width,
              base + REPORT_SMALL + 2, "24");
    page_line(flow->page, area.x, base, area.x + area.width, base, 0.5, 0.3);
}

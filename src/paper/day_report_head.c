// Whose day it was, its figures, its people.

#include "day_report_inner.h"
#include "text.h"
#include "tongue.h"

#include <math.h>
#include <stdio.h>

#define TITLE 19.0
#define FIGURE 20.0
#define FIGURES 52.0

static void figures(struct flow *flow) {
    const struct workday *sum = flow->of->sum;
    const struct {
        const char *words;
        int64_t count;
    } cells[] = {
        {_("clubs done"), sum->done},          {_("cuts"), sum->cuts},
        {_("out of tolerance"), sum->out},     {_("stops"), sum->cut.holds},
        {_("shafts lost"), sum->cut.scrapped}, {_("to be decided"), sum->open},
    };
    const size_t count = sizeof cells / sizeof cells[0];
    double each = flow_width(flow) / (double)count;
    for (size_t i = 0; flow->drawn && i < count; i++) {
        double x = PAGE_MARGIN + each * (double)i;
        char number[32];
        struct text text = text_open(number, sizeof number);
        text_add_number(&text, cells[i].count);
        page_fill(flow->page, &(struct page_box){x + 1.5, flow->y, each - 3, FIGURES - 8}, 0.93);
        flow_fit(flow, PAGE_BOLD, FIGURE, PAGE_CENTRE, x + each / 2, flow->y + 23, each - 14,
                 number);
        flow_fit(flow, PAGE_REGULAR, REPORT_TEXT, PAGE_CENTRE, x + each / 2, flow->y + 36,
                 each - 10, cells[i].words);
    }
    flow->y += FIGURES;
}

// `Cut by: W-00029 Ida Brandt (12 cuts)`
static void people(struct flow *flow) {
    char words[PARTS_NAME_MAX + 200];
    for (size_t i = 0; i < flow->of->person_count; i++) {
        const struct day_report_person *person = &flow->of->people[i];
        struct text text = text_open(words, sizeof words);
        // TRANSLATORS: %2 a badge, %3 a name.
        text_say(&text,
                 person->name[0] != '\0'
                     ? tongue_plural("%2 %3: %1 cut", "%2 %3: %1 cuts", (unsigned long)person->cuts)
                     : tongue_plural("%2: %1 cut", "%2: %1 cuts", (unsigned long)person->cuts),
                 text_number(person->cuts).digits,
                 person->badge[0] != '\0' ? person->badge : _("no badge"), person->name);
        flow_need(flow, REPORT_TEXT * REPORT_PITCH);
        flow_words(flow, PAGE_REGULAR, REPORT_TEXT, words);
    }
}

void flow_head(struct flow *flow) {
    char words[160];
    double right = flow->sheet.width - PAGE_MARGIN;
    snprintf(words, sizeof words, _("Printed %.40s"), flow->of->printed);
    if (flow->drawn) {
        page_text(flow->page, PAGE_BOLD, REPORT_TEXT, PAGE_LEFT, PAGE_MARGIN, flow->y + REPORT_TEXT,
                  _("Day report"));
        page_text(flow->page, PAGE_REGULAR, REPORT_TEXT, PAGE_RIGHT, right, flow->y + REPORT_TEXT,
                  words);
    }
    flow->y += 1.7 * REPORT_TEXT;
    flow_fit(flow, PAGE_BOLD, TITLE, PAGE_LEFT, PAGE_MARGIN, flow->y + 0.86 * TITLE,
             flow_width(flow), flow->of->title);
    flow->y += 1.3 * TITLE;
    flow_words(flow, PAGE_REGULAR, REPORT_TEXT + 1, flow->of->bench);
    flow->y += 7;
    figures(flow);
    people(flow);
}

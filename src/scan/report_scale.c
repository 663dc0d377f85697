// What a line of a scale says, and what to change when it cannot be read.

#include "report.h"

#include "text.h"
#include "tongue.h"

#include <stdio.h>

static void tell_weight(const struct scale_reading *reading, struct scan_report *r) {
    // TRANSLATORS: %1 a weight on the scale; gross and net: with and without the tare.
    static const char *const says[SCALE_NET + 1][2] = {
        [SCALE_LOAD_UNSAID] = {N_("%1, not stable."), N_("%1, stable.")},
        [SCALE_GROSS] = {N_("%1, gross, not stable."), N_("%1, gross, stable.")},
        [SCALE_NET] = {N_("%1, net, not stable."), N_("%1, net, stable.")}};
    struct text text = text_open(r->verdict_text, sizeof r->verdict_text);
    char mass[LENGTH_TEXT_MAX];
    struct text grams = text_open(mass, sizeof mass);
    text_add_mass(&grams, reading->mass);
    text_say(&text, _(says[reading->load][reading->stable ? 1 : 0]), mass);
}

void report_scale(const struct scale_reading *reading, struct scan_report *ret_report) {
    struct scan_report r = {.total_us = -1, .gap_mean_us = -1, .gap_most_us = -1};
    snprintf(r.source, sizeof r.source, "%s", REPORT_SCALE);
    snprintf(r.text, sizeof r.text, "%s", reading->line);
    switch (reading->kind) {
    case SCALE_WEIGHT:
        r.verdict = REPORT_GOOD;
        tell_weight(reading, &r);
        break;
    case SCALE_OVER:
        r.verdict = REPORT_WORKS;
        snprintf(r.verdict_text, sizeof r.verdict_text, "%s",
                 _("Beyond what the scale can weigh."));
        break;
    case SCALE_REFUSED:
        r.verdict = REPORT_BAD;
        snprintf(r.verdict_text, sizeof r.verdict_text, "%s", _("The scale sent no weight."));
        snprintf(r.advice[r.advice_count++], REPORT_TEXT_MAX, "%s", reading->why);
        break;
    }
    *ret_report = r;
}

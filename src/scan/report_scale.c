// What a line of a scale says, and what to change when it cannot be read.

#include "report.h"

#include "text.h"

#include <stdio.h>

static void tell_weight(const struct scale_reading *reading, struct scan_report *r) {
    static const char *const loads[] = {
        [SCALE_LOAD_UNSAID] = "", [SCALE_GROSS] = ", gross", [SCALE_NET] = ", net"};
    struct text text = text_open(r->verdict_text, sizeof r->verdict_text);
    text_add_mass(&text, reading->mass);
    text_add(&text, loads[reading->load]);
    text_add(&text, reading->stable ? ", stable." : ", not stable.");
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
        snprintf(r.verdict_text, sizeof r.verdict_text, "Beyond what the scale can weigh.");
        break;
    case SCALE_REFUSED:
        r.verdict = REPORT_BAD;
        snprintf(r.verdict_text, sizeof r.verdict_text, "The scale sent no weight.");
        snprintf(r.advice[r.advice_count++], REPORT_TEXT_MAX, "%s", reading->why);
        break;
    }
    *ret_report = r;
}

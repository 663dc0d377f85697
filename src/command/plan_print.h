#ifndef PLAN_PRINT_H
#define PLAN_PRINT_H

// A planned club as text for a person, as a CSV row and as a JSON object. The last two are stable
// for scripts: columns and keys are only ever added at the end.

#include "estimate.h"

#include <stdio.h>

struct plan_print {
    struct club club;
    struct plan_input input; // points into club
    struct plan plan;
    bool planned;
    const char *missing; // NULL, or the part that is not reserved: "head" or "shaft"
    struct assembly assembly;
    struct estimate estimate;
};

// Plans print->club.
void plan_print_make(struct plan_print *print, const struct bench_rules *rules,
                     const struct assembly *assembly);

// Why there is no plan, in words; empty for a valid one.
void plan_print_refusal(const struct plan_print *print, char *buffer, size_t size);
const char *plan_print_refusal_code(const struct plan_print *print);

// The name of the chart's column; empty: none.
const char *plan_print_column(const struct plan_print *print);

// What is not known of the estimates, `swingweight: shaft weight not known`: calls `each` for every
// one.
void plan_print_gaps(const struct plan_print *print, void (*each)(void *of, const char *words),
                     void *of);

// With `moments`, what makes the swingweight stands below, to be redone by hand.
void plan_print_receipt(const struct plan_print *print, bool moments, FILE *to);
void plan_print_estimates(const struct plan_print *print, bool moments, FILE *to);
// One line of the receipt: a figure with its unit at the right.
void plan_print_figure(FILE *to, const char *words, const char *figure);
void plan_print_csv_header(FILE *to);
void plan_print_csv(const struct plan_print *print, FILE *to);
void plan_print_json(const struct plan_print *print, FILE *to);

#endif

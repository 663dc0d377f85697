#ifndef PLAN_PRINT_H
#define PLAN_PRINT_H

// A planned club as text for a person, as a CSV row and as a JSON object. The last two are stable
// for scripts: columns and keys are only ever added at the end.

#include "club.h"

#include <stdio.h>

struct plan_print {
    struct club club;
    struct plan_input input; // points into club
    struct plan plan;
    bool planned;
    const char *missing; // NULL, or the part that is not reserved: "head" or "shaft"
};

// Plans print->club.
void plan_print_make(struct plan_print *print, const struct bench_rules *rules);

// Why there is no plan, in words; empty for a valid one.
void plan_print_refusal(const struct plan_print *print, char *buffer, size_t size);
const char *plan_print_refusal_code(const struct plan_print *print);

void plan_print_receipt(const struct plan_print *print, FILE *to);
void plan_print_csv_header(FILE *to);
void plan_print_csv(const struct plan_print *print, FILE *to);
void plan_print_json(const struct plan_print *print, FILE *to);

#endif

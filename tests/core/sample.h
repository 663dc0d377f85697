#ifndef SAMPLE_H
#define SAMPLE_H

// One invented club that plans without a warning, for tests to bend: a 4-column chart of woods,
// 200 to 230 g, head of 210 g, bore height 1 in, no bore note.

#include "club.h"

#define IN(whole, numerator, denominator)                                                          \
    ((length_nm)(whole)*LENGTH_INCH + LENGTH_INCH / (denominator) * (numerator))
#define GRAMS(count) ((mass_mg)(count)*MASS_GRAM)

struct sample {
    struct head head;
    struct shaft shaft;
    struct shaft_model model;
    struct chart chart;
    struct order order;
    struct bench_rules rules;
    length_nm tip_made;
};

struct sample sample_make(void);
struct plan_input sample_input(const struct sample *sample);

// xorshift64*, seeded: the same numbers on every run.
uint64_t sample_random(uint64_t *state);
int64_t sample_between(uint64_t *state, int64_t low, int64_t high);

#endif

#ifndef RUNS_H
#define RUNS_H

// Run rules on a control chart: when a row of points is so unlikely by chance that somebody should
// look. The Western Electric rules as NIST/SEMATECH e-Handbook 6.3.2 lists them, both sides, and
// its two trend rules. Sigma is that of single points (moving range / 1.128).

#include <stddef.h>

#define RUN_RULES(X)                                                                               \
    X(NONE, "")                                                                                    \
    X(BEYOND, "a point beyond 3 sigma")                                                            \
    X(TWO_OF_THREE, "2 of 3 points beyond 2 sigma on one side")                                    \
    X(FOUR_OF_FIVE, "4 of 5 points beyond 1 sigma on one side")                                    \
    X(EIGHT, "8 points in a row on one side")                                                      \
    X(TREND, "6 points in a row rising or falling")                                                \
    X(SAW, "14 points in a row up and down by turns")
enum run_rule {
#define X(name, words) RUN_##name,
    RUN_RULES(X)
#undef X
        RUN_RULE_COUNT
};
const char *run_rule_words(enum run_rule rule);

// The first rule, in the order above, that the point at `at` completes; earlier points count, later
// ones do not. Sigma 0 or less: only rules that need none (EIGHT, TREND, SAW).
enum run_rule runs_at(const double *value, size_t at, double centre, double sigma);

// The last point of `count` that completes a rule, and which; RUN_NONE: no point does.
enum run_rule runs_last(const double *value, size_t count, double centre, double sigma,
                        size_t *ret_at);

#endif

#ifndef STATISTICS_H
#define STATISTICS_H

// Figures of a row of values in the order they were made: made minus planned, say, in whatever
// unit the caller likes. Pure, no allocation. Each returns false, and touches nothing, when the
// figure is not known: too few values, or one that is no finite number.

#include <stdbool.h>
#include <stddef.h>

// One value or more.
bool statistics_mean(const double *values, size_t count, double *ret_mean);

// Two values or more, denominator n - 1. In two passes, the squares taken about a mean that is
// right to its last digit (Chan, Golub, LeVeque, The American Statistician 37(3), 1983), so that
// values which differ in their last digits only keep them.
bool statistics_deviation(const double *values, size_t count, double *ret_deviation);

// Individuals and moving-range chart, ranges of two neighbours (NIST/SEMATECH e-Handbook 6.3.2.2).
// The factors are the published ones, d2 = 1.128 and D4 = 3.267, because people check the limits by
// hand against a table; the exact d2 = 2/sqrt(pi) narrows the limits by 0.03 %.
struct statistics_limits {
    double mean;
    double low; // mean -+ 3 / 1.128 of the mean range
    double high;
    double range_mean;
    double range_high; // 3.267 of the mean range; the low limit of ranges is 0
};

// Two values or more.
bool statistics_limits(const double *values, size_t count, struct statistics_limits *ret_limits);

// How well the spread fits between two limits (e-Handbook 6.1.6).
struct statistics_capability {
    double cp;  // (high - low) / 6 deviations
    double cpk; // the nearer limit's distance from the mean / 3 deviations; negative beyond it
};

// Not known unless low < high and deviation > 0: where nothing varies there is nothing to divide
// by.
bool statistics_capability(double low, double high, double mean, double deviation,
                           struct statistics_capability *ret_capability);

#endif

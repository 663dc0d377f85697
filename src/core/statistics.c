#include "statistics.h"

#include <math.h>

#define RANGE_D2 1.128
#define RANGE_D4 3.267

bool statistics_mean(const double *values, size_t count, double *ret_mean) {
    double sum = 0;
    double rest = 0;
    double mean;
    if (count == 0) {
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        sum += values[i];
    }
    mean = sum / (double)count;
    // What adding up lost comes back as the mean of the differences, which is small.
    for (size_t i = 0; i < count; i++) {
        rest += values[i] - mean;
    }
    mean += rest / (double)count;
    if (!isfinite(mean)) {
        return false;
    }
    *ret_mean = mean;
    return true;
}

bool statistics_deviation(const double *values, size_t count, double *ret_deviation) {
    double squares = 0;
    double mean;
    if (count < 2 || !statistics_mean(values, count, &mean)) {
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        squares += (values[i] - mean) * (values[i] - mean);
    }
    if (!isfinite(squares)) {
        return false;
    }
    *ret_deviation = sqrt(squares / (double)(count - 1));
    return true;
}

bool statistics_limits(const double *values, size_t count, struct statistics_limits *ret_limits) {
    double ranges = 0;
    double mean;
    double range_mean;
    if (count < 2 || !statistics_mean(values, count, &mean)) {
        return false;
    }
    for (size_t i = 1; i < count; i++) {
        ranges += fabs(values[i] - values[i - 1]);
    }
    range_mean = ranges / (double)(count - 1);
    if (!isfinite(range_mean * RANGE_D4)) {
        return false;
    }
    *ret_limits = (struct statistics_limits){
        .mean = mean,
        .low = mean - 3 / RANGE_D2 * range_mean,
        .high = mean + 3 / RANGE_D2 * range_mean,
        .range_mean = range_mean,
        .range_high = RANGE_D4 * range_mean,
    };
    return true;
}

bool statistics_capability(double low, double high, double mean, double deviation,
                           struct statistics_capability *ret_capability) {
    double nearer = high - mean < mean - low ? high - mean : mean - low;
    // Written so that a value which is no number refuses too.
    if (!(low < high && deviation > 0) || !isfinite(high - low) || !isfinite(deviation) ||
        !isfinite(mean)) {
        return false;
    }
    *ret_capability = (struct statistics_capability){
        .cp = (high - low) / (6 * deviation),
        .cpk = nearer / (3 * deviation),
    };
    return true;
}

#include "runs.h"

#include "tongue.h"

#include <math.h>
#include <stdbool.h>

static const char *const words[RUN_RULE_COUNT] = {
#define X(name, words) [RUN_##name] = words,
    RUN_RULES(X)
#undef X
};

const char *run_rule_words(enum run_rule rule) {
    return _(words[rule]);
}

// `wanted` of the `of` points that end at `at` lie beyond `distance` on the side of the one at
// `at`.
static bool crowd(const double *value, size_t at, double centre, double distance, size_t wanted,
                  size_t of) {
    double side = value[at] > centre ? 1 : -1;
    size_t found = 0;
    if (fabs(value[at] - centre) <= distance) {
        return false;
    }
    for (size_t back = 0; back < of && back <= at; back++) {
        found += side * (value[at - back] - centre) > distance ? 1 : 0;
    }
    return found >= wanted;
}

static int step(const double *value, size_t at) {
    return (value[at] > value[at - 1]) - (value[at] < value[at - 1]);
}

// The last `points` go one way all the time (`turn` 1), or the other way each time (-1).
static bool steps(const double *value, size_t at, size_t points, int turn) {
    int last;
    if (at + 1 < points) {
        return false;
    }
    last = step(value, at);
    for (size_t back = 1; back < points - 1; back++) {
        int now = step(value, at - back);
        if (now != last * turn) {
            return false;
        }
        last = now;
    }
    return last != 0;
}

enum run_rule runs_at(const double *value, size_t at, double centre, double sigma) {
    if (sigma > 0 && crowd(value, at, centre, 3 * sigma, 1, 1)) {
        return RUN_BEYOND;
    }
    if (sigma > 0 && crowd(value, at, centre, 2 * sigma, 2, 3)) {
        return RUN_TWO_OF_THREE;
    }
    if (sigma > 0 && crowd(value, at, centre, sigma, 4, 5)) {
        return RUN_FOUR_OF_FIVE;
    }
    if (crowd(value, at, centre, 0, 8, 8)) {
        return RUN_EIGHT;
    }
    if (steps(value, at, 6, 1)) {
        return RUN_TREND;
    }
    return steps(value, at, 14, -1) ? RUN_SAW : RUN_NONE;
}

enum run_rule runs_last(const double *value, size_t count, double centre, double sigma,
                        size_t *ret_at) {
    for (size_t at = count; at > 0; at--) {
        enum run_rule rule = runs_at(value, at - 1, centre, sigma);
        if (rule != RUN_NONE) {
            *ret_at = at - 1;
            return rule;
        }
    }
    return RUN_NONE;
}

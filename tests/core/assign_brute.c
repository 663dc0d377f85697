#include "assign_brute.h"

#include <stdlib.h>

// Word for word what the header of assign.h asks for.
bool brute_value(const struct assign_problem *problem, const int *column, int64_t *ret_spread,
                 int64_t *ret_squares4) {
    int64_t low = INT64_MAX;
    int64_t high = INT64_MIN;
    int64_t squares4 = 0;
    for (size_t a = 0; a < problem->rows; a++) {
        if (column[a] >= 0) {
            int64_t value = problem->value[a * problem->columns + (size_t)column[a]];
            if (value == ASSIGN_NONE) {
                return false;
            }
            for (size_t b = 0; b < a; b++) {
                if (column[b] == column[a]) {
                    return false;
                }
            }
            low = value < low ? value : low;
            high = value > high ? value : high;
        }
    }
    for (size_t row = 0; row < problem->rows; row++) {
        if (column[row] >= 0) {
            int64_t value = problem->value[row * problem->columns + (size_t)column[row]];
            int64_t twice = problem->aim == ASSIGN_AIM_MIDDLE ? 2 * value - low - high : 2 * value;
            squares4 += twice * twice;
        }
    }
    *ret_spread = low > high ? 0 : high - low;
    *ret_squares4 = squares4;
    return true;
}

struct trial {
    int column[BRUTE_ROWS_MAX];
    int64_t spread;
    int64_t squares4;
};

// Which is better, the order of columns left out: first rows matched, spread, squares.
static int compare(size_t rows, const struct trial *a, const struct trial *b) {
    for (size_t row = 0; row < rows; row++) {
        if ((a->column[row] < 0) != (b->column[row] < 0)) {
            return a->column[row] < 0 ? 1 : -1;
        }
    }
    if (a->spread != b->spread) {
        return a->spread < b->spread ? -1 : 1;
    }
    return a->squares4 < b->squares4 ? -1 : a->squares4 > b->squares4;
}

struct brute brute_solve(const struct assign_problem *problem) {
    struct brute result = {0};
    struct trial best = {.column = {-1, -1, -1, -1, -1}};
    size_t trials = 1;
    for (size_t row = 0; row < problem->rows; row++) {
        trials *= problem->columns + 1;
    }
    // Row 0 counts slowest and "no column" comes last, so the first of equals is the first in
    // order.
    for (size_t number = 0; number < trials; number++) {
        struct trial trial;
        size_t rest = number;
        int order;
        for (size_t row = problem->rows; row-- > 0;) {
            size_t digit = rest % (problem->columns + 1);
            trial.column[row] = digit == problem->columns ? -1 : (int)digit;
            rest /= problem->columns + 1;
        }
        if (!brute_value(problem, trial.column, &trial.spread, &trial.squares4)) {
            continue;
        }
        order = compare(problem->rows, &trial, &best);
        if (order < 0) {
            best = trial;
        }
        for (size_t row = 0; row < problem->rows; row++) {
            result.open[row] =
                order >= 0 &&
                (result.open[row] || (order == 0 && trial.column[row] != best.column[row]));
        }
    }
    for (size_t row = 0; row < problem->rows; row++) {
        result.column[row] = best.column[row];
        result.matched += best.column[row] >= 0 ? 1 : 0;
    }
    result.spread = best.spread;
    result.squares4 = best.squares4;
    return result;
}

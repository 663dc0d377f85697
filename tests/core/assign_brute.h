#ifndef ASSIGN_BRUTE_H
#define ASSIGN_BRUTE_H

// What assign_solve must find, by trying every choice there is: for small problems only.

#include "assign.h"

#define BRUTE_ROWS_MAX 5
#define BRUTE_COLUMNS_MAX 7

struct brute {
    int column[BRUTE_ROWS_MAX]; // of the best choice, as assign.h orders them
    bool open[BRUTE_ROWS_MAX];  // a choice as good but for the order of columns differs here
    size_t matched;
    int64_t spread;
    int64_t squares4;
};

struct brute brute_solve(const struct assign_problem *problem);

// Spread and squares of one choice, -1 for a row without a column; false if a cell is not usable
// or a column is used twice.
bool brute_value(const struct assign_problem *problem, const int *column, int64_t *ret_spread,
                 int64_t *ret_squares4);

#endif

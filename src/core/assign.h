#ifndef ASSIGN_H
#define ASSIGN_H

// The balanced assignment problem: every row gets a column of its own so that the spread, largest
// minus smallest value, is least; among those, the sum of the squared distances from an aim is
// least; among those, row 0 has the lowest column, then row 1, and so on.
//
// Spread: a window moves over the sorted values and a matching is mended as cells enter and leave
// (Martello, Pulleyblank, Toth, de Werra, Balanced optimization problems, Operations Research
// Letters 3(5), 1984). Squares: shortest augmenting paths with duals (Kuhn 1955, Munkres 1957,
// Jonker and Volgenant 1987) over the cells of each window that has the least spread. Ties:
// alternating cycles over the cells without reduced cost.
//
// Whole numbers only, so that "just as good" means equal. No allocation, no globals; the caller
// keeps the work space (about 0.4 MB), which holds nothing between calls.

#include "assign_work.h"

// A cell that must not be used.
#define ASSIGN_NONE INT32_MIN
// All other cells lie within this, both ways, so that squares and their sums fit.
#define ASSIGN_VALUE_MAX 10000000

#define ASSIGN_NO_COLUMN (-1)

enum assign_aim {
    ASSIGN_AIM_ZERO,  // values are distances from what is wished
    ASSIGN_AIM_MIDDLE // nothing is wished but likeness: distances from the middle of the window,
                      // half way between the smallest and the largest value used
};

struct assign_problem {
    const int32_t *value; // row after row
    size_t rows;
    size_t columns;
    enum assign_aim aim;
};

// Sets of rows are masks of 1u << row.
struct assign_row {
    int column; // or ASSIGN_NO_COLUMN
    // Without a column: these rows, this one among them, have together one usable column too few
    // (Hall 1935). A row stays without one only when every row before it that can have one does.
    uint32_t short_of;
    uint32_t swaps; // rows that could trade columns with this one, the rest staying: just as good
    bool open;      // some choice just as good gives this row another column
};

struct assign_result {
    struct assign_row row[ASSIGN_ROWS_MAX];
    size_t matched;
    int32_t low; // smallest and largest value used; 0 when nothing is matched
    int32_t high;
    int64_t squares4; // four times the sum of squared distances from the aim, which is exact
};

// False, and nothing is written to *ret_result, when a limit above is exceeded. Rows that cannot
// all have a column are no failure: as many as possible are matched.
bool assign_solve(const struct assign_problem *problem, struct assign_work *work,
                  struct assign_result *ret_result);

#endif

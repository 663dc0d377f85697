#ifndef ASSIGN_WORK_H
#define ASSIGN_WORK_H

// Work space and steps of assign.h; nothing here is for its callers but the size.

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define ASSIGN_ROWS_MAX 30
#define ASSIGN_COLUMNS_MAX 1000
#define ASSIGN_CELLS_MAX (ASSIGN_ROWS_MAX * ASSIGN_COLUMNS_MAX)
#define ASSIGN_WORDS ((ASSIGN_COLUMNS_MAX + 63) / 64)

struct assign_problem;

// A matching over cells that come and go.
struct assign_pairs {
    uint64_t cell[ASSIGN_ROWS_MAX][ASSIGN_WORDS]; // bits of columns
    uint64_t taken[ASSIGN_WORDS];
    int column[ASSIGN_ROWS_MAX]; // ASSIGN_NO_COLUMN: none
    uint32_t bare;               // rows that want a column and have none
};

void assign_pairs_init(struct assign_pairs *pairs, uint32_t rows);
void assign_pairs_add(struct assign_pairs *pairs, size_t row, size_t column);
// The row becomes bare when this was its column.
void assign_pairs_remove(struct assign_pairs *pairs, size_t row, size_t column);
// Gives a bare row a column by an augmenting path. False: the rows in *ret_reached, `row` among
// them, can use no columns but those that the others of them hold.
bool assign_pairs_augment(struct assign_pairs *pairs, size_t row, uint32_t *ret_reached);

// One window: cells from low to high, squared distances from half of `centre2`. Rows and columns
// count from 1 in the order of the problem; node 0 stands for all unused columns together.
struct assign_window {
    size_t rows;
    size_t columns; // those with a cell in the window
    int32_t low;
    int32_t high;
    int64_t centre2;
    size_t row[ASSIGN_ROWS_MAX + 1];
    size_t column[ASSIGN_COLUMNS_MAX + 1];
    int64_t row_dual[ASSIGN_ROWS_MAX + 1];
    int64_t column_dual[ASSIGN_COLUMNS_MAX + 1]; // never positive; 0 for an unused column
    size_t owner[ASSIGN_COLUMNS_MAX + 1];        // row, 0 none
    size_t held[ASSIGN_ROWS_MAX + 1];            // column
    int64_t slack[ASSIGN_COLUMNS_MAX + 1];
    size_t way[ASSIGN_COLUMNS_MAX + 1];
    bool done[ASSIGN_COLUMNS_MAX + 1];
};

struct assign_work {
    uint64_t key[ASSIGN_CELLS_MAX]; // value, row, column, to be sorted
    int32_t low[ASSIGN_CELLS_MAX];  // where windows of the least spread begin
    struct assign_pairs pairs;
    struct assign_window window;
};

// Fills work->low, rising, with every window of the least spread in which all of `rows` can be
// matched, and returns how many. There must be such a window. Every matching inside one has exactly
// that spread, so no two windows share one.
size_t assign_spread(const struct assign_problem *problem, uint32_t rows, struct assign_work *work,
                     int32_t *ret_spread);

// Sets up the window and returns a bound that its least cost cannot be below.
int64_t assign_window_init(struct assign_window *window, const struct assign_problem *problem,
                           uint32_t rows, int32_t low, int32_t high);
// Finds the least cost; the duals prove it.
int64_t assign_window_solve(struct assign_window *window, const struct assign_problem *problem);
// Row and column from 1. *ret_cost only if the cell lies in the window.
bool assign_window_cost(const struct assign_window *window, const struct assign_problem *problem,
                        size_t row, size_t column, int64_t *ret_cost);

// Of all matchings of the window's least cost, takes the first in the order of columns.
void assign_ties_first(struct assign_window *window, const struct assign_problem *problem);
// Rows of the problem that another matching of the least cost gives another column.
uint32_t assign_ties_open(const struct assign_window *window, const struct assign_problem *problem);

#endif

// Which other matchings of one window cost the same. All of them, and only they, use cells without
// reduced cost and keep every column busy whose dual is not 0. So they differ from the one at hand
// by cycles: a row takes the column of the next row, or an unused one, whose place in the pool of
// unused columns (node 0) is taken by a column with dual 0.

#include "assign.h"

#define POOL 0

static bool tight(const struct assign_window *window, const struct assign_problem *problem,
                  size_t row, size_t column) {
    int64_t cost;
    return assign_window_cost(window, problem, row, column, &cost) &&
           cost == window->row_dual[row] + window->column_dual[column];
}

// The first unused column that the row could take, 0 none.
static size_t spare(const struct assign_window *window, const struct assign_problem *problem,
                    size_t row) {
    for (size_t column = 1; column <= window->columns; column++) {
        if (window->owner[column] == 0 && tight(window, problem, row, column)) {
            return column;
        }
    }
    return 0;
}

static bool takes(const struct assign_window *window, const struct assign_problem *problem,
                  size_t node, size_t other) {
    if (other == POOL) {
        return spare(window, problem, node) != 0;
    }
    if (node == POOL) {
        return window->column_dual[window->held[other]] == 0;
    }
    return tight(window, problem, node, window->held[other]);
}

// The nodes from which a chain of such moves ends at `goal`, through rows from `first` on only;
// next[] is each node's next on a shortest chain.
static uint32_t chains(const struct assign_window *window, const struct assign_problem *problem,
                       size_t goal, size_t first, size_t next[ASSIGN_ROWS_MAX + 1]) {
    size_t queue[ASSIGN_ROWS_MAX + 1] = {goal};
    size_t queued = 1;
    uint32_t seen = 1u << goal;
    for (size_t i = 0; i < queued; i++) {
        for (size_t node = 0; node <= window->rows; node++) {
            if ((node == POOL || node >= first) && (seen >> node & 1) == 0 &&
                takes(window, problem, node, queue[i])) {
                seen |= 1u << node;
                next[node] = queue[i];
                queue[queued++] = node;
            }
        }
    }
    return seen;
}

static void take(struct assign_window *window, size_t node, size_t column) {
    window->owner[column] = node;
    window->held[node] = column;
}

// `row` takes `column`; whoever had it takes what the next one had, until `row`'s own is taken.
static void turn(struct assign_window *window, const struct assign_problem *problem, size_t row,
                 size_t column, const size_t next[ASSIGN_ROWS_MAX + 1]) {
    size_t left = window->held[row];
    size_t node = window->owner[column];
    take(window, row, column);
    while (node != row) {
        size_t after = next[node];
        size_t gained = after == row    ? left
                        : after == POOL ? spare(window, problem, node)
                                        : window->held[after];
        take(window, node, gained);
        node = after;
    }
}

void assign_ties_first(struct assign_window *window, const struct assign_problem *problem) {
    for (size_t row = 1; row <= window->rows; row++) {
        size_t next[ASSIGN_ROWS_MAX + 1] = {0};
        uint32_t closing = chains(window, problem, row, row, next);
        for (size_t column = 1; column < window->held[row]; column++) {
            if ((closing >> window->owner[column] & 1) != 0 &&
                tight(window, problem, row, column)) {
                turn(window, problem, row, column, next);
                break;
            }
        }
    }
}

uint32_t assign_ties_open(const struct assign_window *window,
                          const struct assign_problem *problem) {
    uint32_t open = 0;
    for (size_t row = 1; row <= window->rows; row++) {
        size_t next[ASSIGN_ROWS_MAX + 1] = {0};
        uint32_t closing = chains(window, problem, row, 1, next);
        for (size_t column = 1; column <= window->columns; column++) {
            if (column != window->held[row] && (closing >> window->owner[column] & 1) != 0 &&
                tight(window, problem, row, column)) {
                open |= 1u << window->row[row];
                break;
            }
        }
    }
    return open;
}

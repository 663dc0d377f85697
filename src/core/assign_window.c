// Least squares inside one window: shortest augmenting paths, one row after another, with duals.

#include "assign.h"

#define FAR (INT64_MAX / 4)

bool assign_window_cost(const struct assign_window *window, const struct assign_problem *problem,
                        size_t row, size_t column, int64_t *ret_cost) {
    int32_t value = problem->value[window->row[row] * problem->columns + window->column[column]];
    int64_t apart = 2 * (int64_t)value - window->centre2;
    // ASSIGN_NONE lies below every window.
    if (value < window->low || value > window->high) {
        return false;
    }
    *ret_cost = apart * apart;
    return true;
}

static bool used(const struct assign_window *window, const struct assign_problem *problem,
                 size_t column) {
    for (size_t row = 1; row <= window->rows; row++) {
        int32_t value = problem->value[window->row[row] * problem->columns + column];
        if (value >= window->low && value <= window->high) {
            return true;
        }
    }
    return false;
}

int64_t assign_window_init(struct assign_window *window, const struct assign_problem *problem,
                           uint32_t rows, int32_t low, int32_t high) {
    int64_t bound = 0;
    window->rows = 0;
    window->columns = 0;
    window->low = low;
    window->high = high;
    window->centre2 = problem->aim == ASSIGN_AIM_MIDDLE ? (int64_t)low + high : 0;
    for (size_t row = 0; row < problem->rows; row++) {
        if ((rows >> row & 1) != 0) {
            window->row[++window->rows] = row;
        }
    }
    for (size_t column = 0; column < problem->columns; column++) {
        if (used(window, problem, column)) {
            window->column[++window->columns] = column;
        }
    }
    for (size_t row = 1; row <= window->rows; row++) {
        int64_t least = FAR;
        int64_t cost;
        for (size_t column = 1; column <= window->columns; column++) {
            if (assign_window_cost(window, problem, row, column, &cost) && cost < least) {
                least = cost;
            }
        }
        bound += least;
    }
    return bound;
}

// From the column reached last, looks along its row; returns the nearest column not done yet.
static size_t reach(struct assign_window *window, const struct assign_problem *problem,
                    size_t from) {
    size_t row = window->owner[from];
    int64_t nearest = FAR;
    size_t next = 0;
    int64_t cost;
    window->done[from] = true;
    for (size_t column = 1; column <= window->columns; column++) {
        if (window->done[column]) {
            continue;
        }
        if (assign_window_cost(window, problem, row, column, &cost)) {
            cost -= window->row_dual[row] + window->column_dual[column];
            if (cost < window->slack[column]) {
                window->slack[column] = cost;
                window->way[column] = from;
            }
        }
        if (window->slack[column] < nearest) {
            nearest = window->slack[column];
            next = column;
        }
    }
    for (size_t column = 0; column <= window->columns; column++) {
        if (window->done[column]) {
            window->row_dual[window->owner[column]] += nearest;
            window->column_dual[column] -= nearest;
        } else if (window->slack[column] < FAR) {
            window->slack[column] -= nearest;
        }
    }
    return next;
}

// Column 0 stands for the row that seeks one; its dual gathers what the matching costs.
static void place(struct assign_window *window, const struct assign_problem *problem, size_t row) {
    size_t at = 0;
    for (size_t column = 0; column <= window->columns; column++) {
        window->slack[column] = FAR;
        window->done[column] = false;
    }
    window->owner[0] = row;
    do {
        at = reach(window, problem, at);
    } while (window->owner[at] != 0);
    while (at != 0) {
        size_t before = window->way[at];
        window->owner[at] = window->owner[before];
        at = before;
    }
}

int64_t assign_window_solve(struct assign_window *window, const struct assign_problem *problem) {
    for (size_t row = 0; row <= window->rows; row++) {
        window->row_dual[row] = 0;
    }
    for (size_t column = 0; column <= window->columns; column++) {
        window->column_dual[column] = 0;
        window->owner[column] = 0;
    }
    for (size_t row = 1; row <= window->rows; row++) {
        place(window, problem, row);
    }
    for (size_t column = 1; column <= window->columns; column++) {
        window->held[window->owner[column]] = column;
    }
    return -window->column_dual[0];
}

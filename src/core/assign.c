#include "assign.h"

static bool within_limits(const struct assign_problem *problem) {
    if (problem->rows > ASSIGN_ROWS_MAX || problem->columns > ASSIGN_COLUMNS_MAX) {
        return false;
    }
    for (size_t i = 0; i < problem->rows * problem->columns; i++) {
        int32_t value = problem->value[i];
        if (value != ASSIGN_NONE && (value < -ASSIGN_VALUE_MAX || value > ASSIGN_VALUE_MAX)) {
            return false;
        }
    }
    return true;
}

// Row after row: once matched, a row stays matched, so the first rows win, and as many as possible
// are matched all the same (the sets of rows that can be matched are a matroid).
static uint32_t match_rows(const struct assign_problem *problem, struct assign_pairs *pairs,
                           struct assign_result *result) {
    uint32_t matched = 0;
    assign_pairs_init(pairs, 0);
    for (size_t row = 0; row < problem->rows; row++) {
        for (size_t column = 0; column < problem->columns; column++) {
            if (problem->value[row * problem->columns + column] != ASSIGN_NONE) {
                assign_pairs_add(pairs, row, column);
            }
        }
        if (assign_pairs_augment(pairs, row, &result->row[row].short_of)) {
            matched |= 1u << row;
            result->matched++;
        }
    }
    return matched;
}

// -1, 0, 1 as the window's choice comes before, is, or comes after the result's.
static int compare(const struct assign_window *window, const struct assign_result *result) {
    for (size_t row = 1; row <= window->rows; row++) {
        int column = (int)window->column[window->held[row]];
        int other = result->row[window->row[row]].column;
        if (column != other) {
            return column < other ? -1 : 1;
        }
    }
    return 0;
}

static void keep(const struct assign_window *window, struct assign_result *result) {
    result->low = window->low;
    result->high = window->high;
    for (size_t row = 1; row <= window->rows; row++) {
        result->row[window->row[row]].column = (int)window->column[window->held[row]];
    }
}

// A window that costs the same as the best one so far: rows that it gives another column are open.
static void join(const struct assign_window *window, uint32_t open, struct assign_result *result) {
    bool before = compare(window, result) < 0;
    for (size_t row = 1; row <= window->rows; row++) {
        struct assign_row *to = &result->row[window->row[row]];
        if ((open >> window->row[row] & 1) != 0 ||
            to->column != (int)window->column[window->held[row]]) {
            to->open = true;
        }
    }
    if (before) {
        keep(window, result);
    }
}

static void try_window(const struct assign_problem *problem, struct assign_window *window,
                       struct assign_result *result) {
    int64_t cost = assign_window_solve(window, problem);
    uint32_t open;
    if (cost > result->squares4) {
        return;
    }
    assign_ties_first(window, problem);
    open = assign_ties_open(window, problem);
    if (cost == result->squares4) {
        join(window, open, result);
        return;
    }
    result->squares4 = cost;
    keep(window, result);
    for (size_t row = 0; row < problem->rows; row++) {
        result->row[row].open = (open >> row & 1) != 0;
    }
}

// What `row` costs in `column`, and the ends of the values when it is used.
static bool widen(const struct assign_problem *problem, size_t row, int column, int32_t *low,
                  int32_t *high) {
    int32_t value = problem->value[row * problem->columns + (size_t)column];
    if (value == ASSIGN_NONE) {
        return false;
    }
    *low = value < *low ? value : *low;
    *high = value > *high ? value : *high;
    return true;
}

// Whether rows a and b, trading columns, leave spread and squares what they are.
static bool trade(const struct assign_problem *problem, const struct assign_result *result,
                  size_t a, size_t b) {
    int32_t low = ASSIGN_VALUE_MAX;
    int32_t high = -ASSIGN_VALUE_MAX;
    int64_t squares4 = 0;
    int64_t centre2;
    for (size_t row = 0; row < problem->rows; row++) {
        int column = result->row[row == a ? b : row == b ? a : row].column;
        if (result->row[row].column != ASSIGN_NO_COLUMN &&
            !widen(problem, row, column, &low, &high)) {
            return false;
        }
    }
    centre2 = problem->aim == ASSIGN_AIM_MIDDLE ? (int64_t)low + high : 0;
    for (size_t row = 0; row < problem->rows; row++) {
        int column = result->row[row == a ? b : row == b ? a : row].column;
        if (result->row[row].column != ASSIGN_NO_COLUMN) {
            int64_t apart =
                2 * (int64_t)problem->value[row * problem->columns + (size_t)column] - centre2;
            squares4 += apart * apart;
        }
    }
    return (int64_t)high - low == (int64_t)result->high - result->low &&
           squares4 == result->squares4;
}

static void find_swaps(const struct assign_problem *problem, struct assign_result *result) {
    for (size_t a = 0; a < problem->rows; a++) {
        for (size_t b = a + 1; b < problem->rows; b++) {
            if (result->row[a].column != ASSIGN_NO_COLUMN &&
                result->row[b].column != ASSIGN_NO_COLUMN && trade(problem, result, a, b)) {
                result->row[a].swaps |= 1u << b;
                result->row[b].swaps |= 1u << a;
            }
        }
    }
}

bool assign_solve(const struct assign_problem *problem, struct assign_work *work,
                  struct assign_result *ret_result) {
    struct assign_window *window = &work->window;
    uint32_t rows;
    size_t windows;
    int32_t spread;
    if (!within_limits(problem)) {
        return false;
    }
    *ret_result = (struct assign_result){.squares4 = INT64_MAX};
    for (size_t row = 0; row < ASSIGN_ROWS_MAX; row++) {
        ret_result->row[row].column = ASSIGN_NO_COLUMN;
    }
    rows = match_rows(problem, &work->pairs, ret_result);
    if (rows == 0) {
        ret_result->squares4 = 0;
        return true;
    }
    windows = assign_spread(problem, rows, work, &spread);
    for (size_t i = 0; i < windows; i++) {
        int32_t low = work->low[i];
        if (assign_window_init(window, problem, rows, low, low + spread) <= ret_result->squares4) {
            try_window(problem, window, ret_result);
        }
    }
    find_swaps(problem, ret_result);
    return true;
}

// The least spread: two ends of a window move up over the sorted cells, each only ever upwards.

#include "assign.h"

static uint64_t key_make(int32_t value, size_t row, size_t column) {
    return (uint64_t)(value + ASSIGN_VALUE_MAX) << 32 | (uint64_t)row << 16 | (uint64_t)column;
}

static int32_t key_value(uint64_t key) {
    return (int32_t)(key >> 32) - ASSIGN_VALUE_MAX;
}

static size_t key_row(uint64_t key) {
    return key >> 16 & 0xffff;
}

static size_t key_column(uint64_t key) {
    return key & 0xffff;
}

// Heapsort: in place, the same time whatever the order.
static void sift(uint64_t *key, size_t at, size_t count) {
    uint64_t moving = key[at];
    while (2 * at + 1 < count) {
        size_t child = 2 * at + 1;
        if (child + 1 < count && key[child + 1] > key[child]) {
            child++;
        }
        if (key[child] <= moving) {
            break;
        }
        key[at] = key[child];
        at = child;
    }
    key[at] = moving;
}

static void sort(uint64_t *key, size_t count) {
    for (size_t i = count / 2; i > 0; i--) {
        sift(key, i - 1, count);
    }
    for (size_t end = count; end > 1; end--) {
        uint64_t largest = key[0];
        key[0] = key[end - 1];
        key[end - 1] = largest;
        sift(key, 0, end - 1);
    }
}

static size_t collect(const struct assign_problem *problem, uint32_t rows, uint64_t *key) {
    size_t count = 0;
    for (size_t row = 0; row < problem->rows; row++) {
        const int32_t *value = problem->value + row * problem->columns;
        for (size_t column = 0; (rows >> row & 1) != 0 && column < problem->columns; column++) {
            if (value[column] != ASSIGN_NONE) {
                key[count++] = key_make(value[column], row, column);
            }
        }
    }
    return count;
}

// Gives bare rows columns until one can have none; returns the rows that this one reaches. Only a
// cell of one of these can help it, and without it the window is no good anyway.
static uint32_t mend(struct assign_pairs *pairs) {
    uint32_t reached = 0; // set once, by the row that fails
    while (pairs->bare != 0 && reached == 0) {
        assign_pairs_augment(pairs, (size_t)__builtin_ctz(pairs->bare), &reached);
    }
    return reached;
}

size_t assign_spread(const struct assign_problem *problem, uint32_t rows, struct assign_work *work,
                     int32_t *ret_spread) {
    struct assign_pairs *pairs = &work->pairs;
    const uint64_t *key = work->key;
    size_t count = collect(problem, rows, work->key);
    size_t first = 0; // the window holds the cells from `first` up to `end`
    size_t end = 0;
    size_t windows = 0;
    int32_t best = 2 * ASSIGN_VALUE_MAX;
    uint32_t stuck = rows;
    sort(work->key, count);
    assign_pairs_init(pairs, rows);
    while (first < count) {
        int32_t low = key_value(key[first]);
        while (pairs->bare != 0 && end < count && key_value(key[end]) - low <= best) {
            assign_pairs_add(pairs, key_row(key[end]), key_column(key[end]));
            if ((stuck >> key_row(key[end]) & 1) != 0) {
                stuck = mend(pairs);
            }
            end++;
        }
        if (pairs->bare == 0) {
            int32_t spread = key_value(key[end - 1]) - low;
            windows = spread < best ? 0 : windows;
            best = spread;
            work->low[windows++] = low;
        }
        while (first < count && key_value(key[first]) == low) {
            assign_pairs_remove(pairs, key_row(key[first]), key_column(key[first]));
            first++;
        }
        end = end < first ? first : end; // a window of equal values may close before it is full
        stuck = mend(pairs);
    }
    *ret_spread = best;
    return windows;
}

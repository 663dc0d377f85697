#include "assign.h"

#include <string.h>

static bool has(const uint64_t *bits, size_t column) {
    return (bits[column / 64] >> column % 64 & 1) != 0;
}

void assign_pairs_init(struct assign_pairs *pairs, uint32_t rows) {
    memset(pairs, 0, sizeof *pairs);
    pairs->bare = rows;
    for (size_t row = 0; row < ASSIGN_ROWS_MAX; row++) {
        pairs->column[row] = ASSIGN_NO_COLUMN;
    }
}

void assign_pairs_add(struct assign_pairs *pairs, size_t row, size_t column) {
    pairs->cell[row][column / 64] |= (uint64_t)1 << column % 64;
}

void assign_pairs_remove(struct assign_pairs *pairs, size_t row, size_t column) {
    uint64_t bit = (uint64_t)1 << column % 64;
    pairs->cell[row][column / 64] &= ~bit;
    if (pairs->column[row] == (int)column) {
        pairs->column[row] = ASSIGN_NO_COLUMN;
        pairs->taken[column / 64] &= ~bit;
        pairs->bare |= 1u << row;
    }
}

// The first usable column that no row holds, or ASSIGN_COLUMNS_MAX.
static size_t free_column(const struct assign_pairs *pairs, size_t row) {
    for (size_t word = 0; word < ASSIGN_WORDS; word++) {
        uint64_t open = pairs->cell[row][word] & ~pairs->taken[word];
        if (open != 0) {
            return word * 64 + (size_t)__builtin_ctzll(open);
        }
    }
    return ASSIGN_COLUMNS_MAX;
}

// Back along the path: each row takes the free column and leaves its own to the row before.
static void flip(struct assign_pairs *pairs, const size_t *from, size_t start, size_t row,
                 size_t column) {
    pairs->taken[column / 64] |= (uint64_t)1 << column % 64;
    while (row != start) {
        size_t left = (size_t)pairs->column[row];
        pairs->column[row] = (int)column;
        column = left;
        row = from[row];
    }
    pairs->column[start] = (int)column;
    pairs->bare &= ~(1u << start);
}

bool assign_pairs_augment(struct assign_pairs *pairs, size_t row, uint32_t *ret_reached) {
    size_t queue[ASSIGN_ROWS_MAX] = {row};
    size_t from[ASSIGN_ROWS_MAX] = {0};
    size_t queued = 1;
    uint32_t reached = 1u << row;
    for (size_t i = 0; i < queued; i++) {
        size_t at = queue[i];
        size_t column = free_column(pairs, at);
        if (column < ASSIGN_COLUMNS_MAX) {
            flip(pairs, from, row, at, column);
            return true;
        }
        for (size_t next = 0; next < ASSIGN_ROWS_MAX; next++) {
            if ((reached >> next & 1) == 0 && pairs->column[next] != ASSIGN_NO_COLUMN &&
                has(pairs->cell[at], (size_t)pairs->column[next])) {
                reached |= 1u << next;
                from[next] = at;
                queue[queued++] = next;
            }
        }
    }
    *ret_reached = reached;
    return false;
}

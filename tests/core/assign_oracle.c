// For assign_oracle.py: reads problems, `rows columns middle` and then the values row after row,
// `-` for a cell that must not be used; prints what assign_solve finds, one line a problem:
// low high squares4, then the column of every row, -1 for none.

#include "assign.h"

#include <stdio.h>
#include <stdlib.h>

static bool read_value(int32_t *ret_value) {
    char word[16];
    if (scanf("%15s", word) != 1) {
        return false;
    }
    *ret_value = word[0] == '-' && word[1] == '\0' ? ASSIGN_NONE : (int32_t)strtol(word, NULL, 10);
    return true;
}

int main(void) {
    static int32_t value[ASSIGN_CELLS_MAX];
    static struct assign_work work;
    struct assign_problem problem = {.value = value};
    int middle;
    while (scanf("%zu %zu %d", &problem.rows, &problem.columns, &middle) == 3) {
        struct assign_result result;
        problem.aim = middle != 0 ? ASSIGN_AIM_MIDDLE : ASSIGN_AIM_ZERO;
        for (size_t i = 0; i < problem.rows * problem.columns && i < ASSIGN_CELLS_MAX; i++) {
            if (!read_value(&value[i])) {
                return 1;
            }
        }
        if (!assign_solve(&problem, &work, &result)) {
            return 1;
        }
        printf("%d %d %lld", result.low, result.high, (long long)result.squares4);
        for (size_t row = 0; row < problem.rows; row++) {
            printf(" %d", result.row[row].column);
        }
        printf("\n");
    }
    return 0;
}

#include "assign_brute.h"
#include "check.h"
#include "sample.h"

static struct assign_work work;
static uint64_t seed;

static struct assign_result solve(const struct assign_problem *problem) {
    struct assign_result result;
    assert_true(assign_solve(problem, &work, &result));
    return result;
}

// Values from -range to range, usable in `usable` of 100 cells.
static void fill(int32_t *value, size_t cells, int64_t range, int64_t usable) {
    for (size_t i = 0; i < cells; i++) {
        value[i] = sample_between(&seed, 1, 100) <= usable
                       ? (int32_t)sample_between(&seed, -range, range)
                       : ASSIGN_NONE;
    }
}

static size_t bits(uint32_t mask) {
    return (size_t)__builtin_popcount(mask);
}

// A row left out names rows that have one usable column too few, itself among them (Hall's
// theorem); counted here, not searched.
static void check_short(const struct assign_problem *problem, const struct assign_result *result,
                        size_t row) {
    uint32_t rows = result->row[row].short_of;
    size_t columns = 0;
    assert_true((rows >> row & 1) != 0);
    assert_true(rows < 1u << problem->rows);
    for (size_t column = 0; column < problem->columns; column++) {
        bool usable = false;
        for (size_t i = 0; i < problem->rows; i++) {
            usable |= (rows >> i & 1) != 0 &&
                      problem->value[i * problem->columns + column] != ASSIGN_NONE;
        }
        columns += usable ? 1 : 0;
    }
    assert_int_equal(columns, bits(rows) - 1);
}

static void check_against_brute(const struct assign_problem *problem) {
    struct assign_result result = solve(problem);
    struct brute brute = brute_solve(problem);
    assert_int_equal(result.matched, brute.matched);
    assert_int_equal((int64_t)result.high - result.low, brute.spread);
    assert_int_equal(result.squares4, brute.squares4);
    for (size_t a = 0; a < problem->rows; a++) {
        assert_int_equal(result.row[a].column, brute.column[a]);
        assert_int_equal(result.row[a].open, brute.open[a]);
        if (brute.column[a] < 0) {
            check_short(problem, &result, a);
        } else {
            assert_int_equal(result.row[a].short_of, 0);
        }
        for (size_t b = 0; b < problem->rows; b++) {
            int traded[BRUTE_ROWS_MAX];
            int64_t spread;
            int64_t squares4;
            memcpy(traded, brute.column, sizeof traded);
            traded[a] = brute.column[b];
            traded[b] = brute.column[a];
            bool good = a != b && traded[a] >= 0 && traded[b] >= 0 &&
                        brute_value(problem, traded, &spread, &squares4) &&
                        spread == brute.spread && squares4 == brute.squares4;
            assert_int_equal(result.row[a].swaps >> b & 1, good);
        }
    }
}

// 12 000 problems: many equal values, few, none; nearly all cells usable, half, few.
static void against_brute_force(void **state) {
    static const int64_t ranges[] = {0, 1, 3, 20, ASSIGN_VALUE_MAX};
    static const int64_t usables[] = {100, 80, 50, 25};
    (void)state;
    seed = 1984;
    for (size_t i = 0; i < 12000; i++) {
        int32_t value[BRUTE_ROWS_MAX * BRUTE_COLUMNS_MAX];
        struct assign_problem problem = {
            .value = value,
            .rows = (size_t)sample_between(&seed, 1, i % 10 == 0 ? BRUTE_ROWS_MAX : 4),
            .columns = (size_t)sample_between(&seed, 1, BRUTE_COLUMNS_MAX),
            .aim = i % 2 == 0 ? ASSIGN_AIM_ZERO : ASSIGN_AIM_MIDDLE,
        };
        fill(value, problem.rows * problem.columns, ranges[i % COUNT(ranges)],
             usables[sample_between(&seed, 0, COUNT(usables) - 1)]);
        check_against_brute(&problem);
    }
}

// By hand. Rows want 0; the spread alone takes {5, 5}, though {0, 1} is nearer: spread comes first.
static void spread_before_squares(void **state) {
    static const int32_t value[] = {0, 5, 9, 7, 1, 5};
    const struct assign_problem problem = {.value = value, .rows = 2, .columns = 3};
    struct assign_result result = solve(&problem);
    (void)state;
    assert_int_equal(result.row[0].column, 1);
    assert_int_equal(result.row[1].column, 2);
    assert_int_equal(result.low, 5);
    assert_int_equal(result.high, 5);
    assert_int_equal(result.squares4, 4 * 50);
    assert_false(result.row[0].open || result.row[1].open);
}

// By hand: the spread of 2 is had at 0 and 2, and at 10 and 12. From zero the first is nearer; from
// the middle both are as good and the first column decides.
static void two_windows(void **state) {
    static const int32_t value[] = {10, 0, 12, 2};
    struct assign_problem problem = {.value = value, .rows = 2, .columns = 2};
    static const int32_t wide[] = {10,          0,           ASSIGN_NONE, ASSIGN_NONE,
                                   ASSIGN_NONE, ASSIGN_NONE, 12,          2};
    struct assign_result result = solve(&problem);
    (void)state;
    assert_int_equal(result.high - result.low, 8); // columns are used once: 10 and 2
    problem.value = wide;
    problem.columns = 4;
    result = solve(&problem);
    assert_int_equal(result.row[0].column, 1);
    assert_int_equal(result.row[1].column, 3);
    assert_int_equal(result.squares4, 4 * 4);
    assert_false(result.row[0].open);
    problem.aim = ASSIGN_AIM_MIDDLE;
    result = solve(&problem);
    assert_int_equal(result.row[0].column, 0);
    assert_int_equal(result.row[1].column, 2);
    assert_int_equal(result.low, 10);
    assert_int_equal(result.squares4, 4 * 2);
    assert_true(result.row[0].open && result.row[1].open);
    assert_int_equal(result.row[0].swaps, 0);
}

static void nothing_to_match(void **state) {
    static const int32_t value[] = {ASSIGN_NONE, ASSIGN_NONE};
    const struct assign_problem problem = {.value = value, .rows = 2, .columns = 1};
    const struct assign_problem no_columns = {.value = value, .rows = 2, .columns = 0};
    const struct assign_problem no_rows = {.value = value, .rows = 0, .columns = 2};
    (void)state;
    for (int i = 0; i < 2; i++) {
        struct assign_result result = solve(i == 0 ? &problem : &no_columns);
        assert_int_equal(result.matched, 0);
        assert_int_equal(result.squares4, 0);
        assert_int_equal(result.row[0].column, ASSIGN_NO_COLUMN);
        assert_int_equal(result.row[0].short_of, 1);
        assert_int_equal(result.row[1].short_of, 2);
    }
    assert_int_equal(solve(&no_rows).matched, 0);
}

static void limits(void **state) {
    static int32_t value[(ASSIGN_ROWS_MAX + 1) * (ASSIGN_COLUMNS_MAX + 1)];
    struct assign_problem problem = {.value = value, .rows = ASSIGN_ROWS_MAX + 1, .columns = 1};
    struct assign_result result = {.matched = 7};
    (void)state;
    assert_false(assign_solve(&problem, &work, &result));
    problem.rows = 1;
    problem.columns = ASSIGN_COLUMNS_MAX + 1;
    assert_false(assign_solve(&problem, &work, &result));
    problem.columns = 2;
    value[1] = ASSIGN_VALUE_MAX + 1;
    assert_false(assign_solve(&problem, &work, &result));
    value[1] = -ASSIGN_VALUE_MAX - 1;
    assert_false(assign_solve(&problem, &work, &result));
    assert_int_equal(result.matched, 7);

    // The largest problem of the largest values: nothing overflows.
    problem.rows = ASSIGN_ROWS_MAX;
    problem.columns = ASSIGN_COLUMNS_MAX;
    for (size_t i = 0; i < problem.rows * problem.columns; i++) {
        value[i] = i % 2 == 0 ? ASSIGN_VALUE_MAX : -ASSIGN_VALUE_MAX;
    }
    result = solve(&problem);
    assert_int_equal(result.matched, ASSIGN_ROWS_MAX);
    assert_int_equal(result.high, result.low);
    assert_int_equal(result.squares4,
                     INT64_C(4) * ASSIGN_ROWS_MAX * ASSIGN_VALUE_MAX * ASSIGN_VALUE_MAX);
}

#define SET_ROWS 14
#define SET_COLUMNS 60

// A column of its own for every row, a usable one; low and high are really reached.
static void check_sound(const struct assign_problem *problem, const struct assign_result *result) {
    bool taken[SET_COLUMNS] = {false};
    int32_t low = INT32_MAX;
    int32_t high = INT32_MIN;
    for (size_t row = 0; row < problem->rows; row++) {
        int column = result->row[row].column;
        if (column != ASSIGN_NO_COLUMN) {
            int32_t value = problem->value[row * problem->columns + (size_t)column];
            assert_int_not_equal(value, ASSIGN_NONE);
            assert_false(taken[column]);
            taken[column] = true;
            low = value < low ? value : low;
            high = value > high ? value : high;
        }
    }
    assert_int_equal(result->low, low);
    assert_int_equal(result->high, high);
}

// Copies the cells, column i of the copy being column order[i].
static void copy_columns(int32_t *to, const int32_t *from, const size_t *order, size_t columns) {
    for (size_t row = 0; row < SET_ROWS; row++) {
        for (size_t i = 0; i < columns; i++) {
            to[row * columns + i] = from[row * SET_COLUMNS + order[i]];
        }
    }
}

// The order of the stock changes nothing but which of equals is taken, and one more shaft never
// makes the spread of as many clubs worse.
static void order_and_more_columns(void **state) {
    static const int64_t ranges[] = {5, 100, 5000};
    static const int64_t usables[] = {100, 40, 8};
    (void)state;
    seed = 60;
    for (size_t i = 0; i < 600; i++) {
        int32_t value[SET_ROWS * SET_COLUMNS];
        int32_t shuffled[SET_ROWS * SET_COLUMNS];
        size_t order[SET_COLUMNS];
        struct assign_problem problem = {.value = value,
                                         .rows = SET_ROWS,
                                         .columns = SET_COLUMNS,
                                         .aim = i % 2 == 0 ? ASSIGN_AIM_ZERO : ASSIGN_AIM_MIDDLE};
        struct assign_problem other = problem;
        struct assign_result result;
        struct assign_result again;
        fill(value, COUNT(value), ranges[i % 3], usables[i / 3 % 3]);
        for (size_t k = 0; k < SET_COLUMNS; k++) {
            size_t place = (size_t)sample_between(&seed, 0, (int64_t)k);
            order[k] = order[place];
            order[place] = k;
        }
        result = solve(&problem);
        check_sound(&problem, &result);
        other.value = shuffled;
        copy_columns(shuffled, value, order, SET_COLUMNS);
        again = solve(&other);
        assert_int_equal(again.matched, result.matched);
        assert_int_equal(again.high - again.low, result.high - result.low);
        assert_int_equal(again.squares4, result.squares4);
        for (size_t row = 0; row < SET_ROWS; row++) {
            assert_int_equal(again.row[row].open, result.row[row].open);
            if (!result.row[row].open && result.row[row].column != ASSIGN_NO_COLUMN) {
                assert_int_equal(order[again.row[row].column], result.row[row].column);
            }
        }
        other.columns = (size_t)sample_between(&seed, SET_COLUMNS / 2, SET_COLUMNS - 1);
        copy_columns(shuffled, value, order, other.columns);
        again = solve(&other);
        assert_true(again.matched <= result.matched);
        if (again.matched == result.matched) {
            bool same = true;
            for (size_t row = 0; row < SET_ROWS; row++) {
                same &= (again.row[row].column == ASSIGN_NO_COLUMN) ==
                        (result.row[row].column == ASSIGN_NO_COLUMN);
            }
            assert_true(!same || again.high - again.low >= result.high - result.low);
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(against_brute_force),
        cmocka_unit_test(spread_before_squares),
        cmocka_unit_test(two_windows),
        cmocka_unit_test(nothing_to_match),
        cmocka_unit_test(limits),
        cmocka_unit_test(order_and_more_columns),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

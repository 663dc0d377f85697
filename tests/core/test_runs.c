// The rules of NIST/SEMATECH e-Handbook 6.3.2 (WECO), each at its edge, on both sides.

#include "check.h"
#include "runs.h"

#include <math.h>

struct row {
    enum run_rule rule; // that the last point completes
    size_t count;
    double value[16];
};

static const struct row rows[] = {
    {RUN_NONE, 1, {3.0}},
    {RUN_BEYOND, 1, {3.01}},
    {RUN_NONE, 3, {2.1, 0, 2.0}},
    {RUN_TWO_OF_THREE, 3, {2.1, 0, 2.01}},
    {RUN_NONE, 3, {-2.1, 0, 2.1}},   // not one side
    {RUN_NONE, 3, {2.1, 2.1, -0.1}}, // the last point itself lies well
    {RUN_TWO_OF_THREE, 2, {2.1, 2.1}},
    {RUN_NONE, 4, {2.1, 0, 0, 2.1}},
    {RUN_NONE, 5, {1.1, 1.1, 0.9, -0.5, 1.1}},
    {RUN_FOUR_OF_FIVE, 5, {1.1, 1.1, -0.5, 1.2, 1.1}},
    {RUN_FOUR_OF_FIVE, 4, {1.1, 1.4, 1.1, 1.2}},
    {RUN_NONE, 7, {0.1, 0.2, 0.1, 0.2, 0.1, 0.2, 0.1}},
    {RUN_EIGHT, 8, {0.1, 0.2, 0.1, 0.2, 0.1, 0.2, 0.1, 0.2}},
    {RUN_NONE, 8, {0.1, 0.2, 0.1, 0, 0.1, 0.2, 0.1, 0.2}}, // on the line is no side
    {RUN_NONE, 5, {-0.5, -0.3, -0.1, 0.1, 0.3}},
    {RUN_TREND, 6, {-0.5, -0.3, -0.1, 0.1, 0.3, 0.5}},
    {RUN_NONE, 6, {-0.5, -0.3, -0.3, 0.1, 0.3, 0.5}}, // a level step is no rise
    {RUN_NONE, 13, {0.5, -0.5, 0.5, -0.5, 0.5, -0.5, 0.5, -0.5, 0.5, -0.5, 0.5, -0.5, 0.5}},
    {RUN_SAW, 14, {0.5, -0.5, 0.5, -0.5, 0.5, -0.5, 0.5, -0.5, 0.5, -0.5, 0.5, -0.5, 0.5, -0.5}},
};

static void test_rules(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        double mirrored[16];
        for (size_t k = 0; k < rows[i].count; k++) {
            mirrored[k] = 7 - rows[i].value[k] * 0.5;
        }
        enum run_rule rule = runs_at(rows[i].value, rows[i].count - 1, 0, 1);
        enum run_rule other = runs_at(mirrored, rows[i].count - 1, 7, 0.5);
        if (rule != rows[i].rule || other != rows[i].rule) {
            fail_msg("row %zu: %s, mirrored %s", i, run_rule_words(rule), run_rule_words(other));
        }
    }
}

static void test_only_what_came_before_counts(void **state) {
    (void)state;
    const double value[] = {0, 0.5, -0.2, 3.5, 0.1, -0.1};
    size_t at = 99;
    assert_int_equal(runs_at(value, 2, 0, 1), RUN_NONE);
    assert_int_equal(runs_at(value, 4, 0, 1), RUN_NONE);
    assert_int_equal(runs_last(value, 6, 0, 1, &at), RUN_BEYOND);
    assert_int_equal(at, 3);
    at = 99;
    assert_int_equal(runs_last(value, 3, 0, 1, &at), RUN_NONE);
    assert_int_equal(at, 99);
    assert_int_equal(runs_last(value, 0, 0, 1, &at), RUN_NONE);
}

// No scatter, no zones: only rules that need none.
static void test_no_sigma(void **state) {
    (void)state;
    const double value[] = {1, 1, 1, 1, 1, 1, 1, 1};
    assert_int_equal(runs_at(value, 6, 0, 0), RUN_NONE);
    assert_int_equal(runs_at(value, 7, 0, 0), RUN_EIGHT);
}

// Points drawn from a normal distribution: rules speak up about as rarely as theory says. A point
// beyond 3 sigma: 0.27 % (tables of the normal distribution); all four Western Electric rules
// together: about one signal in 91.75 points (Champ and Woodall 1987; value from memory), which
// trends and saws make a little more.
static void test_false_alarms(void **state) {
    (void)state;
    enum { POINTS = 200000 };
    static double value[POINTS];
    uint64_t seed = 20261125;
    size_t beyond = 0;
    for (size_t i = 0; i < POINTS; i++) {
        double sum = 0;
        for (int k = 0; k < 12; k++) {
            seed ^= seed << 13;
            seed ^= seed >> 7;
            seed ^= seed << 17;
            sum += (double)(seed >> 11) / 9007199254740992.0;
        }
        value[i] = sum - 6; // of twelve even ones: nearly normal, deviation 1
        beyond += runs_at(value, i, 0, 1) == RUN_BEYOND ? 1 : 0;
    }
    assert_true(beyond > POINTS * 15 / 10000 && beyond < POINTS * 35 / 10000);
    // Average run length from a fresh start, as theory counts it.
    size_t runs = 0;
    size_t begun = 0;
    size_t total = 0;
    for (size_t i = 0; i < POINTS; i++) {
        enum run_rule rule = runs_at(value + begun, i - begun, 0, 1);
        if (rule >= RUN_BEYOND && rule <= RUN_EIGHT) {
            total += i - begun + 1;
            runs++;
            begun = i + 1;
        }
    }
    double length = (double)total / (double)runs;
    assert_true(length > 80 && length < 105);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rules),
        cmocka_unit_test(test_only_what_came_before_counts),
        cmocka_unit_test(test_no_sigma),
        cmocka_unit_test(test_false_alarms),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

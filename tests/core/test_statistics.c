#include "statistics.h"

#include "check.h"

#include <float.h>
#include <math.h>
#include <stdio.h>

#define VALUES_MAX 1024

static void near(double got, double wanted, double relative) {
    if (!(fabs(got - wanted) <= relative * fabs(wanted))) {
        fail_msg("%.17g is not %.17g within %g", got, wanted, relative);
    }
}

static size_t read_set(const char *name, double values[VALUES_MAX]) {
    char path[512];
    size_t count = 0;
    FILE *file;
    snprintf(path, sizeof path, KERFSIDE_SOURCE_DIR "/tests/core/nist/%s.txt", name);
    file = fopen(path, "r");
    assert_non_null(file);
    while (count < VALUES_MAX && fscanf(file, "%lf", &values[count]) == 1) {
        count++;
    }
    assert_true(feof(file));
    fclose(file);
    return count;
}

// NIST Statistical Reference Datasets, univariate, certified mean and standard deviation (n - 1);
// nist/README.md. Tolerance: a few times what two-pass doubles lose on numbers that binary cannot
// hold.
static void nist_data(void **state) {
    static const struct {
        const char *name;
        size_t count;
        double mean;
        double deviation;
        double relative;
    } sets[] = {
        {"michelso", 100, 299.852400000000, 0.0790105478190518, 1e-13},
        {"mavro", 50, 2.00185600000000, 0.000429123454003053, 1e-12},
        {"lew", 200, -177.435000000000, 277.332168044316, 4e-15},
        {"lottery", 218, 518.958715596330, 291.699727470969, 4e-15},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(sets); i++) {
        double values[VALUES_MAX];
        double mean;
        double deviation;
        size_t count = read_set(sets[i].name, values);
        assert_int_equal(count, sets[i].count);
        assert_true(statistics_mean(values, count, &mean));
        assert_true(statistics_deviation(values, count, &deviation));
        near(mean, sets[i].mean, 4e-15);
        near(deviation, sets[i].deviation, sets[i].relative);
    }
}

// NIST StRD NumAcc1 to NumAcc4: certified exactly, made to break textbook one-pass sums (which give
// a negative variance on NumAcc4). The limit of the last two is that 10000000.1 is no binary
// number.
static void nist_accuracy(void **state) {
    static const double first[] = {10000001, 10000003, 10000002};
    static const struct {
        double whole;
        double relative;
    } sets[] = {{1, 1e-14}, {1000000, 1e-9}, {10000000, 1e-8}};
    double values[1001];
    double mean;
    double deviation;
    (void)state;
    assert_true(statistics_mean(first, COUNT(first), &mean));
    assert_true(statistics_deviation(first, COUNT(first), &deviation));
    assert_true(mean == 10000002);
    assert_true(deviation == 1);
    for (size_t i = 0; i < COUNT(sets); i++) {
        values[0] = sets[i].whole + 0.2;
        for (size_t k = 1; k < COUNT(values); k++) {
            values[k] = sets[i].whole + (k % 2 == 1 ? 0.1 : 0.3);
        }
        assert_true(statistics_mean(values, COUNT(values), &mean));
        assert_true(statistics_deviation(values, COUNT(values), &deviation));
        near(mean, sets[i].whole + 0.2, 2e-15);
        near(deviation, 0.1, sets[i].relative);
    }
}

// NIST/SEMATECH e-Handbook 6.3.2.2, the flow-rate example: mean 50.81, mean range 1.8778, limits
// 55.8041 and 45.8159 as printed there. 2.66 in place of 3/1.128 would give 55.8049, the exact d2
// 55.8024. Range limit: 3.267 x 1.8778, by hand.
static void handbook_individuals(void **state) {
    static const double values[] = {49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};
    struct statistics_limits limits;
    (void)state;
    assert_true(statistics_limits(values, COUNT(values), &limits));
    assert_true(fabs(limits.mean - 50.81) < 1e-12);
    assert_true(fabs(limits.range_mean - 1.8778) < 0.00005);
    assert_true(fabs(limits.high - 55.8041) < 0.00005);
    assert_true(fabs(limits.low - 45.8159) < 0.00005);
    assert_true(fabs(limits.range_high - 6.1347) < 0.00005);
}

// e-Handbook 6.1.6: limits 8 and 20, mean 16, s 2 give Cp 1.0, Cpk 0.6667. The mirrored mean, and
// one beyond a limit, by hand.
static void handbook_capability(void **state) {
    struct statistics_capability capability;
    (void)state;
    assert_true(statistics_capability(8, 20, 16, 2, &capability));
    near(capability.cp, 1.0, DBL_EPSILON);
    near(capability.cpk, 2.0 / 3, DBL_EPSILON);
    assert_true(statistics_capability(8, 20, 11, 2, &capability));
    near(capability.cpk, 0.5, DBL_EPSILON);
    assert_true(statistics_capability(8, 20, 23, 2, &capability));
    near(capability.cpk, -0.5, DBL_EPSILON);
}

static void same_values(void **state) {
    static const double values[] = {0.1, 0.1, 0.1};
    struct statistics_limits limits;
    double deviation;
    (void)state;
    assert_true(statistics_deviation(values, COUNT(values), &deviation));
    assert_true(deviation == 0);
    assert_true(statistics_limits(values, COUNT(values), &limits));
    assert_true(limits.low == limits.mean && limits.high == limits.mean);
    assert_true(limits.range_high == 0);
}

// Made minus planned in nanometres, plus or minus 1/16 in: the unit cancels in Cp, and Cpk is by
// hand: (1587500 - 300000) / (3 x 100000).
static void nanometres(void **state) {
    static const double values[] = {200000, 300000, 400000};
    struct statistics_capability capability;
    double mean;
    double deviation;
    (void)state;
    assert_true(statistics_mean(values, COUNT(values), &mean));
    assert_true(statistics_deviation(values, COUNT(values), &deviation));
    near(mean, 300000, DBL_EPSILON);
    near(deviation, 100000, DBL_EPSILON);
    assert_true(statistics_capability(-1587500, 1587500, mean, deviation, &capability));
    near(capability.cp, 5.291666666666667, 1e-15);
    near(capability.cpk, 4.291666666666667, 1e-15);
}

static void not_known(void **state) {
    static const double good[] = {1, 2};
    static const double bad[][2] = {{1, NAN}, {NAN, 1}, {INFINITY, 1}, {1, -INFINITY}};
    static const double huge[] = {DBL_MAX, -DBL_MAX};
    struct statistics_limits limits = {.mean = 7};
    struct statistics_capability capability = {.cp = 7};
    double value = 7;
    (void)state;
    assert_false(statistics_mean(good, 0, &value));
    assert_false(statistics_deviation(good, 0, &value));
    assert_false(statistics_deviation(good, 1, &value));
    assert_false(statistics_limits(good, 0, &limits));
    assert_false(statistics_limits(good, 1, &limits));
    for (size_t i = 0; i < COUNT(bad); i++) {
        assert_false(statistics_mean(bad[i], 2, &value));
        assert_false(statistics_deviation(bad[i], 2, &value));
        assert_false(statistics_limits(bad[i], 2, &limits));
    }
    assert_false(statistics_deviation(huge, 2, &value));
    assert_false(statistics_limits(huge, 2, &limits));
    assert_false(statistics_capability(8, 20, 16, 0, &capability));
    assert_false(statistics_capability(8, 20, 16, -2, &capability));
    assert_false(statistics_capability(8, 20, 16, NAN, &capability));
    assert_false(statistics_capability(8, 20, 16, INFINITY, &capability));
    assert_false(statistics_capability(8, 20, NAN, 2, &capability));
    assert_false(statistics_capability(20, 8, 16, 2, &capability));
    assert_false(statistics_capability(8, 8, 8, 2, &capability));
    assert_false(statistics_capability(NAN, 20, 16, 2, &capability));
    assert_false(statistics_capability(8, INFINITY, 16, 2, &capability));
    assert_true(value == 7 && limits.mean == 7 && capability.cp == 7);
    assert_true(statistics_mean(good, 1, &value));
    assert_true(value == 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nist_data),
        cmocka_unit_test(nist_accuracy),
        cmocka_unit_test(handbook_individuals),
        cmocka_unit_test(handbook_capability),
        cmocka_unit_test(same_values),
        cmocka_unit_test(nanometres),
        cmocka_unit_test(not_known),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

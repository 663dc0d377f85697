#include "check.h"
#include "cut_stats.h"
#include "sample.h"

#include <math.h>
#include <stdio.h>

static void measured(struct cut_stats *stats, length_nm planned, length_nm off) {
    struct cut_fact fact = {
        .kind = ENTRY_MEASURE, .planned = planned, .made = planned + off, .cause = ""};
    cut_stats_add(stats, &fact);
}

// NIST/SEMATECH e-Handbook 6.3.2.2, its ten values less 50 as thousandths of an inch.
static void test_handbook(void **state) {
    (void)state;
    static const double values[] = {49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};
    struct cut_stats stats = {0};
    struct cut_sum sum;
    for (size_t i = 0; i < COUNT(values); i++) {
        measured(&stats, IN(42, 0, 1), (length_nm)llround((values[i] - 50) * 25400));
    }
    cut_stats_sum(&stats, 20 * 25400, &sum);
    assert_true(sum.limits_known);
    assert_true(fabs(sum.limits.mean - 0.81) < 1e-4);
    assert_true(fabs(sum.limits.high - 5.8041) < 1e-3);
    assert_true(fabs(sum.limits.low + 4.1841) < 1e-3);
    assert_int_equal(sum.rule, RUN_NONE); // the handbook: in control
    // s = 2.03385: Cp = 40 / (6 s), Cpk = (20 - 0.81) / (3 s), by hand.
    assert_true(sum.capability_known);
    assert_true(fabs(sum.capability.cp - 3.2778) < 1e-3);
    assert_true(fabs(sum.capability.cpk - 3.1451) < 1e-3);
}

static void test_only_the_newest_points_stay(void **state) {
    (void)state;
    struct cut_stats stats = {0};
    for (int i = 0; i < CUT_STATS_POINTS + 7; i++) {
        measured(&stats, IN(40, 0, 1), i * 25400);
    }
    assert_int_equal(stats.count, CUT_STATS_POINTS);
    assert_int_equal(stats.measured, CUT_STATS_POINTS + 7);
    assert_true(fabs(stats.off[0] - 7) < 1e-9);
    assert_true(fabs(stats.off[CUT_STATS_POINTS - 1] - (CUT_STATS_POINTS + 6)) < 1e-9);
}

static void test_counts(void **state) {
    (void)state;
    static const struct {
        enum entry_kind kind;
        const char *cause;
    } facts[] = {
        {ENTRY_TIP_CUT, ""},      {ENTRY_BUTT_CUT, ""},     {ENTRY_HOLD, "wrong_pair"},
        {ENTRY_HOLD, "not_safe"}, {ENTRY_HOLD, "not_safe"}, {ENTRY_DECIDE, "use"},
        {ENTRY_DECIDE, "scrap"},  {ENTRY_DECIDE, "recut"},  {ENTRY_SIGN_ON, ""},
    };
    struct cut_stats stats = {0};
    struct cut_sum sum;
    for (size_t i = 0; i < COUNT(facts); i++) {
        struct cut_fact fact = {.kind = facts[i].kind, .cause = facts[i].cause, .hour = 9};
        cut_stats_add(&stats, &fact);
    }
    static const enum entry_kind back[] = {ENTRY_TIP_CUT, ENTRY_BUTT_CUT, ENTRY_MEASURE};
    for (size_t i = 0; i < COUNT(back); i++) { // taken back
        struct cut_fact fact = {.kind = back[i], .cause = "", .hour = 9, .withdrawn = true};
        cut_stats_add(&stats, &fact);
    }
    assert_int_equal(stats.facts, COUNT(facts) + COUNT(back));
    assert_int_equal(stats.measured, 0);
    cut_stats_sort(&stats);
    assert_int_equal(stats.cuts, 2);
    assert_int_equal(stats.by_hour[9], 2);
    assert_int_equal(stats.holds, 3);
    assert_int_equal(stats.scrapped, 2);
    assert_int_equal(stats.cause_count, 2);
    assert_string_equal(stats.cause[0].word, "not_safe");
    assert_int_equal(stats.cause[0].count, 2);
    cut_stats_sum(&stats, IN(0, 1, 16), &sum);
    assert_false(sum.limits_known);
    assert_false(sum.capability_known);
}

static void test_more_causes_than_room(void **state) {
    (void)state;
    struct cut_stats stats = {0};
    int64_t total = 0;
    for (int i = 0; i < CUT_STATS_CAUSES + 5; i++) {
        char word[ENTRY_CAUSE_MAX];
        snprintf(word, sizeof word, "cause_%d", i);
        struct cut_fact fact = {.kind = ENTRY_HOLD, .cause = word};
        cut_stats_add(&stats, &fact);
    }
    assert_int_equal(stats.cause_count, CUT_STATS_CAUSES);
    assert_string_equal(stats.cause[CUT_STATS_CAUSES - 1].word, "other");
    for (size_t i = 0; i < stats.cause_count; i++) {
        total += stats.cause[i].count;
    }
    assert_int_equal(total, CUT_STATS_CAUSES + 5);
}

static void test_a_drift_is_seen(void **state) {
    (void)state;
    struct cut_stats stats = {0};
    struct cut_sum sum;
    for (int i = 0; i < 20; i++) {
        measured(&stats, IN(40, 0, 1), (i % 2 == 0 ? 3 : -3) * 25400);
    }
    for (int i = 0; i < 8; i++) {
        measured(&stats, IN(40, 0, 1), (i % 2 == 0 ? 9 : 8) * 25400);
    }
    cut_stats_sum(&stats, IN(0, 1, 16), &sum);
    assert_true(sum.rule != RUN_NONE);
    assert_int_equal(sum.rule_at, 27);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_handbook),        cmocka_unit_test(test_only_the_newest_points_stay),
        cmocka_unit_test(test_counts),          cmocka_unit_test(test_more_causes_than_room),
        cmocka_unit_test(test_a_drift_is_seen),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// The rest of the cut plan, R7 to R13: lengths, fit, marks, rules of golf, facts that lack.

#include "check.h"
#include "expect.h"

// R7.
static void test_butt(void **state) {
    (void)state;
    struct sample sample = sample_make();
    struct plan made;
    sample.shaft.raw_length = IN(42, 3, 8); // 1/2 + 41 7/8: to the last hair
    assert_true(expect_made(&sample, &made));
    assert_int_equal(made.butt_trim, 0);
    assert_false(made.butt_cut);
    sample.shaft.raw_length -= IN(0, 1, 8);
    expect_refusal(&sample, PLAN_F_TOO_SHORT_SHAFT);
    assert_false(expect_made(&sample, &made));
    assert_int_equal(made.refusal.a, IN(0, 1, 8));

    sample = sample_make();
    sample.model.max_butt_trim = IN(3, 5, 8);
    expect_warning(&sample, PLAN_W_BUTT_MAX, false);
    sample.model.max_butt_trim -= 1;
    expect_warning(&sample, PLAN_W_BUTT_MAX, true);
    sample.model.max_butt_trim = LENGTH_UNKNOWN;
    expect_warning(&sample, PLAN_W_BUTT_MAX, false);

    sample = sample_make();
    sample.order.playing_length = IN(1, 1, 8); // nothing but head and cap
    expect_refusal(&sample, PLAN_F_NOTHING_LEFT);
    sample.order.playing_length += IN(0, 1, 64); // less than half a mark
    expect_refusal(&sample, PLAN_F_NOTHING_LEFT);
}

// R8. Trade sizes 0.335, 0.350, 0.370 parallel, 0.355 taper: common practice, no source.
static void test_fit(void **state) {
    (void)state;
    length_nm thousandth = 25400;
    static const int sizes[] = {335, 350, 355, 370};
    for (size_t tip = 0; tip < COUNT(sizes); tip++) {
        for (size_t bore = 0; bore < COUNT(sizes); bore++) {
            struct sample sample = sample_make();
            struct plan made;
            sample.model.tip_diameter = sizes[tip] * thousandth;
            sample.head.hosel_bore = sizes[bore] * thousandth;
            if (tip == bore) {
                assert_true(expect_made(&sample, &made));
                sample.head.hosel_bore += 2 * thousandth;
                assert_true(expect_made(&sample, &made));
                sample.head.hosel_bore -= 4 * thousandth;
                assert_true(expect_made(&sample, &made));
            } else if (tip > bore) {
                sample.order.shim_consent = true; // no shim makes a bore wider
                expect_refusal(&sample, PLAN_F_TIP_LARGE);
            } else {
                expect_refusal(&sample, PLAN_F_TIP_SMALL);
                sample.order.shim_consent = true;
                expect_warning(&sample, PLAN_W_SHIM, true);
            }
        }
    }
}

// R9.
static void test_ties(void **state) {
    (void)state;
    length_nm half = IN(0, 1, 32);
    struct sample sample = sample_make();
    struct plan made;
    sample.chart.column[1].tip_trim = IN(0, 1, 2) + half;
    sample.order.playing_length += half;
    assert_true(expect_made(&sample, &made));
    assert_int_equal(made.tip_mark, IN(0, 1, 2));         // to the smaller
    assert_int_equal(made.finished, IN(41, 7, 8) + half); // exact
    assert_int_equal(made.butt_mark, IN(41, 15, 16));     // to the longer
    assert_int_equal(made.butt_trim, IN(46, 0, 1) - made.tip_mark - made.finished);
    assert_int_equal(made.reason[2].code, PLAN_R_ROUND);
    assert_int_equal(made.reason[2].amount, -half);
    sample.rules.mark_step = LENGTH_MM / 2;
    assert_true(expect_made(&sample, &made));
    assert_int_equal(made.tip_mark, 27 * LENGTH_MM / 2); // 13.49375 mm
    assert_int_equal(made.tip_mark % (LENGTH_MM / 2), 0);
}

// R10: Equipment Rules Part 2, 1c (18 and 48 in), local rule G-10 (46 in), compared in inches.
// Rule R10 warns at 18 in itself, on the safe side of the Rules' "at least 18 in".
static void test_rules_of_golf(void **state) {
    (void)state;
    static const struct {
        length_nm length;
        bool limit_46;
        enum plan_code code;
    } rows[] = {
        {IN(48, 0, 1), false, PLAN_NONE},
        {IN(48, 0, 1) + 1, false, PLAN_W_TOO_LONG},
        {IN(48, 0, 1) + 1, true, PLAN_W_TOO_LONG},
        {IN(46, 0, 1), true, PLAN_NONE},
        {IN(46, 0, 1) + 1, true, PLAN_W_TOO_LONG_46},
        {IN(46, 0, 1) + 1, false, PLAN_NONE},
        {IN(18, 0, 1), false, PLAN_W_TOO_SHORT},
        {IN(18, 0, 1) + 1, false, PLAN_NONE},
        {1219 * LENGTH_MM, false, PLAN_NONE}, // the Rules' rounded figure is below 48 in
        {12193 * LENGTH_MM / 10, false, PLAN_W_TOO_LONG},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct sample sample = sample_make();
        struct plan made;
        sample.shaft.raw_length = IN(50, 0, 1);
        sample.model.max_butt_trim = LENGTH_UNKNOWN;
        sample.order.playing_length = rows[i].length;
        sample.rules.limit_46 = rows[i].limit_46;
        assert_true(expect_made(&sample, &made));
        assert_int_equal(made.warning_count, rows[i].code != PLAN_NONE);
        if (made.warning_count > 0) {
            assert_int_equal(made.warning[0].code, rows[i].code);
        }
        // Putters are excepted from the longest lengths.
        sample.head.kind = HEAD_KIND_PUTTER;
        sample.tip_made = 0; // only the butt is planned
        assert_true(expect_made(&sample, &made));
        assert_int_equal(expect_has(made.warning, made.warning_count, PLAN_W_TOO_SHORT),
                         rows[i].code == PLAN_W_TOO_SHORT);
        assert_false(expect_has(made.warning, made.warning_count, PLAN_W_TOO_LONG));
        assert_false(expect_has(made.warning, made.warning_count, PLAN_W_TOO_LONG_46));
    }
}

// R11.
static void test_bore_range(void **state) {
    (void)state;
    length_nm height = -7;
    struct sample sample = sample_make();
    sample.head.bore_height = -1;
    expect_refusal(&sample, PLAN_F_BORE_RANGE);
    sample.head.bore_height = 2 * LENGTH_INCH + 1;
    expect_refusal(&sample, PLAN_F_BORE_RANGE);
    sample.head.bore_height = 2 * LENGTH_INCH;
    assert_int_equal(expect_tip_trim(&sample), IN(0, 1, 2));
    sample.head.bore_height = 0;
    assert_int_equal(expect_tip_trim(&sample), IN(0, 1, 2));
    assert_false(plan_dry_fit(IN(46, 0, 1) - 1, IN(46, 0, 1), &height));
    assert_false(plan_dry_fit(IN(48, 0, 1) + 1, IN(46, 0, 1), &height));
    assert_false(plan_dry_fit(LENGTH_UNKNOWN, IN(46, 0, 1), &height));
    assert_false(plan_dry_fit(IN(46, 0, 1), LENGTH_UNKNOWN, &height));
    assert_int_equal(height, -7);
    assert_true(plan_dry_fit(IN(46, 0, 1), IN(46, 0, 1), &height));
    assert_int_equal(height, 0);
    assert_true(plan_dry_fit(IN(48, 0, 1), IN(46, 0, 1), &height));
    assert_int_equal(height, 2 * LENGTH_INCH);
}

static void test_unknown_facts(void **state) {
    (void)state;
    struct sample sample = sample_make();
    sample.head.weight = MASS_UNKNOWN;
    expect_refusal(&sample, PLAN_F_NO_WEIGHT);
    strcpy(sample.order.picked_column, "3"); // a pick is no scale
    expect_refusal(&sample, PLAN_F_NO_WEIGHT);
    sample = sample_make();
    sample.head.bore_height = LENGTH_UNKNOWN;
    sample.head.model_bore_height = IN(1, 0, 1); // the maker's figure is never planned with
    expect_refusal(&sample, PLAN_F_NO_BORE_HEIGHT);
    sample = sample_make();
    sample.shaft.raw_length = LENGTH_UNKNOWN; // nor the catalogue's raw length
    expect_refusal(&sample, PLAN_F_NO_RAW_LENGTH);
    sample = sample_make();
    sample.order.playing_length = LENGTH_UNKNOWN;
    expect_refusal(&sample, PLAN_F_NO_PLAYING_LENGTH);
    sample = sample_make();
    sample.order.grip_cap = LENGTH_UNKNOWN;
    expect_refusal(&sample, PLAN_F_NO_GRIP_CAP);
    sample = sample_make();
    sample.model.tip_diameter = LENGTH_UNKNOWN;
    expect_refusal(&sample, PLAN_F_NO_DIAMETER);
    sample = sample_make();
    sample.head.hosel_bore = LENGTH_UNKNOWN;
    expect_refusal(&sample, PLAN_F_NO_DIAMETER);
}

// R12, R13: the tip is off; only the butt is open.
static void test_after_the_tip_cut(void **state) {
    (void)state;
    struct sample sample = sample_make();
    struct plan made;
    sample.tip_made = IN(0, 1, 2);
    assert_true(expect_made(&sample, &made));
    assert_int_equal(made.warning_count, 0);
    assert_int_equal(made.reason_count, 1);
    assert_int_equal(made.reason[0].code, PLAN_R_TIP_MADE);
    assert_int_equal(made.butt_trim, IN(3, 5, 8));

    sample.tip_made = IN(0, 9, 16) + 1; // past the mark: the butt follows, to the nanometre
    assert_true(expect_made(&sample, &made));
    assert_int_equal(made.tip_mark, sample.tip_made);
    assert_int_equal(made.butt_trim, IN(3, 9, 16) - 1);
    assert_int_equal(made.butt_mark, IN(41, 7, 8));
    assert_int_equal(made.warning[0].code, PLAN_W_TIP_OFF_PLAN);
    assert_int_equal(made.warning[0].a, IN(0, 1, 2));
    assert_int_equal(made.warning[0].b, sample.tip_made);

    sample.head.bore_height = IN(1, 1, 4); // a second dry fit moves the butt
    assert_true(expect_made(&sample, &made));
    assert_int_equal(made.finished, IN(41, 5, 8));

    sample.tip_made = IN(5, 0, 1); // beyond every tip limit, but it is off
    assert_false(expect_made(&sample, &made));
    assert_int_equal(made.refusal.code, PLAN_F_TOO_SHORT_SHAFT);
    sample.shaft.raw_length = IN(48, 0, 1);
    assert_true(expect_made(&sample, &made));
    sample.chart.count = 0;
    sample.head.weight = MASS_UNKNOWN;
    assert_true(expect_made(&sample, &made));
    assert_false(expect_has(made.warning, made.warning_count, PLAN_W_TIP_OFF_PLAN));
    sample.head.bore_height = LENGTH_UNKNOWN;
    assert_false(expect_made(&sample, &made));
    assert_int_equal(made.refusal.code, PLAN_F_NO_BORE_HEIGHT);
}

// R13: default tolerance 1/16 in.
static void test_verdict(void **state) {
    (void)state;
    length_nm mark = IN(41, 7, 8);
    length_nm tolerance = IN(0, 1, 16);
    assert_int_equal(plan_verdict(mark, mark, tolerance), VERDICT_IN);
    assert_int_equal(plan_verdict(mark + tolerance, mark, tolerance), VERDICT_IN);
    assert_int_equal(plan_verdict(mark - tolerance, mark, tolerance), VERDICT_IN);
    assert_int_equal(plan_verdict(mark + tolerance + 1, mark, tolerance), VERDICT_LONG);
    assert_int_equal(plan_verdict(mark - tolerance - 1, mark, tolerance), VERDICT_SHORT);
    assert_int_equal(plan_verdict(LENGTH_UNKNOWN, mark, tolerance), VERDICT_NONE);
    assert_int_equal(plan_verdict(mark, LENGTH_UNKNOWN, tolerance), VERDICT_NONE);
    assert_string_equal(verdict_text(VERDICT_NONE), "");
    assert_string_equal(verdict_text(VERDICT_IN), "in");
    assert_string_equal(verdict_text(VERDICT_LONG), "long");
    assert_string_equal(verdict_text(VERDICT_SHORT), "short");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_butt),
        cmocka_unit_test(test_fit),
        cmocka_unit_test(test_ties),
        cmocka_unit_test(test_rules_of_golf),
        cmocka_unit_test(test_bore_range),
        cmocka_unit_test(test_unknown_facts),
        cmocka_unit_test(test_after_the_tip_cut),
        cmocka_unit_test(test_verdict),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

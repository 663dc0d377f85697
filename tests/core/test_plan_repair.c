// What repairs ask of the plan: a trim given by a supervisor, a butt extended, a shaft that passes
// the sole, an offcut used again.

#include "check.h"
#include "expect.h"

static bool reason(const struct plan *plan, enum plan_code code) {
    return expect_has(plan->reason, plan->reason_count, code);
}

// --- a given trim --------------------------------------------------------------------------------

// Neither chart nor weight is asked for, and nothing comes on top of what is given.
static void test_given_trim(void **state) {
    (void)state;
    struct sample sample = sample_make();
    struct plan made;
    sample.chart.count = 0;
    sample.head.weight = MASS_UNKNOWN;
    expect_refusal(&sample, PLAN_F_NO_CHART);
    sample.order.given_trim = IN(0, 3, 4);
    assert_true(expect_made(&sample, &made));
    assert_int_equal(made.tip_mark, IN(0, 3, 4));
    assert_int_equal(made.reason_count, 1);
    assert_int_equal(made.reason[0].code, PLAN_R_GIVEN);
    assert_int_equal(made.reason[0].amount, IN(0, 3, 4));
    assert_int_equal(made.warning_count, 0);

    sample = sample_make(); // with a chart, a note and a wish that would all say otherwise
    sample.model.bore_note = BORE_NOTE_ADD_HEIGHT;
    sample.order.uniform_flex = true;
    sample.order.step = 2;
    sample.order.given_trim = IN(0, 3, 4) + IN(0, 1, 64);
    assert_true(expect_made(&sample, &made));
    assert_int_equal(made.tip_trim, IN(0, 3, 4) + IN(0, 1, 64));
    assert_int_equal(made.tip_mark, IN(0, 3, 4));
    assert_true(made.column == PLAN_COLUMN_NONE);
    assert_int_equal(made.reason_count, 2);
    assert_int_equal(made.reason[1].code, PLAN_R_ROUND);
    struct plan_input input = sample_input(&sample);
    assert_null(plan_column(&input, &made));
}

// A putter has no chart; its shaft can be given none off the tip. What was agreed to at the bench
// counts, whatever the order says.
static void test_given_to_a_putter_and_at_the_bench(void **state) {
    (void)state;
    struct sample sample = sample_make();
    struct plan made;
    sample.head.kind = HEAD_KIND_PUTTER;
    sample.order.given_trim = 0;
    assert_true(expect_made(&sample, &made));
    assert_int_equal(made.tip_mark, 0);
    assert_int_equal(made.reason[0].code, PLAN_R_GIVEN);
    sample.order.trim_consent = IN(0, 1, 2);
    assert_int_equal(expect_tip_trim(&sample), IN(0, 1, 2));
    sample.order.given_trim = LENGTH_UNKNOWN;
    assert_int_equal(expect_tip_trim(&sample), IN(0, 1, 2));
}

// R6 holds for what is given too.
static void test_given_within_limits(void **state) {
    (void)state;
    struct sample sample = sample_make(); // 3 in at most, 6 in of parallel tip, insertion 1 1/4
    sample.order.given_trim = IN(3, 0, 1);
    assert_int_equal(expect_tip_trim(&sample), IN(3, 0, 1));
    sample.order.given_trim = IN(3, 1, 16);
    expect_refusal(&sample, PLAN_F_TIP_MAX);
    sample.model.max_tip_trim = IN(6, 0, 1);
    sample.order.given_trim = IN(4, 13, 16);
    expect_refusal(&sample, PLAN_F_TIP_SECTION);
    sample.model.tip = TIP_TAPER;
    sample.model.max_tip_trim = LENGTH_UNKNOWN;
    expect_refusal(&sample, PLAN_F_TAPER);
}

// --- an extension --------------------------------------------------------------------------------

static void test_extension(void **state) {
    (void)state;
    struct sample sample = sample_make();
    struct plan made;
    sample.shaft.raw_length = IN(41, 7, 8); // 1/2 + 41 7/8 is 1/2 more
    expect_refusal(&sample, PLAN_F_TOO_SHORT_SHAFT);
    for (int at_bench = 0; at_bench < 2; at_bench++) {
        sample.order.extension = at_bench == 0;
        sample.order.extension_consent = at_bench == 1;
        assert_true(expect_made(&sample, &made));
        assert_int_equal(made.extension, IN(0, 1, 2));
        assert_int_equal(made.finished, IN(41, 7, 8));
        assert_int_equal(made.butt_mark, IN(41, 7, 8)); // what the measure is held against
        assert_int_equal(made.butt_trim, 0);
        assert_false(made.butt_cut);
        assert_int_equal(made.warning[0].code, PLAN_W_EXTEND);
        assert_int_equal(made.warning[0].a, IN(0, 1, 2));
        assert_int_equal(made.warning[0].b, IN(1, 0, 1));
    }
    sample.shaft.raw_length = IN(41, 3, 8); // to the last hair
    assert_true(expect_made(&sample, &made));
    assert_int_equal(made.extension, IN(1, 0, 1));
    sample.shaft.raw_length -= 1;
    expect_refusal(&sample, PLAN_F_EXTENSION_MAX);
    sample.rules.extension_max += 1;
    assert_true(expect_made(&sample, &made));
    sample.shaft.raw_length = IN(46, 0, 1); // long enough: what is allowed does nothing
    assert_true(expect_made(&sample, &made));
    assert_int_equal(made.extension, 0);
    expect_warning(&sample, PLAN_W_EXTEND, false);
}

// Common practice, no source: the plug sits twice as deep as it stands out, 1 in at least.
static void test_plug(void **state) {
    (void)state;
    assert_int_equal(plan_plug_depth(IN(0, 1, 8)), IN(1, 0, 1));
    assert_int_equal(plan_plug_depth(IN(0, 1, 2)), IN(1, 0, 1));
    assert_int_equal(plan_plug_depth(IN(0, 3, 4)), IN(1, 1, 2));
    assert_int_equal(plan_plug_depth(IN(1, 0, 1)), IN(2, 0, 1));
}

// A tip cut past its mark leaves too little: the same way out.
static void test_extension_after_the_tip(void **state) {
    (void)state;
    struct sample sample = sample_make();
    struct plan made;
    sample.shaft.raw_length = IN(42, 3, 8);
    sample.tip_made = IN(0, 3, 4);
    expect_refusal(&sample, PLAN_F_TOO_SHORT_SHAFT);
    sample.order.extension_consent = true;
    assert_true(expect_made(&sample, &made));
    assert_int_equal(made.extension, IN(0, 1, 4));
}

// --- through the sole ----------------------------------------------------------------------------

// By hand: a putter of 35 in with a grip cap of 1/8 in. The shaft's end is ground off at the ground
// line, which is where the playing length ends too: from there to the cap's inner face are 35 - 1/8
// = 34 7/8. 1/4 in more stands past the sole to be ground: 35 1/8 are kept of a shaft of 36 in,
// with nothing off its tip 7/8 are cut off the butt. A bore height somebody entered counts for
// nothing.
static void test_through_the_sole(void **state) {
    (void)state;
    static const length_nm heights[] = {LENGTH_UNKNOWN, 0, IN(1, 0, 1), IN(9, 0, 1)};
    for (size_t i = 0; i < COUNT(heights); i++) {
        struct sample sample = sample_make();
        struct plan made;
        sample.head.kind = HEAD_KIND_PUTTER;
        sample.head.bore = BORE_THROUGH;
        sample.head.bore_height = heights[i];
        sample.order.given_trim = 0;
        sample.order.playing_length = IN(35, 0, 1);
        sample.shaft.raw_length = IN(36, 0, 1);
        assert_true(expect_made(&sample, &made));
        assert_int_equal(made.finished, IN(35, 1, 8));
        assert_int_equal(made.butt_mark, IN(35, 1, 8));
        assert_int_equal(made.butt_trim, IN(0, 7, 8));
        assert_int_equal(made.proud, IN(0, 1, 4));
        assert_int_equal(made.warning[0].code, PLAN_W_THROUGH);
    }
}

// Charts: one written for bored-through heads adds this head's bore height, which is none; one with
// a reference takes it off; one that spares such heads adds nothing, as ever.
static void test_through_and_the_chart(void **state) {
    (void)state;
    struct sample sample = sample_make();
    struct plan made;
    sample.head.bore = BORE_THROUGH;
    sample.model.bore_note = BORE_NOTE_ADD_HEIGHT;
    assert_true(expect_made(&sample, &made));
    assert_int_equal(made.tip_trim, IN(0, 1, 2));
    assert_true(reason(&made, PLAN_R_BORE_ADD));
    sample.model.note_not_through = true;
    assert_true(expect_made(&sample, &made));
    assert_int_equal(made.tip_trim, IN(0, 1, 2));
    assert_true(reason(&made, PLAN_R_BORE_NONE));
    sample.model.note_not_through = false;
    sample.model.bore_note = BORE_NOTE_ABOVE_REFERENCE;
    sample.model.bore_reference = IN(0, 1, 4);
    assert_int_equal(expect_tip_trim(&sample), IN(0, 1, 4));
    sample.model.bore_note = BORE_NOTE_NONE;
    sample.order.uniform_flex = true;
    sample.order.uniform_reference = IN(0, 3, 8);
    assert_int_equal(expect_tip_trim(&sample), IN(0, 1, 8));
}

// The parallel tip must fill the hosel behind what is ground off: 1 1/4 + 1/4 + 1/2 of trim.
static void test_through_and_the_parallel_tip(void **state) {
    (void)state;
    struct sample sample = sample_make();
    sample.head.bore = BORE_THROUGH;
    sample.model.tip_section = IN(2, 0, 1);
    assert_int_equal(expect_tip_trim(&sample), IN(0, 1, 2));
    sample.model.tip_section -= 1;
    expect_refusal(&sample, PLAN_F_TIP_SECTION);
}

// --- an offcut -----------------------------------------------------------------------------------

static void test_offcut(void **state) {
    (void)state;
    static const struct {
        length_nm cut;
        length_nm mark; // LENGTH_UNKNOWN: refused
    } rows[] = {
        {LENGTH_UNKNOWN, IN(1, 1, 2)},
        {0, IN(1, 1, 2)},
        {IN(0, 1, 2), IN(1, 0, 1)},
        {IN(1, 7, 16), IN(0, 1, 16)},
        {IN(1, 1, 2), 0},
        {IN(1, 33, 64), 0}, // less than half a mark too much
        {IN(1, 17, 32), LENGTH_UNKNOWN},
        {IN(2, 0, 1), LENGTH_UNKNOWN},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct sample sample = sample_make();
        struct plan made;
        sample.chart.column[1].tip_trim = IN(1, 1, 2);
        sample.shaft.raw_length = IN(44, 0, 1);
        sample.shaft.tip_cut = rows[i].cut;
        if (rows[i].mark == LENGTH_UNKNOWN) {
            expect_refusal(&sample, PLAN_F_TIP_OVERCUT);
            continue;
        }
        assert_true(expect_made(&sample, &made));
        assert_int_equal(made.tip_mark, rows[i].mark);
        assert_int_equal(made.butt_trim, IN(44, 0, 1) - rows[i].mark - IN(41, 7, 8));
        assert_int_equal(reason(&made, PLAN_R_TIP_CUT), rows[i].cut > 0);
    }
}

// What R6 allows is about the shaft its maker made.
static void test_offcut_within_limits(void **state) {
    (void)state;
    struct sample sample = sample_make();
    sample.chart.column[1].tip_trim = IN(3, 0, 1);
    sample.shaft.tip_cut = IN(2, 0, 1);
    assert_int_equal(expect_tip_trim(&sample), IN(1, 0, 1));
    sample.chart.column[1].tip_trim = IN(3, 1, 16);
    expect_refusal(&sample, PLAN_F_TIP_MAX);
    sample.model.max_tip_trim = IN(5, 0, 1);
    assert_int_equal(expect_tip_trim(&sample), IN(1, 1, 16));
    sample.model.tip_section = IN(4, 5, 16); // 3 1/16 off, 1 1/4 in the hosel
    assert_int_equal(expect_tip_trim(&sample), IN(1, 1, 16));
    sample.model.tip_section -= 1;
    expect_refusal(&sample, PLAN_F_TIP_SECTION);
    sample.model.tip = TIP_TAPER;
    sample.model.max_tip_trim = 0; // what is off already was not its maker's wish
    sample.chart.column[1].tip_trim = IN(2, 0, 1);
    expect_refusal(&sample, PLAN_F_TAPER);
}

// A given trim is counted from the tip its maker made, as the chart's is.
static void test_offcut_with_a_given_trim(void **state) {
    (void)state;
    struct sample sample = sample_make();
    struct plan made;
    sample.shaft.tip_cut = IN(0, 1, 2);
    sample.order.given_trim = IN(0, 3, 4);
    assert_true(expect_made(&sample, &made));
    assert_int_equal(made.tip_mark, IN(0, 1, 4));
    assert_int_equal(made.reason[0].amount, IN(0, 3, 4));
    assert_int_equal(made.reason[1].amount, -IN(0, 1, 2));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_given_trim),
        cmocka_unit_test(test_given_to_a_putter_and_at_the_bench),
        cmocka_unit_test(test_given_within_limits),
        cmocka_unit_test(test_extension),
        cmocka_unit_test(test_plug),
        cmocka_unit_test(test_extension_after_the_tip),
        cmocka_unit_test(test_through_the_sole),
        cmocka_unit_test(test_through_and_the_chart),
        cmocka_unit_test(test_through_and_the_parallel_tip),
        cmocka_unit_test(test_offcut),
        cmocka_unit_test(test_offcut_within_limits),
        cmocka_unit_test(test_offcut_with_a_given_trim),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

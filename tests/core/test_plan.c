// The tip half of the cut plan, R1 to R6, each rule a small change to the sample club.

#include "check.h"
#include "expect.h"

static void test_whole_plan(void **state) {
    (void)state;
    struct sample sample = sample_make();
    struct plan made;
    assert_true(expect_made(&sample, &made));
    assert_int_equal(made.refusal.code, PLAN_NONE);
    assert_int_equal(made.column, 1);
    assert_int_equal(made.tip_trim, IN(0, 1, 2));
    assert_int_equal(made.tip_mark, IN(0, 1, 2));
    assert_int_equal(made.finished, IN(41, 7, 8)); // 43 - 1 - 1/8
    assert_int_equal(made.butt_mark, IN(41, 7, 8));
    assert_int_equal(made.butt_trim, IN(3, 5, 8)); // 46 - 1/2 - 41 7/8
    assert_true(made.butt_cut);
    assert_int_equal(made.warning_count, 0);
    assert_int_equal(made.reason_count, 2);
    assert_int_equal(made.reason[0].code, PLAN_R_COLUMN);
    assert_int_equal(made.reason[0].amount, IN(0, 1, 2));
    assert_int_equal(made.reason[1].code, PLAN_R_BORE_NONE);
}

// Common practice, no source: raw 46, dry-fit overall 47 is bore height 1; overall 47 1/4 on a
// chart with the through-bore note adds 1 1/4; the same head on a chart without it adds nothing.
static void test_dry_fit_and_through_bore_note(void **state) {
    (void)state;
    struct sample sample = sample_make();
    length_nm without;
    assert_true(plan_dry_fit(IN(47, 0, 1), IN(46, 0, 1), &sample.head.bore_height));
    assert_int_equal(sample.head.bore_height, IN(1, 0, 1));
    without = expect_tip_trim(&sample);
    assert_true(plan_dry_fit(IN(47, 1, 4), IN(46, 0, 1), &sample.head.bore_height));
    assert_int_equal(expect_tip_trim(&sample), without);
    sample.model.bore_note = BORE_NOTE_ADD_HEIGHT;
    assert_int_equal(expect_tip_trim(&sample), without + IN(1, 1, 4));
}

// Common practice, no source: raw 41, overall 42 (iron) and 41 3/4 (hybrid) on one shaft model,
// uniform flex wished, the irons the reference: the hybrid trims 1/4 less.
static void test_uniform_flex_of_a_set(void **state) {
    (void)state;
    struct sample sample = sample_make();
    struct plan_bore bores[2] = {{.kind = HEAD_KIND_IRON}, {.kind = HEAD_KIND_HYBRID}};
    length_nm plain;
    assert_true(plan_dry_fit(IN(42, 0, 1), IN(41, 0, 1), &bores[0].bore_height));
    assert_true(plan_dry_fit(IN(41, 3, 4), IN(41, 0, 1), &bores[1].bore_height));
    sample.head.kind = HEAD_KIND_HYBRID;
    sample.chart.kind = CHART_KIND_HYBRID;
    sample.head.bore_height = bores[1].bore_height;
    plain = expect_tip_trim(&sample);
    sample.order.uniform_flex = true;
    sample.order.uniform_reference = plan_uniform_reference(bores, 2);
    assert_int_equal(sample.order.uniform_reference, IN(1, 0, 1));
    assert_int_equal(expect_tip_trim(&sample), plain - IN(0, 1, 4));
}

// R1. Common practice, no source: a driver head that weighs 210 g takes the 3-wood column, a
// 3-wood head as heavy as a 5-wood the 5-wood column. The limits are rule R1's own.
static void test_column_by_weight(void **state) {
    (void)state;
    static const struct {
        mass_mg weight;
        int column; // -1: refused
    } rows[] = {
        {GRAMS(210), 1},      {GRAMS(220), 2}, {GRAMS(214), 1},      {GRAMS(216), 2},
        {GRAMS(215), 1},                       // as near to both: the lighter
        {GRAMS(215) + 1, 2},  {GRAMS(195), 0}, // half the spacing beyond the end: still in
        {GRAMS(195) - 1, -1}, {GRAMS(235), 3}, {GRAMS(235) + 1, -1}, {GRAMS(100), -1},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct sample sample = sample_make();
        struct plan made;
        sample.head.weight = rows[i].weight;
        if (rows[i].column < 0) {
            expect_refusal(&sample, PLAN_F_BEYOND_COLUMNS);
            strcpy(sample.order.picked_column, " 7 ");
            assert_true(expect_made(&sample, &made));
            assert_int_equal(made.column, 3);
            assert_int_equal(made.reason[0].code, PLAN_R_COLUMN_PICKED);
            assert_false(expect_has(made.warning, made.warning_count, PLAN_W_NOT_ENGRAVED));
        } else {
            assert_true(expect_made(&sample, &made));
            assert_int_equal(made.column, rows[i].column);
            assert_int_equal(expect_has(made.warning, made.warning_count, PLAN_W_NOT_ENGRAVED),
                             rows[i].column != 1);
        }
    }
}

static void test_engraved_is_compared_as_a_word(void **state) {
    (void)state;
    struct sample sample = sample_make();
    strcpy(sample.chart.column[1].name, "3w");
    strcpy(sample.head.engraved, " 3W ");
    expect_warning(&sample, PLAN_W_NOT_ENGRAVED, false);
    strcpy(sample.head.engraved, "");
    expect_warning(&sample, PLAN_W_NOT_ENGRAVED, false);
    strcpy(sample.head.engraved, "15 deg"); // no column has that name: still said
    expect_warning(&sample, PLAN_W_NOT_ENGRAVED, true);
}

static void test_empty_cell(void **state) {
    (void)state;
    struct sample sample = sample_make();
    sample.chart.column[1].tip_trim = LENGTH_UNKNOWN;
    // The nearest column counts whether offered or not: never the next one that is.
    expect_refusal(&sample, PLAN_F_CELL_EMPTY);
    sample.order.step = 1; // stepping away from an empty cell is allowed
    assert_int_equal(expect_tip_trim(&sample), IN(1, 0, 1));
    sample.order.step = 0;
    strcpy(sample.order.picked_column, "5");
    assert_int_equal(expect_tip_trim(&sample), IN(1, 0, 1));
    strcpy(sample.order.picked_column, "9");
    expect_refusal(&sample, PLAN_F_PICK_UNKNOWN);
}

static void test_one_column(void **state) {
    (void)state;
    struct sample sample = sample_make();
    sample.chart.count = 1;
    strcpy(sample.head.engraved, "1");
    sample.head.weight = GRAMS(260); // no spacing to measure by
    assert_int_equal(expect_tip_trim(&sample), 0);
    expect_warning(&sample, PLAN_W_ONE_COLUMN, true);
    sample.head.weight = GRAMS(200);
    expect_warning(&sample, PLAN_W_ONE_COLUMN, false);
}

static void test_no_chart(void **state) {
    (void)state;
    struct sample sample = sample_make();
    sample.chart.count = 0;
    expect_refusal(&sample, PLAN_F_NO_CHART);
    sample = sample_make();
    sample.head.kind = HEAD_KIND_PUTTER;
    expect_refusal(&sample, PLAN_F_NO_CHART);
    sample = sample_make();
    sample.head.kind = HEAD_KIND_IRON; // a chart of another kind is no chart
    expect_refusal(&sample, PLAN_F_NO_CHART);
}

// R3: which heads the chart's note means.
static void test_bore_note(void **state) {
    (void)state;
    unsigned fairway = 1u << HEAD_KIND_FAIRWAY;
    unsigned driver = 1u << HEAD_KIND_DRIVER;
    const struct {
        enum bore_note note;
        unsigned kinds;
        bool not_through;
        enum bore_kind bore;
        length_nm reference;
        length_nm added; // bore height is 1 in
    } rows[] = {
        {BORE_NOTE_NONE, 0, false, BORE_THROUGH, LENGTH_UNKNOWN, 0},
        {BORE_NOTE_NONE, fairway, true, BORE_UNKNOWN, LENGTH_UNKNOWN, 0},
        {BORE_NOTE_ADD_HEIGHT, 0, false, BORE_UNKNOWN, LENGTH_UNKNOWN, IN(1, 0, 1)},
        {BORE_NOTE_ADD_HEIGHT, fairway, false, BORE_UNKNOWN, LENGTH_UNKNOWN, IN(1, 0, 1)},
        {BORE_NOTE_ADD_HEIGHT, driver, false, BORE_UNKNOWN, LENGTH_UNKNOWN, 0},
        {BORE_NOTE_ADD_HEIGHT, driver | fairway, true, BORE_BLIND, LENGTH_UNKNOWN, IN(1, 0, 1)},
        {BORE_NOTE_ADD_HEIGHT, 0, true, BORE_SHORT, LENGTH_UNKNOWN, IN(1, 0, 1)},
        {BORE_NOTE_ADD_HEIGHT, 0, true, BORE_THROUGH, LENGTH_UNKNOWN, 0},
        {BORE_NOTE_ADD_HEIGHT, driver, true, BORE_UNKNOWN, LENGTH_UNKNOWN, 0},
        {BORE_NOTE_ABOVE_REFERENCE, 0, false, BORE_BLIND, IN(0, 3, 4), IN(0, 1, 4)},
        {BORE_NOTE_ABOVE_REFERENCE, 0, false, BORE_BLIND, IN(1, 1, 4), -IN(0, 1, 4)},
        {BORE_NOTE_ABOVE_REFERENCE, driver, false, BORE_BLIND, LENGTH_UNKNOWN, 0},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct sample sample = sample_make();
        sample.model.bore_note = rows[i].note;
        sample.model.note_kinds = rows[i].kinds;
        sample.model.note_not_through = rows[i].not_through;
        sample.model.bore_reference = rows[i].reference;
        sample.head.bore = rows[i].bore;
        if (expect_tip_trim(&sample) != IN(0, 1, 2) + rows[i].added) {
            fail_msg("row %zu", i);
        }
    }
}

static void test_bore_note_lacks_facts(void **state) {
    (void)state;
    struct sample sample = sample_make();
    sample.model.bore_note = BORE_NOTE_ADD_HEIGHT;
    sample.model.note_not_through = true;
    sample.head.bore = BORE_UNKNOWN;
    expect_refusal(&sample, PLAN_F_NO_BORE_KIND);
    sample = sample_make();
    sample.model.bore_note = BORE_NOTE_ABOVE_REFERENCE;
    expect_refusal(&sample, PLAN_F_NO_BORE_REFERENCE);
}

// R4 never on top of R3.
static void test_uniform_never_on_top_of_the_note(void **state) {
    (void)state;
    struct sample sample = sample_make();
    struct plan made;
    sample.order.uniform_flex = true;
    expect_refusal(&sample, PLAN_F_NO_UNIFORM_REFERENCE);
    sample.order.uniform_reference = IN(0, 3, 4);
    assert_int_equal(expect_tip_trim(&sample), IN(0, 3, 4));
    sample.model.bore_note = BORE_NOTE_ADD_HEIGHT;
    assert_true(expect_made(&sample, &made));
    assert_int_equal(made.tip_trim, IN(1, 1, 2));
    assert_true(expect_has(made.reason, made.reason_count, PLAN_R_UNIFORM_IN_CHART));
    assert_false(expect_has(made.reason, made.reason_count, PLAN_R_UNIFORM));
    sample.order.uniform_reference = LENGTH_UNKNOWN; // not needed then
    assert_int_equal(expect_tip_trim(&sample), IN(1, 1, 2));
}

static void test_step(void **state) {
    (void)state;
    static const struct {
        int step;
        int column; // -1: refused
    } rows[] = {{-1, 0}, {1, 2}, {2, 3}, {-2, -1}, {3, -1}, {INT32_MIN, -1}, {INT32_MAX, -1}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct sample sample = sample_make();
        struct plan made;
        sample.order.step = rows[i].step;
        if (rows[i].column < 0) {
            expect_refusal(&sample, PLAN_F_STEP_OFF_END);
            continue;
        }
        assert_true(expect_made(&sample, &made));
        assert_int_equal(made.column, rows[i].column);
        assert_int_equal(made.tip_trim, sample.chart.column[rows[i].column].tip_trim);
        assert_int_equal(made.reason[1].code, PLAN_R_STEP);
    }
}

// R6.
static void test_below_zero(void **state) {
    (void)state;
    struct sample sample = sample_make();
    struct plan made;
    sample.order.uniform_flex = true;
    sample.order.uniform_reference = IN(1, 3, 4); // 1/2 + 1 - 1 3/4 = -1/4
    assert_true(expect_made(&sample, &made));
    assert_int_equal(made.tip_trim, 0);
    assert_int_equal(made.tip_mark, 0);
    assert_int_equal(made.warning[0].code, PLAN_W_SHORTFALL);
    assert_int_equal(made.warning[0].a, IN(0, 1, 4));
    assert_int_equal(made.reason[3].code, PLAN_R_ROUND);
    assert_int_equal(made.reason[3].amount, IN(0, 1, 4));
}

static void test_tip_limits(void **state) {
    (void)state;
    length_nm sliver = IN(0, 1, 64);
    struct sample sample = sample_make();
    sample.model.max_tip_trim = IN(0, 1, 2);
    assert_int_equal(expect_tip_trim(&sample), IN(0, 1, 2));
    sample.chart.column[1].tip_trim = IN(0, 1, 2) + sliver; // checked on the rounded trim
    assert_int_equal(expect_tip_trim(&sample), IN(0, 1, 2) + sliver);
    sample.chart.column[1].tip_trim = IN(0, 1, 2) + 3 * sliver;
    expect_refusal(&sample, PLAN_F_TIP_MAX);
    sample.model.max_tip_trim = LENGTH_UNKNOWN;
    expect_warning(&sample, PLAN_W_TIP_LIMIT_UNKNOWN, true);

    sample = sample_make(); // 1/2 off, insertion 1 1/4
    sample.model.tip_section = IN(1, 3, 4);
    expect_warning(&sample, PLAN_W_TIP_SECTION_UNKNOWN, false);
    sample.model.tip_section -= 1;
    expect_refusal(&sample, PLAN_F_TIP_SECTION);
    sample.model.tip_section = LENGTH_UNKNOWN;
    expect_warning(&sample, PLAN_W_TIP_SECTION_UNKNOWN, true);
    sample.head.insertion = LENGTH_UNKNOWN; // nothing to compare it with
    expect_warning(&sample, PLAN_W_TIP_SECTION_UNKNOWN, true);
    sample.model.tip_section = IN(6, 0, 1);
    expect_refusal(&sample, PLAN_F_NO_INSERTION);
}

static void test_taper_tip(void **state) {
    (void)state;
    struct sample sample = sample_make();
    sample.model.tip = TIP_TAPER;
    sample.head.insertion = LENGTH_UNKNOWN;
    sample.model.tip_section = LENGTH_UNKNOWN;
    assert_int_equal(expect_tip_trim(&sample), IN(0, 1, 2)); // its maker allows 3 in
    sample.model.max_tip_trim = IN(0, 1, 4);
    expect_refusal(&sample, PLAN_F_TIP_MAX);
    sample.model.max_tip_trim = 0;
    expect_refusal(&sample, PLAN_F_TAPER);
    sample.model.max_tip_trim = LENGTH_UNKNOWN;
    expect_refusal(&sample, PLAN_F_TAPER);
    sample.chart.column[1].tip_trim = 0;
    assert_int_equal(expect_tip_trim(&sample), 0);
    expect_warning(&sample, PLAN_W_TIP_LIMIT_UNKNOWN, false);
    expect_warning(&sample, PLAN_W_TIP_SECTION_UNKNOWN, false);
}

#define DRIVER HEAD_KIND_DRIVER
#define HYBRID HEAD_KIND_HYBRID
#define IRON HEAD_KIND_IRON

static void test_uniform_reference(void **state) {
    (void)state;
    static const struct {
        size_t count;
        struct plan_bore bores[6];
        length_nm reference;
    } rows[] = {
        {0, {{IRON, 1}}, LENGTH_UNKNOWN},
        {2, {{IRON, LENGTH_UNKNOWN}, {HYBRID, LENGTH_UNKNOWN}}, LENGTH_UNKNOWN},
        {1, {{HYBRID, 3}}, 3},
        {3, {{HYBRID, 3}, {HYBRID, 3}, {IRON, 2}}, 3},            // most clubs
        {2, {{HYBRID, 3}, {IRON, 4}}, 4},                         // a tie goes to the irons
        {4, {{HYBRID, 2}, {HYBRID, 2}, {IRON, 4}, {IRON, 4}}, 4}, //
        {4, {{HYBRID, 2}, {IRON, 2}, {IRON, 4}, {IRON, 4}}, 4},   // to the more irons
        {2, {{IRON, 5}, {IRON, 4}}, 4},                           // then to the smaller height
        {2, {{HYBRID, 5}, {DRIVER, 4}}, 4},                       //
        {4, {{IRON, LENGTH_UNKNOWN}, {IRON, LENGTH_UNKNOWN}, {HYBRID, 3}, {DRIVER, 7}}, 3},
        {6, {{IRON, 9}, {IRON, 8}, {IRON, 7}, {IRON, 6}, {HYBRID, 5}, {HYBRID, 5}}, 5},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        if (plan_uniform_reference(rows[i].bores, rows[i].count) != rows[i].reference) {
            fail_msg("row %zu", i);
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_whole_plan),
        cmocka_unit_test(test_dry_fit_and_through_bore_note),
        cmocka_unit_test(test_uniform_flex_of_a_set),
        cmocka_unit_test(test_column_by_weight),
        cmocka_unit_test(test_engraved_is_compared_as_a_word),
        cmocka_unit_test(test_empty_cell),
        cmocka_unit_test(test_one_column),
        cmocka_unit_test(test_no_chart),
        cmocka_unit_test(test_bore_note),
        cmocka_unit_test(test_bore_note_lacks_facts),
        cmocka_unit_test(test_uniform_never_on_top_of_the_note),
        cmocka_unit_test(test_step),
        cmocka_unit_test(test_below_zero),
        cmocka_unit_test(test_tip_limits),
        cmocka_unit_test(test_taper_tip),
        cmocka_unit_test(test_uniform_reference),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

#include "check.h"
#include "estimate_text.h"
#include "sample.h"

#include <stdio.h>

// An invented steel iron shaft of plausible measures, and a head that takes the third column.
static struct club steel(void) {
    struct sample sample = sample_make();
    struct club club = {.order = sample.order,
                        .head = sample.head,
                        .shaft = sample.shaft,
                        .model = sample.model,
                        .chart = sample.chart,
                        .progress = {.stage = STAGE_PENDING}};
    club.model.material = MATERIAL_STEEL;
    club.model.tip_diameter = LENGTH_INCH * 37 / 100;
    club.model.butt_diameter = LENGTH_INCH * 60 / 100;
    club.model.tip_wall = LENGTH_INCH * 18 / 1000;
    club.model.butt_wall = LENGTH_INCH * 13 / 1000;
    club.head.hosel_bore = club.model.tip_diameter;
    club.shaft.weight = GRAMS(125);
    club.order.grip_weight = GRAMS(50);
    return club;
}

static struct estimate_lines say(const struct club *club, struct plan *ret_plan) {
    const struct bench_rules rules = BENCH_RULES_DEFAULT;
    const struct assembly assembly = ASSEMBLY_DEFAULT;
    struct plan_input input;
    struct estimate_lines lines;
    assert_true(club_plan(club, &rules, &input, ret_plan));
    estimate_say(club, &input, ret_plan, &assembly, &lines);
    return lines;
}

static void test_change(void **state) {
    (void)state;
    static const struct {
        double change;
        const char *text;
    } rows[] = {
        {1.1, "about 1.1 cpm stiffer"},    {-0.44, "about 0.4 cpm softer"},
        {0.049, "less than 0.1 cpm"},      {-0.049, "less than 0.1 cpm"},
        {12.96, "about 13.0 cpm stiffer"}, {0, "less than 0.1 cpm"},
    };
    char text[ESTIMATE_TEXT_MAX];
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct estimate_value change = {ESTIMATE_GAP_NONE, rows[i].change};
        assert_true(estimate_change_text(&change, text));
        assert_string_equal(text, rows[i].text);
    }
    assert_false(estimate_change_text(&(struct estimate_value){ESTIMATE_GAP_STIFFNESS, 3}, text));
    assert_string_equal(text, "");
}

static void test_a_plain_club_is_summed_up(void **state) {
    (void)state;
    struct club club = steel();
    struct plan plan;
    strcpy(club.order.swingweight, "D2");
    struct estimate_lines lines = say(&club, &plan);
    int at = 0;
    assert_int_equal(lines.count, 1);
    sscanf(lines.line[0], "Estimate: swingweight about %*[A-G]%*f for D2, about %*f cpm%n", &at);
    assert_int_equal(at, strlen(lines.line[0]));
}

static void test_what_corrections_buy(void **state) {
    (void)state;
    struct club club = steel();
    struct plan plan;
    char text[ESTIMATE_TEXT_MAX];
    club.model.bore_note = BORE_NOTE_ADD_HEIGHT;
    club.order.step = -1;
    struct estimate_lines lines = say(&club, &plan);
    struct estimate_value bare =
        estimate_flex_change(&club, &plan, plan.tip_mark - club.head.bore_height);
    assert_true(bare.gap == ESTIMATE_GAP_NONE && bare.value < 0);
    assert_true(estimate_change_text(&bare, text));
    assert_int_equal(lines.count, 3);
    assert_ptr_equal(strstr(lines.line[1], "Without the bore height: about "), lines.line[1]);
    assert_non_null(strstr(lines.line[1], text));
    // A soft-step trims less: without it the club is stiffer.
    assert_ptr_equal(strstr(lines.line[2], "Without the step: about "), lines.line[2]);
    assert_non_null(strstr(lines.line[2], "stiffer (estimate)"));
}

static void test_uniform_flex(void **state) {
    (void)state;
    struct club club = steel();
    struct plan plan;
    club.order.uniform_flex = true;
    club.order.uniform_reference = club.head.bore_height - LENGTH_INCH / 4;
    struct estimate_lines lines = say(&club, &plan);
    assert_int_equal(lines.count, 2);
    assert_ptr_equal(strstr(lines.line[1], "Without the uniform flex correction: about "),
                     lines.line[1]);
    assert_non_null(strstr(lines.line[1], "softer (estimate)"));
}

static void test_outcomes(void **state) {
    (void)state;
    const struct assembly assembly = ASSEMBLY_DEFAULT;
    struct club club = steel();
    struct plan plan;
    char text[ESTIMATE_TEXT_MAX];
    char change[ESTIMATE_TEXT_MAX];
    say(&club, &plan);
    estimate_say_tip(&club, &plan, plan.tip_mark + LENGTH_INCH / 4, text);
    struct estimate_value more =
        estimate_flex_change(&club, &plan, plan.tip_mark + LENGTH_INCH / 4);
    assert_true(more.value > 0.05 && estimate_change_text(&more, change));
    assert_ptr_equal(strstr(text, "As cut: about "), text);
    assert_non_null(strstr(text, change));
    // Half an inch of length is worth about 3 points, 2 to 3.5 (common practice, no source).
    double made;
    double planned;
    char letter[2];
    estimate_say_length(&club, &plan, &assembly, plan.finished - LENGTH_INCH / 2, text);
    assert_int_equal(sscanf(text, "As measured: swingweight about %1[A-G]%lf, planned %*[A-G]%lf",
                            letter, &made, &planned),
                     3);
    double points = planned - made + (planned < made ? 10 : 0);
    assert_true(points > 2 && points < 3.5);
    club.shaft.weight = MASS_UNKNOWN;
    estimate_say_length(&club, &plan, &assembly, plan.finished - LENGTH_INCH / 2, text);
    assert_string_equal(text, "");
    estimate_say_tip(&club, &plan, plan.tip_mark + LENGTH_INCH / 4, text);
    assert_string_equal(text, "");
}

static void test_what_is_not_known_makes_no_line(void **state) {
    (void)state;
    struct club club = steel();
    struct plan plan;
    club.model.tip_wall = LENGTH_UNKNOWN;
    struct estimate_lines lines = say(&club, &plan);
    assert_int_equal(lines.count, 1);
    assert_null(strstr(lines.line[0], "cpm"));
    club.shaft.weight = MASS_UNKNOWN;
    lines = say(&club, &plan);
    assert_int_equal(lines.count, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_change),
        cmocka_unit_test(test_a_plain_club_is_summed_up),
        cmocka_unit_test(test_what_corrections_buy),
        cmocka_unit_test(test_uniform_flex),
        cmocka_unit_test(test_outcomes),
        cmocka_unit_test(test_what_is_not_known_makes_no_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

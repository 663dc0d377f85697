#include "check.h"
#include "sample.h"

static struct club club_make(enum stage stage, length_nm tip_made) {
    struct sample sample = sample_make();
    return (struct club){
        .id = 1,
        .order = sample.order,
        .head = sample.head,
        .shaft = sample.shaft,
        .model = sample.model,
        .chart = sample.chart,
        .progress = {.stage = stage, .attempt = 1, .tip_made = tip_made},
    };
}

// A partial cut at the tip mark leaves the tip open; a tip cut that stands leaves only the butt.
static void test_plans_from_what_is_cut(void **state) {
    (void)state;
    static const struct {
        enum stage stage;
        length_nm tip_made;
        length_nm tip_mark;
    } rows[] = {
        {STAGE_PENDING, LENGTH_UNKNOWN, IN(0, 1, 2)},
        {STAGE_TIP_SHOWN, LENGTH_UNKNOWN, IN(0, 1, 2)},
        {STAGE_TIP_SHOWN, IN(0, 1, 4), IN(0, 1, 2)},
        {STAGE_TIP_CUT, IN(0, 5, 8), IN(0, 5, 8)},
        {STAGE_BUTT_SHOWN, IN(0, 5, 8), IN(0, 5, 8)},
        {STAGE_BUTT_CUT, IN(0, 5, 8), IN(0, 5, 8)},
        {STAGE_DECISION, IN(0, 5, 8), IN(0, 5, 8)},
        {STAGE_DONE, IN(0, 5, 8), IN(0, 5, 8)},
        {STAGE_BUTT_SHOWN, LENGTH_UNKNOWN, IN(0, 1, 2)},
    };
    struct bench_rules bench = BENCH_RULES_DEFAULT;
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct club club = club_make(rows[i].stage, rows[i].tip_made);
        struct plan_input input;
        struct plan plan;
        assert_true(club_plan(&club, &bench, &input, &plan));
        assert_int_equal(plan.tip_mark, rows[i].tip_mark);
        assert_ptr_equal(input.head, &club.head);
        assert_ptr_equal(input.shaft, &club.shaft);
        assert_ptr_equal(input.model, &club.model);
        assert_ptr_equal(input.chart, &club.chart);
        assert_ptr_equal(input.order, &club.order);
        assert_ptr_equal(input.rules, &bench);
    }
}

static void test_refusal_is_passed_on(void **state) {
    (void)state;
    struct bench_rules bench = BENCH_RULES_DEFAULT;
    struct club club = club_make(STAGE_PENDING, LENGTH_UNKNOWN);
    struct plan_input input;
    struct plan plan;
    club.head.bore_height = LENGTH_UNKNOWN;
    assert_false(club_plan(&club, &bench, &input, &plan));
    assert_int_equal(plan.refusal.code, PLAN_F_NO_BORE_HEIGHT);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_plans_from_what_is_cut),
        cmocka_unit_test(test_refusal_is_passed_on),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

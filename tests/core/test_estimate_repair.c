// Estimates of clubs as repairs make them, each against the plain club that it is the same thing
// as.

#include "check.h"
#include "estimate.h"
#include "sample.h"

#include <math.h>

// A shaft of even mass with a profile, so that a piece of it is known as well as the whole.
static struct club plain(void) {
    struct sample sample = sample_make();
    struct club club = {.head = sample.head,
                        .shaft = sample.shaft,
                        .model = sample.model,
                        .order = sample.order,
                        .progress = {.attempt = 1, .tip_made = LENGTH_UNKNOWN}};
    club.model.butt_diameter = LENGTH_UNKNOWN;
    club.profile = (struct profile){
        .count = 3, .point = {{0, 11000}, {IN(10, 0, 1), 17000}, {IN(46, 0, 1), 58000}}};
    club.order.given_trim = IN(0, 1, 2);
    return club;
}

static void expect_same(const struct club *a, const struct club *b, bool frequency) {
    const struct assembly assembly = ASSEMBLY_DEFAULT;
    struct bench_rules rules = BENCH_RULES_DEFAULT;
    const struct club *clubs[] = {a, b};
    struct estimate estimate[2];
    for (size_t i = 0; i < 2; i++) {
        struct plan_input input;
        struct plan plan;
        if (!club_plan(clubs[i], &rules, &input, &plan)) {
            fail_msg("club %zu: %s", i, plan_code_name(plan.refusal.code));
        }
        estimate_make(clubs[i], &plan, &assembly, &estimate[i]);
        assert_int_equal(estimate[i].weight.gap, ESTIMATE_GAP_NONE);
        assert_int_equal(estimate[i].frequency.gap, ESTIMATE_GAP_NONE);
    }
    if (frequency) {
        assert_true(fabs(estimate[0].frequency.value - estimate[1].frequency.value) < 1e-6);
    } else {
        assert_true(fabs(estimate[0].weight.value - estimate[1].weight.value) < 1e-6);
        assert_true(fabs(estimate[0].swingweight.value - estimate[1].swingweight.value) < 1e-6);
        assert_true(fabs(estimate[0].inertia.value - estimate[1].inertia.value) < 1e-6);
    }
}

// Ground flush, 1/2 in of trim and 1/4 in of grinding are 3/4 in off the tip of a shaft that ends
// at the ground line.
static void test_through_the_sole(void **state) {
    (void)state;
    struct club through = plain();
    struct club ends_there = plain();
    through.head.bore = BORE_THROUGH;
    ends_there.head.bore_height = 0;
    ends_there.order.given_trim = IN(0, 3, 4);
    expect_same(&through, &ends_there, false);
    expect_same(&through, &ends_there, true);
}

// A piece that lacks 2 in of its tip already is the whole shaft with 2 in cut off.
static void test_offcut(void **state) {
    (void)state;
    struct club whole = plain();
    struct club offcut = plain();
    whole.order.given_trim = offcut.order.given_trim = IN(2, 0, 1);
    offcut.shaft.tip_cut = IN(2, 0, 1);
    offcut.shaft.raw_length = IN(44, 0, 1);
    whole.shaft.weight = 46 * 1000;
    offcut.shaft.weight = 44 * 1000;
    expect_same(&whole, &offcut, false);
    expect_same(&whole, &offcut, true);
    offcut.shaft.tip_cut = 0; // the same piece from further up would be softer: it is told apart
    const struct assembly assembly = ASSEMBLY_DEFAULT;
    struct bench_rules rules = BENCH_RULES_DEFAULT;
    struct plan_input input;
    struct plan plan;
    struct estimate cut, uncut;
    offcut.order.given_trim = 0;
    assert_true(club_plan(&offcut, &rules, &input, &plan));
    estimate_make(&offcut, &plan, &assembly, &uncut);
    assert_true(club_plan(&whole, &rules, &input, &plan));
    estimate_make(&whole, &plan, &assembly, &cut);
    assert_true(cut.frequency.value > uncut.frequency.value + 1);
}

// The plug weighs nothing here: a club whose butt is 1/2 in longer by it is one whose cap is 1/2 in
// thicker. Clamped over its last 5 in it swings as the longer shaft does.
static void test_extension(void **state) {
    (void)state;
    struct club extended = plain();
    struct club thick = plain();
    struct club longer = plain();
    extended.order.extension = true;
    extended.shaft.raw_length = IN(41, 7, 8); // 1/2 + 41 7/8 - 1/2
    extended.shaft.weight = 335 * 200;
    thick.shaft = extended.shaft;
    thick.order.grip_cap += IN(0, 1, 2);
    expect_same(&extended, &thick, false);
    longer.shaft.raw_length = IN(42, 3, 8);
    longer.shaft.weight = 339 * 200; // as much an inch
    expect_same(&extended, &longer, true);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_through_the_sole),
        cmocka_unit_test(test_offcut),
        cmocka_unit_test(test_extension),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

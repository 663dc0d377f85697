#include "assign_brute.h"
#include "check.h"
#include "match_sample.h"

#include <math.h>

static struct match_sample sample;

static void near(double got, double wanted, double within) {
    if (!(fabs(got - wanted) <= within)) {
        fail_msg("%.6f is not %.6f within %g", got, wanted, within);
    }
}

// 2 g at the head is about a point and 9 g of shaft is about a point (common practice, no source).
// So of two heads 2 g apart the heavier takes the shaft that is 9 g lighter, and the clubs come out
// within half a point; the other way round they would be two points apart.
static void heavy_head_light_shaft(void **state) {
    struct match_result result;
    (void)state;
    match_sample_make(&sample, 2, 2);
    sample.club[0].head.weight = GRAMS(210);
    sample.club[1].head.weight = GRAMS(212);
    sample.shaft[0].weight = GRAMS(60);
    sample.shaft[1].weight = GRAMS(69);
    result = match_sample_build(&sample);
    assert_int_equal(result.chosen, 2);
    assert_int_equal(result.club[0].shaft, 1);
    assert_int_equal(result.club[1].shaft, 0);
    assert_true(result.spread < 0.5);
    assert_false(result.aimed);
    assert_false(result.club[0].open);
    // Aims are the middle of the two; both are off by half the spread.
    near(result.club[0].aim, (result.club[0].value + result.club[1].value) / 2, 0.02);
    near(fabs(result.club[0].value - result.club[1].value) / BALANCE_POINT, result.spread, 0.02);
    sample.club[1].head.weight = GRAMS(208);
    result = match_sample_build(&sample);
    assert_int_equal(result.club[0].shaft, 0);
    assert_int_equal(result.club[1].shaft, 1);
}

// The value of every club and shaft by estimate_make, in hundredths, without match_value.c.
static void values_by_hand(int32_t value[BRUTE_ROWS_MAX * BRUTE_COLUMNS_MAX], double wish) {
    const struct match_request *request = &sample.request;
    for (size_t i = 0; i < request->club_count; i++) {
        for (size_t k = 0; k < request->shaft_count; k++) {
            struct club club = sample.club[i];
            struct plan_input input;
            struct plan plan;
            struct estimate estimate;
            club.shaft = sample.shaft[k];
            club.model = sample.model;
            club.chart = sample.chart;
            club.profile = sample.profile[k];
            bool valid = club_plan(&club, &sample.rules, &input, &plan);
            estimate_make(&club, &plan, &sample.assembly, &estimate);
            double apart =
                request->by == MATCH_BY_FLEX
                    ? estimate.frequency.value - request->line.slope * (double)club.order.position
                    : (estimate.swingweight.value - wish) / BALANCE_POINT;
            value[i * request->shaft_count + k] =
                valid ? (int32_t)lround(apart * 100) : ASSIGN_NONE;
        }
    }
}

// Random builds; heads, lengths, shafts vary as they do in a shop, some shafts too short. The
// choice must be that of brute force over values computed here.
static void against_brute_force(void **state) {
    uint64_t seed = 14;
    (void)state;
    for (size_t round = 0; round < 400; round++) {
        int32_t value[BRUTE_ROWS_MAX * BRUTE_COLUMNS_MAX];
        struct assign_problem problem = {.value = value};
        struct brute brute;
        struct match_result result;
        bool wish = round % 4 == 1;
        match_sample_make(&sample, (size_t)sample_between(&seed, 1, 3),
                          (size_t)sample_between(&seed, 2, SAMPLE_SHAFTS));
        for (size_t i = 0; i < sample.request.club_count; i++) {
            sample.club[i].head.weight = GRAMS(sample_between(&seed, 200, 230));
            sample.club[i].order.playing_length = IN(sample_between(&seed, 82, 86), 0, 1) / 2;
            memcpy(sample.club[i].order.swingweight, wish ? "D2" : "", wish ? 3 : 1);
        }
        for (size_t k = 0; k < sample.request.shaft_count; k++) {
            sample.shaft[k].weight = GRAMS(sample_between(&seed, 58, 66));
            sample.shaft[k].raw_length = IN(sample_between(&seed, 84, 93), 0, 1) / 2;
            sample.profile[k].point[1].stiffness = sample_between(&seed, 50, 70) * 1000;
        }
        if (round % 4 == 3) {
            sample.request.by = MATCH_BY_FLEX;
            sample.request.line.slope = 3;
        }
        values_by_hand(value, wish ? 217 : 0); // D2: 213.5 + 2 x 1.75
        problem.rows = sample.request.club_count;
        problem.columns = sample.request.shaft_count;
        problem.aim = wish ? ASSIGN_AIM_ZERO : ASSIGN_AIM_MIDDLE;
        brute = brute_solve(&problem);
        result = match_sample_build(&sample);
        assert_int_equal(result.aimed, wish);
        assert_int_equal(result.chosen, brute.matched);
        near(result.spread, (double)brute.spread / 100, 1e-9);
        for (size_t i = 0; i < problem.rows; i++) {
            assert_int_equal(result.club[i].shaft, brute.column[i]);
            assert_int_equal(result.club[i].open, brute.open[i]);
        }
    }
}

// Nearness to the wish decides between sets of the same spread: of four shafts in two equal pairs
// the pair nearer to the wish is taken, and it is the lighter or the heavier as the wish says.
static void wishes_decide(void **state) {
    static const struct {
        const char *wish;
        int first;
    } cases[] = {{"C0", 0}, {"E9", 2}};
    (void)state;
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct match_result result;
        match_sample_make(&sample, 2, 4);
        sample.shaft[2].weight = GRAMS(70);
        sample.shaft[3].weight = GRAMS(70);
        memcpy(sample.club[0].order.swingweight, cases[i].wish, 3);
        memcpy(sample.club[1].order.swingweight, cases[i].wish, 3);
        result = match_sample_build(&sample);
        assert_true(result.aimed);
        near(result.spread, 0, 1e-9);
        assert_int_equal(result.club[0].shaft, cases[i].first);
        assert_int_equal(result.club[1].shaft, cases[i].first + 1);
        assert_int_equal(result.club[0].swaps, 2);
        assert_true(result.club[0].open);
        // C0 is 196 in oz, E9 246.75: ten points a letter of 1.75 in oz, D0 = 213.5.
        near(result.club[0].aim, i == 0 ? 196 : 246.75, 1e-9);
    }
}

static void wishes_missing_and_unreadable(void **state) {
    struct match_result result;
    (void)state;
    match_sample_make(&sample, 5, 7);
    memcpy(sample.club[0].order.swingweight, "D4", 3);
    memcpy(sample.club[1].order.swingweight, "D1", 3);
    memcpy(sample.club[2].order.swingweight, "d1.0", 5);
    memcpy(sample.club[4].order.swingweight, "X1", 3);
    result = match_sample_build(&sample);
    assert_int_equal(result.chosen, 4);
    assert_true(result.club[3].wish_assumed);
    assert_false(result.club[2].wish_assumed);
    near(result.club[3].aim, 215.25, 1e-9); // D1
    assert_int_equal(result.club[4].outcome, MATCH_BAD_WISH);
    assert_int_equal(result.club[4].shaft, MATCH_NO_SHAFT);
    // What a club without a head wishes does not count.
    sample.club[1].head.ticket[0] = '\0';
    result = match_sample_build(&sample);
    assert_int_equal(result.club[1].outcome, MATCH_NO_HEAD);
    assert_int_equal(result.chosen, 3);
    near(result.club[3].aim, 220.5, 1e-9); // D4 and D1 once each: the first
    // By flex no wish is read.
    sample.request.by = MATCH_BY_FLEX;
    result = match_sample_build(&sample);
    assert_int_equal(result.chosen, 4);
    assert_false(result.club[3].wish_assumed);
}

// The frequency of a beam goes with the square root of its stiffness (exact: stiffness is a factor
// of the eigenvalue). With alike heads, shafts whose stiffness is the square of 1, 1 + d, 1 + 2 d
// make a line of slope d times the first frequency; four more shafts lie off it.
static void flex_line(void **state) {
    static const double factor[SAMPLE_SHAFTS] = {1.005, 1.02, 0.99, 1.0, 1.033, 1.01, 1.05};
    struct match_result result;
    double first;
    (void)state;
    match_sample_make(&sample, 3, SAMPLE_SHAFTS);
    for (size_t k = 0; k < SAMPLE_SHAFTS; k++) {
        for (size_t i = 0; i < 2; i++) {
            int64_t *stiffness = &sample.profile[k].point[i].stiffness;
            *stiffness = llround((double)*stiffness * factor[k] * factor[k]);
        }
    }
    sample.request.by = MATCH_BY_FLEX;
    result = match_sample_build(&sample);
    assert_false(result.aimed); // slope 0: three as alike as can be
    assert_int_equal(result.club[0].shaft, 0);
    assert_int_equal(result.club[1].shaft, 3);
    assert_int_equal(result.club[2].shaft, 5);

    first = result.club[1].value;
    sample.request.line.slope = 0.01 * first;
    result = match_sample_build(&sample);
    assert_false(result.aimed);
    assert_true(result.spread < 0.03);
    assert_int_equal(result.chosen, 3);
    // 0.99, 1, 1.01 or 1, 1.01, 1.02: both are lines; the first club takes the earlier in the
    // stock.
    near(result.club[1].value - result.club[0].value, 0.01 * first, 0.03);
    near(result.club[2].value - result.club[1].value, 0.01 * first, 0.03);
    near(result.club[1].aim - result.club[0].aim, 0.01 * first, 1e-9);

    sample.request.line = (struct match_line){
        .slope = 0.01 * first, .anchored = true, .position = 2, .cpm = 1.01 * first};
    result = match_sample_build(&sample);
    assert_true(result.aimed);
    assert_int_equal(result.club[0].shaft, 3);
    assert_int_equal(result.club[1].shaft, 5);
    assert_int_equal(result.club[2].shaft, 1);
    near(result.club[0].aim, first, 1e-9);
    near(result.club[2].aim, 1.02 * first, 1e-9);
}

static void why_not(void **state) {
    struct match_result result;
    (void)state;
    match_sample_make(&sample, 2, 6);
    memcpy(sample.club[0].order.wished_model, "REED 60", 8);
    memcpy(sample.club[0].order.wished_flex, "r", 2);
    memcpy(sample.shaft[0].model, "Sedge", 6);
    memcpy(sample.shaft[1].flex, "S", 2);
    sample.shaft[2].raw_length = IN(41, 0, 1);
    sample.shaft[3].weight = MASS_UNKNOWN;
    sample.shaft[4].raw_length = IN(41, 1, 2);
    sample.stock[5].chart[CHART_KIND_WOOD] = NULL;
    result = match_sample_build(&sample);
    assert_int_equal(result.chosen, 1);
    assert_int_equal(result.club[0].outcome, MATCH_NONE_USABLE);
    assert_int_equal(result.club[0].short_of, 0);
    assert_int_equal(result.club[0].other.shafts, 2);
    assert_int_equal(result.club[0].other.first, 0);
    assert_int_equal(result.club[0].refused[PLAN_F_TOO_SHORT_SHAFT].shafts, 2);
    assert_int_equal(result.club[0].refused[PLAN_F_TOO_SHORT_SHAFT].first, 2);
    assert_int_equal(result.club[0].refused[PLAN_F_NO_CHART].shafts, 1);
    assert_int_equal(result.club[0].unknown[ESTIMATE_GAP_SHAFT_WEIGHT].shafts, 1);
    assert_int_equal(result.club[0].usable, 0);
    assert_int_equal(result.club[1].outcome, MATCH_CHOSEN);
    assert_int_equal(result.club[1].usable, 2);
    sample.request.by = MATCH_BY_FLEX;
    sample.stock[0].profile = NULL;
    sample.request.line.slope = NAN;
    result = match_sample_build(&sample);
    assert_int_equal(result.club[1].unknown[ESTIMATE_GAP_STIFFNESS].shafts, 1);
    assert_int_equal(result.club[1].unknown[ESTIMATE_GAP_IMPLAUSIBLE].shafts, 1);
    assert_int_equal(result.chosen, 0);
}

static void too_few(void **state) {
    struct match_result result;
    (void)state;
    match_sample_make(&sample, 4, 3);
    memcpy(sample.club[1].order.wished_flex, "X", 2);
    memcpy(sample.club[3].order.wished_flex, "X", 2);
    memcpy(sample.shaft[2].flex, "X", 2);
    result = match_sample_build(&sample);
    assert_int_equal(result.chosen, 3);
    assert_int_equal(result.club[1].shaft, 2);
    assert_int_equal(result.club[3].outcome, MATCH_TOO_FEW);
    assert_int_equal(result.club[3].short_of, 1u << 1 | 1u << 3);
    assert_int_equal(result.club[3].usable, 1);
}

// R4: four irons' worth of clubs with bore 1, one with 3/4: uniform flex trims that one 1/4 less.
// The clubs that wish another model do not count.
static void uniform_flex(void **state) {
    struct match_result result;
    (void)state;
    match_sample_make(&sample, 5, 7);
    for (size_t i = 0; i < 5; i++) {
        sample.club[i].order.uniform_flex = true;
        sample.club[i].head.bore_height = IN(0, i < 2 ? 4 : 3, 4);
        memcpy(sample.club[i].order.wished_model, i < 3 ? "Reed 60" : "Sedge", i < 3 ? 8 : 6);
    }
    sample.chart.column[1].tip_trim = IN(0, 1, 8); // 1/8 - 1/4 is below zero: a shortfall, no more
    result = match_sample_build(&sample);
    assert_int_equal(result.chosen, 3);
    // Were the reference 3/4, the clubs with bore 1 would trim 1/4 more and go off the maker's 1/4.
    sample.model.max_tip_trim = IN(0, 1, 4);
    result = match_sample_build(&sample);
    assert_int_equal(result.chosen, 3);
    // Nor do clubs without a head.
    for (size_t i = 3; i < 5; i++) {
        memcpy(sample.club[i].order.wished_model, "Reed 60", 8);
        sample.club[i].head.ticket[0] = '\0';
    }
    result = match_sample_build(&sample);
    assert_int_equal(result.chosen, 3);
    sample.club[0].order.uniform_reference = IN(0, 3, 4);
    result = match_sample_build(&sample);
    assert_int_equal(result.chosen, 2);
    assert_int_equal(result.club[0].refused[PLAN_F_TIP_MAX].shafts, 7);
}

static void limits(void **state) {
    static struct match_work work;
    struct match_result result = {.chosen = 7};
    (void)state;
    match_sample_make(&sample, 1, 1);
    sample.request.club_count = MATCH_CLUBS_MAX + 1;
    assert_false(match_build(&sample.request, &work, &result));
    sample.request.club_count = 1;
    sample.request.shaft_count = MATCH_SHAFTS_MAX + 1;
    assert_false(match_build(&sample.request, &work, &result));
    assert_int_equal(result.chosen, 7);
    sample.request.shaft_count = 0;
    assert_true(match_build(&sample.request, &work, &result));
    assert_int_equal(result.chosen, 0);
    assert_int_equal(result.club[0].outcome, MATCH_NONE_USABLE);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(heavy_head_light_shaft),
        cmocka_unit_test(against_brute_force),
        cmocka_unit_test(wishes_decide),
        cmocka_unit_test(wishes_missing_and_unreadable),
        cmocka_unit_test(flex_line),
        cmocka_unit_test(why_not),
        cmocka_unit_test(too_few),
        cmocka_unit_test(uniform_flex),
        cmocka_unit_test(limits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

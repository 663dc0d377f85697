// What is worked out of measures on a club from elsewhere, against tables worked by hand.

#include "check.h"
#include "guided.h"
#include "sample.h"

#include <math.h>

#define T(thousandths) ((length_nm)(thousandths)*LENGTH_INCH / 1000)

// Trade sizes 0.335, 0.350, 0.355 taper, 0.370, bored up to 0.005 wider: common practice, no
// source.
static void test_gauge_pins(void **state) {
    (void)state;
    static const struct {
        int goes, stops; // thousandths
        int size;        // 0: a problem
        enum guided_problem problem;
    } rows[] = {
        {335, 340, 335, GUIDED_NONE},      {337, 338, 335, GUIDED_NONE},
        {334, 336, 335, GUIDED_NONE},      {330, 350, 335, GUIDED_NONE},
        {350, 352, 350, GUIDED_NONE},      {354, 355, 350, GUIDED_NONE},
        {355, 356, 355, GUIDED_NONE},      {359, 365, 355, GUIDED_NONE},
        {370, 372, 370, GUIDED_NONE},      {360, 371, 370, GUIDED_NONE},
        {340, 350, 0, GUIDED_PINS_ODD},    {375, 400, 0, GUIDED_PINS_ODD},
        {360, 370, 0, GUIDED_PINS_ODD},    {300, 335, 0, GUIDED_PINS_ODD},
        {350, 356, 0, GUIDED_PINS_COARSE}, {330, 351, 0, GUIDED_PINS_COARSE},
        {350, 380, 0, GUIDED_PINS_COARSE}, {350, 350, 0, GUIDED_PINS},
        {351, 350, 0, GUIDED_PINS},        {0, 350, 0, GUIDED_PINS},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        length_nm bore = -1;
        enum guided_problem problem = guided_bore(T(rows[i].goes), T(rows[i].stops), &bore);
        if (problem != rows[i].problem || bore != (rows[i].size == 0 ? -1 : T(rows[i].size))) {
            fail_msg("row %zu: %s", i, guided_problem_text(problem));
        }
    }
    length_nm bore = -1;
    assert_int_equal(guided_bore(LENGTH_UNKNOWN, T(340), &bore), GUIDED_NOT_MEASURED);
    assert_int_equal(guided_bore(T(335), LENGTH_UNKNOWN, &bore), GUIDED_NOT_MEASURED);
    assert_int_equal(bore, -1);
}

// Every bore from 0.330 to 0.380 in by tenths of a thousandth, with pins a thousandth apart: what
// is found is a size this bore can have been drilled for, and whoever has such a bore is told so.
static void test_every_bore(void **state) {
    (void)state;
    static const int sizes[] = {335, 350, 355, 370};
    size_t found = 0;
    for (length_nm bore = T(330); bore < T(380); bore += T(1) / 10) {
        length_nm goes = bore / T(1) * T(1);
        length_nm size = 0;
        length_nm expected = 0;
        for (size_t i = 0; i < COUNT(sizes); i++) {
            if (bore >= T(sizes[i]) && bore < T(sizes[i] + 5)) {
                expected = T(sizes[i]);
            }
        }
        bool told = guided_bore(goes, goes + T(1), &size) == GUIDED_NONE;
        assert_int_equal(told, expected != 0);
        assert_int_equal(size, expected);
        found += told ? 1 : 0;
    }
    assert_int_equal(found, 4 * 50);
}

static void test_insertion(void **state) {
    (void)state;
    static const struct {
        length_nm rod, outside, insertion;
        enum guided_problem problem;
    } rows[] = {
        {IN(12, 0, 1), IN(10, 3, 4), IN(1, 1, 4), GUIDED_NONE},
        {IN(12, 0, 1), IN(11, 1, 2), IN(0, 1, 2), GUIDED_NONE},
        {IN(12, 0, 1), IN(9, 0, 1), IN(3, 0, 1), GUIDED_NONE},
        {IN(12, 0, 1), IN(11, 1, 2) + 1, -1, GUIDED_INSERTION},
        {IN(12, 0, 1), IN(9, 0, 1) - 1, -1, GUIDED_INSERTION},
        {IN(1, 0, 1), -IN(1, 0, 1), -1, GUIDED_INSERTION},
        {IN(10, 0, 1), IN(12, 0, 1), -1, GUIDED_INSERTION},
        {LENGTH_UNKNOWN, IN(9, 0, 1), -1, GUIDED_NOT_MEASURED},
        {IN(12, 0, 1), LENGTH_UNKNOWN, -1, GUIDED_NOT_MEASURED},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        length_nm insertion = -1;
        if (guided_insertion(rows[i].rod, rows[i].outside, &insertion) != rows[i].problem ||
            insertion != rows[i].insertion) {
            fail_msg("row %zu", i);
        }
    }
}

// Common practice, no source: raw 46 and overall 47 is a bore height of 1 in. A hosel whose top
// stands 2 1/2 in above the ground along its axis and takes 1 1/2 in of shaft leaves 1 in
// (geometry).
static void test_bore_height(void **state) {
    (void)state;
    length_nm height = -1;
    assert_int_equal(guided_bore_by_fit(IN(47, 0, 1), IN(46, 0, 1), &height), GUIDED_NONE);
    assert_int_equal(height, IN(1, 0, 1));
    height = -1;
    assert_int_equal(guided_bore_by_hosel(IN(2, 1, 2), IN(1, 1, 2), &height), GUIDED_NONE);
    assert_int_equal(height, IN(1, 0, 1));
    assert_int_equal(guided_bore_by_hosel(IN(1, 1, 2), IN(1, 1, 2), &height), GUIDED_NONE);
    assert_int_equal(height, 0);
    height = -1;
    assert_int_equal(guided_bore_by_hosel(IN(1, 1, 2), IN(1, 9, 16), &height), GUIDED_BORE_HEIGHT);
    assert_int_equal(guided_bore_by_hosel(IN(4, 0, 1), IN(1, 1, 2), &height), GUIDED_BORE_HEIGHT);
    assert_int_equal(guided_bore_by_fit(IN(48, 1, 16), IN(46, 0, 1), &height), GUIDED_BORE_HEIGHT);
    assert_int_equal(guided_bore_by_fit(IN(45, 0, 1), IN(46, 0, 1), &height), GUIDED_BORE_HEIGHT);
    assert_int_equal(guided_bore_by_fit(LENGTH_UNKNOWN, IN(46, 0, 1), &height),
                     GUIDED_NOT_MEASURED);
    assert_int_equal(guided_bore_by_hosel(IN(2, 0, 1), LENGTH_UNKNOWN, &height),
                     GUIDED_NOT_MEASURED);
    assert_int_equal(height, -1);
}

// A 43 in club, broken once or twice, a splinter lost: the pieces add up to it.
static void test_playing_length(void **state) {
    (void)state;
    static const struct {
        length_nm piece[3];
        size_t count;
        length_nm missing, playing;
        enum guided_problem problem;
    } rows[] = {
        {{IN(30, 1, 4), IN(12, 3, 4)}, 2, 0, IN(43, 0, 1), GUIDED_NONE},
        {{IN(30, 1, 4), IN(12, 0, 1)}, 2, IN(0, 3, 4), IN(43, 0, 1), GUIDED_NONE},
        {{IN(28, 0, 1), IN(3, 1, 2), IN(11, 0, 1)}, 3, IN(0, 1, 2), IN(43, 0, 1), GUIDED_NONE},
        {{IN(43, 0, 1)}, 1, 0, IN(43, 0, 1), GUIDED_NONE},
        {{IN(4, 0, 1), IN(5, 15, 16)}, 2, 0, -1, GUIDED_PLAYING},
        {{IN(43, 0, 1), IN(27, 1, 16)}, 2, 0, -1, GUIDED_PLAYING},
        {{IN(43, 0, 1), 0}, 2, 0, -1, GUIDED_PLAYING},
        {{IN(43, 0, 1)}, 1, -1, -1, GUIDED_PLAYING},
        {{IN(43, 0, 1)}, 1, INT64_MAX, -1, GUIDED_PLAYING},
        {{INT64_MAX, INT64_MAX}, 2, 0, -1, GUIDED_PLAYING},
        {{IN(30, 0, 1), LENGTH_UNKNOWN}, 2, 0, -1, GUIDED_NOT_MEASURED},
        {{IN(43, 0, 1)}, 1, LENGTH_UNKNOWN, -1, GUIDED_NOT_MEASURED},
        {{0}, 0, 0, -1, GUIDED_NOT_MEASURED},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        length_nm playing = -1;
        if (guided_playing(rows[i].piece, rows[i].count, rows[i].missing, &playing) !=
                rows[i].problem ||
            playing != rows[i].playing) {
            fail_msg("row %zu", i);
        }
    }
}

// --- flex ----------------------------------------------------------------------------------------

#define CANDIDATES 6
struct rack {
    struct club club;
    struct shaft_model model;
    struct chart chart;
    struct shaft shaft[CANDIDATES];
    struct profile profile[CANDIDATES];
    struct guided_candidate candidate[CANDIDATES];
    struct bench_rules rules;
    struct assembly assembly;
};

// The same shaft with its stiffness in percent of the first's.
static struct rack *make_rack(const int percent[CANDIDATES]) {
    static struct rack rack;
    struct sample sample = sample_make();
    rack = (struct rack){.club = {.head = sample.head, .order = sample.order},
                         .model = sample.model,
                         .chart = sample.chart,
                         .rules = sample.rules,
                         .assembly = ASSEMBLY_DEFAULT};
    for (size_t i = 0; i < CANDIDATES; i++) {
        rack.shaft[i] = sample.shaft;
        rack.profile[i] = (struct profile){
            .count = 2, .point = {{0, 120 * percent[i]}, {IN(46, 0, 1), 600 * percent[i]}}};
        rack.candidate[i] =
            (struct guided_candidate){&rack.shaft[i], &rack.model, &rack.chart, &rack.profile[i]};
    }
    return &rack;
}

// The frequency of a beam goes with the root of its stiffness, all else equal (mechanics).
static void test_flex_nearest_first(void **state) {
    (void)state;
    static const int percent[CANDIDATES] = {100, 121, 81, 110, 100, 90}; // roots 1, 1.1, 0.9 ...
    struct rack *rack = make_rack(percent);
    struct guided_flex ranked[CANDIDATES];
    guided_flex_rank(&rack->club, 0, rack->candidate, CANDIDATES, &rack->rules, &rack->assembly,
                     ranked);
    double plain = ranked[1].frequency.value; // 81 is first, 90 second
    assert_int_equal(ranked[0].candidate, 2);
    assert_int_equal(ranked[1].candidate, 5);
    plain /= sqrt(0.9);
    for (size_t i = 0; i < CANDIDATES; i++) {
        double root = sqrt(percent[ranked[i].candidate] / 100.0);
        assert_true(fabs(ranked[i].frequency.value / plain - root) < 1e-6);
        assert_true(fabs(ranked[i].off - ranked[i].frequency.value) < 1e-9);
        assert_int_equal(ranked[i].refusal, PLAN_NONE);
    }
    guided_flex_rank(&rack->club, plain * 1.04, rack->candidate, CANDIDATES, &rack->rules,
                     &rack->assembly, ranked);
    static const size_t order[CANDIDATES] = {3, 0, 4, 1, 5, 2}; // of two as near, the first given
    for (size_t i = 0; i < CANDIDATES; i++) {
        assert_int_equal(ranked[i].candidate, order[i]);
        assert_true(i == 0 || fabs(ranked[i].off) >= fabs(ranked[i - 1].off));
    }
    assert_true(fabs(ranked[0].off / plain - (sqrt(1.1) - 1.04)) < 1e-6);
}

// What cannot be cut or has no stiffness comes last and says why.
static void test_flex_not_known(void **state) {
    (void)state;
    static const int percent[CANDIDATES] = {100, 100, 100, 100, 100, 100};
    struct rack *rack = make_rack(percent);
    struct guided_flex ranked[CANDIDATES];
    rack->shaft[0].raw_length = IN(40, 0, 1);
    rack->candidate[1].profile = NULL;
    rack->candidate[2].chart = NULL;
    rack->shaft[3].weight = MASS_UNKNOWN;
    guided_flex_rank(&rack->club, 260, rack->candidate, CANDIDATES, &rack->rules, &rack->assembly,
                     ranked);
    static const size_t order[CANDIDATES] = {4, 5, 0, 1, 2, 3};
    static const enum plan_code refusal[CANDIDATES] = {
        PLAN_NONE, PLAN_NONE, PLAN_F_TOO_SHORT_SHAFT, PLAN_NONE, PLAN_F_NO_CHART, PLAN_NONE};
    static const enum estimate_gap gap[CANDIDATES] = {ESTIMATE_GAP_NONE, ESTIMATE_GAP_NONE,
                                                      ESTIMATE_GAP_PLAN, ESTIMATE_GAP_STIFFNESS,
                                                      ESTIMATE_GAP_PLAN, ESTIMATE_GAP_SHAFT_WEIGHT};
    for (size_t i = 0; i < CANDIDATES; i++) {
        assert_int_equal(ranked[i].candidate, order[i]);
        assert_int_equal(ranked[i].refusal, refusal[i]);
        assert_int_equal(ranked[i].frequency.gap, gap[i]);
        assert_true(i < 2 || ranked[i].off == 0);
    }
}

static void test_words(void **state) {
    (void)state;
    assert_string_equal(guided_problem_text(GUIDED_NONE), "");
    for (int i = GUIDED_NONE + 1; i < GUIDED_PROBLEM_COUNT; i++) {
        const char *text = guided_problem_text((enum guided_problem)i);
        const char *stop = strchr(text, '.');
        assert_true(strlen(text) > 20 && strlen(text) < 110);
        assert_non_null(stop);
        assert_true(stop[1] != '\0' || strchr(text, ',') != NULL);
        assert_int_equal(text[strlen(text) - 1], '.');
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_gauge_pins),     cmocka_unit_test(test_every_bore),
        cmocka_unit_test(test_insertion),      cmocka_unit_test(test_bore_height),
        cmocka_unit_test(test_playing_length), cmocka_unit_test(test_flex_nearest_first),
        cmocka_unit_test(test_flex_not_known), cmocka_unit_test(test_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

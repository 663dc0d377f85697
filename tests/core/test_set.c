#include "set.h"

#include "check.h"
#include "sample.h"

#include <math.h>
#include <stdio.h>

#define NEAR 1e-9

static const struct assembly assembly = ASSEMBLY_DEFAULT;
static const struct bench_rules rules = BENCH_RULES_DEFAULT;

// A club of the sample's parts; its shaft is long enough for every length below.
static struct club club_make(int position, length_nm playing) {
    struct sample sample = sample_make();
    struct club club = {
        .id = 100 + position,
        .order = sample.order,
        .head = sample.head,
        .shaft = sample.shaft,
        .model = sample.model,
        .chart = sample.chart,
        .progress = {.tip_made = LENGTH_UNKNOWN},
    };
    snprintf(club.order.club, sizeof club.order.club, "%d", position);
    club.order.position = position;
    club.order.playing_length = playing;
    club.shaft.raw_length = IN(55, 0, 1);
    return club;
}

static void make(const struct club *clubs, size_t count, struct set *set) {
    set_make(clubs, NULL, count, &rules, &assembly, set);
}

static void set_of(const double *inches, size_t count, struct club *clubs, struct set *set) {
    for (size_t i = 0; i < count; i++) {
        clubs[i] = club_make((int)i + 1, (length_nm)llround(inches[i] * LENGTH_INCH));
    }
    make(clubs, count, set);
}

static void near(double got, double wanted) {
    if (!(fabs(got - wanted) <= NEAR)) {
        fail_msg("%.12g is not %.12g", got, wanted);
    }
}

// By hand: means 2 and 37.05; sum of x y -4.75 over sum of x x 10; 37.05 + 2 * 0.475 = 38.
static void line_by_hand(void **state) {
    static const double inches[] = {38, 37.5, 37, 36.75, 36};
    static const double off[] = {0, -0.025, -0.05, 0.175, -0.1};
    struct club clubs[COUNT(inches)];
    struct set set;
    (void)state;
    set_of(inches, COUNT(inches), clubs, &set);
    assert_true(set.line[SET_LENGTH].known);
    assert_int_equal(set.line[SET_LENGTH].odd, -1);
    near(set.line[SET_LENGTH].at_first, 38);
    near(set.line[SET_LENGTH].slope, -0.475);
    for (size_t i = 0; i < COUNT(inches); i++) {
        near(set.club[i].point[SET_LENGTH].planned, inches[i]);
        near(set.club[i].point[SET_LENGTH].off, off[i]);
    }
}

// Python 3.11: statistics.linear_regression over every set with one club left out, and the one with
// the least sum of squares kept when that club lies more than 1/4 in off it and no other does.
static void line_by_python(void **state) {
    static const struct {
        double inches[14];
        size_t count;
        int odd;
        double slope;
        double at_first;
    } sets[] = {
        {{45.25, 43.5, 42.96875, 41.015625, 40.5, 38.75, 38.25, 36.890625},
         8,
         -1,
         -1.165922619047619,
         44.971354166666664},
        {{43.921875, 43.265625, 42.859375, 42.03125, 41.609375, 40.953125},
         6,
         -1,
         -0.5897321428571428,
         43.91443452380952},
        {{43.921875, 43.265625, 43.609375, 42.03125, 41.609375, 40.953125},
         6,
         2,
         -0.5853924418604651,
         43.87827034883721},
        {{43.828125, 43.40625, 42.609375, 42.171875, 42.171875, 40.84375, 40.375, 39.9375,
          39.046875, 38.484375, 38.046875, 37.578125, 36.828125, 36.15625},
         14,
         4,
         -0.5874727787456445,
         43.87866398083624},
    };
    struct club clubs[14];
    struct set set;
    (void)state;
    for (size_t i = 0; i < COUNT(sets); i++) {
        set_of(sets[i].inches, sets[i].count, clubs, &set);
        assert_int_equal(set.line[SET_LENGTH].odd, sets[i].odd);
        near(set.line[SET_LENGTH].slope, sets[i].slope);
        near(set.line[SET_LENGTH].at_first, sets[i].at_first);
    }
}

// Straight sets of every size with one club moved: it is found wherever it stands, the line is that
// of the rest, and its distance is what it was moved by; moved by less than the limit, nobody
// stands out.
static void odd_one_found(void **state) {
    uint64_t seed = 11;
    struct club clubs[SET_CLUBS_MAX];
    double inches[SET_CLUBS_MAX];
    struct set set;
    (void)state;
    for (size_t count = 4; count <= SET_CLUBS_MAX; count++) {
        int odd = (int)sample_between(&seed, 0, (int64_t)count - 1);
        double slope = (double)sample_between(&seed, -16, 16) / 64;
        double off = (double)sample_between(&seed, 17, 128) / 64;
        off = sample_between(&seed, 0, 1) == 1 ? off : -off;
        for (size_t i = 0; i < count; i++) {
            inches[i] = 38 + slope * (double)i;
        }
        set_of(inches, count, clubs, &set);
        assert_int_equal(set.line[SET_LENGTH].odd, -1);
        inches[odd] += off;
        set_of(inches, count, clubs, &set);
        assert_int_equal(set.line[SET_LENGTH].odd, odd);
        near(set.line[SET_LENGTH].slope, slope);
        near(set.line[SET_LENGTH].at_first, 38);
        near(set.club[odd].point[SET_LENGTH].off, off);
        inches[odd] += (off > 0 ? 0.234375 : -0.234375) - off; // 1/64 less than the limit
        set_of(inches, count, clubs, &set);
        assert_int_equal(set.line[SET_LENGTH].odd, -1);
    }
}

// Hybrids half an inch apart, then irons half an inch apart, an inch and a half between them: that
// is no line, and no club is to blame. The gap closed, one that is off is.
static void no_line_no_odd_one(void **state) {
    double inches[] = {40.5, 40, 38, 37.5, 37, 36.5, 36, 35.5};
    struct club clubs[COUNT(inches)];
    struct set set;
    (void)state;
    set_of(inches, COUNT(inches), clubs, &set);
    assert_true(set.line[SET_LENGTH].known);
    assert_int_equal(set.line[SET_LENGTH].odd, -1);
    inches[0] = 39;
    inches[1] = 38.5;
    inches[5] += 0.375;
    set_of(inches, COUNT(inches), clubs, &set);
    assert_int_equal(set.line[SET_LENGTH].odd, 5);
}

// Any two of three lie on a line, so nobody stands out among three; two make no line.
static void few_clubs(void **state) {
    static const double inches[] = {38, 44, 37};
    struct club clubs[3];
    struct set set;
    (void)state;
    set_of(inches, 3, clubs, &set);
    assert_true(set.line[SET_LENGTH].known);
    assert_int_equal(set.line[SET_LENGTH].odd, -1);
    set_of(inches, 2, clubs, &set);
    assert_false(set.line[SET_LENGTH].known);
    near(set.club[1].point[SET_LENGTH].planned, 44);
    near(set.club[1].point[SET_LENGTH].off, 0);
    make(clubs, 0, &set);
    assert_int_equal(set.count, 0);
    assert_false(set.line[SET_LENGTH].known);
}

static void equal_clubs(void **state) {
    struct club clubs[8];
    struct set set;
    (void)state;
    for (int i = 0; i < 8; i++) {
        clubs[i] = club_make(i + 1, IN(40, 0, 1));
        clubs[i].order.club[0] = '7';
        clubs[i].order.club[1] = '\0';
    }
    make(clubs, 8, &set);
    for (int value = 0; value <= SET_SWINGWEIGHT; value++) {
        assert_true(set.line[value].known);
        assert_int_equal(set.line[value].odd, -1);
        near(set.line[value].slope, 0);
        near(set.line[value].at_first, set.club[3].point[value].planned);
    }
}

// A heavy head stands out by what it was made heavier; the estimates are those of estimate_make.
static void odd_head_by_weight(void **state) {
    struct club clubs[7];
    struct estimate estimate;
    struct plan_input input;
    struct plan plan;
    struct set set;
    char text[SET_TEXT_MAX];
    (void)state;
    for (int i = 0; i < 7; i++) {
        clubs[i] = club_make(i + 1, IN(40, 0, 1));
    }
    clubs[4].head.weight += GRAMS(5);
    make(clubs, 7, &set);
    assert_int_equal(set.line[SET_WEIGHT].odd, 4);
    near(set.club[4].point[SET_WEIGHT].off, 5);
    assert_int_equal(set.line[SET_LENGTH].odd, -1);
    assert_true(club_plan(&clubs[4], &rules, &input, &plan));
    estimate_make(&clubs[4], &plan, &assembly, &estimate);
    near(set.club[4].point[SET_SWINGWEIGHT].planned, estimate.swingweight.value);
    assert_true(set_odd_text(&set, SET_WEIGHT, text, sizeof text));
    assert_string_equal(text, "Club 5: weight about 5.0 g above the line of the others");
    // 5 g at the ground line, 40 in, 14 in fulcrum: 5 * 26 / 28.349523 / 1.75 points
    assert_true(set_odd_text(&set, SET_SWINGWEIGHT, text, sizeof text));
    assert_string_equal(text, "Club 5: swingweight about 2.6 points above the line of the others");
    snprintf(text, sizeof text, "-");
    assert_false(set_odd_text(&set, SET_LENGTH, text, sizeof text));
    assert_string_equal(text, "-");
    clubs[4].order.playing_length -= LENGTH_INCH / 64 * 18;
    make(clubs, 7, &set);
    assert_true(set_odd_text(&set, SET_LENGTH, text, sizeof text));
    assert_string_equal(text, "Club 5: length 0.28 in below the line of the others");
}

// What is not known is not on the line, moves it by nothing and is no odd one.
static void unknown_stays_unknown(void **state) {
    static const double inches[] = {38, 37.5, 37, 36.5, 36, 35.5};
    struct club clubs[COUNT(inches)];
    struct set set;
    (void)state;
    set_of(inches, COUNT(inches), clubs, &set);
    clubs[1].shaft.weight = MASS_UNKNOWN;
    clubs[2].head.bore_height = LENGTH_UNKNOWN;
    clubs[2].order.playing_length = IN(45, 0, 1);
    clubs[3].order.grip_weight = MASS_UNKNOWN;
    clubs[4].shaft.ticket[0] = '\0';
    make(clubs, COUNT(inches), &set);
    assert_int_equal(set.count, COUNT(inches));
    assert_int_equal(set.club[1].point[SET_SWINGWEIGHT].gap, ESTIMATE_GAP_SHAFT_WEIGHT);
    assert_int_equal(set.club[3].point[SET_WEIGHT].gap, ESTIMATE_GAP_GRIP_WEIGHT);
    assert_int_equal(set.club[0].point[SET_FREQUENCY].gap, ESTIMATE_GAP_STIFFNESS);
    assert_false(set.line[SET_FREQUENCY].known);
    assert_false(set.line[SET_SWINGWEIGHT].known); // two are left
    assert_string_equal(set.club[2].club, "3");    // a refused club keeps its row
    assert_false(set.club[2].planned);
    assert_int_equal(set.club[2].refusal, PLAN_F_NO_BORE_HEIGHT);
    assert_false(set.club[4].planned); // nothing to cut is reserved
    assert_int_equal(set.club[4].refusal, PLAN_NONE);
    for (int value = 0; value < SET_VALUE_COUNT; value++) {
        assert_int_equal(set.club[2].point[value].gap, ESTIMATE_GAP_PLAN);
        assert_int_equal(set.club[4].point[value].gap, ESTIMATE_GAP_PLAN);
        near(set.club[2].point[value].planned, 0);
        near(set.club[2].point[value].off, 0);
    }
    near(set.line[SET_LENGTH].at_first, 38);
    near(set.line[SET_LENGTH].slope, -0.5);
}

// Measured values stand beside the plan and never bend the line.
static void measured_beside(void **state) {
    static const double inches[] = {38, 37.5, 37, 36.5, 36};
    struct club clubs[COUNT(inches)];
    struct set_measured measured[COUNT(inches)] = {0};
    struct set plain;
    struct set set;
    (void)state;
    set_of(inches, COUNT(inches), clubs, &plain);
    measured[2].known[SET_LENGTH] = true;
    measured[2].value[SET_LENGTH] = 39;
    measured[3].value[SET_WEIGHT] = 400; // not said to be known
    set_make(clubs, measured, COUNT(inches), &rules, &assembly, &set);
    assert_true(set.club[2].point[SET_LENGTH].measured_known);
    near(set.club[2].point[SET_LENGTH].measured, 39);
    assert_false(set.club[3].point[SET_WEIGHT].measured_known);
    near(set.club[3].point[SET_WEIGHT].measured, 0);
    assert_memory_equal(set.line, plain.line, sizeof set.line);
}

static void more_than_fit(void **state) {
    static struct club clubs[SET_CLUBS_MAX + 5];
    struct set set;
    (void)state;
    for (int i = 0; i < SET_CLUBS_MAX + 5; i++) {
        clubs[i] = club_make(i + 1, IN(40, 0, 1));
    }
    make(clubs, SET_CLUBS_MAX + 5, &set);
    assert_int_equal(set.count, SET_CLUBS_MAX);
    assert_string_equal(set.club[SET_CLUBS_MAX - 1].club, "30");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(line_by_hand),       cmocka_unit_test(line_by_python),
        cmocka_unit_test(odd_one_found),      cmocka_unit_test(no_line_no_odd_one),
        cmocka_unit_test(few_clubs),          cmocka_unit_test(equal_clubs),
        cmocka_unit_test(odd_head_by_weight), cmocka_unit_test(unknown_stays_unknown),
        cmocka_unit_test(measured_beside),    cmocka_unit_test(more_than_fit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// Final values of a club held against what was planned.

#include "assembly_check.h"
#include "check.h"
#include "sample.h"

static const struct assembly_tolerance usual = ASSEMBLY_TOLERANCE_DEFAULT;

static struct assembly_values none(void) {
    struct assembly_values values;
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        values.value[i] = ASSEMBLY_UNKNOWN;
    }
    return values;
}

// Limits are in; a hair more is out, on either side. Tolerances: common practice, no source.
static void test_every_value_against_its_limit(void **state) {
    (void)state;
    static const int64_t planned[ASSEMBLY_VALUE_COUNT] = {IN(43, 0, 1), 312, 2600, 58500, 60000};
    static const int64_t limit[ASSEMBLY_VALUE_COUNT] = {IN(0, 1, 8), 10, 20, 1000, 1000};
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        static const int side[] = {-1, 1};
        for (size_t at = 0; at < COUNT(side); at++) {
            struct assembly_values wanted = none(), is = none();
            struct assembly_check check;
            wanted.value[i] = planned[i];
            is.value[i] = planned[i] + side[at] * limit[i];
            assembly_check(&wanted, &is, 0, &usual, &check);
            assert_int_equal(check.state[i], ASSEMBLY_IN);
            assert_int_equal(check.off[i], side[at] * limit[i]);
            is.value[i] += side[at];
            assembly_check(&wanted, &is, 0, &usual, &check);
            assert_int_equal(check.state[i], ASSEMBLY_OUT);
            for (int other = 0; other < ASSEMBLY_VALUE_COUNT; other++) {
                assert_true(other == i || check.state[other] == ASSEMBLY_MISSING);
            }
        }
    }
}

// Done: every wanted value measured, none of them out. What is not wanted keeps nobody waiting.
static void test_done(void **state) {
    (void)state;
    struct assembly_values wanted = {{IN(43, 0, 1), 312, 2600, 58500, 60000}};
    struct assembly_values is = none();
    struct assembly_check check;
    assembly_check(&wanted, &is, 0, &usual, &check);
    assert_false(check.done);
    is.value[ASSEMBLY_LENGTH] = IN(43, 1, 16);
    assembly_check(&wanted, &is, 0, &usual, &check);
    assert_false(check.done);
    is.value[ASSEMBLY_SWINGWEIGHT] = 305;
    assembly_check(&wanted, &is, 0, &usual, &check);
    assert_true(check.done);
    assert_true(check.wanted[ASSEMBLY_LENGTH] && check.wanted[ASSEMBLY_SWINGWEIGHT]);
    assert_false(check.wanted[ASSEMBLY_LOFT]);
    is.value[ASSEMBLY_LOFT] = 50000; // out, but nobody asked for it
    assembly_check(&wanted, &is, 0, &usual, &check);
    assert_int_equal(check.state[ASSEMBLY_LOFT], ASSEMBLY_OUT);
    assert_true(check.done);
    struct assembly_tolerance loft = usual;
    loft.wanted |= 1u << ASSEMBLY_LOFT;
    assembly_check(&wanted, &is, 0, &loft, &check);
    assert_false(check.done);
    wanted.value[ASSEMBLY_LOFT] = ASSEMBLY_UNKNOWN; // nothing to hold it against
    assembly_check(&wanted, &is, 0, &loft, &check);
    assert_int_equal(check.state[ASSEMBLY_LOFT], ASSEMBLY_TAKEN);
    assert_true(check.done);
    loft.wanted = 0;
    is = none();
    assembly_check(&wanted, &is, 0, &loft, &check);
    assert_true(check.done);
}

// Accepted counts for what is out, and for nothing else; the value stays out.
static void test_accepted(void **state) {
    (void)state;
    static const struct {
        int64_t length, swingweight; // measured; planned 43 in and D1.2
        unsigned accepted;
        bool length_accepted, swingweight_accepted, done;
    } rows[] = {
        {IN(43, 1, 4), 312, 0, false, false, false},
        {IN(43, 1, 4), 312, 1u << ASSEMBLY_LENGTH, true, false, true},
        {IN(43, 1, 4), 312, 1u << ASSEMBLY_SWINGWEIGHT, false, false, false},
        {IN(43, 1, 4), 330, 1u << ASSEMBLY_LENGTH, true, false, false},
        {IN(43, 1, 4), 330, 1u << ASSEMBLY_LENGTH | 1u << ASSEMBLY_SWINGWEIGHT, true, true, true},
        {IN(43, 1, 8), 312, 1u << ASSEMBLY_LENGTH, false, false, true}, // in
        {IN(43, 1, 8), ASSEMBLY_UNKNOWN, ~0u, false, false, false},     // nothing to accept
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct assembly_values wanted = {{IN(43, 0, 1), 312, 2600, 58500, 60000}};
        struct assembly_values is = none();
        struct assembly_check check;
        is.value[ASSEMBLY_LENGTH] = rows[i].length;
        is.value[ASSEMBLY_SWINGWEIGHT] = rows[i].swingweight;
        assembly_check(&wanted, &is, rows[i].accepted, &usual, &check);
        assert_int_equal(check.accepted[ASSEMBLY_LENGTH], rows[i].length_accepted);
        assert_int_equal(check.accepted[ASSEMBLY_SWINGWEIGHT], rows[i].swingweight_accepted);
        assert_int_equal(check.done, rows[i].done);
        assert_int_equal(check.state[ASSEMBLY_LENGTH],
                         rows[i].length == IN(43, 1, 4) ? ASSEMBLY_OUT : ASSEMBLY_IN);
    }
    // What is typed over an accepted value is accepted by nobody; what cannot be read changes none.
    struct final_values values = final_values_none();
    assert_int_equal(assembly_accepted(&values), 0);
    values.seq[ASSEMBLY_LOFT] = 7;
    values.accepted[ASSEMBLY_LOFT] = 9;
    values.accepted[ASSEMBLY_LIE] = 10;
    assert_false(final_values_read(ASSEMBLY_LOFT, "steep", LENGTH_UNIT_INCH, &values));
    assert_int_equal(assembly_accepted(&values), 1u << ASSEMBLY_LOFT | 1u << ASSEMBLY_LIE);
    assert_true(final_values_read(ASSEMBLY_LOFT, "34", LENGTH_UNIT_INCH, &values));
    assert_int_equal(assembly_accepted(&values), 1u << ASSEMBLY_LIE);
    assert_int_equal(values.seq[ASSEMBLY_LOFT], 0);
}

static struct club club_of(const struct sample *sample) {
    return (struct club){.order = sample->order,
                         .head = sample->head,
                         .shaft = sample->shaft,
                         .model = sample->model,
                         .chart = sample->chart,
                         .progress = {.attempt = 1, .tip_made = LENGTH_UNKNOWN}};
}

static void test_planned(void **state) {
    (void)state;
    struct sample sample = sample_make();
    const struct assembly assembly = ASSEMBLY_DEFAULT;
    struct assembly_values planned;
    struct club club = club_of(&sample);
    assembly_planned(&club, &sample.rules, &assembly, &planned);
    assert_int_equal(planned.value[ASSEMBLY_LENGTH], IN(43, 0, 1));
    assert_int_equal(planned.value[ASSEMBLY_SWINGWEIGHT], 320); // D2, ten points a letter
    assert_int_equal(planned.value[ASSEMBLY_FREQUENCY], ASSEMBLY_UNKNOWN); // no stiffness known
    assert_int_equal(planned.value[ASSEMBLY_LOFT], ASSEMBLY_UNKNOWN);
    club.head.loft = 15000;
    club.head.lie = 57500;
    club.order.lie = 58500;
    assembly_planned(&club, &sample.rules, &assembly, &planned);
    assert_int_equal(planned.value[ASSEMBLY_LOFT], 15000);
    assert_int_equal(planned.value[ASSEMBLY_LIE], 58500); // the order before the model
    // No swingweight wished: what the plan comes to.
    struct plan_input input;
    struct plan plan;
    struct estimate estimate;
    club.order.swingweight[0] = '\0';
    club_plan(&club, &sample.rules, &input, &plan);
    estimate_make(&club, &plan, &assembly, &estimate);
    assembly_planned(&club, &sample.rules, &assembly, &planned);
    double scale = BALANCE_A0 + BALANCE_POINT / 10 * (double)planned.value[ASSEMBLY_SWINGWEIGHT];
    assert_true(estimate.swingweight.value - scale < BALANCE_POINT / 20 + 1e-9);
    assert_true(scale - estimate.swingweight.value < BALANCE_POINT / 20 + 1e-9);
}

static void test_measured(void **state) {
    (void)state;
    struct final_values values = final_values_none();
    struct assembly_values measured;
    assembly_measured(&values, &measured);
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        assert_int_equal(measured.value[i], ASSEMBLY_UNKNOWN);
    }
    values = (struct final_values){.length = IN(43, 1, 16),
                                   .swingweight = "D2.3",
                                   .frequency = 2615,
                                   .loft = 15000,
                                   .lie = 58500};
    assembly_measured(&values, &measured);
    static const int64_t expected[] = {IN(43, 1, 16), 323, 2615, 15000, 58500};
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        assert_int_equal(measured.value[i], expected[i]);
    }
}

static void test_words(void **state) {
    (void)state;
    static const struct {
        enum assembly_value value;
        int64_t number;
        const char *text, *tolerance;
    } rows[] = {
        {ASSEMBLY_LENGTH, IN(43, 1, 2), "43 1/2 in", "43 1/2 in"},
        {ASSEMBLY_LENGTH, 1100 * LENGTH_MM, "43.307 in", "43.307 in"},
        {ASSEMBLY_LENGTH, IN(0, 1, 8), "1/8 in", "1/8 in"},
        {ASSEMBLY_SWINGWEIGHT, 323, "D2.3", "32.3 points"},
        {ASSEMBLY_SWINGWEIGHT, 10, "A1.0", "1 point"},
        {ASSEMBLY_FREQUENCY, 2615, "261.5 cpm", "261.5 cpm"},
        {ASSEMBLY_FREQUENCY, 20, "2 cpm", "2 cpm"},
        {ASSEMBLY_LOFT, 58500, "58.5 deg", "58.5 deg"},
        {ASSEMBLY_LIE, 1000, "1 deg", "1 deg"},
        {ASSEMBLY_LIE, ASSEMBLY_UNKNOWN, "not known", "not known"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        char text[ASSEMBLY_TEXT_MAX];
        assembly_text(rows[i].value, rows[i].number, text);
        assert_string_equal(text, rows[i].text);
        assembly_tolerance_text(rows[i].value, rows[i].number, text);
        assert_string_equal(text, rows[i].tolerance);
    }
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        enum assembly_value value;
        assert_true(assembly_value_from_text(assembly_value_text((enum assembly_value)i), &value));
        assert_int_equal(value, i);
    }
    enum assembly_value value;
    enum length_method method;
    assert_false(assembly_value_from_text("weight", &value));
    for (int i = 0; i < LENGTH_METHOD_COUNT; i++) {
        assert_true(length_method_from_text(length_method_text((enum length_method)i), &method));
        assert_int_equal(method, i);
    }
    assert_false(length_method_from_text("tape", &method));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_value_against_its_limit),
        cmocka_unit_test(test_done),
        cmocka_unit_test(test_accepted),
        cmocka_unit_test(test_planned),
        cmocka_unit_test(test_measured),
        cmocka_unit_test(test_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

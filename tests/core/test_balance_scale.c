// The swingweight scale both ways. Anchor: D0 = 213.5 in oz, 1.75 in oz a point, ten points a
// letter (common practice, value from memory).

#include "balance.h"
#include "check.h"
#include "sample.h"

#include <math.h>
#include <stdio.h>

static void test_table(void **state) {
    (void)state;
    static const struct {
        const char *text;
        double inch_ounces;
        const char *canonical;
    } rows[] = {
        {"D0", 213.5, "D0.0"},    {"d0", 213.5, "D0.0"},     {"D1.4", 215.95, "D1.4"},
        {" D2 ", 217.0, "D2.0"},  {"C9.9", 213.325, "C9.9"}, {"A0", 161.0, "A0.0"},
        {"E0.0", 231.0, "E0.0"},  {"G9.9", 283.325, "G9.9"}, {"B5", 187.25, "B5.0"},
        {"D1,4", 215.95, "D1.4"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        double value = 0;
        char text[BALANCE_SCALE_TEXT_MAX];
        assert_int_equal(balance_scale_parse(rows[i].text, &value), BALANCE_SCALE_OK);
        assert_true(fabs(value - rows[i].inch_ounces) < 1e-9);
        assert_true(balance_scale_text(value, text));
        assert_string_equal(text, rows[i].canonical);
    }
}

static void test_refused(void **state) {
    (void)state;
    static const struct {
        const char *text;
        enum balance_scale_error error;
    } rows[] = {
        {"", BALANCE_SCALE_EMPTY},
        {"  ", BALANCE_SCALE_EMPTY},
        {"H2", BALANCE_SCALE_LETTER},
        {"2", BALANCE_SCALE_LETTER},
        {"@1", BALANCE_SCALE_LETTER},
        {"\xc3\x84"
         "1",
         BALANCE_SCALE_LETTER},
        {"D", BALANCE_SCALE_POINTS},
        {"D10", BALANCE_SCALE_POINTS},
        {"D-1", BALANCE_SCALE_POINTS},
        {"D 2", BALANCE_SCALE_POINTS},
        {"D2.", BALANCE_SCALE_DECIMALS},
        {"D2.45", BALANCE_SCALE_DECIMALS},
        {"D2 x", BALANCE_SCALE_DECIMALS},
        {"D2,", BALANCE_SCALE_DECIMALS},
        {"D2,45", BALANCE_SCALE_DECIMALS},
    };
    double value = 5;
    for (size_t i = 0; i < COUNT(rows); i++) {
        assert_int_equal(balance_scale_parse(rows[i].text, &value), rows[i].error);
        assert_true(strlen(balance_scale_error_text(rows[i].error)) > 10);
    }
    assert_true(value == 5);
}

// All 700 tenths from A0.0 to G9.9 come back as they went, and lie 0.175 in oz apart.
static void test_round_trip(void **state) {
    (void)state;
    double before = 161.0 - 0.175;
    for (int i = 0; i < 700; i++) {
        char text[BALANCE_SCALE_TEXT_MAX];
        char back[BALANCE_SCALE_TEXT_MAX];
        double value = 0;
        snprintf(text, sizeof text, "%c%d.%d", "ABCDEFG"[i / 100], i / 10 % 10, i % 10);
        assert_int_equal(balance_scale_parse(text, &value), BALANCE_SCALE_OK);
        assert_true(fabs(value - before - 0.175) < 1e-9);
        assert_true(balance_scale_text(value, back));
        assert_string_equal(back, text);
        before = value;
    }
}

// Any value on the scale, to its nearest tenth of a point.
static void test_random(void **state) {
    (void)state;
    uint64_t seed = 175;
    for (int i = 0; i < 100000; i++) {
        double value = (double)sample_between(&seed, 161000000, 283400000) / 1e6;
        double back = 0;
        char text[BALANCE_SCALE_TEXT_MAX];
        assert_true(balance_scale_text(value, text));
        assert_int_equal(balance_scale_parse(text, &back), BALANCE_SCALE_OK);
        assert_true(fabs(back - value) <= 0.0875 + 1e-9);
    }
}

// Any bytes: what is taken comes back as the same value, and what is not leaves it alone.
static void test_any_bytes(void **state) {
    (void)state;
    static const char likely[] = "ABDGHadg0123459.. \t-x";
    uint64_t seed = 0xd1;
    int taken = 0;
    for (int i = 0; i < 300000; i++) {
        char text[8] = "";
        size_t size = (size_t)sample_between(&seed, 0, 6);
        for (size_t at = 0; at < size; at++) {
            text[at] = i % 8 == 0 ? (char)sample_between(&seed, 1, 255)
                                  : likely[sample_random(&seed) % (sizeof likely - 1)];
        }
        double value = -5;
        double back = 0;
        char again[BALANCE_SCALE_TEXT_MAX];
        if (balance_scale_parse(text, &value) != BALANCE_SCALE_OK) {
            assert_true(value == -5);
            continue;
        }
        taken++;
        assert_true(balance_scale_text(value, again));
        assert_int_equal(balance_scale_parse(again, &back), BALANCE_SCALE_OK);
        assert_true(value == back);
        assert_non_null(strchr(text, again[1])); // its points are those in the text
    }
    assert_true(taken > 1000);
}

static void test_off_scale(void **state) {
    (void)state;
    const double off[] = {160.9, 283.42, 0, -1, 1e300, NAN, INFINITY};
    for (size_t i = 0; i < COUNT(off); i++) {
        char text[BALANCE_SCALE_TEXT_MAX] = "x";
        assert_false(balance_scale_text(off[i], text));
        assert_string_equal(text, "");
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_table),      cmocka_unit_test(test_refused),
        cmocka_unit_test(test_round_trip), cmocka_unit_test(test_random),
        cmocka_unit_test(test_off_scale),  cmocka_unit_test(test_any_bytes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

#include "check.h"
#include "length.h"

// International yard, 1 July 1959 (addendum to NBS Circular 572): 1 inch equals 25.4 mm.
static void test_inch_is_25_4_mm(void **state) {
    (void)state;
    length_nm length = 0;
    assert_int_equal(LENGTH_INCH, 25400000);
    assert_int_equal(LENGTH_64TH * 64, LENGTH_INCH);
    assert_int_equal(length_parse("25.4 mm", LENGTH_UNIT_INCH, &length, NULL), LENGTH_OK);
    assert_int_equal(length, LENGTH_INCH);
    // The same yard: 36 in = 0.9144 m.
    assert_int_equal(length_parse("914.4 mm", LENGTH_UNIT_INCH, &length, NULL), LENGTH_OK);
    assert_int_equal(length, 36 * LENGTH_INCH);
}

// Equipment Rules Part 2, 1c and local rule G-10, in mm (computed: 18, 46, 48 times 25.4).
static void test_rule_lengths_in_mm(void **state) {
    (void)state;
    static const struct {
        int inches;
        const char *mm;
    } rows[] = {{18, "457.2"}, {46, "1168.4"}, {48, "1219.2"}};
    char text[LENGTH_TEXT_MAX];
    for (size_t i = 0; i < COUNT(rows); i++) {
        length_text_mm(rows[i].inches * LENGTH_INCH, 1, text);
        assert_string_equal(text, rows[i].mm);
    }
}

// Nearest marks, half away from zero, computed with exact fractions outside the program.
// No published standard was found for inch fractions on a ruler; lowest terms are our own rule.
static void test_round_vectors(void **state) {
    (void)state;
    static const struct {
        const char *value;
        const char *up[3]; // to 1/16, 1/32, 1/64
    } rows[] = {
        {"0.3", {"5/16", "5/16", "19/64"}},
        {"0.7", {"11/16", "11/16", "45/64"}},
        {"1.9375", {"1 15/16", "1 15/16", "1 15/16"}},
        {"1.97", {"2", "1 31/32", "1 31/32"}},
        {"1.99", {"2", "2", "1 63/64"}},
        {"0.03125", {"1/16", "1/32", "1/32"}},
        {"0.046875", {"1/16", "1/16", "3/64"}},
        {"0.015625", {"0", "1/32", "1/64"}},
        {"0.0078125", {"0", "0", "1/64"}},
        {"2.40625", {"2 7/16", "2 13/32", "2 13/32"}},
        {"35.546875", {"35 9/16", "35 9/16", "35 35/64"}},
        {"44.96", {"44 15/16", "44 31/32", "44 61/64"}},
        {"1000 mm", {"39 3/8", "39 3/8", "39 3/8"}},
        {"900 mm", {"35 7/16", "35 7/16", "35 7/16"}},
        {"1149.35 mm", {"45 1/4", "45 1/4", "45 1/4"}},
        {"0.396875 mm", {"0", "1/32", "1/64"}},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        length_nm value = 0;
        assert_int_equal(length_parse(rows[i].value, LENGTH_UNIT_INCH, &value, NULL), LENGTH_OK);
        for (int k = 0; k < 3; k++) {
            char text[LENGTH_TEXT_MAX];
            length_text_fraction(length_round(value, LENGTH_INCH / (16 << k), LENGTH_TIE_UP), text);
            assert_string_equal(text, rows[i].up[k]);
        }
    }
}

static void test_round_ties_both_ways(void **state) {
    (void)state;
    length_nm sixteenth = LENGTH_INCH / 16;
    length_nm half = sixteenth / 2;
    assert_int_equal(length_round(3 * sixteenth + half, sixteenth, LENGTH_TIE_DOWN), 3 * sixteenth);
    assert_int_equal(length_round(3 * sixteenth + half, sixteenth, LENGTH_TIE_UP), 4 * sixteenth);
    assert_int_equal(length_round(3 * sixteenth + half + 1, sixteenth, LENGTH_TIE_DOWN),
                     4 * sixteenth);
    assert_int_equal(length_round(3 * sixteenth + half - 1, sixteenth, LENGTH_TIE_UP),
                     3 * sixteenth);
    assert_int_equal(length_round(0, sixteenth, LENGTH_TIE_UP), 0);
    // An odd step has no exact middle: neither neighbour of it is a tie.
    assert_int_equal(length_round(3, 7, LENGTH_TIE_UP), 0);
    assert_int_equal(length_round(4, 7, LENGTH_TIE_DOWN), 7);
}

static void test_texts(void **state) {
    (void)state;
    static const struct {
        length_nm value;
        const char *fraction;
        const char *inch3;
        const char *exact;
        const char *mm1;
    } rows[] = {
        {0, "0", "0.000", "0", "0.0"},
        {LENGTH_INCH, "1", "1.000", "1", "25.4"},
        {66675000, "2 5/8", "2.625", "2.625", "66.7"},
        {-66675000, "-2 5/8", "-2.625", "-2.625", "-66.7"},
        {-6350000, "-1/4", "-0.250", "-0.25", "-6.4"},
        {LENGTH_64TH, "1/64", "0.016", "0.015625", "0.4"},
        {27 * LENGTH_MM, "1.0630", "1.063", "1.062992126", "27.0"},
        {-1, "0.0000", "0.000", "-0.000000039", "0.0"},
        {25399999, "1.0000", "1.000", "0.999999961", "25.4"},
        {LENGTH_LIMIT, "1000", "1000.000", "1000", "25400.0"},
        {LENGTH_UNKNOWN, "not known", "not known", "not known", "not known"},
    };
    char text[LENGTH_TEXT_MAX];
    for (size_t i = 0; i < COUNT(rows); i++) {
        length_text_fraction(rows[i].value, text);
        assert_string_equal(text, rows[i].fraction);
        length_text_inch(rows[i].value, 3, text);
        assert_string_equal(text, rows[i].inch3);
        length_text_exact(rows[i].value, text);
        assert_string_equal(text, rows[i].exact);
        length_text_mm(rows[i].value, 1, text);
        assert_string_equal(text, rows[i].mm1);
    }
    length_text_inch(66675000, 0, text);
    assert_string_equal(text, "3");
    length_text_mm(66675001, 6, text);
    assert_string_equal(text, "66.675001");
}

static void test_split(void **state) {
    (void)state;
    struct length_fraction fraction = {.whole = 99};
    assert_false(length_split(LENGTH_64TH + 1, &fraction));
    assert_false(length_split(LENGTH_UNKNOWN, &fraction));
    assert_int_equal(fraction.whole, 99);
    for (int count = -200; count <= 200; count++) {
        assert_true(length_split(count * LENGTH_64TH, &fraction));
        int64_t back = fraction.whole * 64 + fraction.numerator * 64 / fraction.denominator;
        assert_int_equal(fraction.negative ? -back : back, count);
        assert_true(fraction.numerator % 2 == 1 || fraction.numerator == 0);
        assert_true(fraction.numerator == 0 || fraction.numerator < fraction.denominator);
    }
}

// Every text of a length reads back as that length.
static void test_texts_read_back(void **state) {
    (void)state;
    uint64_t seed = 1;
    char text[LENGTH_TEXT_MAX];
    for (int i = 0; i < 100000; i++) {
        seed = seed * 6364136223846793005u + 1442695040888963407u;
        length_nm value = (length_nm)((seed >> 20) % (uint64_t)(2 * LENGTH_LIMIT)) - LENGTH_LIMIT;
        length_nm back = 0;
        length_text_exact(value, text);
        assert_int_equal(length_parse(text, LENGTH_UNIT_INCH, &back, NULL), LENGTH_OK);
        assert_int_equal(back, value);
        length_text_mm(value, 6, text);
        assert_int_equal(length_parse(text, LENGTH_UNIT_MM, &back, NULL), LENGTH_OK);
        assert_int_equal(back, value);
        value -= value % LENGTH_64TH;
        length_text_fraction(value, text);
        assert_int_equal(length_parse(text, LENGTH_UNIT_INCH, &back, NULL), LENGTH_OK);
        assert_int_equal(back, value);
    }
}

static void test_mass(void **state) {
    (void)state;
    static const struct {
        const char *text;
        mass_mg mass;
        const char *back;
    } good[] = {
        {"203", 203000, "203"},         {"203.5", 203500, "203.5"},
        {" 203.25 ", 203250, "203.25"}, {"0", 0, "0"},
        {"0.001", 1, "0.001"},          {"5000", 5000000, "5000"},
        {"203.500", 203500, "203.5"},   {"007", 7000, "7"},
    };
    static const char *const bad[] = {
        "",         " ",     ".5",   "5.",
        "203.5555", "-1",    "+1",   "5000.001",
        "5001",     "203 g", "203g", "2e2",

        "0x10",     "1 2",   "nan",  "99999999999999999999999",
        "203.5.1",
    };
    char text[LENGTH_TEXT_MAX];
    for (size_t i = 0; i < COUNT(good); i++) {
        mass_mg mass = -1;
        assert_true(mass_parse(good[i].text, &mass));
        assert_int_equal(mass, good[i].mass);
        mass_text(mass, text);
        assert_string_equal(text, good[i].back);
    }
    for (size_t i = 0; i < COUNT(bad); i++) {
        mass_mg mass = -1;
        if (mass_parse(bad[i], &mass)) {
            fail_msg("\"%s\" was taken as a mass", bad[i]);
        }
        assert_int_equal(mass, -1);
    }
    mass_text(MASS_UNKNOWN, text);
    assert_string_equal(text, "not known");
}

static void test_short_text(void **state) {
    char words[LENGTH_TEXT_MAX];
    (void)state;
    length_text_short(LENGTH_INCH * 2 + LENGTH_INCH * 5 / 8, words);
    assert_string_equal(words, "2 5/8");
    length_text_short(LENGTH_INCH * 5 / 2 + 254000, words); // a hundredth of an inch: no fraction
    assert_string_equal(words, "2.51");
    length_text_short(66700000, words); // 66.7 mm
    length_nm back;
    assert_int_equal(length_parse(words, LENGTH_UNIT_INCH, &back, NULL), LENGTH_OK);
    assert_int_equal(back, 66700000);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_inch_is_25_4_mm), cmocka_unit_test(test_rule_lengths_in_mm),
        cmocka_unit_test(test_round_vectors),   cmocka_unit_test(test_round_ties_both_ways),
        cmocka_unit_test(test_texts),           cmocka_unit_test(test_split),
        cmocka_unit_test(test_texts_read_back), cmocka_unit_test(test_mass),
        cmocka_unit_test(test_short_text),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

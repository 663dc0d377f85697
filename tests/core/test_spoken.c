// Lengths as a person says them: worked examples of English, no source needed.

#include "spoken.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <string.h>

static void spells_lengths(void **state) {
    static const char *const cases[][2] = {
        {"2 5/8 in", "two and five eighths inches"},
        {"5/8 in", "five eighths of an inch"},
        {"1/2 in", "half an inch"},
        {"2 1/2 in", "two and a half inches"},
        {"1 in", "one inch"},
        {"1 1/8 in", "one and one eighth inches"},
        {"3/4", "three quarters"},
        {"1/4 in", "one quarter of an inch"},
        {"42 3/4 in.", "forty-two and three quarters inches."},
        {"13/32 in", "thirteen thirty-seconds of an inch"},
        {"1/64 in", "one sixty-fourth of an inch"},
        {"0 in", "zero inches"},
        {"100 mm", "one hundred millimetres"},
        {"1 mm", "one millimetre"},
        {"66.7 mm", "sixty-six point seven millimetres"},
        {"1060.05 mm", "1060 point zero five millimetres"},
        {"142.6 mm", "one hundred and forty-two point six millimetres"},
        {"47.125 in", "forty-seven point one two five inches"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char text[SPOKEN_MAX];
        spoken_text(cases[i][0], text, sizeof text);
        assert_string_equal(text, cases[i][1]);
    }
}

static void leaves_the_rest(void **state) {
    static const char *const cases[] = {
        "Shaft S-1187K, build 2041, club 2 of 9",
        "Hold 2 seconds: something is wrong",
        "H-0472X 5/8x",
        "3/7 in",
        "12/4",
        "",
        "in",
        "Scan 4 in all",
    };
    (void)state;
    for (size_t i = 0; i + 1 < sizeof cases / sizeof cases[0]; i++) {
        char text[SPOKEN_MAX];
        spoken_text(cases[i], text, sizeof text);
        assert_string_equal(text, cases[i]);
    }
}

// Every sixteenth up to 50 in has words without a digit, and no two have the same.
static void every_mark_has_its_own_words(void **state) {
    static char all[50 * 16][96];
    (void)state;
    for (int n = 1; n < 50 * 16; n++) {
        char length[LENGTH_TEXT_MAX];
        char text[LENGTH_TEXT_MAX + 4];
        length_text_fraction(n * (LENGTH_INCH / 16), length);
        snprintf(text, sizeof text, "%.28s in", length);
        spoken_text(text, all[n], sizeof all[n]);
        assert_int_equal(strcspn(all[n], "0123456789"), strlen(all[n]));
        for (int i = 1; i < n; i++) {
            assert_string_not_equal(all[i], all[n]);
        }
    }
}

static void is_cut_off_at_the_end(void **state) {
    char text[12];
    (void)state;
    spoken_text("42 3/4 in of a shaft", text, sizeof text);
    assert_int_equal(strlen(text), sizeof text - 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(spells_lengths),
        cmocka_unit_test(leaves_the_rest),
        cmocka_unit_test(every_mark_has_its_own_words),
        cmocka_unit_test(is_cut_off_at_the_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

#include "check.h"
#include "text.h"

static void test_cut_at_whole_characters(void **state) {
    (void)state;
    const char *words = "2\u215D in"; // 1 + 3 + 3 bytes
    for (size_t size = 0; size <= 10; size++) {
        char buffer[16];
        memset(buffer, 'x', sizeof buffer);
        struct text text = text_open(buffer, size);
        text_add(&text, words);
        assert_int_equal(text.cut, size < 8);
        for (size_t i = size; i < sizeof buffer; i++) {
            assert_int_equal(buffer[i], 'x');
        }
        if (size > 0) {
            assert_int_equal(strlen(buffer), text.used);
            assert_int_equal(text.used, size >= 8 ? 7 : size >= 5 ? size - 1 : size >= 2 ? 1 : 0);
        }
    }
}

// Once something is cut nothing more is added: no sentence with a hole in it.
static void test_nothing_after_the_cut(void **state) {
    (void)state;
    char buffer[4];
    struct text text = text_open(buffer, sizeof buffer);
    text_add(&text, "2");
    text_add(&text, "\u215D"); // three bytes where two are left
    text_add(&text, "x");
    assert_string_equal(buffer, "2");
    assert_true(text.cut);
}

static void test_numbers(void **state) {
    (void)state;
    static const struct {
        int64_t number;
        const char *words;
    } rows[] = {{0, "0"},
                {-1, "-1"},
                {42, "42"},
                {INT64_MAX, "9223372036854775807"},
                {INT64_MIN, "-9223372036854775808"}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        char buffer[32];
        struct text text = text_open(buffer, sizeof buffer);
        text_add_number(&text, rows[i].number);
        assert_string_equal(buffer, rows[i].words);
    }
}

static void test_quoted(void **state) {
    (void)state;
    static const struct {
        const char *words;
        const char *quoted;
    } rows[] = {
        {"", "\"\""},
        {"2 5/7", "\"2 5/7\""},
        {"a\tb\x7f\x1b", "\"a?b??\""},
        {"\u215D\xff\xe2\x85", "\"\u215D???\""},
        {"0123456789012345678901234567890123456789",
         "\"0123456789012345678901234567890123456789\""},
        {"01234567890123456789012345678901234567890",
         "\"0123456789012345678901234567890123456789...\""},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        char buffer[64];
        struct text text = text_open(buffer, sizeof buffer);
        text_add_quoted(&text, rows[i].words);
        assert_string_equal(buffer, rows[i].quoted);
    }
}

static void test_units(void **state) {
    (void)state;
    char buffer[64];
    struct text text = text_open(buffer, sizeof buffer);
    text_add_length(&text, 66675000);
    text_add(&text, ", ");
    text_add_mass(&text, 203500);
    text_add(&text, ", ");
    text_add_length(&text, LENGTH_UNKNOWN);
    text_add(&text, ", ");
    text_add_mass(&text, MASS_UNKNOWN);
    assert_string_equal(buffer, "2 5/8 in, 203.5 g, not known, not known");
}

// RFC 3629 section 4 (UTF8-octets grammar) and section 3 (ranges).
static void test_utf8(void **state) {
    (void)state;
    static const struct {
        const char *bytes;
        size_t left;
        size_t size;
    } rows[] = {
        {"", 0, 0},
        {"a", 1, 1},
        {"\x7f", 1, 1},
        {"\xc2\x80", 2, 2},
        {"\xdf\xbf", 2, 2},
        {"\xe0\xa0\x80", 3, 3},
        {"\xed\x9f\xbf", 3, 3},
        {"\xef\xbf\xbf", 3, 3},
        {"\xf0\x90\x80\x80", 4, 4},
        {"\xf4\x8f\xbf\xbf", 4, 4},
        {"\x80", 1, 0},             // continuation alone
        {"\xc0\x80", 2, 0},         // overlong
        {"\xc1\xbf", 2, 0},         //
        {"\xe0\x9f\xbf", 3, 0},     //
        {"\xf0\x8f\xbf\xbf", 4, 0}, //
        {"\xed\xa0\x80", 3, 0},     // surrogate
        {"\xf4\x90\x80\x80", 4, 0}, // above U+10FFFF
        {"\xf5\x80\x80\x80", 4, 0}, //
        {"\xc2", 1, 0},             // cut off
        {"\xe2\x85", 2, 0},         //
        {"\xf0\x90\x80", 3, 0},     //
        {"\xc2\x41", 2, 0},         // no continuation
        {"\xe2\x85\x41", 3, 0},     //
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        if (text_utf8_size(rows[i].bytes, rows[i].left) != rows[i].size) {
            fail_msg("row %zu", i);
        }
    }
}

static void test_decimals(void **state) {
    (void)state;
    static const struct {
        double value;
        int decimals;
        const char *text;
    } rows[] = {
        {261.46, 1, "261.5"}, {-0.44, 1, "-0.4"}, {-0.04, 1, "0.0"}, {0.05, 2, "0.05"},
        {12.999, 2, "13.00"}, {7.5, 0, "8"},      {-3, 0, "-3"},     {1.0625, 3, "1.063"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        char buffer[32];
        struct text text = text_open(buffer, sizeof buffer);
        text_add_decimal(&text, rows[i].value, rows[i].decimals);
        assert_string_equal(buffer, rows[i].text);
    }
}

static void test_same(void **state) {
    (void)state;
    assert_true(text_same("3W", " 3w  "));
    assert_true(text_same("", "   "));
    assert_false(text_same("3W", "3 W"));
    assert_false(text_same("3W", "3W1"));
    assert_false(text_same("3", ""));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_cut_at_whole_characters),
        cmocka_unit_test(test_nothing_after_the_cut),
        cmocka_unit_test(test_numbers),
        cmocka_unit_test(test_quoted),
        cmocka_unit_test(test_units),
        cmocka_unit_test(test_utf8),
        cmocka_unit_test(test_decimals),
        cmocka_unit_test(test_same),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

#include "check.h"
#include "length.h"

#include <stdio.h>

static void test_accepts(void **state) {
    (void)state;
    static const struct {
        const char *text;
        enum length_unit unit;
        length_nm length;
    } rows[] = {
        {"2 5/8", LENGTH_UNIT_INCH, 66675000},
        {"2-5/8", LENGTH_UNIT_INCH, 66675000},
        {"2\u20135/8", LENGTH_UNIT_INCH, 66675000}, // en dash, as phones write it
        {"2 5/8\"", LENGTH_UNIT_INCH, 66675000},
        {"2 5/8\u2033", LENGTH_UNIT_INCH, 66675000},
        {"2 5/8\u201D", LENGTH_UNIT_INCH, 66675000},
        {"2 5\u20448", LENGTH_UNIT_INCH, 66675000}, // fraction slash
        {"2 5/8 in", LENGTH_UNIT_MM, 66675000},
        {"2 5/8in", LENGTH_UNIT_INCH, 66675000},
        {"2\u215D", LENGTH_UNIT_INCH, 66675000},
        {"2 \u215D", LENGTH_UNIT_INCH, 66675000},
        {"2-\u215D", LENGTH_UNIT_INCH, 66675000},
        {"\u00BD", LENGTH_UNIT_INCH, 12700000},
        {"\u00BC", LENGTH_UNIT_INCH, 6350000},
        {"\u00BE", LENGTH_UNIT_INCH, 19050000},
        {"\u215B", LENGTH_UNIT_INCH, 3175000},
        {"\u215C", LENGTH_UNIT_INCH, 9525000},
        {"\u215D", LENGTH_UNIT_INCH, 15875000},
        {"\u215E", LENGTH_UNIT_INCH, 22225000},
        {"5/8", LENGTH_UNIT_INCH, 15875000},
        {"1/2", LENGTH_UNIT_INCH, 12700000},
        {"63/64", LENGTH_UNIT_INCH, 25003125},
        {"2/16", LENGTH_UNIT_INCH, 3175000},
        {"0/16", LENGTH_UNIT_INCH, 0},
        {"2.625", LENGTH_UNIT_INCH, 66675000},
        {"2.6250000000000", LENGTH_UNIT_INCH, 66675000},
        {"2.625 in", LENGTH_UNIT_INCH, 66675000},
        {"2.625 IN", LENGTH_UNIT_MM, 66675000},
        {".5", LENGTH_UNIT_INCH, 12700000},
        {"66.7 mm", LENGTH_UNIT_INCH, 66700000},
        {"66.7mm", LENGTH_UNIT_INCH, 66700000},
        {"66.7\u00A0mm", LENGTH_UNIT_INCH, 66700000},
        {"66.7\u202Fmm", LENGTH_UNIT_INCH, 66700000},
        {"66.7 MM", LENGTH_UNIT_INCH, 66700000},
        {"66.7", LENGTH_UNIT_MM, 66700000},
        {"66.000001", LENGTH_UNIT_MM, 66000001},
        {"  46\t", LENGTH_UNIT_INCH, 1168400000},
        {"0046", LENGTH_UNIT_INCH, 1168400000},
        {"-1/4", LENGTH_UNIT_INCH, -6350000},
        {"-2-5/8", LENGTH_UNIT_INCH, -66675000},
        {"\u22122 5/8", LENGTH_UNIT_INCH, -66675000}, // minus sign
        {"+2 5/8", LENGTH_UNIT_INCH, 66675000},
        {"-0", LENGTH_UNIT_INCH, 0},
        {"1000", LENGTH_UNIT_INCH, 25400000000},
        {"-1000", LENGTH_UNIT_INCH, -25400000000},
        {"25400 mm", LENGTH_UNIT_INCH, 25400000000},
        // Nine decimals go to the nearest nanometre, half away from zero.
        {"1.062992126", LENGTH_UNIT_INCH, 27000000},
        {"0.000000001", LENGTH_UNIT_INCH, 0},
        {"0.00000002", LENGTH_UNIT_INCH, 1},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        length_nm length = -7;
        struct length_error error = {.code = LENGTH_BAD_CHAR, .offset = 77};
        if (length_parse(rows[i].text, rows[i].unit, &length, &error) != LENGTH_OK ||
            length != rows[i].length) {
            fail_msg("\"%s\" read as %lld", rows[i].text, (long long)length);
        }
    }
}

static void test_refuses(void **state) {
    (void)state;
    static const struct {
        const char *text;
        enum length_error_code code;
        const char *part;
    } rows[] = {
        {"", LENGTH_EMPTY, ""},
        {"  \t ", LENGTH_EMPTY, ""},
        {"2 5/7", LENGTH_BAD_FRACTION, "5/7"},
        {"2 9/8", LENGTH_BAD_FRACTION, "9/8"},
        {"8/8", LENGTH_BAD_FRACTION, "8/8"},
        {"2 5/", LENGTH_BAD_FRACTION, "5/"},
        {"5/128", LENGTH_BAD_FRACTION, "5/128"},
        {"5/1", LENGTH_BAD_FRACTION, "5/1"},
        {"0/0", LENGTH_BAD_FRACTION, "0/0"},
        {"5/18446744073709551620", LENGTH_BAD_FRACTION, "5/18446744073709551620"},
        {"1 \u2153", LENGTH_BAD_FRACTION, "\u2153"},
        {"2 5", LENGTH_BAD_CHAR, "5"},
        {"2-5", LENGTH_BAD_CHAR, "5"},
        {"2 -5/8", LENGTH_BAD_CHAR, "-"},
        {"2 - 5/8", LENGTH_BAD_CHAR, "-"},
        {"2--5/8", LENGTH_BAD_CHAR, "-"},
        {"--2", LENGTH_BAD_CHAR, "-"},
        {"+-2", LENGTH_BAD_CHAR, "-"},
        {"- 2", LENGTH_BAD_CHAR, " "},
        {"2-", LENGTH_BAD_CHAR, "-"},
        {"-", LENGTH_BAD_CHAR, "-"},
        {"/8", LENGTH_BAD_CHAR, "/"},
        {"2.", LENGTH_BAD_CHAR, "2."},
        {".", LENGTH_BAD_CHAR, "."},
        {"2.5.1", LENGTH_BAD_CHAR, "."},
        {"1,234.5", LENGTH_BAD_CHAR, "."},
        {"2.5 5/8", LENGTH_BAD_CHAR, "5"},
        {"5/8 5/8", LENGTH_BAD_CHAR, "5"},
        {"1/2/4", LENGTH_BAD_CHAR, "/"},
        {"2\u00BD\u00BD", LENGTH_BAD_CHAR, "\u00BD"},
        {"\u0665", LENGTH_BAD_CHAR, "\u0665"}, // an Arabic five
        {"\u00BD 5/8", LENGTH_BAD_CHAR, "5"},
        {"\x80", LENGTH_BAD_CHAR, "\x80"},
        {"2\n", LENGTH_BAD_CHAR, "\n"},
        {"abc", LENGTH_BAD_CHAR, "a"},
        {"2e3", LENGTH_BAD_UNIT, "e"},
        {"2 ft", LENGTH_BAD_UNIT, "ft"},
        {"2 cm", LENGTH_BAD_UNIT, "cm"},
        {"2'", LENGTH_BAD_UNIT, "'"},
        {"2\u2032", LENGTH_BAD_UNIT, "\u2032"},
        {"2 inch", LENGTH_BAD_UNIT, "inch"},
        {"2 in mm", LENGTH_BAD_UNIT, "in mm"},
        {"2 mm in", LENGTH_BAD_UNIT, "mm in"},
        {"2 in\"", LENGTH_BAD_UNIT, "in\""},
        {"5/8 mm", LENGTH_BAD_UNIT, "mm"},
        {"2\u00BD mm", LENGTH_BAD_UNIT, "mm"},
        {"2.0000000001", LENGTH_TOO_FINE, "2.0000000001"},
        {"2.0000001 mm", LENGTH_TOO_FINE, "2.0000001"},
        {"1000.001", LENGTH_TOO_LARGE, "1000.001"},
        {"1000 1/64", LENGTH_TOO_LARGE, "1000 1/64"},
        {"25400.1 mm", LENGTH_TOO_LARGE, "25400.1"},
        {"99999999999999999999999999", LENGTH_TOO_LARGE, "99999999999999999999999999"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        length_nm length = -7;
        struct length_error error = {0};
        enum length_error_code code = length_parse(rows[i].text, LENGTH_UNIT_INCH, &length, &error);
        if (code != rows[i].code || error.code != code) {
            fail_msg("\"%s\" gave %d, not %d", rows[i].text, code, rows[i].code);
        }
        assert_int_equal(length, -7);
        assert_true(error.offset + error.size <= strlen(rows[i].text));
        if (error.size != strlen(rows[i].part) ||
            memcmp(rows[i].text + error.offset, rows[i].part, error.size) != 0) {
            fail_msg("\"%s\": blamed %.*s", rows[i].text, (int)error.size,
                     rows[i].text + error.offset);
        }
        assert_int_equal(length_parse(rows[i].text, LENGTH_UNIT_INCH, &length, NULL), code);
    }
}

// On a bench that counts in millimetres a bare fraction is no millimetre.
static void test_bare_fraction_needs_inches(void **state) {
    (void)state;
    length_nm length = -7;
    struct length_error error = {0};
    assert_int_equal(length_parse("2 5/8", LENGTH_UNIT_MM, &length, &error), LENGTH_BAD_UNIT);
    assert_int_equal(error.offset, 0);
    assert_int_equal(error.size, 5);
    assert_int_equal(length, -7);
}

static void test_messages_show_the_part(void **state) {
    (void)state;
    static const struct {
        const char *text;
        const char *begin;
    } rows[] = {
        {"2 5/7", "\"2 5/7\": \"5/7\" is not a fraction a ruler has."},
        {"2 ft", "\"2 ft\": \"ft\" leaves the unit unclear."},
        {"2.0000000001", "\"2.0000000001\": \"2.0000000001\" has more decimals"},
        {"1001", "\"1001\": \"1001\" is beyond 1000 in."},
        {"a\tb", "\"a?b\": \"a\" does not belong in a length."},
        {"", "No length given."},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        char text[200];
        char small[12];
        length_nm length;
        struct length_error error = {0};
        length_parse(rows[i].text, LENGTH_UNIT_INCH, &length, &error);
        length_error_text(rows[i].text, &error, text, sizeof text);
        if (strncmp(text, rows[i].begin, strlen(rows[i].begin)) != 0) {
            fail_msg("%s", text);
        }
        length_error_text(rows[i].text, &error, small, sizeof small);
        assert_true(strlen(small) < sizeof small);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_accepts),
        cmocka_unit_test(test_refuses),
        cmocka_unit_test(test_bare_fraction_needs_inches),
        cmocka_unit_test(test_messages_show_the_part),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

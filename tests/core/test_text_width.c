// Columns in a terminal, against libc's wcwidth, whose tables are made from Unicode's.

#include "check.h"
#include "text_width.h"

#include <locale.h>
#include <wchar.h>

static void encode(uint32_t letter, char buffer[5]) {
    memset(buffer, 0, 5);
    if (letter < 0x80) {
        buffer[0] = (char)letter;
    } else if (letter < 0x800) {
        buffer[0] = (char)(0xC0 | letter >> 6);
        buffer[1] = (char)(0x80 | (letter & 0x3F));
    } else if (letter < 0x10000) {
        buffer[0] = (char)(0xE0 | letter >> 12);
        buffer[1] = (char)(0x80 | (letter >> 6 & 0x3F));
        buffer[2] = (char)(0x80 | (letter & 0x3F));
    } else {
        buffer[0] = (char)(0xF0 | letter >> 18);
        buffer[1] = (char)(0x80 | (letter >> 12 & 0x3F));
        buffer[2] = (char)(0x80 | (letter >> 6 & 0x3F));
        buffer[3] = (char)(0x80 | (letter & 0x3F));
    }
}

// Every letter that our languages' names and texts are written in.
static void test_as_libc_says(void **state) {
    static const uint32_t spans[][2] = {
        {0x20, 0x7E},     {0xA0, 0xAC},     {0xAE, 0x24F},    {0x300, 0x36F},   {0x370, 0x52F},
        {0x1E00, 0x1EFF}, {0x2010, 0x2027}, {0x2030, 0x205E}, {0x2150, 0x218B}, {0x2190, 0x21FF},
        {0x2E80, 0x303E}, {0x3041, 0x30FF}, {0x3131, 0x318E}, {0x31F0, 0x33FF}, {0x3400, 0x4DBF},
        {0x4E00, 0x9FFF}, {0xAC00, 0xD7A3}, {0xF900, 0xFAD9}, {0xFF01, 0xFFEE}, {0x20000, 0x2A6DF}};
    size_t compared = 0;
    (void)state;
    assert_non_null(setlocale(LC_CTYPE, "C.UTF-8"));
    for (size_t i = 0; i < sizeof spans / sizeof spans[0]; i++) {
        for (uint32_t letter = spans[i][0]; letter <= spans[i][1]; letter++) {
            char words[5];
            int columns = wcwidth((wchar_t)letter);
            if (columns < 0) {
                continue; // no letter stands there
            }
            encode(letter, words);
            if (text_columns(words) != (size_t)columns) {
                fail_msg("U+%04X: %zu columns, libc says %d", letter, text_columns(words), columns);
            }
            compared++;
        }
    }
    assert_true(compared > 80000);
}

static void test_texts(void **state) {
    (void)state;
    assert_int_equal(text_columns(""), 0);
    assert_int_equal(text_columns("rack"), 4);
    assert_int_equal(text_columns("L\u00E4nge"), 5);
    assert_int_equal(text_columns("\u68DA A-2"), 6);
    assert_int_equal(text_columns("\xFF\xFE\xE6"), 3); // none of it a letter
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_as_libc_says),
        cmocka_unit_test(test_texts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

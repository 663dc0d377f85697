#include "check.h"
#include "csv.h"

#include <stdio.h>
#include <stdlib.h>

// Rows as `cell|cell/cell`, `/` between rows, with the line each row begins at in front.
static enum csv_result read_all(const char *text, size_t size, char *buffer,
                                struct csv_reader *ret_reader) {
    static struct csv_row row;
    struct csv_reader reader = csv_open(text, size);
    enum csv_result result;
    buffer[0] = '\0';
    while ((result = csv_next(&reader, &row)) == CSV_ROW) {
        sprintf(buffer + strlen(buffer), "%s%zu:", buffer[0] != '\0' ? "/" : "", row.line);
        for (size_t i = 0; i < row.count; i++) {
            sprintf(buffer + strlen(buffer), "%s%s", i > 0 ? "|" : "", row.cell[i]);
        }
    }
    *ret_reader = reader;
    return result;
}

// RFC 4180 section 2, rules 1 to 7; the rest our own, as csv.h says.
static void test_reads(void **state) {
    (void)state;
    static const struct {
        const char *text;
        const char *rows;
    } rows[] = {
        {"aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", "1:aaa|bbb|ccc/2:zzz|yyy|xxx"}, // rule 1
        {"aaa,bbb,ccc\r\nzzz,yyy,xxx", "1:aaa|bbb|ccc/2:zzz|yyy|xxx"},     // rule 2
        {"field_name,b\r\naaa,bbb\r\n", "1:field_name|b/2:aaa|bbb"},       // rule 3
        {" a , b ", "1: a | b "},                                          // rule 4: blanks count
        {"\"aaa\",\"bbb\"\r\nzzz,yyy", "1:aaa|bbb/2:zzz|yyy"},             // rule 5
        {"\"aaa\",\"b\r\nbb\",\"ccc\"\r\nz", "1:aaa|b\r\nbb|ccc/3:z"},     // rule 6
        {"\"aaa\",\"b\"\"bb\",\"c,c\"", "1:aaa|b\"bb|c,c"},                // rule 7
        {"", ""},
        {"\n\r\n\n", ""},
        {"a\nb\n", "1:a/2:b"},
        {"\n\na\n\n\nb", "3:a/6:b"},
        {",", "1:|"},
        {"a,", "1:a|"},
        {",,\n", "1:||"},
        {"\"\"", "1:"},
        {"\"\",\"\"\"\"", "1:|\""},
        {" ", "1: "},
        {"\xEF\xBB\xBFmodel,flex", "1:model|flex"},
        {"\u215D,\u00E4", "1:\u215D|\u00E4"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        char buffer[256];
        struct csv_reader reader;
        assert_int_equal(read_all(rows[i].text, strlen(rows[i].text), buffer, &reader), CSV_END);
        assert_string_equal(buffer, rows[i].rows);
    }
}

static void test_refuses(void **state) {
    (void)state;
    static const struct {
        const char *text;
        enum csv_result result;
        size_t line;
        size_t column;
    } rows[] = {
        {"a,\"b", CSV_OPEN_QUOTE, 1, 2},     {"a\nb,\"c\nd\n", CSV_OPEN_QUOTE, 4, 2},
        {"\"", CSV_OPEN_QUOTE, 1, 1},        {"\"a\"\"", CSV_OPEN_QUOTE, 1, 1},
        {"a\"b", CSV_STRAY_QUOTE, 1, 1},     {"a,b\"\"", CSV_STRAY_QUOTE, 1, 2},
        {"\"a\"b", CSV_STRAY_QUOTE, 1, 1},   {"\"a\" ,b", CSV_STRAY_QUOTE, 1, 1},
        {"a, \"b\"", CSV_STRAY_QUOTE, 1, 2}, {"x\ny,a\tb", CSV_BAD_BYTE, 2, 2},
        {"a\x7f", CSV_BAD_BYTE, 1, 1},       {"a\rb", CSV_BAD_BYTE, 1, 1},
        {"a\r", CSV_BAD_BYTE, 1, 1},         {"\"a\rb\"", CSV_BAD_BYTE, 1, 1},
        {"a,\xff", CSV_BAD_BYTE, 1, 2},      {"a,\xe2\x85", CSV_BAD_BYTE, 1, 2},
        {"a,\xc0\x80", CSV_BAD_BYTE, 1, 2},  {"a\xEF\xBB", CSV_BAD_BYTE, 1, 1},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        static struct csv_row row;
        char buffer[256];
        struct csv_reader reader;
        enum csv_result result = read_all(rows[i].text, strlen(rows[i].text), buffer, &reader);
        if (result != rows[i].result || reader.error_line != rows[i].line ||
            reader.error_column != rows[i].column) {
            fail_msg("row %zu: %s, line %zu, cell %zu", i, csv_result_text(result),
                     reader.error_line, reader.error_column);
        }
        // The reader stays there, and the caller's row is as it was.
        row.count = 31;
        strcpy(row.cell[0], "untouched");
        assert_int_equal(csv_next(&reader, &row), result);
        assert_int_equal(row.count, 31);
        assert_string_equal(row.cell[0], "untouched");
        assert_true(strlen(csv_result_text(result)) > 10);
    }
}

static void test_nul_is_no_text(void **state) {
    (void)state;
    char buffer[64];
    struct csv_reader reader;
    assert_int_equal(read_all("a,b\0c", 5, buffer, &reader), CSV_BAD_BYTE);
    assert_int_equal(reader.error_column, 2);
}

static void test_limits(void **state) {
    (void)state;
    char text[2 * CSV_CELL_MAX];
    char buffer[2 * CSV_CELL_MAX];
    struct csv_reader reader;
    memset(text, ',', sizeof text);
    assert_int_equal(read_all(text, CSV_COLUMNS_MAX - 1, buffer, &reader), CSV_END);
    assert_int_equal(read_all(text, CSV_COLUMNS_MAX, buffer, &reader), CSV_TOO_MANY_COLUMNS);
    assert_int_equal(reader.error_column, CSV_COLUMNS_MAX + 1);
    memset(text, 'x', sizeof text);
    assert_int_equal(read_all(text, CSV_CELL_MAX - 1, buffer, &reader), CSV_END);
    assert_int_equal(strlen(buffer), 2 + CSV_CELL_MAX - 1);
    assert_int_equal(read_all(text, CSV_CELL_MAX, buffer, &reader), CSV_CELL_TOO_LONG);
    assert_int_equal(reader.error_line, 1);
}

static void test_writes(void **state) {
    (void)state;
    static const struct {
        const char *text;
        const char *cell;
    } rows[] = {
        {"", ""},
        {"Reed 60", "Reed 60"},
        {"a,b", "\"a,b\""},
        {"a\"b", "\"a\"\"b\""},
        {"a\nb", "\"a\nb\""},
        {" a", "\" a\""},
        {"a ", "\"a \""},
        // What a spreadsheet would run as a formula is defused; numbers are left alone.
        {"=1+2", "'=1+2"},
        {"+cmd", "'+cmd"},
        {"-cmd", "'-cmd"},
        {"@SUM(A1,A2)", "\"'@SUM(A1,A2)\""},
        {"-", "'-"},
        {"-1/4", "'-1/4"},
        {"--1", "'--1"},
        {"-1.", "'-1."},
        {"-.5", "-.5"},
        {"-0.25", "-0.25"},
        {"+3", "+3"},
        {"2.625", "2.625"},
        {"H-0001A", "H-0001A"},
        {"\u215D", "\u215D"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        char buffer[64];
        size_t size = strlen(rows[i].cell);
        assert_int_equal(csv_cell(rows[i].text, buffer, sizeof buffer), size);
        assert_string_equal(buffer, rows[i].cell);
        assert_int_equal(csv_cell(rows[i].text, buffer, size + 1), size);
        if (size > 0) {
            assert_int_equal(csv_cell(rows[i].text, buffer, size), 0);
        }
    }
}

static void test_written_cells_read_back(void **state) {
    (void)state;
    uint64_t seed = 4180;
    for (int i = 0; i < 50000; i++) {
        static const char *const pieces[] = {"a", "\"", ",", "\n", "\r\n", " ", "\u215D", "1", "."};
        static struct csv_row row;
        char text[64] = "x"; // first, so that nothing is taken for a formula
        char line[256];
        for (int k = 0; k < 8; k++) {
            seed = seed * 6364136223846793005u + 1442695040888963407u;
            strcat(text, pieces[(seed >> 33) % COUNT(pieces)]);
        }
        size_t size = csv_cell(text, line, sizeof line);
        line[size++] = ',';
        size += csv_cell(text, line + size, sizeof line - size);
        struct csv_reader reader = csv_open(line, size);
        assert_int_equal(csv_next(&reader, &row), CSV_ROW);
        assert_int_equal(row.count, 2);
        assert_string_equal(row.cell[0], text);
        assert_string_equal(row.cell[1], text);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_reads),          cmocka_unit_test(test_refuses),
        cmocka_unit_test(test_nul_is_no_text), cmocka_unit_test(test_limits),
        cmocka_unit_test(test_writes),         cmocka_unit_test(test_written_cells_read_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

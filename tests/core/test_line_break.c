// Where lines may end. Values worked out by hand from the classes of Unicode Standard Annex 14
// (rules LB13 to LB16, LB31) and the line-head and line-end rules of JIS X 4051; a digit stays with
// what it counts, which both leave open.

#include "check.h"
#include "line_break.h"

#include <stdio.h>

// The text with a bar wherever a line may end.
static void parts(const char *text, char *buffer, size_t size) {
    size_t used = 0;
    while (*text != '\0') {
        size_t unit = line_unit(text);
        assert_true(unit > 0 && unit <= strlen(text));
        used += (size_t)snprintf(buffer + used, size - used, "%.*s", (int)unit, text);
        text += unit;
        size_t blanks = strspn(text, " ");
        used += (size_t)snprintf(buffer + used, size - used, "%s",
                                 *text == '\0' ? ""
                                 : blanks > 0  ? "_"
                                               : "|");
        text += blanks;
    }
    buffer[used] = '\0';
}

static void where_lines_may_end(void **state) {
    static const struct {
        const char *text;
        const char *parts;
    } rows[] = {
        {"", ""},
        {"Scan a head", "Scan_a_head"},
        {"2 5/8 in", "2_5/8_in"},
        {"\u00C4rger \u2013 gro\u00DF", "\u00C4rger_\u2013_gro\u00DF"},
        {"切断する。", "切|断|す|る。"},
        {"「停止」を", "「停|止」|を"},
        {"スキャナー", "ス|キャ|ナー"},
        {"待って、次", "待っ|て、|次"},
        {"S-0001Aを", "S-0001A|を"},
        {"3本（全部）", "3本|（全|部）"},
        {"い\u3042", "い|\u3042"},
        {"\xE5\x88", "\xE5\x88"}, // torn: never past its end
    };
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        char found[200] = "";
        parts(rows[i].text, found, sizeof found);
        assert_string_equal(found, rows[i].parts);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(where_lines_may_end)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}

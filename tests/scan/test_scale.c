// What a line of a scale says, and what is stable. Values of units: NIST Handbook 44, Appendix C
// (values from memory); forms of lines: common practice, no source.

#include "check.h"
#include "scale.h"

#include <stdio.h>

#define LINES_MAX 64
#define MS 1000

static struct scale_parser parser;
static int64_t now;
static size_t count;
static struct scale_reading got[LINES_MAX];

static void take(void *ctx, const struct scale_reading *reading) {
    (void)ctx;
    if (count < LINES_MAX) {
        got[count] = *reading;
    }
    count++;
}

// A line at rest: the next byte begins one.
static void begin(enum scale_unit unit, enum scale_format format) {
    now = 7000 * MS;
    count = 0;
    scale_parser_init(&parser, unit, format, now);
    now += SCALE_PAUSE_US;
    assert_false(scale_parser_tick(&parser, now, take, NULL));
}

static int set_up(void **state) {
    (void)state;
    begin(SCALE_GRAM, SCALE_8N1);
    return 0;
}

static void feed(const char *bytes, size_t size) {
    scale_parser_feed(&parser, bytes, size, now, take, NULL);
}

static void send(const char *bytes) {
    feed(bytes, strlen(bytes));
}

// True: silent.
static bool pass(int ms) {
    now += (int64_t)ms * MS;
    return scale_parser_tick(&parser, now, take, NULL);
}

static struct scale_reading newest(void) {
    assert_true(count > 0 && count <= LINES_MAX);
    return got[count - 1];
}

static void expect(enum scale_kind kind, mass_mg mass, bool stable) {
    assert_int_equal(newest().kind, kind);
    assert_int_equal(newest().mass, mass);
    assert_int_equal(newest().stable, stable);
}

static void test_forms(void **state) {
    (void)state;
    static const struct {
        const char *line;
        mass_mg mass;
        bool stable;
        bool said;
        enum scale_load load;
    } rows[] = {
        {"ST,GS,+  203.4 g", 203400, true, true, SCALE_GROSS},
        {"US,NT,-0001.2 g", -1200, false, true, SCALE_NET},
        {"+ 203.45 g  S", 203450, true, true, SCALE_LOAD_UNSAID},
        {"203.4", 203400, false, false, SCALE_LOAD_UNSAID},
        {"    0.2034 kg", 203400, false, false, SCALE_LOAD_UNSAID},
        {"ST,+00203.45  g", 203450, true, true, SCALE_LOAD_UNSAID},
        {"ST,GS,+000.203kg", 203000, true, true, SCALE_GROSS},
        {"ST GS 203 g", 203000, true, true, SCALE_GROSS},
        {"GS,203 g", 203000, false, false, SCALE_GROSS},
        {"NT-5g", -5000, false, false, SCALE_NET},
        {"S S     203.45 g", 203450, true, true, SCALE_LOAD_UNSAID},
        {"S D    -203.45 g", -203450, false, true, SCALE_LOAD_UNSAID},
        {"203.45 g ?", 203450, false, true, SCALE_LOAD_UNSAID},
        {"203.45g?", 203450, false, true, SCALE_LOAD_UNSAID},
        {"203.45 S", 203450, true, true, SCALE_LOAD_UNSAID},
        {"203.45 g ST NT", 203450, true, true, SCALE_NET},
        {"203.45 g US GS  ", 203450, false, true, SCALE_GROSS},
        {"203.45 GS", 203450, false, false, SCALE_GROSS},
        {"0", 0, false, false, SCALE_LOAD_UNSAID},
        {"-0.0 g", 0, false, false, SCALE_LOAD_UNSAID},
        {".5", 500, false, false, SCALE_LOAD_UNSAID},
        {"203. g", 203000, false, false, SCALE_LOAD_UNSAID},
        {"0000000000203.400 g", 203400, false, false, SCALE_LOAD_UNSAID},
        {"203.4560 g", 203456, false, false, SCALE_LOAD_UNSAID},
        {"1000.0000 kg", 1000000000, false, false, SCALE_LOAD_UNSAID},
        // 1 oz = 28.349523125 g, 1 lb = 453.59237 g
        {"1 oz", 28350, false, false, SCALE_LOAD_UNSAID},
        {"1000 oz", 28349523, false, false, SCALE_LOAD_UNSAID},
        {"7.175 OZ", 203408, false, false, SCALE_LOAD_UNSAID}, // 203 407.828... mg
        {"-0.1 oz", -2835, false, false, SCALE_LOAD_UNSAID},   // 2 834.952... mg
        {"1 lb", 453592, false, false, SCALE_LOAD_UNSAID},     // 453 592.37 mg
        {"100 LB", 45359237, false, false, SCALE_LOAD_UNSAID},
        {"1 KG", 1000000, false, false, SCALE_LOAD_UNSAID},
        {"99999.999 g", 99999999, false, false, SCALE_LOAD_UNSAID},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct scale_reading reading;
        bool said;
        scale_line(rows[i].line, strlen(rows[i].line), SCALE_GRAM, &reading, &said);
        if (reading.kind != SCALE_WEIGHT || reading.mass != rows[i].mass ||
            reading.stable != rows[i].stable || reading.load != rows[i].load ||
            said != rows[i].said) {
            fail_msg("`%s` is read as kind %d, %lld mg", rows[i].line, (int)reading.kind,
                     (long long)reading.mass);
        }
        assert_string_equal(reading.line, rows[i].line);
        assert_null(reading.why);
    }
}

// 16 oz = 1 lb and 2.2046226218 lb = 1 kg tie the units together whatever their table says.
static void test_units_of_the_setting(void **state) {
    (void)state;
    static const struct {
        enum scale_unit unit;
        const char *line;
        mass_mg mass;
    } rows[] = {
        {SCALE_GRAM, "203.4", 203400},
        {SCALE_KILOGRAM, "0.2034", 203400},
        {SCALE_OUNCE, "16", 453592},
        {SCALE_POUND, "1.0", 453592},
        {SCALE_POUND, "2.2046226", 1000000},
        {SCALE_POUND, "203.4 g", 203400}, // what the line says counts
        {SCALE_KILOGRAM, "203.4 g S", 203400},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct scale_reading reading;
        scale_line(rows[i].line, strlen(rows[i].line), rows[i].unit, &reading, NULL);
        assert_int_equal(reading.kind, SCALE_WEIGHT);
        assert_int_equal(reading.mass, rows[i].mass);
    }
}

static void test_over(void **state) {
    (void)state;
    static const char *const lines[] = {"OL",         "+OL", "-OL g", "  OL  ",  "OL,+9999999E+19",
                                        "ST,GS,OL",   "S +", "S -",   "US,OL g", "US,NT,- OL   kg",
                                        "ST,OL,+99.9"};
    for (size_t i = 0; i < COUNT(lines); i++) {
        struct scale_reading reading;
        scale_line(lines[i], strlen(lines[i]), SCALE_GRAM, &reading, NULL);
        if (reading.kind != SCALE_OVER || reading.mass != MASS_UNKNOWN || reading.stable) {
            fail_msg("`%s` is no overload", lines[i]);
        }
    }
}

static void test_refused(void **state) {
    (void)state;
    static const char *const lines[] = {
        "g",
        "+",
        "-",
        ".",
        "+ g",
        "203,4 g",
        "1,203.4 g",
        "203.4.5 g",
        "203 4 g",
        "203.4 ozt",
        "203.4 lbs",
        "203.4 G",
        "203.4 ct",
        "203.4 pcs",
        "203.4 %",
        "203.4 g g",
        "203.4 gS",
        "203.4 g S S",
        "203.4 g x",
        "--203.4 g",
        "+-203.4 g",
        "2e3 g",
        "0x10 g",
        "ST,,203.4 g",
        "ST,US,203.4",
        "ST 203.4 g S",
        "US 203 ?",
        "GS,NT,203",
        "GS,203 g NT",
        "TR,GS,203.4 g",
        "st,gs,203.4",
        "S 203.4 g",
        "S X 203.4",
        "S + 203.4 g",
        "203.4 g,",
        ",203.4 g",
        "OLD 203.4",
        "OL5",
        "Weight 203",
        "203.4 g 1",
        "12:30",
        "203-4",
        "203.4567 g",
        "0.2034567 kg",
        "123456789",
        "1000.001 kg",
        "1001 kg",
        "99999999 lb",
        "0.000000001 kg",
        "1.20000000 kg",
        "2026-03-31",
        "ST",
        "ST,",
        "------",
        "nan",
        "inf g",
        "ST,GS,+  203.4\tg",
        "203.4 g\x7f",
        "203.4 \xb5g",
        "\002203.4 g\003",
    };
    for (size_t i = 0; i < COUNT(lines); i++) {
        struct scale_reading reading;
        bool said = true;
        scale_line(lines[i], strlen(lines[i]), SCALE_GRAM, &reading, &said);
        if (reading.kind != SCALE_REFUSED || reading.mass != MASS_UNKNOWN || reading.stable ||
            reading.load != SCALE_LOAD_UNSAID || said || reading.why == NULL) {
            fail_msg("`%s` is read as %lld mg", lines[i], (long long)reading.mass);
        }
    }
    struct scale_reading reading;
    scale_line("203.4\0 g", 8, SCALE_GRAM, &reading, NULL); // the rest as if it had never come
    assert_int_equal(reading.kind, SCALE_REFUSED);
    assert_string_equal(reading.line, "203.4? g");
    scale_line("203.4 ozt", 9, SCALE_GRAM, &reading, NULL); // troy ounces, a tenth heavier
    assert_string_equal(reading.why, "The unit is none of g, kg, oz and lb.");
    scale_line("", 0, SCALE_GRAM, &reading, NULL);
    assert_int_equal(reading.kind, SCALE_REFUSED);
}

static void test_ends(void **state) {
    (void)state;
    send("ST,1 g\rST,2 g\nST,3 g\r\nST,4 g\n\r\r\n\nST,5 g\r");
    assert_int_equal(count, 5);
    for (int i = 0; i < 5; i++) {
        assert_int_equal(got[i].mass, (i + 1) * 1000);
        assert_true(got[i].stable);
    }
}

static void test_cut_anywhere(void **state) {
    (void)state;
    static const char sent[] = "ST,GS,+  203.4 g\r\n";
    for (size_t cut = 0; cut < sizeof sent; cut++) {
        feed(sent, cut);
        now += 20 * MS;
        feed(sent + cut, sizeof sent - 1 - cut);
        expect(SCALE_WEIGHT, 203400, true);
        assert_int_equal(count, cut + 1);
    }
}

// What is left of a line must not be read as a smaller weight.
static void test_the_rest_of_a_line_is_none(void **state) {
    (void)state;
    scale_parser_init(&parser, SCALE_GRAM, SCALE_8N1, now);
    now += 50 * MS;
    send("3.4 g\r\n"); // plugged in while it was sending 203.4 g
    assert_int_equal(count, 0);
    send("203.4 g\r\n");
    expect(SCALE_WEIGHT, 203400, false);
    scale_parser_forget(&parser, now); // bytes are missing
    send("3.4 g\r\n203.4 g\r\n");
    assert_int_equal(count, 2);
    send("20");
    assert_false(pass(100)); // the cable
    expect(SCALE_REFUSED, MASS_UNKNOWN, false);
    assert_int_equal(count, 3);
    pass(500);
    send("3.4 g\r\n");
    assert_int_equal(count, 3);
    send("204.4 g\r\n");
    expect(SCALE_WEIGHT, 204400, false);
}

// A scale that sends when its key is pressed: the first line is whole when all was quiet before.
static void test_first_line_after_quiet(void **state) {
    (void)state;
    scale_parser_init(&parser, SCALE_GRAM, SCALE_8N1, now);
    assert_int_equal(scale_parser_deadline(&parser), now + SCALE_PAUSE_US);
    pass(99);
    send("3.4 g\r");
    assert_int_equal(count, 0);
    scale_parser_init(&parser, SCALE_GRAM, SCALE_8N1, now);
    pass(100);
    send("203.4 g S\r");
    expect(SCALE_WEIGHT, 203400, true);
}

// Three equal ones over half a second.
static void test_stable_without_a_word(void **state) {
    (void)state;
    static const struct {
        int ms;
        const char *line;
        bool stable;
    } rows[] = {
        {0, "203.4", false},   {100, "203.4", false},  {100, "203.4", false}, {299, "203.4", false},
        {1, "203.4", true},    {100, "203.4 g", true}, {100, "203.5", false}, {600, "203.5", false},
        {600, "203.5", true},  {100, "203.4", false},  {600, "203.4", false}, {100, "x", false},
        {100, "203.4", false}, {600, "203.4", false},  {600, "203.4", true},  {100, "OL", false},
        {600, "203.4", false}, {600, "203.4", false},  {600, "203.4", true},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        pass(rows[i].ms);
        send(rows[i].line);
        send("\r\n");
        if (newest().stable != rows[i].stable) {
            fail_msg("row %zu: stable %d", i, newest().stable);
        }
    }
}

// Rest is what it says, even if it says it late; a line without the word is not at rest.
static void test_stable_with_words(void **state) {
    (void)state;
    send("203.4 g S\r");
    expect(SCALE_WEIGHT, 203400, true);
    for (int i = 0; i < 20; i++) {
        assert_false(pass(200));
        send("203.4 g\r");
        expect(SCALE_WEIGHT, 203400, false);
    }
    send("203.4 g S\r");
    expect(SCALE_WEIGHT, 203400, true);
    scale_parser_forget(&parser, now); // another scale may be there now
    for (int i = 0; i < 4; i++) {
        pass(300);
        send("203.4 g\r");
    }
    expect(SCALE_WEIGHT, 203400, true);
}

static void test_silent(void **state) {
    (void)state;
    send("ST,203.4 g\r");
    assert_int_equal(scale_parser_deadline(&parser), now + SCALE_SILENT_US);
    assert_false(pass(2000));
    send("nonsense\r"); // keeps nothing alive
    assert_false(pass(999));
    assert_true(pass(1));
    assert_false(pass(5000)); // once
    assert_int_equal(scale_parser_deadline(&parser), -1);
    send("OL\r");
    assert_true(pass(3000));
}

static char with_parity(char byte) {
    int ones = 0;
    for (int bit = 0; bit < 7; bit++) {
        ones += byte >> bit & 1;
    }
    return (char)(byte | (ones % 2) << 7);
}

// ISO/IEC 646 with even parity, as ITU-T V.4 has it: the eighth bit makes the ones even.
static void test_7e1(void **state) {
    (void)state;
    static const char line[] = "ST,GS,+  203.4 g\r\n";
    char sent[sizeof line];
    begin(SCALE_GRAM, SCALE_7E1);
    for (size_t i = 0; i < sizeof line; i++) {
        sent[i] = with_parity(line[i]);
    }
    assert_int_equal((unsigned char)sent[0], 0x53); // S: four ones
    assert_int_equal((unsigned char)sent[1], 0xD4); // T: three
    feed(sent, sizeof line - 1);
    expect(SCALE_WEIGHT, 203400, true);
    for (size_t i = 0; i + 2 < sizeof line; i++) {
        for (int bit = 0; bit < 8; bit++) { // any one wrong bit of the line
            sent[i] = (char)(sent[i] ^ 1 << bit);
            count = 0;
            feed(sent, sizeof line - 1);
            assert_int_equal(got[0].kind, SCALE_REFUSED);
            sent[i] = (char)(sent[i] ^ 1 << bit);
        }
    }
    count = 0;
    feed(sent, sizeof line - 1);
    expect(SCALE_WEIGHT, 203400, true);
    begin(SCALE_GRAM, SCALE_8N1); // the wrong setting is noticed, not read
    feed(sent, sizeof line - 1);
    expect(SCALE_REFUSED, MASS_UNKNOWN, false);
}

static void test_longest(void **state) {
    (void)state;
    char line[SCALE_LINE_MAX + 2];
    memset(line, ' ', sizeof line);
    memcpy(line + SCALE_LINE_MAX - 5, "1.5 g", 5);
    feed(line, SCALE_LINE_MAX);
    send("\r");
    expect(SCALE_WEIGHT, 1500, false);
    feed(line, SCALE_LINE_MAX + 1);
    expect(SCALE_REFUSED, MASS_UNKNOWN, false);
    send(" 1.5 g\r"); // still the same line
    assert_int_equal(count, 2);
    send("1.5 g\r");
    expect(SCALE_WEIGHT, 1500, false);
}

static void test_ten_megabytes_without_an_end(void **state) {
    (void)state;
    static char block[4096];
    memset(block, '9', sizeof block);
    for (int i = 0; i < 2560; i++) {
        feed(block, sizeof block);
        now += 100;
    }
    assert_int_equal(count, 1);
    expect(SCALE_REFUSED, MASS_UNKNOWN, false);
    send("\r203.4 g\r");
    expect(SCALE_WEIGHT, 203400, false);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_forms),
        cmocka_unit_test(test_units_of_the_setting),
        cmocka_unit_test(test_over),
        cmocka_unit_test(test_refused),
        cmocka_unit_test_setup(test_ends, set_up),
        cmocka_unit_test_setup(test_cut_anywhere, set_up),
        cmocka_unit_test_setup(test_the_rest_of_a_line_is_none, set_up),
        cmocka_unit_test_setup(test_first_line_after_quiet, set_up),
        cmocka_unit_test_setup(test_stable_without_a_word, set_up),
        cmocka_unit_test_setup(test_stable_with_words, set_up),
        cmocka_unit_test_setup(test_silent, set_up),
        cmocka_unit_test_setup(test_7e1, set_up),
        cmocka_unit_test_setup(test_longest, set_up),
        cmocka_unit_test_setup(test_ten_megabytes_without_an_end, set_up),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

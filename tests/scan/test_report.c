#include "check.h"
#include "report.h"
#include "report_advice.h"
#include "ticket.h"
#include "typist.h"

#include <linux/input-event-codes.h>
#include <stdio.h>

static struct typist t;
static struct wedge_settings settings;
static struct scan_report report;

static void fresh(const char *prefix) {
    settings = (struct wedge_settings)WEDGE_SETTINGS_DEFAULT;
    memcpy(settings.prefix, prefix, strlen(prefix) + 1);
    typist_init(&t, &settings);
}

// Types it, `\n` for Enter, and reports.
static void scan(const char *text, int number) {
    struct wedge_trace trace;
    assert_true(typist_write(&t, text));
    typist_wait(&t, 300000);
    assert_true(wedge_take_trace(&t.wedge, &trace));
    report_keys(&trace, &settings, number, &report);
}

static void expect(enum report_verdict verdict, enum report_finding first) {
    assert_int_equal(report.verdict, verdict);
    assert_true(report.verdict_text[0] != '\0');
    assert_true(report.advice_count > 0);
    assert_string_equal(report.advice[0], report_finding_text(first));
}

static void expect_good(void) {
    assert_int_equal(report.verdict, REPORT_GOOD);
    assert_int_equal(report.advice_count, 0);
}

// Check character by python3-stdnum's iso7064.mod_37_2. Under every layout but UK English, which
// writes tickets as US English does, the card reads otherwise.
static void test_the_card_tells_layouts(void **state) {
    (void)state;
    static const struct {
        enum layout layout;
        const char *named;
    } rows[] = {{LAYOUT_DE, "German."},
                {LAYOUT_FR, "French."},
                {LAYOUT_ES, "Spanish or Italian."},
                {LAYOUT_IT, "Spanish or Italian."}};
    struct ticket ticket;
    assert_int_equal(ticket_parse(REPORT_CARD, &ticket), TICKET_OK);
    assert_int_equal(ticket.kind, TICKET_COMMAND);
    for (size_t i = 0; i < COUNT(rows); i++) {
        char says[160];
        fresh("");
        t.layout = rows[i].layout;
        assert_true(typist_write(&t, REPORT_CARD));
        t.layout = LAYOUT_US;
        scan("\n", 0);
        snprintf(says, sizeof says,
                 "Set the scanner's keyboard layout to US English. It is set to %s", rows[i].named);
        assert_int_equal(report.verdict, REPORT_BAD);
        assert_int_equal(report.advice_count, 1);
        assert_string_equal(report.advice[0], says);
    }
}

static void test_good(void **state) {
    (void)state;
    fresh("");
    scan("]C0" REPORT_CARD "\n", 0);
    expect_good();
    assert_string_equal(report.source, "Keyboard");
    assert_string_equal(report.text, "]C0K-YZAQWM6");
    assert_string_equal(report.bytes, "5D 43 30 4B 2D 59 5A 41 51 57 4D 36");
    assert_string_equal(report.aim, "]C0, Code 128");
    assert_string_equal(report.symbology, "Code 128");
    assert_string_equal(report.ending, "Enter");
    assert_int_equal(report.total_us, 11 * 5000);
    assert_int_equal(report.gap_mean_us, 5000);
    assert_int_equal(report.gap_most_us, 5000);
    assert_string_equal(report.timing, "55 ms in all; between characters 5.0 ms, at most 5.0 ms");
    fresh("~");
    t.gap_us = 90000; // the prefix tells it from a person
    scan("~]Q1H-0001A\n", 0);
    expect_good();
    fresh("");
    settings.dedicated = true;
    typist_init(&t, &settings);
    t.gap_us = 90000; // and so does a device of its own
    scan("]Q1H-0001A\n", 3);
    expect_good();
    assert_string_equal(report.source, "Scanner 3");
}

static void test_texts_and_what_they_lack(void **state) {
    (void)state;
    static const struct {
        const char *prefix;
        const char *sent;
        enum report_verdict verdict;
        enum report_finding first;
        size_t count;
    } rows[] = {
        {"", "K-YZAQWM6\n", REPORT_GOOD, REPORT_NO_AIM, 1},
        {"", "]C0k-yzaqwm6\n", REPORT_WORKS, REPORT_SMALL, 1},
        {"", "]C0K-YZAQWM6", REPORT_BAD, REPORT_NO_END, 1},
        {"", "]C0K-YZAQWM6\t", REPORT_BAD, REPORT_TAB, 1},
        {"~", "]C0K-YZAQWM6\n", REPORT_WORKS, REPORT_NO_PREFIX, 1},
        {"", "]C1K-YZAQWM6\n", REPORT_BAD, REPORT_OTHER_CODE, 1},
        {"", "]E06291041500213\n", REPORT_BAD, REPORT_OTHER_CODE, 1},
        {"", "]C0K-YZAQWM5\n", REPORT_BAD, REPORT_MISREAD, 1},
        {"", "]C0KYZAQWM6\n", REPORT_BAD, REPORT_UNKNOWN, 1},
        {"", "]C0##K-YZAQWM6\n", REPORT_BAD, REPORT_EXTRA, 1},
        {"", "]C0K-YZAQWM6 x\n", REPORT_BAD, REPORT_EXTRA, 1},
        {"", "]C0xH-0001A\n", REPORT_BAD, REPORT_EXTRA, 1},
        {"", "##K-YZAQWM6", REPORT_BAD, REPORT_NO_END, 3},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        fresh(rows[i].prefix);
        scan(rows[i].sent, 0);
        expect(rows[i].verdict, rows[i].first);
        assert_int_equal(report.advice_count, rows[i].count);
    }
    fresh("");
    settings.suffix_tab = true;
    typist_init(&t, &settings);
    scan("]C0K-YZAQWM6\t", 0);
    expect_good();
    assert_string_equal(report.ending, "Tab");
}

static void test_gaps(void **state) {
    (void)state;
    fresh("");
    t.gap_us = 30000; // 35 ms are the limit
    scan("]C0K-YZAQWM6\n", 0);
    expect(REPORT_WORKS, REPORT_SLOW);
    fresh("");
    t.gap_us = 23000;
    scan("]C0K-YZAQWM6\n", 0);
    expect_good();
    fresh("");
    settings.dedicated = true;
    typist_init(&t, &settings);
    t.gap_us = 150000;
    scan("]C0K-YZAQWM6\n", 1);
    expect(REPORT_WORKS, REPORT_BREAKS);
}

static void test_caps_lock_and_control(void **state) {
    (void)state;
    fresh("");
    t.flipped = true;
    scan("K-YZAQWM6\n", 0);
    expect(REPORT_BAD, REPORT_CAPS);
    fresh("");
    assert_true(typist_write(&t, "]C0K-YZAQWM6"));
    typist_modifier(&t, KEY_LEFTCTRL, true);
    typist_key(&t, KEY_RIGHTBRACE, LEVEL_PLAIN);
    typist_modifier(&t, KEY_LEFTCTRL, false);
    scan("\n", 0);
    expect(REPORT_BAD, REPORT_CONTROL);
    assert_string_equal(report.text, "]C0K-YZAQWM6<GS>");
}

static void test_alt_mode(void **state) {
    (void)state;
    fresh("");
    for (int i = 0; i < 3; i++) {
        typist_modifier(&t, KEY_LEFTALT, true);
        typist_key(&t, KEY_KP0, LEVEL_PLAIN);
        typist_key(&t, KEY_KP7, LEVEL_PLAIN);
        typist_key(&t, KEY_KP5, LEVEL_PLAIN);
        typist_modifier(&t, KEY_LEFTALT, false);
    }
    scan("\n", 0);
    expect(REPORT_BAD, REPORT_ALT);
}

static void test_endless_keys(void **state) {
    (void)state;
    fresh("");
    for (int i = 0; i < 1000; i++) {
        typist_key(&t, KEY_A, LEVEL_PLAIN);
    }
    scan("\n", 0);
    expect(REPORT_BAD, REPORT_ENDLESS);
    assert_int_equal(strlen(report.bytes), 38 * 3 - 1 + 4);
}

static void keep(void *ctx, const struct serial_record *record) {
    *(struct serial_record *)ctx = *record;
}

static void serial(const char *bytes, size_t size, const char *prefix) {
    struct serial_parser parser;
    struct serial_record record = {0};
    serial_parser_init(&parser, prefix);
    serial_parser_feed(&parser, bytes, size, 1000000, keep, &record);
    serial_parser_tick(&parser, 2000000, keep, &record);
    assert_true(record.trace.count > 0);
    report_serial(&record.trace, prefix, 2, &report);
}

static void test_serial(void **state) {
    (void)state;
    static const char stx[] = "\2K-YZAQWM6\3\r";
    static const char garbled[] = "K\0\xff\r";
    serial("]C0K-YZAQWM6\r\n", 14, "");
    expect_good();
    assert_string_equal(report.source, "Serial scanner 2");
    assert_string_equal(report.ending, "CR LF");
    assert_string_equal(report.timing, "all at once");
    serial("]C0K-YZAQWM6\n", 13, "");
    assert_string_equal(report.ending, "LF");
    serial("~]C0K-YZAQWM6\r", 14, "~");
    expect_good();
    assert_string_equal(report.ending, "CR");
    serial("K-YZAQWM6", 9, "");
    expect(REPORT_BAD, REPORT_NO_END);
    assert_string_equal(report.ending, "none");
    serial(stx, sizeof stx - 1, "");
    expect(REPORT_BAD, REPORT_CONTROL);
    assert_string_equal(report.text, "<STX>K-YZAQWM6<ETX>");
    serial(garbled, sizeof garbled - 1, "");
    expect(REPORT_BAD, REPORT_NO_TEXT);
    assert_string_equal(report.text, "K<NUL><FF>");
    assert_string_equal(report.bytes, "4B 00 FF");
    char endless[300];
    memset(endless, 'H', sizeof endless);
    serial(endless, sizeof endless, "");
    expect(REPORT_BAD, REPORT_ENDLESS);
}

static void test_slow_serial(void **state) {
    (void)state;
    struct serial_parser parser;
    struct serial_record record = {0};
    int64_t now = 0;
    serial_parser_init(&parser, "");
    for (const char *c = "]C0K-YZAQWM6\r"; *c != '\0'; c++) {
        serial_parser_feed(&parser, c, 1, now += 60000, keep, &record);
    }
    report_serial(&record.trace, "", 1, &report);
    expect(REPORT_WORKS, REPORT_BREAKS);
    assert_int_equal(report.gap_most_us, 60000);
    assert_int_equal(report.total_us, 660000);
}

static void camera(enum accept_verdict verdict, enum code_symbology symbology, const char *text,
                   int quality, int readings) {
    struct reader_event event = {.kind = READER_CODE,
                                 .verdict = verdict,
                                 .code = {.symbology = symbology, .quality = quality},
                                 .readings = readings,
                                 .took_us = 41300};
    snprintf(event.code.text, sizeof event.code.text, "%s", text);
    report_camera(&event, &report);
}

static void test_camera(void **state) {
    (void)state;
    camera(ACCEPT_TICKET, CODE_QR, REPORT_CARD, 2, 1);
    expect_good();
    assert_string_equal(report.source, "Camera");
    assert_string_equal(report.symbology, "QR");
    assert_string_equal(report.agreed, "2 looks, in 1 picture");
    assert_string_equal(report.timing, "41 ms from picture to reading");
    assert_int_equal(report.total_us, 41300);
    camera(ACCEPT_TICKET, CODE_128, "H-0001A", 1, 2);
    expect(REPORT_WORKS, REPORT_FAINT);
    assert_string_equal(report.agreed, "1 line across it, in 2 pictures");
    camera(ACCEPT_MODEL, CODE_EAN13, "6291041500213", 9, 1);
    expect_good();
    assert_string_equal(report.agreed, "9 lines across it, in 1 picture");
    camera(ACCEPT_FOREIGN, CODE_QR, "http://example.org", 1, 2);
    expect(REPORT_BAD, REPORT_UNKNOWN);
    camera(ACCEPT_DAMAGED, CODE_128, "H-0001B", 9, 2);
    expect(REPORT_BAD, REPORT_DAMAGED);
}

static void scale(const char *line) {
    struct scale_reading reading;
    scale_line(line, strlen(line), SCALE_GRAM, &reading, NULL);
    report_scale(&reading, &report);
}

static void test_scale(void **state) {
    (void)state;
    scale("ST,GS,+  203.4 g");
    assert_string_equal(report.source, REPORT_SCALE);
    assert_string_equal(report.text, "ST,GS,+  203.4 g");
    assert_int_equal(report.verdict, REPORT_GOOD);
    assert_string_equal(report.verdict_text, "203.4 g, gross, stable.");
    scale("NT,-0.5 oz ?"); // 14 174.76... mg
    assert_string_equal(report.verdict_text, "-14.175 g, net, not stable.");
    scale("OL");
    assert_int_equal(report.verdict, REPORT_WORKS);
    assert_string_equal(report.verdict_text, "Beyond what the scale can weigh.");
    scale("203.4 ozt");
    assert_int_equal(report.verdict, REPORT_BAD);
    assert_int_equal(report.advice_count, 1);
    assert_string_equal(report.advice[0], "The unit is none of g, kg, oz and lb.");
}

// Every sentence fits where it goes, with the longest list of layouts.
static void test_lengths(void **state) {
    (void)state;
    static const char most[] = "UK English, German, French, Spanish or Italian";
    for (int i = 0; i < REPORT_FINDING_COUNT; i++) {
        size_t size = strlen(report_finding_text((enum report_finding)i));
        assert_true(size + (i == REPORT_LAYOUT ? sizeof most - 3 : 0) < REPORT_TEXT_MAX);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_the_card_tells_layouts),
        cmocka_unit_test(test_good),
        cmocka_unit_test(test_texts_and_what_they_lack),
        cmocka_unit_test(test_gaps),
        cmocka_unit_test(test_caps_lock_and_control),
        cmocka_unit_test(test_alt_mode),
        cmocka_unit_test(test_endless_keys),
        cmocka_unit_test(test_serial),
        cmocka_unit_test(test_slow_serial),
        cmocka_unit_test(test_camera),
        cmocka_unit_test(test_scale),
        cmocka_unit_test(test_lengths),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

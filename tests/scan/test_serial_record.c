#include "check.h"
#include "serial_record.h"

#include <stdio.h>
#include <stdlib.h>

#define LINES_MAX 64

static struct serial_parser parser;
static int64_t now;
static size_t count;
static struct serial_record got[LINES_MAX];

static void keep(void *ctx, const struct serial_record *record) {
    (void)ctx;
    assert_true(count < LINES_MAX);
    got[count++] = *record;
}

static int set_up(void **state) {
    (void)state;
    serial_parser_init(&parser, "");
    now = 1000000;
    count = 0;
    return 0;
}

static void feed(const char *bytes, size_t size) {
    serial_parser_feed(&parser, bytes, size, now, keep, NULL);
}

static void send(const char *text) {
    feed(text, strlen(text));
}

static void pass(int64_t us) {
    now += us;
    serial_parser_tick(&parser, now, keep, NULL);
}

static void only(enum wedge_kind kind, const char *text) {
    assert_int_equal(count, 1);
    assert_int_equal(got[0].output.kind, kind);
    assert_string_equal(got[0].output.text, text);
    count = 0;
}

#define NO_END                                                                                     \
    "A code came without its end. Scan it again; set the scanner to send Enter (CR) after each "   \
    "code."
#define ENDLESS                                                                                    \
    "The scanner sends without an end. Set it to send Enter (CR) after each code, and check its "  \
    "speed."
#define NO_TEXT                                                                                    \
    "The scanner sent bytes that are no text. Set the same speed, 8 data bits and no parity in "   \
    "it and in the settings."

// CR, LF and both end one record, however the pieces are cut; an empty one is none.
static void test_ends(void **state) {
    (void)state;
    static const struct {
        const char *end;
        const char *told; // when all comes at once
    } rows[] = {{"\r", "\r"}, {"\n", "\n"}, {"\r\n", "\r\n"}, {"\n\n", "\n"}, {"\r\r\n", "\r"}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        char text[32];
        snprintf(text, sizeof text, "]C0H-0001A%s", rows[i].end);
        for (size_t cut = 0; cut <= strlen(text); cut++) {
            set_up(state);
            feed(text, cut);
            now += 5000;
            send(text + cut);
            assert_string_equal(got[0].output.aim, "]C0");
            if (cut == 0) {
                assert_string_equal(got[0].trace.end, rows[i].told);
                assert_int_equal(got[0].trace.end_us, now);
                assert_memory_equal(got[0].trace.byte, "]C0H-0001A", 10);
            }
            only(WEDGE_CODE, "H-0001A");
            pass(1000000);
            assert_int_equal(count, 0);
            assert_int_equal(serial_parser_deadline(&parser), -1);
        }
    }
    send("\r\n\n\r");
    pass(1000000);
    assert_int_equal(count, 0);
}

static void test_byte_by_byte_with_its_times(void **state) {
    (void)state;
    for (const char *c = "H-0001A\r"; *c != '\0'; c++) {
        now += 8000; // 1200 baud: ten bits take 8.3 ms
        feed(c, 1);
    }
    assert_int_equal(got[0].trace.count, 7);
    assert_int_equal(got[0].trace.time_us[6] - got[0].trace.time_us[0], 48000);
    only(WEDGE_CODE, "H-0001A");
}

static void test_half_a_code(void **state) {
    (void)state;
    send("H-000");
    assert_int_equal(serial_parser_deadline(&parser), now + 100000);
    pass(99999);
    assert_int_equal(count, 0);
    pass(1);
    assert_string_equal(got[0].trace.end, "");
    only(WEDGE_FAULT, NO_END);
    send("1A\r"); // what is left is no ticket
    only(WEDGE_CODE, "1A");
    send("H-00"); // nobody ticked, but the time has passed
    now += 200000;
    send("S-0001S\r");
    assert_int_equal(count, 2);
    assert_string_equal(got[1].output.text, "S-0001S");
}

// One byte or two as a plug goes in: no word about it, and no part of the next code.
static void test_noise_is_no_news(void **state) {
    (void)state;
    feed("\0\xff", 2);
    pass(100000);
    assert_int_equal(count, 0);
    send("H-0001A\r");
    only(WEDGE_CODE, "H-0001A");
}

static void test_what_is_no_ticket(void **state) {
    (void)state;
    static const struct {
        const char *sent;
        const char *says;
    } rows[] = {
        {"]C101062910415002131712\0356\r",
         "This code is GS1-128, a maker's or carrier's label. Scan the ticket's own code."},
        {"]Q3H-0001A\r",
         "This code is GS1 QR, a maker's or carrier's label. Scan the ticket's own code."},
        {"]L0H-0001A\r",
         "This code is PDF417, no ticket of this shop. Scan the ticket's own code."},
        {"H-0001A\0356\r",
         "A control character (GS) came with the code, and no ticket has one. Scan "
         "the ticket's own code."},
        {"\2H-0001A\3\r", "A control character (STX) came with the code, and no ticket has one. "
                          "Scan the ticket's own code."},
        {"H-0001A\t\r", "A control character (TAB) came with the code, and no ticket has one. Scan "
                        "the ticket's own code."},
        {"H-0001A\x7f\r", "A control character (DEL) came with the code, and no ticket has one. "
                          "Scan the ticket's own code."},
        {"H-0\xc3\xa4\r", NO_TEXT},
        {"\xff\r", NO_TEXT},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        send(rows[i].sent);
        only(WEDGE_FAULT, rows[i].says);
        now += 1000000;
    }
    feed("H-00\0", 5); // a NUL must not end the text, as if the rest had never come
    feed("01A\r", 4);
    only(WEDGE_FAULT, NO_TEXT);
}

static void test_a_supplier_code_passes(void **state) {
    (void)state;
    send("]E06291041500213\r"); // GS1 General Specifications' worked example of a check digit
    assert_string_equal(got[0].output.aim, "]E0");
    only(WEDGE_CODE, "6291041500213");
}

static void test_prefix(void **state) {
    (void)state;
    serial_parser_init(&parser, "~~");
    send("~~]C0H-0001A\r");
    only(WEDGE_CODE, "H-0001A");
    send("S-0001S\r");
    only(WEDGE_CODE, "S-0001S");
    send("~~\r");
    assert_int_equal(count, 0);
}

// 127 bytes are a record, 128 are none; neither is ever taken for its beginning.
static void test_longest(void **state) {
    (void)state;
    char text[WEDGE_TEXT_MAX + 2];
    memset(text, 'A', sizeof text);
    feed(text, WEDGE_TEXT_MAX - 1);
    send("\r");
    assert_int_equal(strlen(got[0].output.text), WEDGE_TEXT_MAX - 1);
    count = 0;
    feed(text, WEDGE_TEXT_MAX);
    only(WEDGE_FAULT, ENDLESS);
    send("H-0001A\r"); // still the same record
    assert_int_equal(count, 0);
    send("H-0001A\r");
    only(WEDGE_CODE, "H-0001A");
}

static void test_ten_megabytes_without_an_end(void **state) {
    (void)state;
    static char block[4096];
    memset(block, 'H', sizeof block);
    for (int i = 0; i < 2560; i++) {
        feed(block, sizeof block);
        now += 100;
    }
    assert_true(got[0].trace.over);
    only(WEDGE_FAULT, ENDLESS);
    pass(100000);
    assert_int_equal(count, 0);
    send("H-0001A\r");
    only(WEDGE_CODE, "H-0001A");
}

// Every line too long, thousands a second: one word about it, again once it had stopped.
static void test_ten_megabytes_of_lines(void **state) {
    (void)state;
    static char block[4000];
    memset(block, 'H', sizeof block);
    for (size_t i = 199; i < sizeof block; i += 200) {
        block[i] = '\r';
    }
    for (int i = 0; i < 2621; i++) {
        feed(block, sizeof block);
        now += 100;
    }
    only(WEDGE_FAULT, ENDLESS);
    pass(300000);
    feed(block, sizeof block);
    only(WEDGE_FAULT, ENDLESS);
}

static void test_a_thousand_times_a_second(void **state) {
    (void)state;
    for (int i = 0; i < 5000; i++) {
        send("]C0H-0001A\r");
        now += 1000;
    }
    only(WEDGE_CODE, "H-0001A");
    now += 298999; // 299 999 us after the last
    send("]C0H-0001A\r");
    assert_int_equal(count, 0);
    now += 300000;
    send("]C0H-0001A\r");
    only(WEDGE_CODE, "H-0001A");
    send("S-0001S\r"); // another at once is another
    send("]C0H-0001A\r");
    assert_int_equal(count, 2);
    count = 0;
    send("]Q1H-0001A\r"); // and so is the same in another kind of code
    only(WEDGE_CODE, "H-0001A");
}

static void test_forget(void **state) {
    (void)state;
    send("H-00");
    serial_parser_forget(&parser);
    assert_int_equal(serial_parser_deadline(&parser), -1);
    send("S-0001S\r");
    only(WEDGE_CODE, "S-0001S");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(test_ends, set_up),
        cmocka_unit_test_setup(test_byte_by_byte_with_its_times, set_up),
        cmocka_unit_test_setup(test_half_a_code, set_up),
        cmocka_unit_test_setup(test_noise_is_no_news, set_up),
        cmocka_unit_test_setup(test_what_is_no_ticket, set_up),
        cmocka_unit_test_setup(test_a_supplier_code_passes, set_up),
        cmocka_unit_test_setup(test_prefix, set_up),
        cmocka_unit_test_setup(test_longest, set_up),
        cmocka_unit_test_setup(test_ten_megabytes_without_an_end, set_up),
        cmocka_unit_test_setup(test_ten_megabytes_of_lines, set_up),
        cmocka_unit_test_setup(test_a_thousand_times_a_second, set_up),
        cmocka_unit_test_setup(test_forget, set_up),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

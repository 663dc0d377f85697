#include "check.h"
#include "ticket.h"
#include "typist.h"

#include <linux/input-event-codes.h>
#include <stdio.h>

#define PERSON_US 120000

static struct typist t;

static int set_up(void **state) {
    (void)state;
    struct wedge_settings settings = WEDGE_SETTINGS_DEFAULT;
    typist_init(&t, &settings);
    return 0;
}

static void with_prefix(const char *prefix) {
    struct wedge_settings settings = WEDGE_SETTINGS_DEFAULT;
    memcpy(settings.prefix, prefix, strlen(prefix) + 1);
    typist_init(&t, &settings);
}

static void only(enum wedge_kind kind, const char *text) {
    assert_int_equal(t.count, 1);
    assert_int_equal(t.output[0].kind, kind);
    assert_string_equal(t.output[0].text, text);
    typist_forget(&t);
}

// The characters given out one by one, then nothing else.
static void only_chars(const char *chars) {
    assert_int_equal(t.count, strlen(chars));
    for (size_t i = 0; i < t.count; i++) {
        assert_int_equal(t.output[i].kind, WEDGE_CHAR);
        assert_int_equal(t.output[i].key, chars[i]);
    }
    typist_forget(&t);
}

static void test_burst_is_a_code(void **state) {
    (void)state;
    assert_true(typist_write(&t, "H-0001A\n"));
    only(WEDGE_CODE, "H-0001A");
    assert_int_equal(wedge_deadline(&t.wedge), -1);
    assert_string_equal(wedge_typed(&t.wedge), "");
    assert_true(typist_write(&t, "s-0001s\n")); // small letters stay: a tape writes `mm`
    only(WEDGE_CODE, "s-0001s");
}

// Published gaps of scanners (2 to 60 ms; with more than 35 ms a prefix is needed, below).
static void test_gaps(void **state) {
    (void)state;
    static const int64_t gaps[] = {0, 1000, 2000, 12000, 34000, 34999};
    for (size_t i = 0; i < COUNT(gaps); i++) {
        t.gap_us = gaps[i];
        t.now_us += 1000000;
        assert_true(typist_write(&t, "W-27QM\n"));
        only(WEDGE_CODE, "W-27QM");
    }
}

// Rubbing out in haste is no burst, and what is typed after it is not lost.
static void test_fast_rubbing_out(void **state) {
    (void)state;
    t.gap_us = PERSON_US;
    assert_true(typist_write(&t, "70"));
    t.gap_us = 8000;
    assert_true(typist_write(&t, "\b\b\b\b\b"));
    only_chars("70\b\b\b\b\b");
    assert_true(typist_write(&t, "25"));
    t.gap_us = PERSON_US;
    assert_true(typist_write(&t, "1.5"));
    typist_wait(&t, 35000);
    only_chars("251.5");
}

static void test_typed_characters_and_line(void **state) {
    (void)state;
    t.gap_us = PERSON_US;
    assert_true(typist_write(&t, "H-0001"));
    typist_wait(&t, 35000);
    only_chars("H-0001");
    assert_string_equal(wedge_typed(&t.wedge), "H-0001");
    assert_true(typist_write(&t, "B\bA"));
    typist_wait(&t, 35000);
    only_chars("B\bA");
    assert_string_equal(wedge_typed(&t.wedge), "H-0001A");
    assert_true(typist_write(&t, "\n"));
    only(WEDGE_LINE, "H-0001A");
    assert_string_equal(wedge_typed(&t.wedge), "");
}

static void test_a_character_waits_for_the_gap(void **state) {
    (void)state;
    t.gap_us = PERSON_US;
    assert_true(typist_write(&t, "4"));
    assert_int_equal(t.count, 0);
    assert_int_equal(wedge_deadline(&t.wedge), t.now_us + 35000);
    typist_wait(&t, 34999);
    assert_int_equal(t.count, 0);
    typist_wait(&t, 1);
    only_chars("4");
    assert_int_equal(wedge_deadline(&t.wedge), -1);
}

// Enter ends a code or a line and is nothing else: no character, no confirmation.
static void test_enter_alone_is_nothing(void **state) {
    (void)state;
    assert_true(typist_write(&t, "\n\n\n"));
    typist_wait(&t, 1000000);
    assert_int_equal(t.count, 0);
    assert_true(typist_write(&t, "H-0001A\n\n")); // CR and LF
    only(WEDGE_CODE, "H-0001A");
    typist_modifier(&t, KEY_LEFTCTRL, true);
    typist_key(&t, KEY_J, LEVEL_PLAIN);
    typist_modifier(&t, KEY_LEFTCTRL, false);
    typist_wait(&t, 1000000);
    assert_int_equal(t.count, 0);
}

static void test_other_ends(void **state) {
    (void)state;
    assert_true(typist_write(&t, "H-0001A"));
    typist_modifier(&t, KEY_LEFTCTRL, true);
    typist_key(&t, KEY_J, LEVEL_PLAIN); // LF as a control character
    typist_modifier(&t, KEY_LEFTCTRL, false);
    only(WEDGE_CODE, "H-0001A");
    assert_true(typist_write(&t, "H-0001A"));
    typist_key(&t, KEY_KPENTER, LEVEL_PLAIN);
    only(WEDGE_CODE, "H-0001A");
    assert_true(typist_write(&t, "H-0001A"));
    typist_modifier(&t, KEY_RIGHTCTRL, true);
    typist_key(&t, KEY_M, LEVEL_PLAIN); // CR as a control character
    typist_modifier(&t, KEY_RIGHTCTRL, false);
    only(WEDGE_CODE, "H-0001A");
}

static void test_tab_as_suffix(void **state) {
    (void)state;
    struct wedge_settings settings = WEDGE_SETTINGS_DEFAULT;
    settings.suffix_tab = true;
    typist_init(&t, &settings);
    assert_true(typist_write(&t, "H-0001A\t"));
    only(WEDGE_CODE, "H-0001A");
    assert_true(typist_write(&t, "\t")); // a person's Tab stays one
    typist_wait(&t, 35000);
    only_chars("\t");
    assert_true(typist_write(&t, "S-0001S\n")); // Enter always ends
    only(WEDGE_CODE, "S-0001S");
    typist_init(&t, &(struct wedge_settings)WEDGE_SETTINGS_DEFAULT);
    assert_true(typist_write(&t, "H-0001A\t"));
    assert_int_equal(t.count, 0);
}

// ISO/IEC 15424: `]`, code letter, modifier. Plain Code 128 `]C0`, plain QR `]Q1`.
static void test_aim_identifier(void **state) {
    (void)state;
    static const char *const aims[] = {"]C0", "]Q1"};
    for (size_t i = 0; i < COUNT(aims); i++) {
        assert_true(typist_write(&t, aims[i]));
        assert_true(typist_write(&t, "H-0001A\n"));
        assert_string_equal(t.output[0].aim, aims[i]);
        only(WEDGE_CODE, "H-0001A");
    }
    assert_true(typist_write(&t, "]E06291041500213\n")); // a maker's number passes with its own
    assert_string_equal(t.output[0].aim, "]E0");
    only(WEDGE_CODE, "6291041500213");
    assert_true(typist_write(&t, "]C\n")); // no identifier
    typist_forget(&t);
    assert_true(typist_write(&t, "]-0H-0001A\n"));
    only(WEDGE_CODE, "]-0H-0001A");
}

// However alike the text: bars of another kind are no ticket, and are called by their name.
static void test_foreign_symbologies_are_named(void **state) {
    (void)state;
    static const struct {
        const char *sent;
        const char *says;
    } rows[] = {
        {"]C1H-0001A\n",
         "This code is GS1-128, a maker's or carrier's label. Scan the ticket's own "
         "code."},
        {"]Q3H-0001A\n", "This code is GS1 QR, a maker's or carrier's label. Scan the ticket's own "
                         "code."},
        {"]A0H-0001A\n",
         "This code is Code 39, no ticket of this shop. Scan the ticket's own code."},
        {"]d1H-0001A\n",
         "This code is Data Matrix, no ticket of this shop. Scan the ticket's own code."},
        {"]E06291041500214\n",
         "This code is EAN or UPC, a maker's or carrier's label. Scan the ticket's own code."},
        {"]k7H-0001A\n", "This code is unknown to this program, no ticket of this shop. Scan the "
                         "ticket's own code."},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        assert_true(typist_write(&t, rows[i].sent));
        only(WEDGE_FAULT, rows[i].says);
    }
}

// What the scanner check is told changes nothing and misses nothing.
static void test_trace(void **state) {
    (void)state;
    struct wedge_trace trace;
    char text[STROKES_TEXT_MAX];
    assert_false(wedge_take_trace(&t.wedge, &trace));
    assert_true(typist_write(&t, "\n]C0H-0001A\n"));
    assert_true(wedge_take_trace(&t.wedge, &trace));
    assert_false(wedge_take_trace(&t.wedge, &trace));
    strokes_text(&trace.strokes, text);
    assert_string_equal(text, "]C0H-0001A");
    assert_int_equal(trace.end, KEY_ENTER);
    assert_int_equal(trace.time_us[9] - trace.time_us[0], 45000);
    assert_int_equal(trace.end_us, t.now_us);
    assert_true(typist_write(&t, "H-0001")); // a burst without an end
    assert_false(wedge_take_trace(&t.wedge, &trace));
    typist_wait(&t, 300000);
    assert_true(wedge_take_trace(&t.wedge, &trace));
    assert_int_equal(trace.strokes.count, 6);
    assert_int_equal(trace.end, 0);
    typist_forget(&t);
    t.gap_us = PERSON_US;
    assert_true(typist_write(&t, "H-02\b1\n")); // a line
    assert_true(wedge_take_trace(&t.wedge, &trace));
    strokes_text(&trace.strokes, text);
    assert_string_equal(text, "H-01");
    assert_true(typist_write(&t, "W"));
    typist_wait(&t, 1000001 - PERSON_US);
    assert_true(typist_write(&t, "S\n"));
    assert_true(wedge_take_trace(&t.wedge, &trace)); // the second of two: the pause parted them
    assert_int_equal(trace.strokes.count, 1);
    assert_int_equal(trace.strokes.stroke[0].code, KEY_S);
}

static void test_prefix_makes_slow_scanners_sure(void **state) {
    (void)state;
    with_prefix("~~");
    t.gap_us = 250000;
    assert_true(typist_write(&t, "~~]C0H-0001A\n"));
    assert_string_equal(t.output[0].aim, "]C0");
    only(WEDGE_CODE, "H-0001A");
    t.gap_us = PERSON_US; // a person's `~`, then something else
    assert_true(typist_write(&t, "~4"));
    typist_wait(&t, 300000);
    only_chars("~4");
    t.now_us += 1000000;
    wedge_clear(&t.wedge);
    t.gap_us = 5000;
    assert_true(typist_write(&t, "42.25\n")); // a tape sends no prefix
    only(WEDGE_CODE, "42.25");
    assert_true(typist_write(&t, "~~\n"));
    assert_int_equal(t.count, 0);
}

static void test_lengths_of_a_tape(void **state) {
    (void)state;
    static const char *const texts[] = {"8.5",    "42.25",    "1073.2 mm", "42 1/4",
                                        "42-1/4", "42.250\"", "0.00"};
    for (size_t i = 0; i < COUNT(texts); i++) {
        assert_true(typist_write(&t, texts[i]));
        assert_true(typist_write(&t, "\n"));
        only(WEDGE_CODE, texts[i]);
    }
    typist_key(&t, KEY_KP4, LEVEL_PLAIN);
    typist_key(&t, KEY_KP2, LEVEL_PLAIN);
    typist_key(&t, KEY_KPDOT, LEVEL_PLAIN);
    typist_key(&t, KEY_KP5, LEVEL_PLAIN);
    typist_key(&t, KEY_KPENTER, LEVEL_PLAIN);
    only(WEDGE_CODE, "42.5");
}

static void test_unfinished_burst_is_dropped(void **state) {
    (void)state;
    assert_true(typist_write(&t, "H-0001"));
    assert_int_equal(wedge_deadline(&t.wedge), t.now_us + 300000);
    typist_wait(&t, 300000);
    assert_int_equal(t.count, 0);
    assert_true(typist_write(&t, "A\n")); // what is left of it is not a code
    assert_int_equal(t.count, 2);
    assert_int_equal(t.output[0].kind, WEDGE_CHAR);
    assert_int_equal(t.output[1].kind, WEDGE_LINE);
    assert_string_equal(t.output[1].text, "A");
}

// Two or three keys at once are a person's, and so is the end of a typed line in a hurry.
static void test_rolled_keys_stay_typed(void **state) {
    (void)state;
    t.gap_us = 20000;
    assert_true(typist_write(&t, "42"));
    typist_wait(&t, 35000);
    only_chars("42");
    wedge_clear(&t.wedge);
    t.gap_us = PERSON_US;
    assert_true(typist_write(&t, "H-00"));
    t.now_us += 200000;
    t.gap_us = 20000;
    assert_true(typist_write(&t, "01A\n"));
    assert_int_equal(t.output[t.count - 1].kind, WEDGE_LINE);
    assert_string_equal(t.output[t.count - 1].text, "H-0001A");
}

static void test_a_scan_forgets_what_was_typed(void **state) {
    (void)state;
    t.gap_us = PERSON_US;
    assert_true(typist_write(&t, "H-00"));
    typist_wait(&t, 500000);
    typist_forget(&t);
    t.gap_us = 2000;
    assert_true(typist_write(&t, "S-0001S\n"));
    only(WEDGE_CODE, "S-0001S");
    assert_string_equal(wedge_typed(&t.wedge), "");
}

// One gap of a burst is long, as on a machine that is busy, at any place: the code comes whole.
// Behind what a person typed before, which is forgotten as ever.
static void test_one_long_gap(void **state) {
    static const char code[] = "S-0002Q";
    static const int64_t gaps[] = {35000, 36000, 100000, 297000};
    (void)state;
    for (size_t typed = 0; typed < 2; typed++) {
        for (size_t i = 0; i < COUNT(gaps); i++) {
            for (size_t at = 1; at < sizeof code; at++) {
                char part[16] = "";
                t.now_us += 1000000;
                if (typed == 1) {
                    t.gap_us = PERSON_US;
                    assert_true(typist_write(&t, "4"));
                    t.now_us += 300000;
                    typist_wait(&t, 0);
                    only_chars("4");
                }
                t.gap_us = 2000;
                memcpy(part, code, at);
                assert_true(typist_write(&t, part));
                typist_wait(&t, gaps[i]);
                snprintf(part, sizeof part, "%s\n", code + at);
                assert_true(typist_write(&t, part));
                const struct wedge_output *last = &t.output[t.count - 1];
                // At the very end too little is left to be a burst: then it is a line.
                bool line = last->kind == WEDGE_LINE;
                assert_true(line ? at > 3 || sizeof code - at < 4 : last->kind == WEDGE_CODE);
                assert_string_equal(last->text, line && typed == 1 ? "4S-0002Q" : code);
                typist_forget(&t);
            }
        }
    }
    // After a silence the burst stands for itself.
    t.now_us += 1000000;
    t.gap_us = 2000;
    assert_true(typist_write(&t, "S-0"));
    typist_wait(&t, 300000);
    typist_forget(&t);
    assert_true(typist_write(&t, "002Q\n"));
    only(WEDGE_CODE, "002Q");
}

static void test_dedicated_device_types_nothing(void **state) {
    (void)state;
    struct wedge_settings settings = WEDGE_SETTINGS_DEFAULT;
    settings.dedicated = true;
    typist_init(&t, &settings);
    t.gap_us = 250000; // settings of scanners go up to 990 ms between characters
    assert_true(typist_write(&t, "42\n"));
    only(WEDGE_CODE, "42");
    assert_true(typist_write(&t, "4"));
    typist_wait(&t, 300000);
    assert_int_equal(t.count, 0);
}

// NumLock, Alt down, keypad digits of the character's number, Alt up.
static void alt_mode(const char *text) {
    static const uint16_t digits[] = {KEY_KP0, KEY_KP1, KEY_KP2, KEY_KP3, KEY_KP4,
                                      KEY_KP5, KEY_KP6, KEY_KP7, KEY_KP8, KEY_KP9};
    typist_key(&t, KEY_NUMLOCK, LEVEL_PLAIN);
    for (; *text != '\0'; text++) {
        int number = *text;
        typist_modifier(&t, KEY_LEFTALT, true);
        typist_key(&t, digits[0], LEVEL_PLAIN);
        typist_key(&t, digits[number / 100], LEVEL_PLAIN);
        typist_key(&t, digits[number / 10 % 10], LEVEL_PLAIN);
        typist_key(&t, digits[number % 10], LEVEL_PLAIN);
        typist_modifier(&t, KEY_LEFTALT, false);
    }
}

static void test_alt_mode_is_named(void **state) {
    (void)state;
    t.gap_us = 20000;      // 100 ms from one character to the next
    alt_mode("H-0001A\r"); // the end too is a number
    typist_wait(&t, 300000);
    assert_int_equal(t.count, 1);
    assert_int_equal(t.output[0].kind, WEDGE_FAULT);
    assert_non_null(strstr(t.output[0].text, "ALT mode"));
    typist_forget(&t);
    alt_mode("H-0001A");
    assert_true(typist_write(&t, "\n"));
    assert_int_equal(t.count, 1);
    assert_int_equal(t.output[0].kind, WEDGE_FAULT);
    typist_forget(&t);
    alt_mode("@"); // a person, once
    typist_wait(&t, 300000);
    assert_int_equal(t.count, 0);
    assert_int_equal(wedge_deadline(&t.wedge), -1);
}

// Scanners send GS as Ctrl+]: never left out, so that no two codes look the same.
static void test_control_characters(void **state) {
    (void)state;
    assert_true(typist_write(&t, "]C0H-0001A"));
    typist_modifier(&t, KEY_LEFTCTRL, true);
    typist_key(&t, KEY_RIGHTBRACE, LEVEL_PLAIN);
    typist_modifier(&t, KEY_LEFTCTRL, false);
    assert_true(typist_write(&t, "7\n"));
    only(WEDGE_FAULT,
         "A control character (GS) came with the code, and no ticket has one. Scan the "
         "ticket's own code.");
    typist_modifier(&t, KEY_LEFTCTRL, true); // a person's Ctrl+C
    typist_key(&t, KEY_C, LEVEL_PLAIN);
    typist_modifier(&t, KEY_LEFTCTRL, false);
    typist_wait(&t, 300000);
    assert_int_equal(t.count, 0);
    typist_modifier(&t, KEY_LEFTALT, true);
    typist_key(&t, KEY_TAB, LEVEL_PLAIN);
    typist_modifier(&t, KEY_LEFTALT, false);
    typist_key(&t, KEY_F13, LEVEL_PLAIN);
    typist_key(&t, KEY_ESC, LEVEL_PLAIN);
    typist_wait(&t, 300000);
    only_chars("\t");
}

static void test_too_long_is_never_taken_for_its_beginning(void **state) {
    (void)state;
    t.gap_us = 1000;
    assert_true(typist_write(&t, "H-0001A"));
    for (int i = 0; i < 1000000; i++) {
        typist_key(&t, KEY_SPACE, LEVEL_PLAIN);
    }
    assert_true(typist_write(&t, "B\n"));
    assert_int_equal(t.count, 1);
    assert_int_equal(t.output[0].kind, WEDGE_CODE);
    assert_int_equal(strlen(t.output[0].text), WEDGE_TEXT_MAX - 1);
    struct ticket ticket;
    assert_int_not_equal(ticket_parse(t.output[0].text, &ticket), TICKET_OK);
    assert_string_equal(t.output[0].text + WEDGE_TEXT_MAX - 4, "...");
    typist_forget(&t);
    t.gap_us = PERSON_US;
    for (int i = 0; i < 1000; i++) {
        assert_true(typist_write(&t, "1"));
        typist_wait(&t, 40000);
        only_chars("1");
    }
    assert_int_equal(strlen(wedge_typed(&t.wedge)), WEDGE_TEXT_MAX - 1);
    assert_true(typist_write(&t, "\n"));
    assert_string_equal(t.output[0].text + WEDGE_TEXT_MAX - 4, "...");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(test_burst_is_a_code, set_up),
        cmocka_unit_test_setup(test_gaps, set_up),
        cmocka_unit_test_setup(test_fast_rubbing_out, set_up),
        cmocka_unit_test_setup(test_typed_characters_and_line, set_up),
        cmocka_unit_test_setup(test_a_character_waits_for_the_gap, set_up),
        cmocka_unit_test_setup(test_enter_alone_is_nothing, set_up),
        cmocka_unit_test_setup(test_other_ends, set_up),
        cmocka_unit_test_setup(test_tab_as_suffix, set_up),
        cmocka_unit_test_setup(test_aim_identifier, set_up),
        cmocka_unit_test_setup(test_foreign_symbologies_are_named, set_up),
        cmocka_unit_test_setup(test_trace, set_up),
        cmocka_unit_test_setup(test_prefix_makes_slow_scanners_sure, set_up),
        cmocka_unit_test_setup(test_lengths_of_a_tape, set_up),
        cmocka_unit_test_setup(test_unfinished_burst_is_dropped, set_up),
        cmocka_unit_test_setup(test_rolled_keys_stay_typed, set_up),
        cmocka_unit_test_setup(test_a_scan_forgets_what_was_typed, set_up),
        cmocka_unit_test_setup(test_one_long_gap, set_up),
        cmocka_unit_test_setup(test_dedicated_device_types_nothing, set_up),
        cmocka_unit_test_setup(test_alt_mode_is_named, set_up),
        cmocka_unit_test_setup(test_control_characters, set_up),
        cmocka_unit_test_setup(test_too_long_is_never_taken_for_its_beginning, set_up),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// A scanner whose layout is set wrong is named, and only then.

#include "check.h"
#include "ticket.h"
#include "typist.h"

#include <linux/input-event-codes.h>

static struct typist t;

static void fresh(const char *prefix) {
    struct wedge_settings settings = WEDGE_SETTINGS_DEFAULT;
    memcpy(settings.prefix, prefix, strlen(prefix) + 1);
    typist_init(&t, &settings);
}

#define SET_TO "The scanner or keyboard is set to "
#define US ". Set it to US English."
#define ALIKE SET_TO "German, Spanish or Italian" US

// Check characters by python3-stdnum's iso7064.mod_37_2.
static void test_layouts_are_named(void **state) {
    (void)state;
    static const struct {
        enum layout layout;
        const char *prefix;
        const char *sent;
        const char *says;
    } rows[] = {
        {LAYOUT_DE, "", "H-0001A", ALIKE}, // nothing but the hyphen differs
        {LAYOUT_ES, "", "S-0001S", ALIKE},
        {LAYOUT_IT, "", "W-27QM", ALIKE},
        {LAYOUT_DE, "", "H-Z1Y6", SET_TO "German" US}, // Y and Z change places
        {LAYOUT_ES, "", "H-Z1Y6", SET_TO "Spanish or Italian" US},
        {LAYOUT_FR, "", "H-0001A", SET_TO "French" US},
        {LAYOUT_FR, "", "H-7Q45", SET_TO "French" US},
        {LAYOUT_FR, "", "B-M2041N", SET_TO "French" US},
        {LAYOUT_FR, "", "W-AQZWML", SET_TO "French" US},
        {LAYOUT_DE, "", "]C0H-0001A", ALIKE}, // the bracket needs AltGr
        {LAYOUT_DE, "", "]C0H-Z1Y6", SET_TO "German" US},
        {LAYOUT_FR, "", "]Q1H-0001A", SET_TO "French" US},
        {LAYOUT_UK, "#", "#H-0001A", SET_TO "UK English" US}, // only a prefix can tell
        {LAYOUT_UK, "~@", "~@H-0001A", SET_TO "UK English" US},
        {LAYOUT_DE, "#", "#H-0001A", SET_TO "German" US},
        {LAYOUT_IT, "#", "#]C0H-0001A", SET_TO "Italian" US},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        fresh(rows[i].prefix);
        t.layout = rows[i].layout;
        assert_true(typist_write(&t, rows[i].sent));
        t.layout = LAYOUT_US;
        assert_true(typist_write(&t, "\n"));
        assert_int_equal(t.count, 1);
        assert_int_equal(t.output[0].kind, WEDGE_FAULT);
        assert_string_equal(t.output[0].text, rows[i].says);
    }
}

static void test_caps_lock_is_named(void **state) {
    (void)state;
    static const char *const tickets[] = {"H-0001A", "h-0001a", "W-27QM", "]C0S-0001S"};
    for (size_t i = 0; i < COUNT(tickets); i++) {
        fresh("");
        t.flipped = true;
        assert_true(typist_write(&t, tickets[i]));
        assert_true(typist_write(&t, "\n"));
        assert_int_equal(t.count, 1);
        assert_int_equal(t.output[0].kind, WEDGE_FAULT);
        assert_non_null(strstr(t.output[0].text, "Caps Lock"));
    }
    // Caps Lock turns letters alone round; a ticket is the same in small letters.
    fresh("");
    assert_true(typist_write(&t, "h-0001a\n"));
    assert_int_equal(t.output[0].kind, WEDGE_CODE);
    // A UK keyboard writes tickets as a US one does.
    fresh("");
    t.layout = LAYOUT_UK;
    assert_true(typist_write(&t, "]C0H-0001A\n"));
    assert_int_equal(t.output[0].kind, WEDGE_CODE);
}

static void test_a_keyboard_typed_by_hand_is_named_too(void **state) {
    (void)state;
    fresh("");
    t.layout = LAYOUT_FR;
    t.gap_us = 150000;
    assert_true(typist_write(&t, "H-0001A\n"));
    assert_int_equal(t.output[t.count - 1].kind, WEDGE_FAULT);
    assert_string_equal(t.output[t.count - 1].text, SET_TO "French" US);
}

static void test_ctrl_and_alt_together_are_altgr(void **state) {
    (void)state;
    fresh("");
    typist_modifier(&t, KEY_LEFTCTRL, true);
    typist_modifier(&t, KEY_LEFTALT, true);
    typist_key(&t, KEY_9, LEVEL_PLAIN); // `]` on a German keyboard
    typist_modifier(&t, KEY_LEFTALT, false);
    typist_modifier(&t, KEY_LEFTCTRL, false);
    t.layout = LAYOUT_DE;
    assert_true(typist_write(&t, "C0H-0001A\n"));
    assert_int_equal(t.count, 1);
    assert_string_equal(t.output[0].text, ALIKE);
}

// A misread ticket stays a misread ticket: none of them becomes a story about layouts, for every
// wrong character at every place.
static void test_misreads_are_not_blamed_on_the_layout(void **state) {
    (void)state;
    static const char *const tickets[] = {"H-0001A", "S-0001S", "W-27QM", "H-Z1Y6"};
    static const char alphabet[] = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";
    int tried = 0;
    for (size_t i = 0; i < COUNT(tickets); i++) {
        for (size_t at = 0; at < strlen(tickets[i]); at++) {
            for (const char *c = alphabet; *c != '\0'; c++) {
                char text[TICKET_TEXT_MAX] = {0};
                memcpy(text, tickets[i], strlen(tickets[i]));
                text[at] = *c;
                fresh("");
                assert_true(typist_write(&t, text));
                assert_true(typist_write(&t, "\n"));
                assert_int_equal(t.count, 1);
                assert_int_equal(t.output[0].kind, WEDGE_CODE);
                assert_string_equal(t.output[0].text, text);
                tried++;
            }
        }
    }
    assert_int_equal(tried, (7 + 7 + 6 + 6) * 36);
}

// Lengths and makers' numbers have no letters: they pass as they are.
static void test_other_codes_pass(void **state) {
    (void)state;
    static const char *const codes[] = {
        "6291041500213", "42.25", "1073.2 mm", "41 3/4", "https://example.test/a?b=1",
        "!!!!",          "0001"};
    for (size_t i = 0; i < COUNT(codes); i++) {
        fresh("");
        assert_true(typist_write(&t, codes[i]));
        assert_true(typist_write(&t, "\n"));
        assert_int_equal(t.count, 1);
        assert_int_equal(t.output[0].kind, WEDGE_CODE);
        assert_string_equal(t.output[0].text, codes[i]);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_layouts_are_named),
        cmocka_unit_test(test_caps_lock_is_named),
        cmocka_unit_test(test_a_keyboard_typed_by_hand_is_named_too),
        cmocka_unit_test(test_ctrl_and_alt_together_are_altgr),
        cmocka_unit_test(test_misreads_are_not_blamed_on_the_layout),
        cmocka_unit_test(test_other_codes_pass),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// The tables against XKB's (Debian's xkb-data, read by libxkbcommon): every key at three levels.

#include "check.h"
#include "layouts.h"

#include <linux/input-event-codes.h>
#include <xkbcommon/xkbcommon.h>

#define XKB_OFFSET 8 // X key codes are the kernel's plus 8

static const char *const names[LAYOUT_COUNT] = {"us", "gb", "de", "fr", "es", "it"};

static char by_xkb(struct xkb_keymap *keymap, uint16_t code, xkb_level_index_t level) {
    const xkb_keysym_t *syms;
    uint32_t c;
    if (xkb_keymap_key_get_syms_by_level(keymap, code + XKB_OFFSET + 0u, 0, level, &syms) != 1) {
        return '\0';
    }
    c = xkb_keysym_to_utf32(syms[0]);
    return c >= ' ' && c < 0x7F ? (char)c : '\0';
}

static void test_against_xkb(void **state) {
    (void)state;
    struct xkb_context *context = xkb_context_new(XKB_CONTEXT_NO_FLAGS);
    int written = 0;
    assert_non_null(context);
    for (int i = 0; i < LAYOUT_COUNT; i++) {
        struct xkb_rule_names rules = {.rules = "evdev", .model = "pc105", .layout = names[i]};
        struct xkb_keymap *keymap =
            xkb_keymap_new_from_names(context, &rules, XKB_KEYMAP_COMPILE_NO_FLAGS);
        assert_non_null(keymap);
        for (uint16_t code = KEY_1; code <= KEY_102ND; code++) {
            if ((code >= KEY_NUMLOCK && code <= KEY_KPDOT) || code == KEY_KPASTERISK ||
                code == KEY_BACKSPACE || code == KEY_TAB || code == KEY_ENTER) {
                continue;
            }
            for (int level = 0; level < LEVEL_COUNT; level++) {
                char ours = layout_char((enum layout)i, code, (enum layout_level)level);
                char theirs = by_xkb(keymap, code, (xkb_level_index_t)level);
                if (code == KEY_SPACE) {
                    theirs = ' '; // with AltGr some layouts write a no-break space
                }
                if (ours != theirs) {
                    fail_msg("%s key %d level %d: %d, xkb-data has %d", names[i], code, level, ours,
                             theirs);
                }
                written += ours != '\0';
            }
        }
        xkb_keymap_unref(keymap);
    }
    xkb_context_unref(context);
    assert_in_range(written, 500, 700);
}

// Linux input-event-codes.h numbers the keypad row by row from KEY_KP7.
static void test_keypad(void **state) {
    (void)state;
    static const struct {
        uint16_t code;
        char c;
    } rows[] = {
        {KEY_KP0, '0'},    {KEY_KP1, '1'},     {KEY_KP2, '2'},        {KEY_KP3, '3'},
        {KEY_KP4, '4'},    {KEY_KP5, '5'},     {KEY_KP6, '6'},        {KEY_KP7, '7'},
        {KEY_KP8, '8'},    {KEY_KP9, '9'},     {KEY_KPDOT, '.'},      {KEY_KPMINUS, '-'},
        {KEY_KPPLUS, '+'}, {KEY_KPSLASH, '/'}, {KEY_KPASTERISK, '*'},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        assert_int_equal(layout_char(LAYOUT_US, rows[i].code, LEVEL_PLAIN), rows[i].c);
        assert_int_equal(layout_char(LAYOUT_FR, rows[i].code, LEVEL_SHIFT), rows[i].c);
    }
}

// Every character that a layout writes is found again on a key that writes it.
static void test_keys_of_characters(void **state) {
    (void)state;
    uint16_t code;
    enum layout_level level;
    for (int i = 0; i < LAYOUT_COUNT; i++) {
        int found = 0;
        for (char c = ' '; c <= '~'; c++) {
            if (layout_key((enum layout)i, c, &code, &level)) {
                assert_int_equal(layout_char((enum layout)i, code, level), c);
                assert_false(code >= KEY_KP7 && code <= KEY_KPDOT);
                found++;
            }
        }
        // xkb-data gives `^` and "`" as dead keys on some, which write no character at once.
        assert_in_range(found, 93, 95);
    }
    assert_true(layout_key(LAYOUT_DE, ']', &code, &level));
    assert_int_equal(code, KEY_9);
    assert_int_equal(level, LEVEL_ALTGR);
    assert_false(layout_key(LAYOUT_US, '\n', &code, &level));
    assert_false(layout_key(LAYOUT_US, '\0', &code, &level));
}

static void test_keys_without_a_character(void **state) {
    (void)state;
    static const uint16_t codes[] = {KEY_ESC,    KEY_F1,       KEY_F13,      KEY_UP, KEY_NUMLOCK,
                                     KEY_DELETE, KEY_CAPSLOCK, KEY_LEFTMETA, 0,      UINT16_MAX};
    for (size_t i = 0; i < COUNT(codes); i++) {
        for (int level = 0; level < LEVEL_COUNT; level++) {
            assert_int_equal(layout_char(LAYOUT_DE, codes[i], (enum layout_level)level), '\0');
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_against_xkb),
        cmocka_unit_test(test_keypad),
        cmocka_unit_test(test_keys_of_characters),
        cmocka_unit_test(test_keys_without_a_character),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

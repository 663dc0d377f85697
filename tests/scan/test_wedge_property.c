// Random scanners and random people: what holds whatever they send.

#include "check.h"
#include "ticket.h"
#include "typist.h"

#include <linux/input-event-codes.h>

#define ROUNDS 20000

static struct typist t;
static uint64_t seed = 27182818;

static size_t chance(size_t below) {
    seed ^= seed >> 12;
    seed ^= seed << 25;
    seed ^= seed >> 27;
    return (size_t)((seed * 2685821657736338717u) >> 32) % below;
}

static struct ticket some_ticket(void) {
    static const char alphabet[] = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";
    struct ticket ticket;
    char body[TICKET_BODY_MAX + 1];
    do {
        size_t size = 1 + chance(TICKET_BODY_MAX);
        for (size_t i = 0; i < size; i++) {
            body[i] = alphabet[chance(36)];
        }
        body[size] = '\0';
    } while (!ticket_make((enum ticket_kind)chance(TICKET_KIND_COUNT), body, &ticket));
    return ticket;
}

static void write_uneven(const char *text, int64_t gap_min, int64_t gap_max) {
    for (; *text != '\0'; text++) {
        char one[2] = {*text, '\0'};
        t.gap_us = gap_min + (int64_t)chance((size_t)(gap_max - gap_min));
        assert_true(typist_write(&t, one));
    }
}

// Any ticket, gaps below 35 ms, any of the suffixes, with and without prefix and identifier.
static void test_every_burst_is_one_code(void **state) {
    (void)state;
    static const char *const prefixes[] = {"", "~", "]$", "%%%"};
    static const char *const aims[] = {"", "]C0", "]Q1"};
    static const char *const suffixes[] = {"\n", "\t", "\n\n"};
    for (int i = 0; i < ROUNDS; i++) {
        struct ticket ticket = some_ticket();
        struct wedge_settings settings = WEDGE_SETTINGS_DEFAULT;
        const char *prefix = prefixes[chance(COUNT(prefixes))];
        memcpy(settings.prefix, prefix, strlen(prefix) + 1);
        settings.suffix_tab = true;
        settings.dedicated = chance(2) == 0;
        typist_init(&t, &settings);
        write_uneven(prefix, 0, 35000);
        write_uneven(aims[chance(COUNT(aims))], 0, 35000);
        write_uneven(ticket.text, 0, 35000);
        write_uneven(suffixes[chance(COUNT(suffixes))], 0, 35000);
        typist_wait(&t, 1000000);
        if (t.output[t.count - 1].kind == WEDGE_CHAR) {
            t.count--; // the second suffix, a Tab of its own
        }
        assert_int_equal(t.count, 1);
        assert_int_equal(t.output[0].kind, WEDGE_CODE);
        assert_string_equal(t.output[0].text, ticket.text);
        assert_int_equal(wedge_deadline(&t.wedge), -1);
    }
}

// A person who types any printable text, mends some of it and ends with Enter.
static void test_everything_typed_comes_out_once(void **state) {
    (void)state;
    for (int i = 0; i < ROUNDS / 10; i++) {
        struct wedge_settings settings = WEDGE_SETTINGS_DEFAULT;
        char line[40] = "x"; // never a length or ticket under another layout
        char sent[80];
        size_t line_size = 1;
        size_t sent_size = 1;
        typist_init(&t, &settings);
        sent[0] = 'x';
        for (size_t left = chance(30); left > 0; left--) {
            bool rub_out = chance(6) == 0 && line_size > 1;
            char c = rub_out ? '\b' : (char)(' ' + (int)chance('~' - ' ' + 1));
            line_size = rub_out ? line_size - 1 : line_size;
            sent[sent_size++] = c;
            if (!rub_out) {
                line[line_size++] = c;
            }
        }
        line[line_size] = '\0';
        sent[sent_size] = '\0';
        write_uneven(sent, 35000, 400000);
        write_uneven("\n", 35000, 400000);
        assert_int_equal(t.count, sent_size + 1);
        for (size_t at = 0; at < sent_size; at++) {
            assert_int_equal(t.output[at].kind, WEDGE_CHAR);
            assert_int_equal(t.output[at].key, sent[at]);
        }
        assert_int_equal(t.output[sent_size].kind, WEDGE_LINE);
        assert_string_equal(t.output[sent_size].text, line);
    }
}

// Any keys at any times: Enter alone never gives anything, texts end, nothing waits for ever.
static void test_any_keys(void **state) {
    (void)state;
    struct wedge_settings settings = WEDGE_SETTINGS_DEFAULT;
    typist_init(&t, &settings);
    for (int i = 0; i < ROUNDS * 10; i++) {
        t.gap_us = chance(10) == 0 ? 500000 : (int64_t)chance(60000);
        if (chance(8) == 0) {
            static const uint16_t codes[] = {KEY_LEFTSHIFT, KEY_LEFTALT, KEY_RIGHTALT,
                                             KEY_LEFTCTRL};
            typist_modifier(&t, codes[chance(COUNT(codes))], chance(2) == 0);
        } else {
            typist_key(&t, (uint16_t)(1 + chance(KEY_102ND + 10)), (enum layout_level)chance(3));
        }
        for (size_t j = 0; j < t.count; j++) {
            const struct wedge_output *output = &t.output[j];
            assert_non_null(memchr(output->text, '\0', sizeof output->text));
            assert_int_not_equal(output->kind, WEDGE_NOTHING);
            assert_true(output->kind == WEDGE_CHAR || output->text[0] != '\0');
            assert_true(output->kind != WEDGE_CHAR || output->key == '\b' || output->key == '\t' ||
                        (output->key >= ' ' && output->key <= '~'));
        }
        typist_forget(&t);
        assert_true(wedge_deadline(&t.wedge) <= t.now_us + 300000);
    }
    typist_wait(&t, 300000);
    assert_int_equal(wedge_deadline(&t.wedge), -1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_burst_is_one_code),
        cmocka_unit_test(test_everything_typed_comes_out_once),
        cmocka_unit_test(test_any_keys),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

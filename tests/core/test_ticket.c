#include "check.h"
#include "ticket.h"

#include <stdio.h>

static const char alphabet[] = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*";

// ISO/IEC 7064 MOD 37-2, worked examples.
static void test_check_char_examples(void **state) {
    (void)state;
    static const struct {
        const char *payload;
        char check;
    } rows[] = {
        {"G123498654321", 'H'}, // UK Blood Services Red Book, annex 2 (ISBT 128)
        {"G123489654321", 'Y'}, // python-stdnum 1.18, iso7064.mod_37_2 docstring
        {"G123417654321", 'A'}, // an ISBT 128 test, value 10
        // Computed with three libraries that agree (python3-stdnum 1.18, npm cdigit 5.0.1 and
        // @konfirm/iso7064 2.1.3):
        {"0", '1'},
        {"A", 'I'},
        {"Z", '5'},
        {"079", 'T'},
        {"1234", 'N'},
        {"SHAFT", '4'},
        {"ABCDEFGH", 'V'},
        {"CUT0001", 'I'},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        assert_int_equal(ticket_check_char(rows[i].payload, strlen(rows[i].payload)),
                         rows[i].check);
    }
    assert_int_equal(ticket_check_char("", 0), 0);
    assert_int_equal(ticket_check_char("1*", 2), 0);
    assert_int_equal(ticket_check_char("1a", 2), 0);
    assert_int_equal(ticket_check_char("1-2", 3), 0);
}

static bool agrees(const char *text, size_t size) {
    return ticket_check_char(text, size - 1) == text[size - 1];
}

// What ISO/IEC 7064 promises of MOD 37-2: every single wrong character is found. 13 + 1
// characters, 35 others for each of the payload and 36 for the check character.
static void test_finds_every_substitution(void **state) {
    (void)state;
    char text[] = "G123498654321H";
    size_t size = strlen(text);
    int tried = 0;
    assert_true(agrees(text, size));
    for (size_t at = 0; at < size; at++) {
        char right = text[at];
        for (const char *c = alphabet; *c != '\0'; c++) {
            if (*c != right && (*c != '*' || at == size - 1)) {
                text[at] = *c;
                assert_false(agrees(text, size));
                tried++;
            }
        }
        text[at] = right;
    }
    assert_int_equal(tried, 13 * 35 + 36);
}

// Every swap of neighbours, for every pair behind every first character, in the payload and
// across the check character.
static void test_finds_every_swap(void **state) {
    (void)state;
    int tried = 0;
    for (int first = 0; first < 36; first++) {
        for (int a = 0; a < 36; a++) {
            for (int b = 0; b < 36; b++) {
                char text[5] = {alphabet[first], alphabet[a], alphabet[b]};
                text[3] = ticket_check_char(text, 3);
                if (a != b) {
                    char swapped[5] = {text[0], text[2], text[1], text[3]};
                    assert_false(agrees(swapped, 4));
                    tried++;
                }
                if (text[3] != text[2] && text[3] != '*') {
                    char swapped[5] = {text[0], text[1], text[3], text[2]};
                    assert_false(agrees(swapped, 4));
                    tried++;
                }
            }
        }
    }
    assert_true(tried > 80000);
}

// The same, through the parser, on tickets as they are scanned. A swap with the hyphen is no
// ticket any more.
static void test_misread_tickets_are_refused(void **state) {
    (void)state;
    static const char *const bodies[] = {"0001", "7Q4", "2", "0123456789AC"};
    struct ticket ticket;
    struct ticket right_ticket;
    int tried = 0;
    for (size_t i = 0; i < COUNT(bodies); i++) {
        char text[TICKET_TEXT_MAX] = {0};
        assert_true(ticket_make(TICKET_SHAFT, bodies[i], &right_ticket));
        size_t size = strlen(right_ticket.text);
        memcpy(text, right_ticket.text, size);
        for (size_t at = 0; at < size; at++) {
            char right = text[at];
            for (const char *c = alphabet; *c != '\0'; c++) {
                text[at] = *c;
                if (*c != right) {
                    assert_int_not_equal(ticket_parse(text, &ticket), TICKET_OK);
                    tried++;
                }
            }
            text[at] = right;
        }
        for (size_t at = 0; at + 1 < size; at++) {
            text[at] = right_ticket.text[at + 1];
            text[at + 1] = right_ticket.text[at];
            if (text[at] != text[at + 1]) {
                assert_int_not_equal(ticket_parse(text, &ticket), TICKET_OK);
                tried++;
            }
            memcpy(text, right_ticket.text, size);
        }
    }
    assert_true(tried > 700);
}

static void test_make_and_parse(void **state) {
    (void)state;
    static const char *const names[] = {"head", "shaft", "build", "worker badge", "command"};
    struct ticket made;
    struct ticket read;
    char body[TICKET_TEXT_MAX];
    int issued = 0;
    int starred = 0;
    assert_true(ticket_make(TICKET_HEAD, "0001", &made));
    assert_string_equal(made.text, "H-0001A"); // the project's own rule: letter and body
    assert_true(ticket_make(TICKET_SHAFT, "0001", &made));
    assert_string_equal(made.text, "S-0001S");
    for (int kind = 0; kind < TICKET_KIND_COUNT; kind++) {
        assert_string_equal(ticket_kind_name((enum ticket_kind)kind), names[kind]);
        for (int number = 0; number < 2000; number++) {
            char text[16];
            snprintf(text, sizeof text, "%04d", number);
            if (!ticket_make((enum ticket_kind)kind, text, &made)) {
                starred++;
                continue;
            }
            issued++;
            assert_int_equal(ticket_parse(made.text, &read), TICKET_OK);
            assert_int_equal(read.kind, kind);
            assert_string_equal(read.text, made.text);
            ticket_body(&read, body);
            assert_string_equal(body, text);
        }
    }
    // One body in 37 has the check character `*`, and is never issued.
    assert_int_equal(issued + starred, 10000);
    assert_in_range(starred, 200, 340);
}

static void test_make_refuses(void **state) {
    (void)state;
    static const char *const bodies[] = {"", "0123456789ABC", "00 1", "00-1", "abc", "00*1"};
    struct ticket ticket = {.text = "untouched"};
    for (size_t i = 0; i < COUNT(bodies); i++) {
        assert_false(ticket_make(TICKET_HEAD, bodies[i], &ticket));
        assert_string_equal(ticket.text, "untouched");
    }
    assert_true(ticket_make(TICKET_HEAD, "0123456789AB", &ticket));
    assert_int_equal(strlen(ticket.text), TICKET_TEXT_MAX - 1);
}

static void test_parse_table(void **state) {
    (void)state;
    static const struct {
        const char *text;
        enum ticket_error error;
    } rows[] = {
        {"H-0001A", TICKET_OK},
        {"h-0001a", TICKET_OK},
        {"  H-0001A\r\n", TICKET_OK},
        {"", TICKET_EMPTY},
        {" \t\r\n", TICKET_EMPTY},
        {"X-0001A", TICKET_NOT_A_TICKET},
        {"H0001A", TICKET_NOT_A_TICKET},
        {"H", TICKET_NOT_A_TICKET},
        {"-", TICKET_NOT_A_TICKET},
        {"6291041500213", TICKET_NOT_A_TICKET},
        {"H_0001A", TICKET_NOT_A_TICKET},
        {"H-", TICKET_TOO_SHORT},
        {"H-A", TICKET_TOO_SHORT},
        {"H-0123456789ABCD", TICKET_TOO_LONG},
        {"H-0001AH-0001AH-0001A", TICKET_TOO_LONG},
        {"H-00 1A", TICKET_BAD_CHAR},
        {"H-00\u00E41A", TICKET_BAD_CHAR},
        {"H--001A", TICKET_BAD_CHAR},
        {"H-0001*", TICKET_BAD_CHAR},
        {"H-0001B", TICKET_BAD_CHECK},
        {"S-0001A", TICKET_BAD_CHECK},
        {"H-001A", TICKET_BAD_CHECK},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct ticket ticket = {.text = "untouched"};
        char text[200];
        enum ticket_error error = ticket_parse(rows[i].text, &ticket);
        if (error != rows[i].error) {
            fail_msg("\"%s\" gave %d", rows[i].text, error);
        }
        assert_string_equal(ticket.text, error == TICKET_OK ? "H-0001A" : "untouched");
        ticket_error_text(rows[i].text, error, text, sizeof text);
        assert_true((text[0] == '\0') == (error == TICKET_OK));
    }
}

static void test_error_text_shows_what_was_read(void **state) {
    (void)state;
    char text[200];
    ticket_error_text("H-0001B", TICKET_BAD_CHECK, text, sizeof text);
    assert_non_null(strstr(text, "\"H-0001B\""));
    assert_non_null(strstr(text, "Scan it again"));
    ticket_error_text("\x1b[2J\xff", TICKET_NOT_A_TICKET, text, sizeof text);
    assert_non_null(strstr(text, "\"?[2J?\""));
}

// GS1 General Specifications 7.9, published worked examples.
static void test_gtin(void **state) {
    (void)state;
    static const struct {
        const char *digits;
        char check;
    } rows[] = {
        {"629104150021", '3'}, // gs1.org check digit calculator
        {"730001100001", '7'}, // gs1.se
        {"890400021003", '7'}, // gs1india.org
    };
    static const char *const valid[] = {"6291041500213", "7300011000017", "8904000210037",
                                        "00000000",      "000000000000",  "06291041500213"};
    static const char *const invalid[] = {"",         "3",       "6291041500214",  "629104150021X",
                                          "62910416", "H-0001A", "62910415002133", "629104150021"};
    for (size_t i = 0; i < COUNT(rows); i++) {
        assert_int_equal(ticket_gtin_check(rows[i].digits, strlen(rows[i].digits)), rows[i].check);
    }
    for (size_t i = 0; i < COUNT(valid); i++) {
        assert_true(ticket_gtin_valid(valid[i]));
    }
    for (size_t i = 0; i < COUNT(invalid); i++) {
        if (ticket_gtin_valid(invalid[i])) {
            fail_msg("%s was taken", invalid[i]);
        }
    }
    assert_int_equal(ticket_gtin_check("62910415002X", 12), 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_check_char_examples),
        cmocka_unit_test(test_finds_every_substitution),
        cmocka_unit_test(test_finds_every_swap),
        cmocka_unit_test(test_misread_tickets_are_refused),
        cmocka_unit_test(test_make_and_parse),
        cmocka_unit_test(test_make_refuses),
        cmocka_unit_test(test_parse_table),
        cmocka_unit_test(test_error_text_shows_what_was_read),
        cmocka_unit_test(test_gtin),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

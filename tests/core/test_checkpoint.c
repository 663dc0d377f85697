// Checkpoints as text: what is written parses to the same, and nothing else parses.

#include "base64.h"
#include "check.h"
#include "checkpoint.h"

#include <stdio.h>
#include <stdlib.h>

#define INCARNATION "0123456789abcdef0123456789abcdef"
#define DASH "\xE2\x80\x94 "

// The head is SHA-256 of "abc" (FIPS 180-2, B.1); its base64 was made with coreutils' base64.
static const uint8_t head[ENTRY_HASH_SIZE] = {
    0xba, 0x78, 0x16, 0xbf, 0x8f, 0x01, 0xcf, 0xea, 0x41, 0x41, 0x40, 0xde, 0x5d, 0xae, 0x22, 0x23,
    0xb0, 0x03, 0x61, 0xa3, 0x96, 0x17, 0x7a, 0x9c, 0xb4, 0x10, 0xff, 0x61, 0xf2, 0x00, 0x15, 0xad};
#define HEAD "ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0="
#define BODY "kerfside/Bench%201/" INCARNATION "\n1234\n" HEAD "\nday 2026-11-25\n"
// Key id 1 2 3 4, a signature of zeros.
#define ZEROS "AAAAAAAAAAAAAAAAAAAA"
#define SIGNED "AQIDBAAA" ZEROS ZEROS ZEROS ZEROS "AAA="
#define SIGNATURE DASH "kerfside/Bench%201/" INCARNATION " " SIGNED "\n"
#define NOTE BODY "\n" SIGNATURE

static struct checkpoint_note sample(void) {
    struct checkpoint_note note = {
        .checkpoint = {.bench = "Bench 1",
                       .incarnation = INCARNATION,
                       .size = 1234,
                       .day = "2026-11-25"},
        .signature_count = 1,
        .signature = {{.key_id = {1, 2, 3, 4}}},
    };
    memcpy(note.checkpoint.head, head, sizeof head);
    return note;
}

static void base64(void **state) {
    // RFC 4648, section 10.
    static const char *const vectors[][2] = {
        {"", ""},
        {"f", "Zg=="},
        {"fo", "Zm8="},
        {"foo", "Zm9v"},
        {"foob", "Zm9vYg=="},
        {"fooba", "Zm9vYmE="},
        {"foobar", "Zm9vYmFy"},
    };
    static const char *const wrong[] = {"Zh==", "Zm9=", "Z===",  "Zg=A", "Zg",
                                        "Z g=", "Zm8",  "Zg\n=", "Zm-_", "=g=="};
    (void)state;
    for (size_t i = 0; i < COUNT(vectors); i++) {
        char text[BASE64_SIZE(6) + 1];
        uint8_t bytes[6];
        size_t size = strlen(vectors[i][0]);
        base64_write((const uint8_t *)vectors[i][0], size, text);
        assert_string_equal(text, vectors[i][1]);
        assert_true(base64_read(text, bytes, size));
        assert_memory_equal(bytes, vectors[i][0], size);
    }
    for (size_t i = 0; i < COUNT(wrong); i++) {
        uint8_t bytes[3];
        for (size_t size = 1; size <= 2; size++) {
            if (base64_read(wrong[i], bytes, size)) {
                fail_msg("%s was read as %zu bytes", wrong[i], size);
            }
        }
    }
}

static void writes_and_reads(void **state) {
    struct checkpoint_note note = sample();
    struct checkpoint_note again;
    char text[CHECKPOINT_TEXT_MAX];
    char body[CHECKPOINT_BODY_MAX];
    char brief[CHECKPOINT_SHORT_MAX];
    size_t used = 0;
    int line = 0;
    (void)state;
    assert_int_equal(checkpoint_body(&note.checkpoint, body), strlen(BODY));
    assert_string_equal(body, BODY);
    assert_int_equal(checkpoint_write(&note, text), strlen(NOTE));
    assert_string_equal(text, NOTE);
    assert_int_equal(checkpoint_parse(text, strlen(text), &again, &used, &line), CHECKPOINT_OK);
    assert_int_equal(used, strlen(NOTE));
    assert_memory_equal(&again, &note, sizeof note);
    checkpoint_short(&note.checkpoint, brief);
    assert_string_equal(brief, "2026-11-25 1234 BA78-16BF-8F01-CFEA");
}

// One note after the other, each with what follows left alone.
static void reads_the_first_of_many(void **state) {
    static const char many[] = NOTE NOTE;
    static const char two[] = NOTE SIGNATURE NOTE;
    struct checkpoint_note note;
    size_t used;
    int line;
    (void)state;
    assert_int_equal(checkpoint_parse(many, strlen(many), &note, &used, &line), CHECKPOINT_OK);
    assert_int_equal(used, strlen(NOTE));
    assert_int_equal(checkpoint_parse(two, strlen(two), &note, &used, &line), CHECKPOINT_OK);
    assert_int_equal(used, strlen(NOTE SIGNATURE));
    assert_int_equal(note.signature_count, 2);
    static const char five[] = NOTE SIGNATURE SIGNATURE SIGNATURE SIGNATURE;
    assert_int_equal(checkpoint_parse(five, strlen(five), &note, &used, &line),
                     CHECKPOINT_SIGNATURE);
    assert_int_equal(line, 10);
}

// The largest values there are, and the longest bench's name with nothing plain in it.
static void holds_the_largest(void **state) {
    struct checkpoint_note note = sample();
    struct checkpoint_note again;
    char text[CHECKPOINT_TEXT_MAX];
    char brief[CHECKPOINT_SHORT_MAX];
    size_t used;
    int line;
    (void)state;
    memset(note.checkpoint.bench, 0xC3, ENTRY_BENCH_MAX - 1);
    note.checkpoint.size = 999999999999999999;
    note.signature_count = CHECKPOINT_SIGNATURES_MAX;
    memset(note.signature, 0xFF, sizeof note.signature);
    size_t size = checkpoint_write(&note, text);
    assert_true(size < CHECKPOINT_TEXT_MAX - 1);
    assert_int_equal(checkpoint_parse(text, size, &again, &used, &line), CHECKPOINT_OK);
    assert_memory_equal(&again, &note, sizeof note);
    checkpoint_short(&note.checkpoint, brief);
    assert_string_equal(brief, "2026-11-25 999999999999999999 BA78-16BF-8F01-CFEA");
}

static void names_what_is_wrong(void **state) {
    static const struct {
        const char *text;
        enum checkpoint_error error;
        int line;
    } rows[] = {
        {"", CHECKPOINT_CUT, 1},
        {"kerfside/scratch/" INCARNATION, CHECKPOINT_CUT, 1},
        {"\n", CHECKPOINT_ORIGIN, 1},
        {"Kerfside/scratch/" INCARNATION "\n", CHECKPOINT_ORIGIN, 1},
        {"kerfside/scratch/" INCARNATION "\r\n", CHECKPOINT_ORIGIN, 1},
        {"kerfside/scratch/0123456789ABCDEF0123456789abcdef\n", CHECKPOINT_ORIGIN, 1},
        {"kerfside/scratch/0123456789abcdef\n", CHECKPOINT_ORIGIN, 1},
        {"kerfside/scratch\n", CHECKPOINT_ORIGIN, 1},
        {"kerfside/a b/" INCARNATION "\n", CHECKPOINT_ORIGIN, 1},
        {"kerfside/a%2fb/" INCARNATION "\n", CHECKPOINT_ORIGIN, 1}, // small letters
        {"kerfside/a%41b/" INCARNATION "\n", CHECKPOINT_ORIGIN, 1}, // A needs no escape
        {"kerfside/a%00b/" INCARNATION "\n", CHECKPOINT_ORIGIN, 1},
        {"kerfside/a%2/" INCARNATION "\n", CHECKPOINT_ORIGIN, 1},
        {"kerfside/123456789012345678901234/" INCARNATION "\n", CHECKPOINT_ORIGIN, 1},
        {"kerfside/scratch/" INCARNATION "\n0\n", CHECKPOINT_SIZE, 2},
        {"kerfside/scratch/" INCARNATION "\n-1\n", CHECKPOINT_SIZE, 2},
        {"kerfside/scratch/" INCARNATION "\n01\n", CHECKPOINT_SIZE, 2},
        {"kerfside/scratch/" INCARNATION "\n1 \n", CHECKPOINT_SIZE, 2},
        {"kerfside/scratch/" INCARNATION "\n1000000000000000000\n", CHECKPOINT_SIZE, 2},
        {"kerfside/scratch/" INCARNATION "\n1\nAAAA\n", CHECKPOINT_HEAD, 3},
        {"kerfside/scratch/" INCARNATION "\n1\nungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa1=\n",
         CHECKPOINT_HEAD, 3}, // a bit that belongs to no byte
        {"kerfside/scratch/" INCARNATION "\n1\n" HEAD "=\n", CHECKPOINT_HEAD, 3},
        {"kerfside/scratch/" INCARNATION "\n1\n" HEAD "\n2026-11-25\n", CHECKPOINT_DAY, 4},
        {"kerfside/scratch/" INCARNATION "\n1\n" HEAD "\nday 2026-11-31\n", CHECKPOINT_DAY, 4},
        {BODY SIGNATURE, CHECKPOINT_BLANK, 5},
        {BODY "\n" BODY, CHECKPOINT_SIGNATURE, 6},
        {BODY "\n\n", CHECKPOINT_SIGNATURE, 6},
        {BODY "\n- kerfside/Bench%201/" INCARNATION " " SIGNED "\n", CHECKPOINT_SIGNATURE, 6},
        {BODY "\n" DASH "kerfside/Bench%202/" INCARNATION " " SIGNED "\n", CHECKPOINT_SIGNATURE, 6},
        {BODY "\n" DASH "kerfside/Bench%201/" INCARNATION "  " SIGNED "\n", CHECKPOINT_SIGNATURE,
         6},
        {BODY "\n" DASH "kerfside/Bench%201/" INCARNATION " " SIGNED " \n", CHECKPOINT_SIGNATURE,
         6},
        {NOTE DASH "x\n", CHECKPOINT_SIGNATURE, 7},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct checkpoint_note note;
        struct checkpoint_note untouched;
        size_t used = 77;
        int line = 0;
        memset(&note, 0x5A, sizeof note);
        untouched = note;
        enum checkpoint_error error =
            checkpoint_parse(rows[i].text, strlen(rows[i].text), &note, &used, &line);
        if (error != rows[i].error || line != rows[i].line) {
            fail_msg("row %zu: error %d at line %d", i, (int)error, line);
        }
        assert_int_equal(used, 77);
        assert_memory_equal(&note, &untouched, sizeof note);
        assert_true(strlen(checkpoint_error_words(error)) > 10);
    }
}

// Cut anywhere it is cut; any one byte changed, it is another note or none, never the same.
static void tells_every_byte(void **state) {
    struct checkpoint_note note;
    struct checkpoint_note original = sample();
    size_t used;
    int line;
    (void)state;
    for (size_t size = 0; size < strlen(NOTE); size++) {
        assert_int_equal(checkpoint_parse(NOTE, size, &note, &used, &line), CHECKPOINT_CUT);
    }
    for (size_t at = 0; at < strlen(NOTE); at++) {
        for (int byte = 0; byte < 256; byte++) {
            char text[] = NOTE;
            if (text[at] == (char)byte) {
                continue;
            }
            text[at] = (char)byte;
            if (checkpoint_parse(text, strlen(NOTE), &note, &used, &line) == CHECKPOINT_OK &&
                memcmp(&note, &original, sizeof note) == 0) {
                fail_msg("byte %zu as %d changes nothing", at, byte);
            }
        }
    }
}

static void knows_the_calendar(void **state) {
    // Gregorian leap years: common knowledge.
    static const char *const days[] = {"2026-11-25", "2024-02-29", "2000-02-29", "2026-12-31",
                                       "0001-01-01"};
    static const char *const none[] = {"",           "2026-11-2",   "2026-11-250", "2026-00-10",
                                       "2026-13-01", "2026-02-29",  "1900-02-29",  "2026-04-31",
                                       "2026-11-00", "2026/11/25",  "2026-11-2x",  " 2026-11-2",
                                       "26-11-25",   "2026-11-25 ", "+026-11-25"};
    (void)state;
    for (size_t i = 0; i < COUNT(days); i++) {
        assert_true(checkpoint_is_day(days[i]));
    }
    for (size_t i = 0; i < COUNT(none); i++) {
        if (checkpoint_is_day(none[i])) {
            fail_msg("%s is a day", none[i]);
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(base64),
        cmocka_unit_test(writes_and_reads),
        cmocka_unit_test(reads_the_first_of_many),
        cmocka_unit_test(holds_the_largest),
        cmocka_unit_test(names_what_is_wrong),
        cmocka_unit_test(tells_every_byte),
        cmocka_unit_test(knows_the_calendar),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

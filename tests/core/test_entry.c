#include "check.h"
#include "entry.h"

#include <stdlib.h>

static struct entry full_entry(void) {
    struct entry entry = entry_init(ENTRY_TIP_CUT);
    entry.seq = 7;
    entry.wall_ms = 1764060000000;
    entry.mono_ms = 123456;
    strcpy(entry.boot, "boot");
    strcpy(entry.bench, "saw 1");
    strcpy(entry.worker, "W-01X");
    entry.club_id = 3;
    strcpy(entry.build, "B-0001X");
    strcpy(entry.club, "3W");
    strcpy(entry.head, "H-0001A");
    strcpy(entry.shaft, "S-0001S");
    strcpy(entry.confirm_id, "00112233445566778899aabbccddeeff");
    entry.attempt = 1;
    entry.refers = 2;
    entry.planned = 12700000;
    entry.made = 12700000;
    entry.verdict = VERDICT_IN;
    strcpy(entry.cause, "cause");
    strcpy(entry.note, "note");
    entry.chart_revision = 9;
    strcpy(entry.plan, "plan");
    return entry;
}

static const uint8_t zeros[ENTRY_HASH_SIZE];

static void test_init(void **state) {
    (void)state;
    struct entry entry = entry_init(ENTRY_HOLD);
    assert_int_equal(entry.kind, ENTRY_HOLD);
    assert_int_equal(entry.planned, LENGTH_UNKNOWN);
    assert_int_equal(entry.made, LENGTH_UNKNOWN);
    assert_int_equal(entry.seq, 0);
    assert_string_equal(entry.plan, "");
}

static void test_words(void **state) {
    (void)state;
    for (int i = 0; i < ENTRY_KIND_COUNT; i++) {
        enum entry_kind kind = ENTRY_KIND_COUNT;
        assert_true(entry_kind_from_text(entry_kind_text((enum entry_kind)i), &kind));
        assert_int_equal(kind, i);
    }
    for (int i = 0; i < STAGE_COUNT; i++) {
        enum stage stage = STAGE_COUNT;
        assert_true(stage_from_text(stage_text((enum stage)i), &stage));
        assert_int_equal(stage, i);
    }
    enum entry_kind kind = ENTRY_HOLD;
    enum stage stage = STAGE_DONE;
    assert_false(entry_kind_from_text("", &kind));
    assert_false(stage_from_text("Done", &stage));
    assert_int_equal(kind, ENTRY_HOLD);
    assert_int_equal(stage, STAGE_DONE);
    // Words already in logs never change.
    assert_string_equal(entry_kind_text(ENTRY_TIP_CUT), "tip_cut");
    assert_string_equal(entry_kind_text(ENTRY_GENESIS), "genesis");
    assert_string_equal(entry_kind_text(ENTRY_KIT), "kit");
    assert_string_equal(entry_kind_text(ENTRY_DAY_SIGNED), "day_signed");
    assert_string_equal(entry_kind_text(ENTRY_CHANGE), "change");
    assert_string_equal(entry_kind_text(ENTRY_RESTORED), "restored");
    assert_string_equal(entry_kind_text(ENTRY_NOTE), "note");
    assert_string_equal(entry_kind_text(ENTRY_FINAL_LENGTH), "final_length");
    assert_string_equal(entry_kind_text(ENTRY_FINAL_SWINGWEIGHT), "final_swingweight");
    assert_string_equal(entry_kind_text(ENTRY_FINAL_FREQUENCY), "final_frequency");
    assert_string_equal(entry_kind_text(ENTRY_FINAL_LOFT), "final_loft");
    assert_string_equal(entry_kind_text(ENTRY_FINAL_LIE), "final_lie");
    assert_string_equal(stage_text(STAGE_BUTT_SHOWN), "butt_shown");
}

static void test_consents(void **state) {
    static const char *const texts[CONSENT_COUNT] = {"column", "shim", "trim", "extension"};
    enum consent consent = CONSENT_COUNT;
    (void)state;
    for (int i = 0; i < CONSENT_COUNT; i++) {
        assert_string_equal(consent_text((enum consent)i), texts[i]);
        assert_true(consent_from_text(texts[i], &consent));
        assert_int_equal(consent, i);
    }
    assert_false(consent_from_text("", &consent));
    assert_false(consent_from_text("Trim", &consent));
}

// Loft 0 to 75, lie 45 to 80 degrees: common practice, no source.
static void test_angles_and_trims(void **state) {
    static const struct {
        enum entry_kind kind;
        const char *text;
        int64_t angle; // -1: refused
    } angles[] = {
        {ENTRY_FINAL_LOFT, "0", 0},      {ENTRY_FINAL_LOFT, "58.5", 58500},
        {ENTRY_FINAL_LOFT, "75", 75000}, {ENTRY_FINAL_LOFT, "75.1", -1},
        {ENTRY_FINAL_LOFT, "-1", -1},    {ENTRY_FINAL_LOFT, "10.55", -1},
        {ENTRY_FINAL_LOFT, "", -1},      {ENTRY_FINAL_LOFT, "58 deg", -1},
        {ENTRY_FINAL_LIE, "45", 45000},  {ENTRY_FINAL_LIE, "80.0", 80000},
        {ENTRY_FINAL_LIE, "44.9", -1},   {ENTRY_FINAL_LIE, "80.1", -1},
    };
    static const struct {
        const char *text;
        length_nm trim; // -1: refused
    } trims[] = {
        {"0", 0},
        {"1 1/2", 3 * LENGTH_INCH / 2},
        {"38.1 mm", 3 * LENGTH_INCH / 2},
        {"1.5 in", 3 * LENGTH_INCH / 2},
        {"80", 80 * LENGTH_INCH},
        {"80 1/64", -1},
        {"-1/4", -1},
        {"", -1},
        {"3", 3 * LENGTH_INCH},
        {"column", -1},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(angles); i++) {
        int64_t angle = -1;
        bool good = entry_angle(angles[i].kind, angles[i].text, &angle);
        if (good != (angles[i].angle >= 0) || angle != angles[i].angle) {
            fail_msg("%s", angles[i].text);
        }
    }
    for (size_t i = 0; i < COUNT(trims); i++) {
        length_nm trim = -1;
        bool good = entry_trim(trims[i].text, &trim);
        if (good != (trims[i].trim >= 0) || trim != trims[i].trim) {
            fail_msg("%s", trims[i].text);
        }
    }
}

// 600 cpm is beyond any club; a tenth is what a meter shows.
static void test_frequency(void **state) {
    static const struct {
        const char *text;
        frequency_dcpm frequency;
    } good[] = {{"305", 3050}, {"261.5", 2615}, {"261.50", 2615}, {"50", 500}, {"600", 6000}};
    static const char *const bad[] = {"", "cpm", "261.55", "49.9", "600.1", "-261", "2 61", "1e2"};
    frequency_dcpm frequency = 7;
    (void)state;
    for (size_t i = 0; i < COUNT(good); i++) {
        assert_true(entry_frequency(good[i].text, &frequency));
        assert_int_equal(frequency, good[i].frequency);
    }
    frequency = 7;
    for (size_t i = 0; i < COUNT(bad); i++) {
        if (entry_frequency(bad[i], &frequency)) {
            fail_msg("\"%s\" is no frequency", bad[i]);
        }
        assert_int_equal(frequency, 7);
    }
}

static uint64_t take_u64(const uint8_t **at) {
    uint64_t number = 0;
    for (int i = 0; i < 8; i++) {
        number = number << 8 | *(*at)++;
    }
    return number;
}

// The header's description, read back by hand.
static void test_layout(void **state) {
    (void)state;
    static const char *const expected[] = {"#7",
                                           "tip_cut",
                                           "#1764060000000",
                                           "#123456",
                                           "boot",
                                           "saw 1",
                                           "W-01X",
                                           "#3",
                                           "B-0001X",
                                           "3W",
                                           "H-0001A",
                                           "S-0001S",
                                           "00112233445566778899aabbccddeeff",
                                           "#1",
                                           "#2",
                                           "#12700000",
                                           "#12700000",
                                           "in",
                                           "cause",
                                           "note",
                                           "#9",
                                           "plan"};
    struct entry entry = full_entry();
    uint8_t buffer[ENTRY_ENCODED_MAX];
    uint8_t previous[ENTRY_HASH_SIZE];
    const uint8_t *at = buffer;
    memset(previous, 0xA5, sizeof previous);
    size_t size = entry_encode(&entry, previous, buffer);
    assert_memory_equal(at, "kerfside/log/1", 15);
    assert_memory_equal(at + 15, previous, sizeof previous);
    at += 15 + sizeof previous;
    for (size_t i = 0; i < COUNT(expected); i++) {
        uint64_t length = take_u64(&at);
        if (expected[i][0] == '#') {
            assert_int_equal(length, 8);
            assert_int_equal(take_u64(&at), strtoull(expected[i] + 1, NULL, 10));
        } else {
            assert_int_equal(length, strlen(expected[i]));
            assert_memory_equal(at, expected[i], length);
            at += length;
        }
    }
    assert_int_equal(at - buffer, size);
}

static void expect_change(const struct entry *changed, const char *field) {
    struct entry entry = full_entry();
    uint8_t before[ENTRY_ENCODED_MAX];
    uint8_t after[ENTRY_ENCODED_MAX];
    size_t before_size = entry_encode(&entry, zeros, before);
    size_t after_size = entry_encode(changed, zeros, after);
    if (before_size == after_size && memcmp(before, after, after_size) == 0) {
        fail_msg("%s may change unseen", field);
    }
}

static void test_every_field_counts(void **state) {
    (void)state;
    struct entry entry;
#define NUMBER(field)                                                                              \
    entry = full_entry();                                                                          \
    entry.field += 1;                                                                              \
    expect_change(&entry, #field);                                                                 \
    entry.field = -entry.field;                                                                    \
    expect_change(&entry, #field)
#define TEXT(field)                                                                                \
    entry = full_entry();                                                                          \
    entry.field[0] ^= 1;                                                                           \
    expect_change(&entry, #field);                                                                 \
    entry.field[0] = '\0';                                                                         \
    expect_change(&entry, #field)
    NUMBER(seq);
    NUMBER(wall_ms);
    NUMBER(mono_ms);
    TEXT(boot);
    TEXT(bench);
    TEXT(worker);
    NUMBER(club_id);
    TEXT(build);
    TEXT(club);
    TEXT(head);
    TEXT(shaft);
    TEXT(confirm_id);
    NUMBER(attempt);
    NUMBER(refers);
    NUMBER(planned);
    NUMBER(made);
    TEXT(cause);
    TEXT(note);
    NUMBER(chart_revision);
    TEXT(plan);
    for (int kind = 0; kind < ENTRY_KIND_COUNT; kind++) {
        entry = full_entry();
        entry.kind = (enum entry_kind)kind;
        if (kind != ENTRY_TIP_CUT) {
            expect_change(&entry, "kind");
        }
    }
    for (int verdict = 0; verdict < VERDICT_COUNT; verdict++) {
        entry = full_entry();
        entry.verdict = (enum verdict)verdict;
        if (verdict != VERDICT_IN) {
            expect_change(&entry, "verdict");
        }
    }
    // A character that moves from one field to the next is seen too.
    entry = full_entry();
    strcpy(entry.build, "B-0001X3");
    strcpy(entry.club, "W");
    expect_change(&entry, "build and club");
}

static void test_previous_hash_counts(void **state) {
    (void)state;
    struct entry entry = full_entry();
    uint8_t before[ENTRY_ENCODED_MAX];
    uint8_t after[ENTRY_ENCODED_MAX];
    uint8_t previous[ENTRY_HASH_SIZE] = {0};
    size_t size = entry_encode(&entry, zeros, before);
    for (size_t i = 0; i < sizeof previous; i++) {
        previous[i] = 1;
        assert_int_equal(entry_encode(&entry, previous, after), size);
        assert_memory_not_equal(before, after, size);
        previous[i] = 0;
    }
}

// Bytes behind a text's NUL are no part of it.
static void test_bytes_behind_the_text_do_not_count(void **state) {
    (void)state;
    struct entry entry = full_entry();
    uint8_t before[ENTRY_ENCODED_MAX];
    uint8_t after[ENTRY_ENCODED_MAX];
    size_t size = entry_encode(&entry, zeros, before);
    entry.note[10] = 'x';
    assert_int_equal(entry_encode(&entry, zeros, after), size);
    assert_memory_equal(before, after, size);
}

static void test_largest_entry_fits(void **state) {
    (void)state;
    struct entry entry;
    uint8_t buffer[ENTRY_ENCODED_MAX];
    memset(&entry, 'x', sizeof entry); // no NUL anywhere: every text as long as its array
    entry.kind = ENTRY_BUTT_SHOWN;
    entry.verdict = VERDICT_SHORT;
    assert_true(entry_encode(&entry, zeros, buffer) <= ENTRY_ENCODED_MAX);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_init),
        cmocka_unit_test(test_words),
        cmocka_unit_test(test_consents),
        cmocka_unit_test(test_angles_and_trims),
        cmocka_unit_test(test_frequency),
        cmocka_unit_test(test_layout),
        cmocka_unit_test(test_every_field_counts),
        cmocka_unit_test(test_previous_hash_counts),
        cmocka_unit_test(test_bytes_behind_the_text_do_not_count),
        cmocka_unit_test(test_largest_entry_fits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

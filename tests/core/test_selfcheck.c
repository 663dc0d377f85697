// Facts in, findings out.

#include "check.h"
#include "selfcheck.h"

#include <stdio.h>

#define HOUR ((int64_t)3600 * 1000)
#define NOW ((int64_t)1774958400000)
#define GB ((int64_t)1000000000)

// A bench with nothing wrong with it.
static struct selfcheck_facts good(void) {
    return (struct selfcheck_facts){
        .now_ms = NOW,
        .screen = {1920, 1080, 60, "KMSDRM"},
        .sound = SOUND_PLAYED,
        .scanner = {2, 2},
        .button = {1, 1},
        .scale = {1, 1},
        .camera = {1, 1},
        .camera_frames = true,
        .printer = PRINTER_THERE,
        .printer_queue = "Bench_2",
        .log = {.entries = 2412,
                .tail = CHAIN_WHOLE,
                .tail_count = 1000,
                .whole = CHAIN_WHOLE,
                .whole_ms = NOW - 5 * HOUR},
        .signing = {true, NOW - 20 * HOUR, 84},
        .copies = {.wanted = true, .last_ms = NOW - 11 * HOUR},
        .disk = {true, false, 12 * GB, 64 * GB, 100000, 20, 0},
        .copies_disk = {true, false, 9 * GB, 32 * GB, -1, -1, -1},
        .reserve_wanted = (int64_t)64 << 20,
        .reserve = (int64_t)64 << 20,
        .clock = {1, 0},
        .settings = {.named = true, .wrong = ""},
    };
}

static struct selfcheck_finding all[SELFCHECK_COUNT];

static const struct selfcheck_finding *find(const struct selfcheck_facts *facts,
                                            enum selfcheck_which which) {
    selfcheck_judge(facts, all);
    for (int i = 0; i < SELFCHECK_COUNT; i++) {
        if (all[i].which == which) {
            return &all[i];
        }
    }
    fail();
    return NULL;
}

static void test_all_good(void **state) {
    (void)state;
    struct selfcheck_facts facts = good();
    selfcheck_judge(&facts, all);
    for (int i = 0; i < SELFCHECK_COUNT; i++) {
        assert_int_equal(all[i].which, i); // in their own order
        assert_int_equal(all[i].state, SELFCHECK_GOOD);
        assert_string_equal(all[i].todo, "");
        assert_false(all[i].tell);
        assert_true(all[i].name[0] != '\0' && all[i].value[0] != '\0');
    }
    assert_false(selfcheck_stops(&facts));
    assert_string_equal(all[SELFCHECK_LOG].value, "2412 entries, all of them checked 5 h ago");
    assert_string_equal(all[SELFCHECK_DISK].value,
                        "12.0 GB free of 64.0 GB, 20 % of its life used");
    assert_string_equal(all[SELFCHECK_COPIES_DISK].value,
                        "9.0 GB free of 32.0 GB, its health is not known");
    assert_string_equal(all[SELFCHECK_SIGNED].value,
                        "the last day was signed 20 h ago, 84 entries since");
    assert_string_equal(all[SELFCHECK_SCREEN].value, "1920 x 1080 at 60 Hz, KMSDRM");
    assert_string_equal(all[SELFCHECK_SCANNER].value, "2 of 2 there");
}

// One fact changed, one finding changed.
#define CASE(which_, state_, tell_, words_, ...)                                                   \
    do {                                                                                           \
        struct selfcheck_facts facts = good();                                                     \
        __VA_ARGS__;                                                                               \
        const struct selfcheck_finding *found = find(&facts, which_);                              \
        assert_int_equal(found->state, state_);                                                    \
        assert_int_equal(found->tell, tell_);                                                      \
        assert_non_null(strstr(found->value, words_));                                             \
        assert_int_equal(found->todo[0] == '\0', found->state == SELFCHECK_GOOD);                  \
        for (int i = 0; i < SELFCHECK_COUNT; i++) {                                                \
            assert_true(all[i].which == (which_) || all[i].state == SELFCHECK_GOOD);               \
        }                                                                                          \
        assert_true(found->state == SELFCHECK_GOOD || found == &all[0]);                           \
    } while (0)

static void test_log(void **state) {
    (void)state;
    CASE(SELFCHECK_LOG, SELFCHECK_BAD, true, "Entry 7: was changed", facts.log.tail = CHAIN_BROKEN,
         facts.log.problem = "Entry 7: was changed after it was written.");
    CASE(SELFCHECK_LOG, SELFCHECK_BAD, true, "gone", facts.log.whole = CHAIN_BROKEN,
         facts.log.problem = "gone");
    CASE(SELFCHECK_LOG, SELFCHECK_GOOD, false, "the last 1000 checked", facts.log.whole_ms = 0,
         facts.log.whole = CHAIN_UNKNOWN);
    CASE(SELFCHECK_LOG, SELFCHECK_GOOD, false, "not checked yet", facts.log.whole_ms = 0,
         facts.log.tail = CHAIN_UNKNOWN);
    CASE(SELFCHECK_LOG, SELFCHECK_GOOD, false, "700 of them read", facts.log.whole = CHAIN_READING,
         facts.log.whole_ms = NOW - 90 * HOUR, facts.log.read = 700);
    CASE(SELFCHECK_LOG, SELFCHECK_LOOK, false, "checked 3 days ago",
         facts.log.whole_ms = NOW - 75 * HOUR);
}

static void test_only_the_log_stops(void **state) {
    (void)state;
    struct selfcheck_facts facts = good();
    facts.disk.read_only = true;
    facts.copies.late = true;
    facts.settings.wrong = "line 3";
    facts.scanner.there = 0;
    assert_false(selfcheck_stops(&facts));
    facts.log.tail = CHAIN_BROKEN;
    assert_true(selfcheck_stops(&facts));
    facts.log.tail = CHAIN_WHOLE;
    facts.log.whole = CHAIN_BROKEN;
    assert_true(selfcheck_stops(&facts));
}

static void test_disk(void **state) {
    (void)state;
    CASE(SELFCHECK_DISK, SELFCHECK_BAD, true, "can only be read", facts.disk.read_only = true);
    CASE(SELFCHECK_DISK, SELFCHECK_BAD, true, "100 MB free", facts.disk.free = 100000000);
    CASE(SELFCHECK_DISK, SELFCHECK_LOOK, true, "900 MB free", facts.disk.free = 900000000);
    CASE(SELFCHECK_DISK, SELFCHECK_GOOD, false, "1.0 GB free", facts.disk.free = GB);
    CASE(SELFCHECK_DISK, SELFCHECK_BAD, true, "free of", facts.disk.files_free = 9);
    CASE(SELFCHECK_DISK, SELFCHECK_LOOK, true, "free of", facts.disk.files_free = 999);
    CASE(SELFCHECK_DISK, SELFCHECK_LOOK, true, "80 % of its life", facts.disk.used_percent = 80);
    CASE(SELFCHECK_DISK, SELFCHECK_LOOK, true, "3 errors met", facts.disk.errors = 3,
         facts.disk.used_percent = -1);
    CASE(SELFCHECK_DISK, SELFCHECK_LOOK, true, "cannot be looked at", facts.disk.known = false);
    // With no reserve asked for, no marks hang on it.
    CASE(SELFCHECK_DISK, SELFCHECK_LOOK, true, "100 MB", facts.disk.free = 100000000,
         facts.reserve_wanted = 0);
    CASE(SELFCHECK_RESERVE, SELFCHECK_LOOK, true, "0 bytes of 67.1 MB", facts.reserve = 0);
}

static void test_copies(void **state) {
    (void)state;
    CASE(SELFCHECK_COPIES, SELFCHECK_BAD, true, "11 h ago", facts.copies.late = true);
    CASE(SELFCHECK_COPIES, SELFCHECK_LOOK, true, "11 h ago: no room", facts.copies.failing = true,
         facts.copies.why = "no room");
    CASE(SELFCHECK_COPIES, SELFCHECK_GOOD, false, "none yet", facts.copies.last_ms = 0);
    CASE(SELFCHECK_COPIES, SELFCHECK_LOOK, false, "none are set up", facts.copies.wanted = false);
    CASE(SELFCHECK_COPIES_DISK, SELFCHECK_LOOK, false, "9.0 GB", facts.same_disk = true);
    CASE(SELFCHECK_COPIES_DISK, SELFCHECK_LOOK, true, "cannot be looked at",
         facts.copies_disk.known = false);
    CASE(SELFCHECK_COPIES_DISK, SELFCHECK_BAD, true, "can only be read",
         facts.copies_disk.read_only = true);
}

static void test_signed(void **state) {
    (void)state;
    CASE(SELFCHECK_SIGNED, SELFCHECK_LOOK, false, "7 days ago",
         facts.signing.last_ms = NOW - 7 * 24 * HOUR - 1);
    CASE(SELFCHECK_SIGNED, SELFCHECK_GOOD, false, "7 days ago",
         facts.signing.last_ms = NOW - 7 * 24 * HOUR);
    CASE(SELFCHECK_SIGNED, SELFCHECK_LOOK, false, "no day", facts.signing.last_ms = 0);
    CASE(SELFCHECK_SIGNED, SELFCHECK_GOOD, false, "no day", facts.signing.last_ms = 0,
         facts.signing.wanted = false);
}

static void test_clock(void **state) {
    (void)state;
    CASE(SELFCHECK_CLOCK, SELFCHECK_LOOK, true, "90 min behind",
         facts.clock.set_back_ms = 90 * 60000);
    CASE(SELFCHECK_CLOCK, SELFCHECK_GOOD, false, "network", facts.clock.set_back_ms = 60000);
    CASE(SELFCHECK_CLOCK, SELFCHECK_LOOK, false, "by itself", facts.clock.synchronised = 0);
    CASE(SELFCHECK_CLOCK, SELFCHECK_GOOD, false, "not known", facts.clock.synchronised = -1);
}

static void test_settings(void **state) {
    (void)state;
    CASE(SELFCHECK_SETTINGS, SELFCHECK_BAD, true, "line 12: mark_step",
         facts.settings.wrong = "line 12: mark_step = 1/7");
    struct selfcheck_facts wrong = good();
    wrong.settings.wrong = "line 12";
    assert_non_null(strstr(find(&wrong, SELFCHECK_SETTINGS)->todo, "The standards hold."));
    wrong.settings.last_good = true;
    assert_non_null(strstr(find(&wrong, SELFCHECK_SETTINGS)->todo, "The last good settings hold."));
    CASE(SELFCHECK_SETTINGS, SELFCHECK_GOOD, false, "no file is named",
         facts.settings.named = false);
}

static void test_devices(void **state) {
    (void)state;
    CASE(SELFCHECK_SCANNER, SELFCHECK_LOOK, true, "1 of 2 there", facts.scanner.there = 1);
    CASE(SELFCHECK_SCANNER, SELFCHECK_BAD, true, "0 of 2 there", facts.scanner.there = 0);
    CASE(SELFCHECK_SCANNER, SELFCHECK_GOOD, false, "types into the window", facts.scanner.named = 0,
         facts.scanner.there = 0);
    CASE(SELFCHECK_BUTTON, SELFCHECK_BAD, true, "0 of 1", facts.button.there = 0);
    CASE(SELFCHECK_SCALE, SELFCHECK_BAD, true, "0 of 1", facts.scale.there = 0);
    CASE(SELFCHECK_CAMERA, SELFCHECK_BAD, true, "0 of 1", facts.camera.there = 0);
    CASE(SELFCHECK_CAMERA, SELFCHECK_LOOK, true, "no picture", facts.camera_frames = false);
    CASE(SELFCHECK_PRINTER, SELFCHECK_BAD, true, "no queue Bench_2",
         facts.printer = PRINTER_MISSING);
    CASE(SELFCHECK_PRINTER, SELFCHECK_BAD, true, "no default queue",
         facts.printer = PRINTER_MISSING, facts.printer_queue = "");
    CASE(SELFCHECK_PRINTER, SELFCHECK_LOOK, true, "does not answer",
         facts.printer = PRINTER_SILENT);
    CASE(SELFCHECK_PRINTER, SELFCHECK_GOOD, false, "none is printed",
         facts.printer = PRINTER_UNWANTED);
    CASE(SELFCHECK_SOUND, SELFCHECK_LOOK, false, "no sound device", facts.sound = SOUND_MISSING);
    CASE(SELFCHECK_SOUND, SELFCHECK_GOOD, false, "silent", facts.sound = SOUND_OFF);
    CASE(SELFCHECK_BENCHES, SELFCHECK_GOOD, false, ": 1", facts.others = 1);
    CASE(SELFCHECK_BENCHES, SELFCHECK_GOOD, false, "not known", facts.others = -1);
}

static void test_the_worst_first(void **state) {
    (void)state;
    struct selfcheck_facts facts = good();
    facts.clock.synchronised = 0;
    facts.scale.there = 0;
    facts.settings.wrong = "line 1";
    selfcheck_judge(&facts, all);
    assert_int_equal(all[0].which, SELFCHECK_SETTINGS);
    assert_int_equal(all[1].which, SELFCHECK_SCALE);
    assert_int_equal(all[2].which, SELFCHECK_CLOCK);
    assert_int_equal(all[3].which, SELFCHECK_LOG);
    assert_int_equal(all[3].state, SELFCHECK_GOOD);
}

static void test_bytes(void **state) {
    (void)state;
    static const struct {
        int64_t bytes;
        const char *text;
    } rows[] = {{0, "0 bytes"},           {999, "999 bytes"},       {1000, "1.0 kB"},
                {12345678, "12.3 MB"},    {99940000, "99.9 MB"},    {99950000, "100 MB"},
                {271000000000, "271 GB"}, {1500000000000, "1.5 TB"}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        char text[24];
        selfcheck_bytes(rows[i].bytes, text, sizeof text);
        assert_string_equal(text, rows[i].text);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_all_good),
        cmocka_unit_test(test_log),
        cmocka_unit_test(test_only_the_log_stops),
        cmocka_unit_test(test_disk),
        cmocka_unit_test(test_copies),
        cmocka_unit_test(test_signed),
        cmocka_unit_test(test_clock),
        cmocka_unit_test(test_settings),
        cmocka_unit_test(test_devices),
        cmocka_unit_test(test_the_worst_first),
        cmocka_unit_test(test_bytes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

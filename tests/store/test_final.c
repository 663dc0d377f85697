// What is measured on the assembled club, and a build with it.

#include "fixture.h"

#include <stdio.h>

static int opened(void **state) {
    static struct fixture fixture;
    fixture_open(&fixture);
    *state = &fixture;
    return 0;
}

static int closed(void **state) {
    fixture_expect_check((*(struct fixture **)state)->store);
    fixture_close(*state);
    return 0;
}

static struct entry measured(struct fixture *fixture, enum entry_kind kind, length_nm made,
                             const char *note) {
    struct entry entry = fixture_entry(fixture, kind, 3);
    entry.planned = kind == ENTRY_FINAL_LENGTH ? 37 * LENGTH_INCH : LENGTH_UNKNOWN;
    entry.made = made;
    strcpy(entry.note, note);
    strcpy(entry.bench, "Office"); // not the bench that cut it
    return entry;
}

static void takes(struct fixture *fixture, enum entry_kind kind, length_nm made, const char *note) {
    struct entry entry = measured(fixture, kind, made, note);
    if (store_append(fixture->store, &entry) != STORE_OK) {
        fail_msg("%s", store_message(fixture->store));
    }
}

static void refuses(struct fixture *fixture, enum entry_kind kind, length_nm made, const char *note,
                    const char *words) {
    int64_t before = fixture_number(fixture->store->db, "SELECT max(seq) FROM log");
    struct entry entry = measured(fixture, kind, made, note);
    if (store_append(fixture->store, &entry) != STORE_REFUSED ||
        strstr(store_message(fixture->store), words) == NULL) {
        fail_msg("%s %s: %s", entry_kind_text(kind), note, store_message(fixture->store));
    }
    assert_int_equal(fixture_number(fixture->store->db, "SELECT max(seq) FROM log"), before);
}

static struct final_values values_of(struct fixture *fixture, int64_t club) {
    struct final_values values;
    memset(&values, 0x5A, sizeof values);
    assert_int_equal(store_final_values(fixture->store, club, &values), STORE_OK);
    return values;
}

static void expect_nothing(struct fixture *fixture, int64_t club) {
    struct final_values values = values_of(fixture, club);
    assert_true(values.length == LENGTH_UNKNOWN);
    assert_string_equal(values.swingweight, "");
    assert_true(values.frequency == FREQUENCY_UNKNOWN);
}

static void keeps_the_latest(void **state) {
    struct fixture *fixture = *state;
    expect_nothing(fixture, 3);
    expect_nothing(fixture, 99);
    fixture_bring(fixture, 3, STAGE_DONE);
    expect_nothing(fixture, 3);
    takes(fixture, ENTRY_FINAL_LENGTH, 37 * LENGTH_INCH, "");
    takes(fixture, ENTRY_FINAL_SWINGWEIGHT, LENGTH_UNKNOWN, "D2.3");
    struct final_values values = values_of(fixture, 3);
    assert_int_equal(values.length, 37 * LENGTH_INCH);
    assert_string_equal(values.swingweight, "D2.3");
    assert_true(values.frequency == FREQUENCY_UNKNOWN);
    takes(fixture, ENTRY_FINAL_FREQUENCY, LENGTH_UNKNOWN, "261.5");
    takes(fixture, ENTRY_FINAL_FREQUENCY, LENGTH_UNKNOWN, "302");
    takes(fixture, ENTRY_FINAL_LENGTH, 37 * LENGTH_INCH + LENGTH_INCH / 16, "");
    values = values_of(fixture, 3);
    assert_int_equal(values.frequency, 3020);
    assert_int_equal(values.length, 37 * LENGTH_INCH + LENGTH_INCH / 16);
    struct club club = fixture_club(fixture, 3);
    assert_int_equal(club.progress.stage, STAGE_DONE); // moved by none of them
    assert_string_equal(club.progress.bench, BENCH);
    expect_nothing(fixture, 4); // another club's are another's
}

static void refuses_what_no_club_has(void **state) {
    struct fixture *fixture = *state;
    refuses(fixture, ENTRY_FINAL_FREQUENCY, LENGTH_UNKNOWN, "302", "not possible there");
    fixture_bring(fixture, 3, STAGE_BUTT_CUT);
    refuses(fixture, ENTRY_FINAL_LENGTH, 37 * LENGTH_INCH, "", "not possible there");
    fixture_bring(fixture, 3, STAGE_DONE);
    refuses(fixture, ENTRY_FINAL_LENGTH, LENGTH_UNKNOWN, "", "no final_length that a club has");
    refuses(fixture, ENTRY_FINAL_LENGTH, 9 * LENGTH_INCH, "", "Measure again");
    refuses(fixture, ENTRY_FINAL_LENGTH, 71 * LENGTH_INCH, "", "Measure again");
    refuses(fixture, ENTRY_FINAL_SWINGWEIGHT, LENGTH_UNKNOWN, "H2", "no final_swingweight");
    refuses(fixture, ENTRY_FINAL_SWINGWEIGHT, LENGTH_UNKNOWN, "", "no final_swingweight");
    refuses(fixture, ENTRY_FINAL_SWINGWEIGHT, LENGTH_UNKNOWN, "   D2.3   ", "final_swingweight");
    refuses(fixture, ENTRY_FINAL_FREQUENCY, LENGTH_UNKNOWN, "610", "no final_frequency");
    refuses(fixture, ENTRY_FINAL_FREQUENCY, LENGTH_UNKNOWN, "D2.3", "no final_frequency");
    refuses(fixture, ENTRY_FINAL_LOFT, LENGTH_UNKNOWN, "75.5", "no final_loft");
    refuses(fixture, ENTRY_FINAL_LIE, LENGTH_UNKNOWN, "40", "no final_lie");
    refuses(fixture, ENTRY_FINAL_LIE, LENGTH_UNKNOWN, "", "no final_lie");
    struct entry guessed = measured(fixture, ENTRY_FINAL_LENGTH, 37 * LENGTH_INCH, "");
    strcpy(guessed.cause, "guessed");
    assert_int_equal(store_append(fixture->store, &guessed), STORE_REFUSED);
    struct entry entry = measured(fixture, ENTRY_FINAL_FREQUENCY, LENGTH_UNKNOWN, "302");
    strcpy(entry.shaft, "S-0005K");
    assert_int_equal(store_append(fixture->store, &entry), STORE_REFUSED);
    assert_non_null(strstr(store_message(fixture->store), "S-0003O now"));
    entry.club_id = 0;
    assert_int_equal(store_append(fixture->store, &entry), STORE_REFUSED);
    assert_non_null(strstr(store_message(fixture->store), "needs a club"));
    expect_nothing(fixture, 3);
}

// Loft and lie like the rest; how the length was taken goes with the length it tells of.
static void keeps_angles_and_the_method(void **state) {
    struct fixture *fixture = *state;
    fixture_bring(fixture, 3, STAGE_DONE);
    takes(fixture, ENTRY_FINAL_LOFT, LENGTH_UNKNOWN, "33");
    takes(fixture, ENTRY_FINAL_LOFT, LENGTH_UNKNOWN, "34.5");
    takes(fixture, ENTRY_FINAL_LIE, LENGTH_UNKNOWN, "62");
    assert_int_equal(values_of(fixture, 3).loft, 34500);
    assert_int_equal(values_of(fixture, 3).lie, 62000);
    static const char *const causes[] = {"rules", "ruler", ""};
    static const enum length_method methods[] = {LENGTH_METHOD_RULES, LENGTH_METHOD_RULER,
                                                 LENGTH_METHOD_UNKNOWN};
    for (size_t i = 0; i < sizeof causes / sizeof causes[0]; i++) {
        struct entry entry = measured(fixture, ENTRY_FINAL_LENGTH, 37 * LENGTH_INCH, "");
        strcpy(entry.cause, causes[i]);
        assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
        assert_int_equal(values_of(fixture, 3).method, methods[i]);
    }
}

// A measure that is withdrawn takes with it what was measured on the club as it was.
static void forgets_with_the_cut(void **state) {
    struct fixture *fixture = *state;
    fixture_bring(fixture, 3, STAGE_DONE);
    takes(fixture, ENTRY_FINAL_SWINGWEIGHT, LENGTH_UNKNOWN, "D4");
    struct entry entry = fixture_entry(fixture, ENTRY_WITHDRAW, 3);
    entry.refers = fixture_club(fixture, 3).progress.measure_seq;
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    expect_nothing(fixture, 3);
    fixture_append(fixture, ENTRY_MEASURE, 3);
    expect_nothing(fixture, 3);
    takes(fixture, ENTRY_FINAL_SWINGWEIGHT, LENGTH_UNKNOWN, "D2");
    assert_string_equal(values_of(fixture, 3).swingweight, "D2");
}

static struct entry accepts(struct fixture *fixture, int64_t about) {
    struct entry entry = fixture_entry(fixture, ENTRY_NOTE, 3);
    strcpy(entry.worker, SUPERVISOR);
    strcpy(entry.cause, ENTRY_ACCEPTED);
    strcpy(entry.note, "the customer wants it so");
    entry.refers = about;
    return entry;
}

static void expect_refused(struct fixture *fixture, struct entry *entry, const char *words) {
    assert_int_equal(store_append(fixture->store, entry), STORE_REFUSED);
    if (strstr(store_message(fixture->store), words) == NULL) {
        fail_msg("%s", store_message(fixture->store));
    }
}

// A supervisor accepts the newest value of its kind; one measured after that is another one.
static void a_supervisor_accepts_what_was_measured_last(void **state) {
    struct fixture *fixture = *state;
    fixture_bring(fixture, 3, STAGE_DONE);
    takes(fixture, ENTRY_FINAL_LENGTH, 37 * LENGTH_INCH, "");
    int64_t old = values_of(fixture, 3).seq[ASSEMBLY_LENGTH];
    takes(fixture, ENTRY_FINAL_LENGTH, 38 * LENGTH_INCH, "");
    takes(fixture, ENTRY_FINAL_LIE, LENGTH_UNKNOWN, "62");
    struct final_values values = values_of(fixture, 3);
    assert_int_equal(values.seq[ASSEMBLY_LENGTH], old + 1);
    assert_int_equal(values.seq[ASSEMBLY_LIE], old + 2);
    assert_int_equal(values.seq[ASSEMBLY_LOFT], 0);
    struct entry entry = accepts(fixture, values.seq[ASSEMBLY_LENGTH]);
    strcpy(entry.worker, BUILDER);
    expect_refused(fixture, &entry, "Only a supervisor");
    entry = accepts(fixture, values.seq[ASSEMBLY_LENGTH]);
    strcpy(entry.note, " ");
    expect_refused(fixture, &entry, "needs words");
    entry = accepts(fixture, old);
    expect_refused(fixture, &entry, "not what was measured last");
    entry = accepts(fixture, fixture_club(fixture, 3).progress.measure_seq);
    expect_refused(fixture, &entry, "not what was measured last");
    entry = accepts(fixture, values.seq[ASSEMBLY_LENGTH]);
    strcpy(entry.cause, ""); // words about it, and no more
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    assert_int_equal(values_of(fixture, 3).accepted[ASSEMBLY_LENGTH], 0);
    entry = accepts(fixture, values.seq[ASSEMBLY_LENGTH]);
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    assert_int_equal(values_of(fixture, 3).accepted[ASSEMBLY_LENGTH], entry.seq);
    assert_int_equal(values_of(fixture, 3).accepted[ASSEMBLY_LIE], 0);
    takes(fixture, ENTRY_FINAL_LIE, LENGTH_UNKNOWN, "63"); // another value is none of its business
    assert_int_equal(values_of(fixture, 3).accepted[ASSEMBLY_LENGTH], entry.seq);
    takes(fixture, ENTRY_FINAL_LENGTH, 38 * LENGTH_INCH, "");
    assert_int_equal(values_of(fixture, 3).accepted[ASSEMBLY_LENGTH], 0);
}

static void an_acceptance_goes_with_the_cut(void **state) {
    struct fixture *fixture = *state;
    fixture_bring(fixture, 3, STAGE_DONE);
    takes(fixture, ENTRY_FINAL_LOFT, LENGTH_UNKNOWN, "40");
    int64_t about = values_of(fixture, 3).seq[ASSEMBLY_LOFT];
    struct entry entry = accepts(fixture, about);
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    struct entry withdraw = fixture_entry(fixture, ENTRY_WITHDRAW, 3);
    withdraw.refers = fixture_club(fixture, 3).progress.measure_seq;
    assert_int_equal(store_append(fixture->store, &withdraw), STORE_OK);
    fixture_append(fixture, ENTRY_MEASURE, 3);
    assert_int_equal(values_of(fixture, 3).accepted[ASSEMBLY_LOFT], 0);
    entry = accepts(fixture, about);
    expect_refused(fixture, &entry, "not what was measured last");
}

// What is measured and accepted at once is in the log together or not at all.
static void a_value_and_its_acceptance_are_one(void **state) {
    struct fixture *fixture = *state;
    fixture_bring(fixture, 3, STAGE_DONE);
    int64_t before = fixture_number(fixture->store->db, "SELECT max(seq) FROM log");
    struct entry entries[] = {measured(fixture, ENTRY_FINAL_LENGTH, 38 * LENGTH_INCH, ""),
                              measured(fixture, ENTRY_FINAL_LIE, LENGTH_UNKNOWN, "70"),
                              accepts(fixture, -2), accepts(fixture, -2)};
    strcpy(entries[3].worker, BUILDER);
    assert_int_equal(store_append_all(fixture->store, entries, COUNT(entries)), STORE_REFUSED);
    assert_int_equal(fixture_number(fixture->store->db, "SELECT max(seq) FROM log"), before);
    strcpy(entries[3].worker, SUPERVISOR);
    entries[3].refers = -4; // before the first
    assert_int_equal(store_append_all(fixture->store, entries, COUNT(entries)), STORE_REFUSED);
    assert_non_null(strstr(store_message(fixture->store), "before the first"));
    assert_int_equal(fixture_number(fixture->store->db, "SELECT max(seq) FROM log"), before);
    entries[3].refers = -2;
    takes(fixture, ENTRY_FINAL_LOFT, LENGTH_UNKNOWN, "40"); // the next try finds other numbers
    before++;
    for (int again = 0; again < 2; again++) { // the second time they are there
        assert_int_equal(store_append_all(fixture->store, entries, COUNT(entries)), STORE_OK);
        assert_int_equal(fixture_number(fixture->store->db, "SELECT max(seq) FROM log"),
                         before + 4);
        struct final_values values = values_of(fixture, 3);
        assert_int_equal(values.accepted[ASSEMBLY_LENGTH], before + 3);
        assert_int_equal(values.accepted[ASSEMBLY_LIE], before + 4);
    }
    struct entry alone = accepts(fixture, -1);
    assert_int_equal(store_append(fixture->store, &alone), STORE_REFUSED);
}

struct heard {
    char clubs[32];
    int stop_after;
    frequency_dcpm frequency; // of club 7
};

static bool hear(void *context, const struct club *club, const struct final_values *values) {
    struct heard *heard = context;
    strcat(heard->clubs, club->order.club);
    strcat(heard->clubs, club->shaft.ticket[0] == '\0' ? "? " : " ");
    if (strcmp(club->order.club, "7") == 0) {
        heard->frequency = values->frequency;
        assert_int_equal(club->chart.count, 2); // ready to be planned
        assert_int_equal(club->order.uniform_reference, LENGTH_INCH);
    } else {
        assert_true(values->frequency == FREQUENCY_UNKNOWN);
    }
    return --heard->stop_after != 0;
}

static void reads_a_build(void **state) {
    struct fixture *fixture = *state;
    struct heard heard = {0};
    fixture_bring(fixture, 3, STAGE_DONE);
    takes(fixture, ENTRY_FINAL_FREQUENCY, LENGTH_UNKNOWN, "302");
    assert_int_equal(store_build_clubs(fixture->store, "2042", hear, &heard), STORE_OK);
    assert_string_equal(heard.clubs, "4h 7 8 9? "); // by position
    assert_int_equal(heard.frequency, 3020);
    heard = (struct heard){.stop_after = 2};
    assert_int_equal(store_build_clubs(fixture->store, "b-20424", hear, &heard), STORE_OK);
    assert_string_equal(heard.clubs, "4h 7 ");
    heard = (struct heard){0};
    assert_int_equal(store_build_clubs(fixture->store, "2099", hear, &heard), STORE_NONE);
    assert_int_equal(store_build_clubs(fixture->store, "B-20425", hear, &heard), STORE_NONE);
    assert_string_equal(heard.clubs, "");
    assert_true(sqlite3_get_autocommit(fixture->store->db));

    sqlite3 *raw = fixture_raw(fixture->path);
    fixture_exec(raw, "PRAGMA ignore_check_constraints = ON;"
                      "UPDATE club SET stage = 'half way' WHERE id = 4");
    assert_int_equal(store_build_clubs(fixture->store, "2042", hear, &heard), STORE_FAILED);
    assert_non_null(strstr(store_message(fixture->store), "kerfside check"));
    fixture_exec(raw, "UPDATE club SET stage = 'pending' WHERE id = 4");
    sqlite3_close(raw);
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(keeps_the_latest),
        STEP(refuses_what_no_club_has),
        STEP(keeps_angles_and_the_method),
        STEP(forgets_with_the_cut),
        STEP(a_supervisor_accepts_what_was_measured_last),
        STEP(an_acceptance_goes_with_the_cut),
        STEP(a_value_and_its_acceptance_are_one),
        STEP(reads_a_build),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

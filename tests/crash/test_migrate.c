// A database of schema 0001 or 0002 is opened by this program, and the power goes or a file fails
// on the way: it is whole and of one schema, never between two, and nothing of it is lost.

#include "disk.h"
#include "shift.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#define CUTS 200
#define SEED 20261125u
#define NEWEST SCHEMA_NEWEST
#define OLDER 2 // of these schemas there are databases

// What databases of each older schema hold.
static const int64_t entries[] = {[1] = VERSION1_ENTRIES, [2] = VERSION2_ENTRIES};
static int64_t shafts[OLDER + 1];

// Which schema it is of; fails the test when it is of none.
static int64_t schema_of(const char *path) {
    sqlite3 *raw = fixture_raw(path);
    int64_t version = fixture_number(raw, "PRAGMA user_version");
    int64_t columns = fixture_number(raw, "SELECT (SELECT count(*) FROM pragma_table_info('club') "
                                          "WHERE name LIKE 'wished%') + (SELECT count(*) FROM "
                                          "pragma_table_info('shaft') WHERE name = 'balance') + "
                                          "(SELECT count(*) FROM sqlite_schema WHERE name = "
                                          "'log_final')");
    int64_t codes = fixture_number(raw, "SELECT count(*) FROM sqlite_schema WHERE name IN "
                                        "('supplier_code', 'head_spare')");
    int64_t people = fixture_number(raw, "SELECT (SELECT count(*) FROM pragma_table_info('pin') "
                                         "WHERE name = 'pepper') + (SELECT count(*) FROM "
                                         "sqlite_schema WHERE name = 'worker_stays_withdrawn')");
    int64_t signatures = fixture_number(raw, "SELECT count(*) FROM sqlite_schema WHERE name IN "
                                             "('log_signed', 'log_refers')");
    int64_t facets = fixture_number(raw, "SELECT count(*) FROM sqlite_schema WHERE name IN "
                                         "('facet', 'log_facet', 'log_faceted')");
    sqlite3_close(raw);
    assert_int_equal(columns, version >= 2 ? 4 : 0);
    assert_int_equal(codes, version >= 3 ? 2 : 0);
    assert_int_equal(people, version >= 4 ? 2 : 0);
    assert_int_equal(signatures, version >= 5 ? 2 : 0);
    assert_int_equal(facets, version >= 6 ? 3 : 0);
    assert_true(version >= 1 && version <= NEWEST);
    return version;
}

static void remove_all(const char *path) {
    static const char *const suffixes[] = {"",
                                           "-wal",
                                           "-journal",
                                           "-shm",
                                           ".lock",
                                           BEFORE_NEWEST,
                                           BEFORE_NEWEST ".part",
                                           BEFORE_NEWEST ".1"};
    for (size_t i = 0; i < COUNT(suffixes); i++) {
        char file[160];
        snprintf(file, sizeof file, "%s%s", path, suffixes[i]);
        unlink(file);
    }
}

// Opened again, it is up to date and whole.
static void comes_up(const char *path, int from, const char *when, int64_t at) {
    char message[STORE_MESSAGE_MAX] = "";
    struct store *store = NULL;
    struct store_check check = {0};
    if (store_open(path, STORE_WRITE, BENCH, &store, message, sizeof message) != STORE_OK) {
        fail_msg("%s %d: %s", when, (int)at, message);
    }
    if (store_check(store, &check) != STORE_OK || check.entries != entries[from]) {
        fail_msg("%s %d: %d entries, %s", when, (int)at, (int)check.entries, check.problem);
    }
    assert_int_equal(fixture_number(store->db, "SELECT count(*) FROM shaft"), shafts[from]);
    store_close(store);
    assert_int_equal(schema_of(path), NEWEST);
}

// Fewer where test_powercut is to have fewer, as with sanitizers.
static int wanted_cuts(void) {
    const char *wanted = getenv("KERFSIDE_CUTS");
    return wanted != NULL ? atoi(wanted) / 5 : CUTS;
}

static void cut_all(int from) {
    struct fixture fixture;
    char message[STORE_MESSAGE_MAX] = "";
    char path[128];
    uint32_t seed = SEED;
    int found[NEWEST + 1] = {0};
    int cuts = wanted_cuts();
    fixture_folder(&fixture);
    tape_begin(fixture.path);
    fixture_version(fixture.path, from);
    size_t made = tape_count();
    if (store_open(fixture.path, STORE_WRITE, BENCH, &fixture.store, message, sizeof message) !=
        STORE_OK) {
        fail_msg("%s", message);
    }
    size_t steps = tape_count() - made;
    snprintf(path, sizeof path, "%s.cut", fixture.path);
    struct disk *disk = disk_new();
    for (int i = 0; i < cuts; i++) {
        size_t at = made + (size_t)i * steps / (size_t)(cuts - 1); // rising, to the end
        seed = seed * 1664525u + 1013904223u;
        disk_play(disk, at);
        disk_cut(disk, path, seed);
        found[schema_of(path)]++;
        comes_up(path, from, "cut before operation", (int64_t)at);
        remove_all(path);
    }
    disk_free(disk);
    print_message("%d cuts in %zu operations: %d, %d, %d, %d and %d of schema 1 to 5\n", cuts,
                  steps, found[1], found[2], found[3], found[4], found[5]);
    assert_true(steps > 10 && 15 * found[from] > cuts && found[2] > 0 && found[NEWEST] > 0);
    fixture_close(&fixture);
    tape_end();
}

static void survives_every_cut(void **state) {
    (void)state;
    cut_all(1);
    cut_all(2);
}

static struct fixture prepared[OLDER + 1]; // of each older schema

// One opening with one fault. False when the fault never came.
static bool run(int from, int64_t call, bool for_ever, enum tape_error error,
                int found[NEWEST + 1]) {
    struct fixture fixture;
    char message[STORE_MESSAGE_MAX] = "";
    shift_copy(&prepared[from], &fixture);
    tape_begin(fixture.path);
    tape_fail(call, for_ever, error);
    enum store_result result =
        store_open(fixture.path, STORE_WRITE, BENCH, &fixture.store, message, sizeof message);
    bool came = tape_calls() >= call;
    tape_fail(0, false, TAPE_IO);
    store_close(fixture.store);
    fixture.store = NULL;
    int64_t version = schema_of(fixture.path);
    found[version]++;
    assert_true(result != STORE_OK || version == NEWEST);
    assert_true(result == STORE_OK || strlen(message) > 20);
    comes_up(fixture.path, from, "failed at call", call);
    fixture_close(&fixture);
    tape_end();
    return came;
}

static void sweep(int from, bool for_ever, enum tape_error error) {
    int found[NEWEST + 1] = {0};
    int64_t call = 1;
    int step = wanted_cuts() < CUTS ? 12 : wanted_cuts() > CUTS ? 1 : 3;
    while (run(from, call, for_ever, error, found)) {
        call += step;
        assert_true(call < 1000);
    }
    print_message("%d calls looked at, failed %s: %d of schema %d, %d of the newest\n",
                  (int)(call - 1) / step, for_ever ? "for ever" : "once", found[from], from,
                  found[NEWEST]);
    assert_true(call > 10 && found[from] > 0 && found[NEWEST] > 0);
}

static void survives_faults(void **state) {
    (void)state;
    sweep(1, false, TAPE_IO);
    if (wanted_cuts() >= CUTS) {
        sweep(1, true, TAPE_IO);
        sweep(1, false, TAPE_FULL);
        sweep(1, true, TAPE_FULL);
    }
    // From here on the way is the same, with other things to lose.
    sweep(2, false, TAPE_IO);
    sweep(2, true, TAPE_FULL);
}

static int prepare(void **state) {
    (void)state;
    for (int from = 1; from <= OLDER; from++) {
        fixture_folder(&prepared[from]);
        fixture_version(prepared[from].path, from);
        sqlite3 *raw = fixture_raw(prepared[from].path);
        shafts[from] = fixture_number(raw, "SELECT count(*) FROM shaft");
        sqlite3_close(raw);
    }
    return 0;
}

static int clean_up(void **state) {
    (void)state;
    for (int from = 1; from <= OLDER; from++) {
        fixture_close(&prepared[from]);
    }
    return 0;
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(survives_every_cut),
        cmocka_unit_test(survives_faults),
    };
    return cmocka_run_group_tests(tests, prepare, clean_up);
}

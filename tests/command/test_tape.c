// A digital tape or caliper that types, at the real bench: what its number becomes in a field for
// a length, sent in one burst or as slowly as a person types. Lengths computed by hand with
// 1 in = 25.4 mm (international yard, 1 July 1959).

#include "run.h"

#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

static struct scratch scratch;
static struct ran ran;

static int opened(void **state) {
    (void)state;
    scratch_init(&scratch);
    setenv("SDL_VIDEODRIVER", "dummy", 1);
    setenv("SDL_AUDIODRIVER", "dummy", 1);
    return 0;
}

static int closed(void **state) {
    (void)state;
    scratch_release(&scratch);
    return 0;
}

// Of a head whose bore height nobody has measured, and a shaft of 46 in.
static void dry_fit(const char *units, const char *entry, const char *after) {
    static const char *const old[] = {"tape.db", "tape.db-wal", "tape.db-shm"};
    char text[512];
    for (int i = 0; i < 3; i++) {
        unlink(scratch_path(&scratch, old[i]));
    }
    snprintf(text, sizeof text, "[bench]\nunits = %s\n", units);
    scratch_write(&scratch, "bench.ini", text);
    snprintf(text, sizeof text,
             "scan W-00029\nscan H-00132\nscan S-0013K\nexpect DRY_FIT\n%sexpect DRY_FIT\n%s",
             entry, after);
    scratch_write(&scratch, "steps", text);
    run_expect(&scratch, &ran, 0, "demo --db tape.db");
    run(&scratch, &ran, "bench --db tape.db --settings bench.ini --script steps");
    if (ran.status != 0) {
        fail_msg("%s%s", entry, ran.err);
    }
}

// The overall length that was logged, in nanometres.
static int64_t logged(void) {
    sqlite3 *db;
    sqlite3_stmt *statement;
    int64_t value = -1;
    assert_int_equal(
        sqlite3_open_v2(scratch_path(&scratch, "tape.db"), &db, SQLITE_OPEN_READONLY, NULL), 0);
    assert_int_equal(sqlite3_prepare_v2(db, "SELECT planned FROM log WHERE kind = 'dry_fit'", -1,
                                        &statement, NULL),
                     SQLITE_OK);
    if (sqlite3_step(statement) == SQLITE_ROW) {
        value = sqlite3_column_int64(statement, 0);
    }
    sqlite3_finalize(statement);
    sqlite3_close(db);
    return value;
}

static void test_forms(void **state) {
    (void)state;
    static const struct {
        const char *units;
        const char *entry;
        int64_t overall;
    } rows[] = {
        {"inch", "scan 47.125\n", 1196975000},
        {"inch", "type 47.125\nenter\n", 1196975000},
        {"inch", "scan 47-1/8\n", 1196975000},
        {"inch", "type 47-1/8\nenter\n", 1196975000},
        {"inch", "scan 47 1/8\n", 1196975000},
        {"inch", "scan 47.125 in\n", 1196975000},
        {"inch", "scan 1196.5 mm\n", 1196500000},
        {"inch", "type 1196.5mm\nenter\n", 1196500000},
        {"mm", "scan 1196.5\n", 1196500000},
        {"mm", "type 1196.5\nenter\n", 1196500000},
        {"mm", "scan 47.125 in\n", 1196975000},
        {"mm", "scan 47-1/8 in\n", 1196975000},
        {"inch", "scan +47.125\n", 1196975000},
        {"inch", "scan 0047.12500\n", 1196975000},
        {"inch", "scan 99\nscan 47.125\n", 1196975000}, // measured again: the newer one stands
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        dry_fit(rows[i].units, rows[i].entry, "press\nexpect CARE\n");
        if (logged() != rows[i].overall) {
            fail_msg("%s %s: %lld nm", rows[i].units, rows[i].entry, (long long)logged());
        }
    }
}

// What is no length, or none that can be, is said and logs nothing.
static void test_wrong_unit(void **state) {
    (void)state;
    dry_fit("mm", "scan 47.125\n", "press\nexpect DRY_FIT\n"); // 47 mm are less than the shaft
    assert_int_equal(logged(), -1);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_forms),
                                       cmocka_unit_test(test_wrong_unit)};
    return cmocka_run_group_tests(tests, opened, closed);
}

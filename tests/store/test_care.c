// Backup, checkpoint, room on the disk, reopening.

#include "fixture.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

static int opened(void **state) {
    static struct fixture fixture;
    fixture_open(&fixture);
    *state = &fixture;
    return 0;
}

static int closed(void **state) {
    fixture_close(*state);
    return 0;
}

static int64_t size_of(const char *path) {
    struct stat file;
    return stat(path, &file) == 0 ? (int64_t)file.st_size : -1;
}

static void copies_everything(void **state) {
    struct fixture *fixture = *state;
    struct store_check ours = {0};
    struct store_check theirs = {0};
    struct store *copy = NULL;
    char message[STORE_MESSAGE_MAX];
    char path[128];
    char beside[160];
    static const char *const leftovers[] = {".part", ".part-wal", ".part-shm", ".part-journal",
                                            "-wal",  "-shm",      "-journal",  ".lock"};
    fixture_bring(fixture, 3, STAGE_TIP_CUT); // partly in the WAL
    snprintf(path, sizeof path, "%s/copy.db", fixture->folder);
    snprintf(beside, sizeof beside, "%s.part", path);
    FILE *stale = fopen(beside, "w"); // of a copy that a power cut ended
    assert_non_null(stale);
    fputs("half a copy", stale);
    fclose(stale);
    if (store_backup(fixture->store, path) != STORE_OK) {
        fail_msg("%s", store_message(fixture->store));
    }
    for (size_t i = 0; i < COUNT(leftovers); i++) {
        snprintf(beside, sizeof beside, "%s%s", path, leftovers[i]);
        assert_int_equal(size_of(beside), -1);
    }
    assert_int_equal(store_check(fixture->store, &ours), STORE_OK);
    assert_int_equal(store_open(path, STORE_READ, BENCH, &copy, message, sizeof message), STORE_OK);
    assert_int_equal(store_check(copy, &theirs), STORE_OK);
    assert_memory_equal(&ours, &theirs, sizeof ours);
    store_close(copy);
    assert_int_equal(store_backup(fixture->store, path), STORE_REFUSED);
    assert_non_null(strstr(store_message(fixture->store), "exists already"));
    // And it can be worked with.
    assert_int_equal(store_open(path, STORE_WRITE, BENCH, &copy, message, sizeof message),
                     STORE_OK);
    struct entry entry = fixture_entry(fixture, ENTRY_BUTT_SHOWN, 3);
    assert_int_equal(store_append(copy, &entry), STORE_OK);
    store_close(copy);
    fixture_append(fixture, ENTRY_BUTT_SHOWN, 3); // the original goes on too
}

static void copies_nothing_that_is_bad(void **state) {
    struct fixture *fixture = *state;
    char path[128];
    snprintf(path, sizeof path, "%s/copy.db", fixture->folder);
    fixture_append(fixture, ENTRY_SIGN_ON, 0);
    sqlite3 *raw = fixture_raw(fixture->path);
    fixture_strike(raw, "UPDATE log SET note = 'x' WHERE seq = 2");
    sqlite3_close(raw);
    assert_int_equal(store_backup(fixture->store, path), STORE_FAILED);
    assert_non_null(strstr(store_message(fixture->store), "Entry 2"));
    assert_int_equal(size_of(path), -1);
    assert_int_equal(store_backup(fixture->store, "/nowhere/copy.db"), STORE_FAILED);
}

static void checkpoints(void **state) {
    struct fixture *fixture = *state;
    char wal[128];
    snprintf(wal, sizeof wal, "%s-wal", fixture->path);
    fixture_bring(fixture, 3, STAGE_DONE);
    assert_true(size_of(wal) > 0); // nothing was checkpointed on its own
    assert_int_equal(store_checkpoint(fixture->store), STORE_OK);
    assert_int_equal(size_of(wal), 0);
    fixture_append(fixture, ENTRY_SIGN_OFF, 0);
    int64_t size = size_of(wal);
    assert_true(size > 0);
    fixture_restart(fixture); // closing checkpoints nothing
    assert_int_equal(size_of(wal), size);
    assert_int_equal(fixture_number(fixture->store->db, "SELECT max(seq) FROM log"), 7);
    // A reader in the middle of its work keeps the log from being emptied, and that is said.
    sqlite3 *raw = fixture_raw(fixture->path);
    fixture_exec(raw, "BEGIN; SELECT count(*) FROM log");
    fixture_append(fixture, ENTRY_SIGN_ON, 0);
    sqlite3_busy_timeout(fixture->store->db, 10);
    assert_int_equal(store_checkpoint(fixture->store), STORE_BUSY);
    fixture_exec(raw, "COMMIT");
    assert_int_equal(store_checkpoint(fixture->store), STORE_OK);
    sqlite3_close(raw);
    fixture_expect_check(fixture->store);
}

static void looks_for_room(void **state) {
    struct fixture *fixture = *state;
    char ballast[128];
    snprintf(ballast, sizeof ballast, "%s.ballast", fixture->path);
    assert_true(store_room(fixture->store)); // 0 MiB asked for
    assert_int_equal(size_of(ballast), -1);
    setenv("KERFSIDE_ROOM_MB", "1", 1);
    assert_true(store_room(fixture->store));
    fixture_restart(fixture);
    assert_int_equal(size_of(ballast), 1 << 20);
    struct stat file;
    assert_int_equal(stat(ballast, &file), 0);
    assert_true(file.st_blocks * 512 >= 1 << 20); // no hole: the room is really taken
    unlink(ballast);
    assert_int_equal(store_checkpoint(fixture->store), STORE_OK);
    assert_int_equal(size_of(ballast), 1 << 20);
    setenv("KERFSIDE_ROOM_MB", "1000000", 1); // a terabyte
    assert_false(store_room(fixture->store));
    static const char *const nonsense[] = {"", "x", "12x", "-1", "1000001"};
    for (size_t i = 0; i < COUNT(nonsense); i++) {
        setenv("KERFSIDE_ROOM_MB", nonsense[i], 1); // 64 MiB then
        assert_true(store_room(fixture->store));
    }
    setenv("KERFSIDE_ROOM_MB", "0", 1);
}

static void reopens(void **state) {
    struct fixture *fixture = *state;
    char away[160];
    struct entry entry;
    int64_t seq;
    snprintf(away, sizeof away, "%s.away", fixture->path);
    fixture_append(fixture, ENTRY_SIGN_ON, 0);
    assert_int_equal(store_checkpoint(fixture->store), STORE_OK);
    assert_int_equal(store_reopen(fixture->store), STORE_OK);
    entry = fixture_entry(fixture, ENTRY_HOLD, 0);
    // The disk is gone: everything says so, nothing crashes, and later it is found again.
    assert_int_equal(rename(fixture->path, away), 0);
    assert_int_equal(store_reopen(fixture->store), STORE_FAILED);
    assert_int_equal(store_append(fixture->store, &entry), STORE_FAILED);
    assert_int_equal(store_confirmed(fixture->store, entry.confirm_id, &seq), STORE_FAILED);
    assert_int_equal(store_checkpoint(fixture->store), STORE_FAILED);
    assert_int_equal(store_backup(fixture->store, "/tmp/x"), STORE_FAILED);
    struct club club;
    struct club_line line;
    struct log_line row;
    struct store_check check;
    struct day_count day;
    struct log_filter filter = {0};
    int wait;
    assert_int_equal(store_club(fixture->store, 1, &club), STORE_FAILED);
    assert_int_equal(store_clubs(fixture->store, CLUBS_ALL, &line, 1, NULL), -1);
    assert_int_equal(store_log(fixture->store, &filter, 0, &row, 1), -1);
    assert_int_equal(store_check(fixture->store, &check), STORE_FAILED);
    assert_int_equal(store_day(fixture->store, 0, 1, &day), STORE_FAILED);
    assert_int_equal(store_pin_check(fixture->store, SUPERVISOR, "1234", &wait), PIN_FAILED);
    assert_int_equal(rename(away, fixture->path), 0);
    assert_int_equal(store_reopen(fixture->store), STORE_OK);
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    assert_int_equal(entry.seq, 3);
}

// Nothing but the check can tell these.
static void checks_what_estimates_use(void **state) {
    struct fixture *fixture = *state;
    struct store_check check = {0};
    sqlite3 *db = fixture->store->db;
    fixture_expect_check(fixture->store);
    fixture_exec(db, "UPDATE club SET wished_model = 'Alder 11' WHERE id = 5");
    assert_int_equal(store_check(fixture->store, &check), STORE_REFUSED);
    assert_string_equal(check.problem,
                        "A club wishes a shaft model that is not there: club 2042 9");
    fixture_exec(db, "UPDATE club SET wished_model = 'Alder 110' WHERE id = 5;"
                     "INSERT INTO shaft_profile VALUES ('Alder 110', 'S', 1, 0, 20000)");
    assert_int_equal(store_check(fixture->store, &check), STORE_REFUSED);
    assert_string_equal(check.problem, "A profile has too few or too many points: Alder 110 S");
    fixture_exec(db, "INSERT INTO shaft_profile VALUES ('Alder 110', 'S', 1, 10, 20000)");
    fixture_expect_check(fixture->store);
}

// SQLite's own checks know the codes: a wrong check digit, no model or two, a model that is gone.
static void checks_suppliers_codes(void **state) {
    static const struct {
        const char *values, *problem;
    } bad[] = {
        {"'06291041500214', 'Plover 7', NULL, ''", "The file is damaged: CHECK"},
        {"'6291041500213', 'Plover 7', NULL, ''", "The file is damaged: CHECK"},
        {"'0629104150021X', 'Plover 7', NULL, ''", "The file is damaged: CHECK"},
        {"'06291041500213', NULL, NULL, ''", "The file is damaged: CHECK"},
        {"'06291041500213', 'Plover 7', 'Alder 110', ''", "The file is damaged: CHECK"},
        {"'06291041500213', 'Plover 7', NULL, 'S'", "The file is damaged: CHECK"},
        {"'06291041500213', 'Plover 70', NULL, ''",
         "A row refers to something that is not there: table supplier_code"},
        {"'06291041500213', NULL, 'Plover 7', 'S'",
         "A row refers to something that is not there: table supplier_code"},
    };
    struct fixture *fixture = *state;
    for (size_t i = 0; i < COUNT(bad); i++) {
        struct store_check check = {0};
        char sql[160];
        sqlite3 *raw = fixture_raw(fixture->path);
        snprintf(sql, sizeof sql, "INSERT INTO supplier_code VALUES (%s)", bad[i].values);
        assert_int_equal(sqlite3_exec(fixture->store->db, sql, NULL, NULL, NULL) & 0xFF,
                         SQLITE_CONSTRAINT);
        fixture_exec(raw, "PRAGMA ignore_check_constraints = ON");
        fixture_exec(raw, sql);
        assert_int_equal(store_check(fixture->store, &check), STORE_REFUSED);
        if (strncmp(check.problem, bad[i].problem, strlen(bad[i].problem)) != 0) {
            fail_msg("%s: %s", sql, check.problem);
        }
        fixture_exec(raw, "DELETE FROM supplier_code");
        sqlite3_close(raw);
    }
    fixture_exec(fixture->store->db, "INSERT INTO supplier_code VALUES "
                                     "('06291041500213', NULL, 'Alder 110', 'S')");
    fixture_expect_check(fixture->store);
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(copies_everything),
        STEP(copies_nothing_that_is_bad),
        STEP(checkpoints),
        STEP(looks_for_room),
        STEP(reopens),
        STEP(checks_what_estimates_use),
        STEP(checks_suppliers_codes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// Databases of older schemas, as their programs left them, brought up to date.

#include "day.h"
#include "fixture.h"
#include "lock.h"
#include "migrate.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

// Of the last entries of version1.sql and version2.sql, as the programs of those schemas printed
// them.
static const char *const last_hash[] = {
    [1] = "353a9fcfbd751011d269ce6ff67e5c034e445c3928501d919100d39577787831",
    [2] = "69e86a0bdeba48c318cf7e206413c45f6d85e3241e44431a4e1afcde6557244b",
};

static int opened(void **state) {
    static struct fixture fixture;
    fixture_folder(&fixture);
    fixture_version(fixture.path, 1);
    *state = &fixture;
    return 0;
}

static int closed(void **state) {
    fixture_close(*state);
    return 0;
}

static enum store_result open_it(struct fixture *fixture, enum store_mode mode, char *message) {
    return store_open(fixture->path, mode, BENCH, &fixture->store, message, STORE_MESSAGE_MAX);
}

static void opens(struct fixture *fixture) {
    char message[STORE_MESSAGE_MAX] = "";
    if (open_it(fixture, STORE_WRITE, message) != STORE_OK) {
        fail_msg("%s", message);
    }
}

static void closes(struct fixture *fixture) {
    store_close(fixture->store);
    fixture->store = NULL;
}

static const char *beside(const struct fixture *fixture, const char *suffix) {
    static char path[128];
    snprintf(path, sizeof path, "%s%s", fixture->path, suffix);
    return path;
}

static bool there(const struct fixture *fixture, const char *suffix) {
    return access(beside(fixture, suffix), F_OK) == 0;
}

static int64_t ask_file(const char *path, const char *sql) {
    sqlite3 *raw = fixture_raw(path);
    int64_t number = fixture_number(raw, sql);
    sqlite3_close(raw);
    return number;
}

static void put_rows(sqlite3 *db, FILE *out, const char *sql) {
    sqlite3_stmt *rows = NULL;
    if (sqlite3_prepare_v2(db, sql, -1, &rows, NULL) != SQLITE_OK) {
        fail_msg("%s: %s", sql, sqlite3_errmsg(db));
    }
    while (sqlite3_step(rows) == SQLITE_ROW) {
        for (int i = 0; i < sqlite3_column_count(rows); i++) {
            const unsigned char *text = sqlite3_column_text(rows, i);
            fprintf(out, "%d:%d:%s\t", sqlite3_column_type(rows, i), sqlite3_column_bytes(rows, i),
                    text == NULL ? (const unsigned char *)"" : text);
        }
        fputc('\n', out);
    }
    assert_int_equal(sqlite3_finalize(rows), SQLITE_OK);
}

// Every row of every table of a schema, of the columns it has there (but for those that 0010 made a
// table of). To be freed.
static char *old_rows(const char *path, int version) {
    sqlite3 *first = NULL;
    sqlite3_stmt *tables = NULL;
    sqlite3 *db = fixture_raw(path);
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    assert_int_equal(sqlite3_open(":memory:", &first), SQLITE_OK);
    for (int i = 0; i < version; i++) {
        fixture_exec(first, schema_migrations[i].sql);
    }
    assert_int_equal(sqlite3_prepare_v2(first,
                                        "SELECT 'SELECT ' || group_concat(c.name) || ' FROM ' || "
                                        "t.name FROM sqlite_schema AS t, "
                                        "pragma_table_info(t.name) AS c WHERE t.type = 'table' "
                                        "AND NOT (t.name = 'log_quarter' AND c.name LIKE '%_seq') "
                                        "GROUP BY t.name ORDER BY t.name",
                                        -1, &tables, NULL),
                     SQLITE_OK);
    while (sqlite3_step(tables) == SQLITE_ROW) {
        put_rows(db, out, (const char *)sqlite3_column_text(tables, 0));
    }
    sqlite3_finalize(tables);
    sqlite3_close(first);
    sqlite3_close(db);
    fclose(out);
    assert_true(size > 20000);
    return text;
}

// Opens it, and everything is as it was, but of the newest schema.
static void comes_up(struct fixture *fixture, int version, int64_t entries) {
    struct store_check check = {0};
    char hash[2 * ENTRY_HASH_SIZE + 1] = "";
    char *before = old_rows(fixture->path, version);
    opens(fixture);
    assert_int_equal(ask_file(fixture->path, "PRAGMA user_version"), SCHEMA_NEWEST);
    char *after = old_rows(fixture->path, version);
    assert_string_equal(before, after);
    assert_int_equal(store_check(fixture->store, &check), STORE_OK);
    assert_int_equal(check.entries, entries);
    for (size_t i = 0; i < ENTRY_HASH_SIZE; i++) {
        snprintf(hash + 2 * i, 3, "%02x", check.head[i]);
    }
    assert_string_equal(hash, last_hash[version]);
    // Every entry has its facet.
    assert_int_equal(ask_file(fixture->path, "SELECT count(*) FROM log_facet"), entries);
    assert_int_equal(ask_file(fixture->path,
                              "SELECT count(*) FROM log_facet AS e JOIN facet AS f ON f.id = "
                              "e.facet JOIN log AS l ON l.seq = e.seq WHERE f.bench = l.bench AND "
                              "f.worker = l.worker AND f.verdict = l.verdict"),
                     entries);
    // Codes are new, and nothing has one yet.
    assert_int_equal(ask_file(fixture->path, "SELECT count(*) FROM supplier_code"), 0);
    assert_int_equal(ask_file(beside(fixture, BEFORE_NEWEST), "PRAGMA user_version"), version);
    char *kept = old_rows(beside(fixture, BEFORE_NEWEST), version);
    assert_string_equal(before, kept);
    free(before);
    free(after);
    free(kept);
}

static void loses_nothing(void **state) {
    struct fixture *fixture = *state;
    struct club club;
    int64_t id = 0;
    comes_up(fixture, 1, VERSION1_ENTRIES);
    // The new columns know nothing.
    assert_int_equal(store_club_named(fixture->store, "2041", "1", &id), STORE_OK);
    assert_int_equal(store_club(fixture->store, id, &club), STORE_OK);
    assert_int_equal(club.progress.stage, STAGE_DONE);
    assert_true(club.model.balance == LENGTH_UNKNOWN && club.head.inertia == LENGTH_UNKNOWN &&
                club.shaft.raw_frequency == FREQUENCY_UNKNOWN);
    assert_string_equal(club.order.wished_model, "");
    // And the work goes on, with entries old and new.
    fixture->ids = 1000;
    struct entry entry = fixture_entry(fixture, ENTRY_FINAL_SWINGWEIGHT, id);
    strcpy(entry.note, "D3.1");
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    assert_int_equal(entry.seq, VERSION1_ENTRIES + 1);
    assert_int_equal(store_club_named(fixture->store, "2043", "5", &id), STORE_OK);
    assert_int_equal(fixture_club(fixture, id).progress.stage, STAGE_TIP_SHOWN);
    fixture_bring(fixture, id, STAGE_DONE);
    fixture_expect_check(fixture->store);
}

static void loses_nothing_of_0002(void **state) {
    struct fixture *fixture = *state;
    struct code_model model;
    struct club club;
    int64_t id = 0;
    unlink(fixture->path);
    unlink(beside(fixture, "-wal"));
    fixture_version(fixture->path, 2);
    comes_up(fixture, 2, VERSION2_ENTRIES);
    assert_int_equal(store_club_named(fixture->store, "2050", "7", &id), STORE_OK);
    assert_int_equal(store_club(fixture->store, id, &club), STORE_OK);
    assert_string_equal(club.order.wished_model, "Ullock Straight 115");
    assert_int_equal(store_model_of_code(fixture->store, "2008200000095", &model), STORE_NONE);
    fixture_exec(fixture->store->db, "INSERT INTO supplier_code (gtin, shaft_model, flex) VALUES "
                                     "('02008200000095', 'Ullock Straight 115', 'S')");
    assert_int_equal(store_model_of_code(fixture->store, "2008200000095", &model), STORE_OK);
    assert_int_equal(model.parts, fixture_number(fixture->store->db,
                                                 "SELECT count(*) FROM shaft WHERE flex = 'S' AND "
                                                 "model = 'Ullock Straight 115' AND life = 'raw' "
                                                 "AND club IS NULL"));
    assert_true(model.parts >= 3);
    fixture_expect_check(fixture->store);
    fixture_restart(fixture);
    assert_false(there(fixture, BEFORE_NEWEST ".1"));
}

static void keeps_a_copy(void **state) {
    struct fixture *fixture = *state;
    struct stat first, later;
    char *before = old_rows(fixture->path, 1);
    opens(fixture);
    assert_int_equal(ask_file(beside(fixture, BEFORE_NEWEST), "PRAGMA user_version"), 1);
    char *kept = old_rows(beside(fixture, BEFORE_NEWEST), 1);
    assert_string_equal(before, kept);
    assert_false(there(fixture, BEFORE_NEWEST ".part"));
    assert_false(there(fixture, BEFORE_NEWEST "-wal"));
    assert_false(there(fixture, BEFORE_NEWEST ".1"));
    assert_int_equal(stat(beside(fixture, BEFORE_NEWEST), &first), 0);
    // Up to date: no more copies.
    fixture_restart(fixture);
    assert_false(there(fixture, BEFORE_NEWEST ".1"));
    closes(fixture);
    // The same old database again, as after a migration that failed: the copy is kept once.
    unlink(fixture->path);
    unlink(beside(fixture, "-wal"));
    fixture_version(fixture->path, 1);
    opens(fixture);
    assert_false(there(fixture, BEFORE_NEWEST ".1"));
    assert_false(there(fixture, BEFORE_NEWEST ".part"));
    closes(fixture);
    // Another one: both are kept.
    unlink(fixture->path);
    unlink(beside(fixture, "-wal"));
    fixture_version(fixture->path, 1);
    sqlite3 *raw = fixture_raw(fixture->path);
    fixture_exec(raw, "UPDATE shaft SET rack = 'Z9' WHERE ticket = 'S-0001S'");
    sqlite3_close(raw);
    opens(fixture);
    assert_int_equal(ask_file(beside(fixture, BEFORE_NEWEST ".1"),
                              "SELECT count(*) FROM shaft WHERE rack = 'Z9'"),
                     1);
    assert_int_equal(stat(beside(fixture, BEFORE_NEWEST), &later), 0);
    assert_int_equal(first.st_ino, later.st_ino);
    free(before);
    free(kept);
}

// Stays as it was, to the byte, and says why.
static void refuses(struct fixture *fixture, enum store_mode mode, enum store_result wanted,
                    const char *words) {
    char message[STORE_MESSAGE_MAX] = "";
    char *before = old_rows(fixture->path, 1);
    enum store_result result = open_it(fixture, mode, message);
    char *after = old_rows(fixture->path, 1);
    if (result != wanted || strstr(message, words) == NULL) {
        fail_msg("%d: %s", (int)result, message);
    }
    assert_string_equal(before, after);
    assert_int_equal(ask_file(fixture->path, "PRAGMA user_version"), 1);
    assert_false(there(fixture, BEFORE_NEWEST ".part"));
    free(before);
    free(after);
}

static void moves_nothing_without_the_copy(void **state) {
    struct fixture *fixture = *state;
    char suffix[32] = BEFORE_NEWEST;
    for (int i = 0; i < 10; i++) {
        FILE *file = fopen(beside(fixture, suffix), "w");
        assert_non_null(file);
        fputs("something else", file);
        fclose(file);
        snprintf(suffix, sizeof suffix, BEFORE_NEWEST ".%d", i + 1);
    }
    refuses(fixture, STORE_WRITE, STORE_FAILED, "Could not write the copy");
    unlink(beside(fixture, BEFORE_NEWEST ".4"));
    opens(fixture);
    assert_int_equal(ask_file(beside(fixture, BEFORE_NEWEST ".4"), "PRAGMA user_version"), 1);
}

static void moves_nothing_that_is_damaged(void **state) {
    struct fixture *fixture = *state;
    sqlite3 *raw = fixture_raw(fixture->path);
    fixture_strike(raw, "UPDATE log SET note = 'x' WHERE seq = 5");
    sqlite3_close(raw);
    refuses(fixture, STORE_WRITE, STORE_FAILED, "Entry 5: was changed after it was written.");
    assert_false(there(fixture, BEFORE_NEWEST));
}

static void is_not_for_readers(void **state) {
    struct fixture *fixture = *state;
    refuses(fixture, STORE_READ, STORE_REFUSED, "older Kerfside");
    assert_false(there(fixture, BEFORE_NEWEST));
}

// A program that was never started since it came can copy all the same what it may be taken back
// to.
static void can_be_copied(void **state) {
    struct fixture *fixture = *state;
    char message[STORE_MESSAGE_MAX] = "";
    if (open_it(fixture, STORE_COPY, message) != STORE_OK) {
        fail_msg("%s", message);
    }
    assert_int_equal(store_backup(fixture->store, beside(fixture, ".copy")), STORE_OK);
    closes(fixture);
    assert_int_equal(ask_file(beside(fixture, ".copy"), "PRAGMA user_version"), 1);
    assert_int_equal(ask_file(fixture->path, "PRAGMA user_version"), 1);
    assert_false(there(fixture, BEFORE_NEWEST));
}

// Nobody may write between the copy and the change.
static void waits_for_the_lock(void **state) {
    struct migration more[SCHEMA_NEXT] = {
        [SCHEMA_NEWEST] = {SCHEMA_NEXT, "extra", "CREATE TABLE extra (a INTEGER) STRICT"}};
    struct fixture *fixture = *state;
    int fd = lock_open(beside(fixture, ".lock"));
    assert_true(fd >= 0 && lock_take(fd, 0));
    refuses(fixture, STORE_WRITE, STORE_BUSY, ".lock");
    assert_false(there(fixture, BEFORE_NEWEST));
    lock_release(fd);
    opens(fixture);
    sqlite3_set_authorizer(fixture->store->db, NULL, NULL); // as while opening
    fixture->store->lock_wait_ms = 20;
    assert_true(lock_take(fd, 0)); // given back
    assert_int_equal(migrate_run(fixture->store, more, COUNT(more)), STORE_BUSY);
    assert_false(there(fixture, BEFORE_NEXT));
    lock_release(fd);
    assert_int_equal(migrate_run(fixture->store, more, COUNT(more)), STORE_OK);
    assert_int_equal(ask_file(beside(fixture, BEFORE_NEXT), "PRAGMA user_version"), SCHEMA_NEWEST);
    assert_int_equal(ask_file(fixture->path, "PRAGMA user_version"), SCHEMA_NEXT);
    close(fd);
}

// A clock that was set back and on, also over the year 1970: the runs that 0010 finds in a log are
// those that entry by entry make.
static void finds_runs_of_the_clock(void **state) {
    static const char set[] =
        "UPDATE log SET wall_ms = wall_ms + seq * 600000 - iif(seq % 5 = 0, 7200000, 0)"
        " - iif(seq IN (8, 9), wall_ms + 7200000, 0)";
    struct fixture *fixture = *state;
    sqlite3_stmt *rows = NULL;
    sqlite3 *raw = fixture_raw(fixture->path);
    fixture_exec(raw, "DROP TRIGGER log_kept");
    fixture_exec(raw, set);
    for (int i = 1; i < SCHEMA_NEWEST; i++) {
        fixture_exec(raw, schema_migrations[i].sql);
    }
    assert_int_equal(sqlite3_prepare_v2(raw,
                                        "SELECT l.seq, l.wall_ms, s.run, s.quarter, s.first_seq "
                                        "FROM log AS l JOIN log_span AS s "
                                        "ON l.seq BETWEEN s.first_seq AND s.last_seq ORDER BY 1",
                                        -1, &rows, NULL),
                     SQLITE_OK);
    int64_t seq = 0, run = 1, quarter = INT64_MIN, first = 1;
    while (sqlite3_step(rows) == SQLITE_ROW) {
        int64_t of = day_quarter(sqlite3_column_int64(rows, 1));
        run += of < quarter;
        first = of != quarter ? seq + 1 : first;
        quarter = of;
        assert_int_equal(sqlite3_column_int64(rows, 0), ++seq);
        assert_int_equal(sqlite3_column_int64(rows, 2), run);
        assert_int_equal(sqlite3_column_int64(rows, 3), quarter);
        assert_int_equal(sqlite3_column_int64(rows, 4), first);
    }
    assert_int_equal(seq, VERSION1_ENTRIES);
    assert_int_equal(run, 3);
    sqlite3_finalize(rows);
    sqlite3_close(raw);
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(loses_nothing),
        STEP(loses_nothing_of_0002),
        STEP(finds_runs_of_the_clock),
        STEP(keeps_a_copy),
        STEP(moves_nothing_without_the_copy),
        STEP(moves_nothing_that_is_damaged),
        STEP(is_not_for_readers),
        STEP(can_be_copied),
        STEP(waits_for_the_lock),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// A database that another program changed is refused, and what was changed is named.

#include "check.h"
#include "fixture.h"
#include "schema.h"
#include "schema_check.h"

#include <sodium.h>
#include <stdio.h>
#include <time.h>
#include <unistd.h>

static struct fixture fixture;
static char message[STORE_MESSAGE_MAX];

static int opened(void **state) {
    (void)state;
    fixture_open(&fixture);
    fixture_bring(&fixture, 3, STAGE_TIP_CUT);
    store_close(fixture.store);
    fixture.store = NULL;
    return 0;
}

static int closed(void **state) {
    (void)state;
    fixture_close(&fixture);
    return 0;
}

static void change(const char *sql) {
    sqlite3 *raw = fixture_raw(fixture.path);
    fixture_exec(raw, sql);
    sqlite3_close(raw);
}

// Each with what it is undone by, so that all happen to one database.
static const struct {
    const char *change, *object, *what, *undo;
} changes[] = {
    {"CREATE TRIGGER spy AFTER INSERT ON log BEGIN UPDATE worker SET role = 'supervisor'; END",
     "trigger \"spy\"", "was not made by Kerfside", "DROP TRIGGER spy"},
    {"CREATE VIEW \"a view\" AS SELECT 1", "view \"a view\"", "was not made by Kerfside",
     "DROP VIEW \"a view\""},
    {"CREATE TABLE notes (a)", "table \"notes\"", "was not made by Kerfside", "DROP TABLE notes"},
    {"CREATE INDEX slow ON log (note)", "index \"slow\"", "was not made by Kerfside",
     "DROP INDEX slow"},
    {"DROP TRIGGER log_kept", "trigger \"log_kept\"", "is missing",
     "CREATE TRIGGER log_kept BEFORE UPDATE ON log BEGIN\n    SELECT RAISE(ABORT, 'a log entry "
     "never changes: write a new one that refers to it');\nEND"},
    {"DROP TRIGGER log_kept; CREATE TRIGGER log_kept BEFORE UPDATE ON log BEGIN SELECT 1; END",
     "trigger \"log_kept\"", "is not as Kerfside made it",
     "DROP TRIGGER log_kept; CREATE TRIGGER log_kept BEFORE UPDATE ON log BEGIN\n    SELECT "
     "RAISE(ABORT, 'a log entry never changes: write a new one that refers to it');\nEND"},
    {"ALTER TABLE pin ADD COLUMN plain TEXT", "table \"pin\"", "is not as Kerfside made it",
     "ALTER TABLE pin DROP COLUMN plain"},
};

static void expect_refused(enum store_mode mode, const char *object, const char *what) {
    struct store *store = NULL;
    char words[160];
    snprintf(words, sizeof words, "%s %s.", object, what);
    assert_int_equal(store_open(fixture.path, mode, BENCH, &store, message, sizeof message),
                     STORE_REFUSED);
    if (strstr(message, words) == NULL || strstr(message, "kerfside restore") == NULL ||
        strstr(message, fixture.path) == NULL) {
        fail_msg("no \"%s\" in: %s", words, message);
    }
}

static void expect_opened(void) {
    struct store *store = NULL;
    if (store_open(fixture.path, STORE_READ, BENCH, &store, message, sizeof message) != STORE_OK) {
        fail_msg("%s", message);
    }
    store_close(store);
}

static void names_what_was_changed(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT(changes); i++) {
        expect_opened();
        change(changes[i].change);
        expect_refused(STORE_READ, changes[i].object, changes[i].what);
        expect_refused(STORE_WRITE, changes[i].object, changes[i].what);
        expect_refused(STORE_CREATE, changes[i].object, changes[i].what);
        change(changes[i].undo);
    }
    expect_opened();
}

// Nothing is written to it: neither an entry nor a migration.
static void writes_nothing(void **state) {
    (void)state;
    store_close(fixture.store);
    fixture.store = NULL;
    assert_int_equal(unlink(fixture.path), 0);
    fixture_version(fixture.path, 2);
    change("CREATE TRIGGER spy AFTER UPDATE ON club BEGIN SELECT 1; END");
    expect_refused(STORE_WRITE, "trigger \"spy\"", "was not made by Kerfside");
    sqlite3 *raw = fixture_raw(fixture.path);
    assert_int_equal(fixture_number(raw, "PRAGMA user_version"), 2);
    sqlite3_close(raw);
}

// SQLite keeps an altered text only for somebody who means it.
static void sees_a_schema_edited_by_hand(void **state) {
    (void)state;
    change("PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, "
           "'CHECK (refers < seq)', '') WHERE name = 'log'");
    expect_refused(STORE_READ, "table \"log\"", "is not as Kerfside made it");
}

// Every schema that ever was has its digest, and none of them changes.
static void knows_every_version(void **state) {
    (void)state;
    for (int64_t version = 0; version <= (int64_t)schema_migration_count; version++) {
        struct store store = {.db = NULL};
        char words[2 * DIGEST_SIZE + 1];
        uint8_t hash[DIGEST_SIZE];
        assert_int_equal(sqlite3_open(":memory:", &store.db), SQLITE_OK);
        for (int64_t i = 0; i < version; i++) {
            fixture_exec(store.db, schema_migrations[i].sql);
        }
        assert_int_equal(schema_digest(&store, hash), STORE_OK);
        sodium_bin2hex(words, sizeof words, hash, sizeof hash);
        if (!schema_known(version, hash)) {
            fail_msg("schema %d: the digests of schema_check.c need the line \"%s\", at that place",
                     (int)version, words);
        }
        sqlite3_close(store.db);
    }
}

static double now_ms(void) {
    struct timespec now;
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

static void takes_no_time(void **state) {
    (void)state;
    double best = 1e9;
    fixture_restart(&fixture);
    sqlite3_set_authorizer(fixture.store->db, NULL, NULL);
    for (int i = 0; i < 20; i++) {
        double start = now_ms();
        assert_int_equal(schema_check(fixture.store, (int64_t)schema_migration_count), STORE_OK);
        double took = now_ms() - start;
        best = took < best ? took : best;
    }
    print_message("%.3f ms\n", best);
    assert_true(best < 10); // 0.2 without a sanitizer; comparing object by object takes some 5
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(names_what_was_changed),
        STEP(writes_nothing),
        STEP(sees_a_schema_edited_by_hand),
        cmocka_unit_test(knows_every_version),
        STEP(takes_no_time),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

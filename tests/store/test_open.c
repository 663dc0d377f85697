// Opening: settings, modes, files that are not ours, migrations, the write lock.

#include "fixture.h"
#include "lock.h"
#include "migrate.h"
#include "query.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

static enum store_result try_open(const char *path, enum store_mode mode, char *message) {
    struct store *store = NULL;
    enum store_result result = store_open(path, mode, BENCH, &store, message, STORE_MESSAGE_MAX);
    if (result == STORE_OK) {
        store_close(store);
    } else {
        assert_null(store);
        assert_true(strlen(message) > 20);
    }
    return result;
}

static void makes_a_database(void **state) {
    struct fixture fixture;
    (void)state;
    fixture_open(&fixture);
    assert_string_equal(store_path(fixture.store), fixture.path);
    sqlite3 *raw = fixture_raw(fixture.path);
    assert_int_equal(fixture_number(raw, "PRAGMA application_id"), 0x4b455246);
    assert_int_equal(fixture_number(raw, "PRAGMA user_version"), schema_migration_count);
    assert_int_equal(fixture_number(raw, "SELECT count(*) FROM log WHERE kind = 'genesis' AND "
                                         "bench = 'Bench 1' AND length(note) = 32"),
                     1);
    // Every table is STRICT.
    assert_int_equal(fixture_number(raw, "SELECT count(*) FROM pragma_table_list WHERE "
                                         "schema = 'main' AND type = 'table' AND NOT strict AND "
                                         "name NOT LIKE 'sqlite_%'"),
                     0);
    sqlite3_close(raw);
    fixture_restart(&fixture); // no second genesis
    assert_int_equal(fixture_number(fixture.store->db, "SELECT count(*) FROM log"), 1);
    fixture_close(&fixture);
}

static void two_databases_differ(void **state) {
    struct fixture a;
    struct fixture b;
    struct store_check first;
    struct store_check second;
    (void)state;
    fixture_open(&a);
    fixture_open(&b);
    assert_int_equal(store_check(a.store, &first), STORE_OK);
    assert_int_equal(store_check(b.store, &second), STORE_OK);
    assert_string_not_equal(first.incarnation, second.incarnation);
    fixture_close(&a);
    fixture_close(&b);
}

// SQLite documentation, pragma.html and c3ref: the values as each pragma gives them back.
static void sets_everything(void **state) {
    static const struct {
        const char *pragma;
        int64_t value;
    } expected[] = {
        {"PRAGMA synchronous", 3},        {"PRAGMA foreign_keys", 1},
        {"PRAGMA recursive_triggers", 1}, {"PRAGMA cell_size_check", 1},
        {"PRAGMA mmap_size", 0},          {"PRAGMA wal_autocheckpoint", 0},
        {"PRAGMA trusted_schema", 0},     {"PRAGMA journal_size_limit", 16777216},
        {"PRAGMA busy_timeout", 5000},    {"PRAGMA query_only", 0},
        {"PRAGMA secure_delete", 1},      {"PRAGMA temp_store", 2},
    };
    struct fixture fixture;
    (void)state;
    fixture_open(&fixture);
    sqlite3 *db = fixture.store->db;
    sqlite3_set_authorizer(db, NULL, NULL);
    for (size_t i = 0; i < COUNT(expected); i++) {
        assert_int_equal(fixture_number(db, expected[i].pragma), expected[i].value);
    }
    sqlite3_stmt *journal = NULL;
    assert_int_equal(sqlite3_prepare_v2(db, "PRAGMA journal_mode", -1, &journal, NULL), 0);
    assert_int_equal(sqlite3_step(journal), SQLITE_ROW);
    assert_string_equal((const char *)sqlite3_column_text(journal, 0), "wal");
    sqlite3_finalize(journal);
    assert_int_equal(sqlite3_limit(db, SQLITE_LIMIT_ATTACHED, -1), 0);
    assert_int_equal(sqlite3_limit(db, SQLITE_LIMIT_TRIGGER_DEPTH, -1), 10);
    int defensive = 0;
    sqlite3_db_config(db, SQLITE_DBCONFIG_DEFENSIVE, -1, &defensive);
    assert_int_equal(defensive, 1);
    fixture_close(&fixture);
}

static void guards_the_schema(void **state) {
    static const char *const forbidden[] = {
        "DROP TABLE log",
        "DROP TRIGGER log_kept",
        "ALTER TABLE log ADD COLUMN x",
        "CREATE TABLE x (a)",
        "CREATE TEMP TABLE x (a)",
        "CREATE VIEW x AS SELECT 1",
        "ATTACH ':memory:' AS x",
        "PRAGMA recursive_triggers = OFF",
        "PRAGMA synchronous = OFF",
        "PRAGMA writable_schema = ON",
        "UPDATE log SET note = 'x'",
        "DELETE FROM log",
    };
    struct fixture fixture;
    (void)state;
    fixture_open(&fixture);
    for (size_t i = 0; i < COUNT(forbidden); i++) {
        assert_int_equal(sqlite3_exec(fixture.store->db, forbidden[i], NULL, NULL, NULL),
                         SQLITE_AUTH);
    }
    fixture_close(&fixture);
}

// A value that was forgotten would be NULL, and a statement that finds nothing looks like an
// answer.
static void takes_as_many_values_as_it_needs(void **state) {
    struct fixture fixture;
    (void)state;
    fixture_open(&fixture);
    for (int count = 0; count < 4; count++) {
        struct query query = query_open(fixture.store, STATEMENT_CLUB_NAMED);
        for (int i = 0; i < count; i++) {
            query_bind_text(&query, i == 0 ? "2042" : "7");
        }
        assert_int_equal(query_step(&query), count == 2);
        enum store_result result = query_end(&query, "try it");
        assert_int_equal(result, count == 2 ? STORE_OK : STORE_FAILED);
    }
    struct query query = query_open(fixture.store, STATEMENT_CLUB_NAMED);
    query_bind_text(&query, "2042");
    query_step(&query);
    query_end(&query, "try it");
    assert_string_equal(store_message(fixture.store),
                        "Could not try it: a fault in the program, 1 values for 2.");
    fixture_close(&fixture);
}

static void reads_only(void **state) {
    struct fixture fixture;
    struct store *reader = NULL;
    char message[STORE_MESSAGE_MAX];
    (void)state;
    fixture_open(&fixture);
    fixture_append(&fixture, ENTRY_TIP_SHOWN, 3);
    assert_int_equal(store_open(fixture.path, STORE_READ, BENCH, &reader, message, sizeof message),
                     STORE_OK);
    struct entry entry = fixture_entry(&fixture, ENTRY_SIGN_ON, 0);
    assert_int_equal(store_append(reader, &entry), STORE_FAILED);
    assert_non_null(strstr(store_message(reader), "reading only"));
    assert_int_equal(store_pin_set(reader, SUPERVISOR, "1234"), STORE_FAILED);
    assert_int_equal(store_checkpoint(reader), STORE_FAILED);
    assert_int_equal(store_entry(reader, 2, &entry), STORE_OK);
    assert_int_equal(sqlite3_exec(reader->db, "DELETE FROM worker", NULL, NULL, NULL) & 0xFF,
                     SQLITE_READONLY);
    store_close(reader);
    fixture_close(&fixture);
}

static void refuses_foreign_files(void **state) {
    struct fixture fixture;
    char message[STORE_MESSAGE_MAX];
    char other[160];
    (void)state;
    fixture_open(&fixture);
    // A newer schema.
    sqlite3 *raw = fixture_raw(fixture.path);
    fixture_exec(raw, "PRAGMA user_version = 9999");
    assert_int_equal(try_open(fixture.path, STORE_WRITE, message), STORE_REFUSED);
    assert_non_null(strstr(message, "newer"));
    assert_non_null(strstr(message, fixture.path));
    assert_int_equal(try_open(fixture.path, STORE_READ, message), STORE_REFUSED);
    // An older one may not be changed by reading.
    fixture_exec(raw, "PRAGMA user_version = 0");
    assert_int_equal(try_open(fixture.path, STORE_READ, message), STORE_REFUSED);
    assert_non_null(strstr(message, "older"));
    // Somebody else's database stays as it was.
    snprintf(other, sizeof other, "%s/other.db", fixture.folder);
    sqlite3_close(raw);
    assert_int_equal(sqlite3_open(other, &raw), SQLITE_OK);
    fixture_exec(raw, "CREATE TABLE songs (name)");
    for (int mode = STORE_READ; mode <= STORE_CREATE; mode++) {
        assert_int_equal(try_open(other, (enum store_mode)mode, message), STORE_REFUSED);
        assert_non_null(strstr(message, "no Kerfside database"));
    }
    fixture_exec(raw, "PRAGMA application_id = 7");
    assert_int_equal(try_open(other, STORE_CREATE, message), STORE_REFUSED);
    assert_int_equal(fixture_number(raw, "SELECT count(*) FROM sqlite_schema"), 1);
    sqlite3_stmt *journal = NULL;
    assert_int_equal(sqlite3_prepare_v2(raw, "PRAGMA journal_mode", -1, &journal, NULL), 0);
    assert_int_equal(sqlite3_step(journal), SQLITE_ROW);
    assert_string_equal((const char *)sqlite3_column_text(journal, 0), "delete");
    sqlite3_finalize(journal);
    sqlite3_close(raw);
    fixture_close(&fixture);
}

static void refuses_what_is_no_database(void **state) {
    struct fixture fixture;
    char message[STORE_MESSAGE_MAX];
    char path[160];
    (void)state;
    fixture_folder(&fixture);
    assert_int_equal(try_open(fixture.path, STORE_WRITE, message), STORE_FAILED); // not there
    assert_int_equal(try_open(fixture.path, STORE_READ, message), STORE_FAILED);
    assert_int_not_equal(access(fixture.path, F_OK), 0);
    assert_int_equal(try_open("/nowhere/at/all.db", STORE_CREATE, message), STORE_FAILED);
    assert_non_null(strstr(message, "/nowhere/at/all.db"));
    assert_int_equal(try_open("", STORE_CREATE, message), STORE_FAILED);
    assert_int_equal(try_open(fixture.folder, STORE_CREATE, message), STORE_FAILED);

    FILE *file = fopen(fixture.path, "w");
    assert_non_null(file);
    for (int i = 0; i < 2000; i++) {
        fputs("no database ", file);
    }
    fclose(file);
    assert_int_equal(try_open(fixture.path, STORE_WRITE, message), STORE_FAILED);
    assert_non_null(strstr(message, "damaged"));
    assert_int_equal(truncate(fixture.path, 0), 0);
    assert_int_equal(try_open(fixture.path, STORE_WRITE, message), STORE_REFUSED); // empty
    assert_int_equal(try_open(fixture.path, STORE_CREATE, message), STORE_OK);

    snprintf(path, sizeof path, "%s/link.db", fixture.folder);
    assert_int_equal(symlink(fixture.path, path), 0);
    assert_int_equal(try_open(path, STORE_WRITE, message), STORE_FAILED);
    fixture_close(&fixture);
}

// A folder reached through a link is fine, and a later change of folder does no harm.
static void keeps_its_path(void **state) {
    struct fixture fixture;
    char link[160];
    char path[200];
    char message[STORE_MESSAGE_MAX];
    struct store *store = NULL;
    (void)state;
    fixture_open(&fixture);
    snprintf(link, sizeof link, "%s/door", fixture.folder);
    snprintf(path, sizeof path, "%s/shop.db", link);
    assert_int_equal(symlink(fixture.folder, link), 0);
    assert_int_equal(store_open(path, STORE_WRITE, BENCH, &store, message, sizeof message),
                     STORE_OK);
    assert_string_equal(store_path(store), fixture.path);
    assert_int_equal(chdir("/"), 0);
    assert_int_equal(store_reopen(store), STORE_OK);
    store_close(store);
    fixture_close(&fixture);
}

static void migrates_whole_or_not_at_all(void **state) {
    static const struct migration bad[SCHEMA_NEXT + 1] = {
        [SCHEMA_NEWEST] = {SCHEMA_NEXT, "first", "CREATE TABLE extra (a INTEGER) STRICT"},
        [SCHEMA_NEXT] = {
            SCHEMA_NEXT + 1, "second",
            "CREATE TABLE seventh (a INTEGER) STRICT; INSERT INTO nowhere VALUES (1)"}};
    struct fixture fixture;
    (void)state;
    fixture_open(&fixture);
    sqlite3 *db = fixture.store->db;
    sqlite3_set_authorizer(db, NULL, NULL);
    int64_t shipped = fixture_number(db, "PRAGMA user_version");
    assert_int_equal(shipped, SCHEMA_NEWEST);
    assert_int_not_equal(migrate_run(fixture.store, bad, COUNT(bad)), STORE_OK);
    char number[16];
    snprintf(number, sizeof number, "%04d", SCHEMA_NEXT + 1);
    assert_non_null(strstr(store_message(fixture.store), number));
    assert_int_equal(fixture_number(db, "PRAGMA user_version"), SCHEMA_NEXT); // each on its own
    assert_int_equal(fixture_number(db, "SELECT count(*) FROM sqlite_schema WHERE name IN "
                                        "('extra', 'seventh')"),
                     1);
    assert_true(sqlite3_get_autocommit(db));
    assert_int_equal(fixture_number(db, "SELECT count(*) FROM log"), 1); // nothing lost
    fixture_close(&fixture);
}

// The files of db/, compiled in, in order and without a gap.
static void migrates_numbered_files(void **state) {
    (void)state;
    assert_true(schema_migration_count > 0);
    for (size_t i = 0; i < schema_migration_count; i++) {
        assert_int_equal(schema_migrations[i].number, i + 1);
        assert_true(strlen(schema_migrations[i].sql) > 0);
    }
}

// --- the write lock ----------------------------------------------------------------------------

static int lock_of(const struct fixture *fixture) {
    char path[128];
    snprintf(path, sizeof path, "%s.lock", fixture->path);
    int fd = lock_open(path);
    assert_true(fd >= 0);
    return fd;
}

// Nothing is written and nothing checkpointed while somebody else has the lock.
static void waits_for_the_lock(void **state) {
    struct fixture fixture;
    char message[STORE_MESSAGE_MAX];
    int wait_s;
    (void)state;
    fixture_open(&fixture);
    int fd = lock_of(&fixture);
    struct entry entry = fixture_entry(&fixture, ENTRY_SIGN_ON, 0);
    assert_true(lock_take(fd, 0));
    fixture.store->lock_wait_ms = 20;
    assert_int_equal(store_append(fixture.store, &entry), STORE_BUSY);
    assert_int_equal(entry.seq, 0);
    assert_int_equal(store_checkpoint(fixture.store), STORE_BUSY);
    assert_int_equal(store_pin_set(fixture.store, SUPERVISOR, "1234"), STORE_BUSY);
    assert_int_equal(store_pin_check(fixture.store, SUPERVISOR, "1234", &wait_s), PIN_NOT_SET);
    assert_int_equal(store_pin_check(fixture.store, BUILDER, "1234", &wait_s), PIN_FAILED);
    assert_int_equal(connection_begin(fixture.store), STORE_BUSY);
    assert_int_equal(fixture_number(fixture.store->db, "SELECT count(*) FROM log"), 1);
    assert_int_equal(try_open(fixture.path, STORE_READ, message), STORE_OK); // reading goes on
    lock_release(fd);
    assert_int_equal(store_append(fixture.store, &entry), STORE_OK);
    assert_int_equal(store_checkpoint(fixture.store), STORE_OK);
    close(fd);
    fixture_close(&fixture);
}

struct witness {
    int fd;
    int commits;
    int unlocked;
};

static int on_commit(void *context) {
    struct witness *witness = context;
    witness->commits++;
    if (lock_take(witness->fd, 0)) {
        witness->unlocked++;
        lock_release(witness->fd);
    }
    return 0;
}

// Every commit happens inside the lock, and the lock is free between them.
static void commits_inside_the_lock(void **state) {
    struct fixture fixture;
    int wait_s;
    (void)state;
    fixture_open(&fixture);
    struct witness witness = {.fd = lock_of(&fixture)};
    sqlite3_commit_hook(fixture.store->db, on_commit, &witness);
    fixture_bring(&fixture, 3, STAGE_DONE);
    assert_int_equal(store_pin_set(fixture.store, SUPERVISOR, "1234"), STORE_OK);
    assert_int_equal(store_pin_check(fixture.store, SUPERVISOR, "1234", &wait_s), PIN_RIGHT);
    assert_int_equal(witness.commits, 5 + 1 + 2);
    assert_int_equal(witness.unlocked, 0);
    assert_true(lock_take(witness.fd, 0));
    lock_release(witness.fd);
    // A refusal gives the lock back too.
    struct entry entry = fixture_entry(&fixture, ENTRY_TIP_SHOWN, 3);
    assert_int_equal(store_append(fixture.store, &entry), STORE_REFUSED);
    assert_true(lock_take(witness.fd, 0));
    close(witness.fd);
    fixture_close(&fixture);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(makes_a_database),
        cmocka_unit_test(two_databases_differ),
        cmocka_unit_test(sets_everything),
        cmocka_unit_test(guards_the_schema),
        cmocka_unit_test(takes_as_many_values_as_it_needs),
        cmocka_unit_test(reads_only),
        cmocka_unit_test(refuses_foreign_files),
        cmocka_unit_test(refuses_what_is_no_database),
        cmocka_unit_test(keeps_its_path),
        cmocka_unit_test(migrates_whole_or_not_at_all),
        cmocka_unit_test(migrates_numbered_files),
        cmocka_unit_test(waits_for_the_lock),
        cmocka_unit_test(commits_inside_the_lock),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

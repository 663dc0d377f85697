// Nothing in the log is changed or removed, and if it is all the same, the check names the entry.

#include "fixture.h"

#include <stdio.h>
#include <stdlib.h>

// Club 3 all the way with a withdrawal and a hold: 10 entries with genesis.
static int opened(void **state) {
    static struct fixture fixture;
    fixture_open(&fixture);
    fixture_append(&fixture, ENTRY_SIGN_ON, 0);
    fixture_bring(&fixture, 3, STAGE_TIP_CUT);
    struct entry entry = fixture_entry(&fixture, ENTRY_WITHDRAW, 3);
    entry.refers = fixture_club(&fixture, 3).progress.tip_seq;
    assert_int_equal(store_append(fixture.store, &entry), STORE_OK);
    entry = fixture_entry(&fixture, ENTRY_HOLD, 3);
    strcpy(entry.cause, "not_safe");
    strcpy(entry.note, "collector full");
    entry.chart_revision = 2;
    strcpy(entry.plan, "kerfside-plan\t1\n");
    assert_int_equal(store_append(fixture.store, &entry), STORE_OK);
    fixture_bring(&fixture, 3, STAGE_DONE);
    *state = &fixture;
    return 0;
}

static int closed(void **state) {
    fixture_close(*state);
    return 0;
}

// By one thread, and every third time, which meets every entry, by two: both find the same.
static enum store_result check_now(const struct fixture *fixture, struct store_check *ret_check) {
    struct store_check shared = {0};
    memset(ret_check, 0, sizeof *ret_check);
    static int times;
    int64_t alone = fixture->store->shared_from;
    enum store_result result = store_check(fixture->store, ret_check);
    if (times++ % 3 != 0) {
        return result;
    }
    fixture->store->shared_from = 1;
    assert_int_equal(store_check(fixture->store, &shared), result);
    assert_int_equal(shared.entries, ret_check->entries);
    assert_int_equal(shared.first_bad, ret_check->first_bad);
    assert_string_equal(shared.problem, ret_check->problem);
    assert_string_equal(shared.incarnation, ret_check->incarnation);
    assert_memory_equal(shared.head, ret_check->head, sizeof shared.head);
    fixture->store->shared_from = alone;
    return result;
}

static enum store_result check(struct fixture *fixture, struct store_check *ret_check) {
    fixture_restart(fixture);
    return check_now(fixture, ret_check);
}

static void is_append_only(void **state) {
    static const char *const attempts[] = {
        "UPDATE log SET note = 'x' WHERE seq = 2",
        "UPDATE OR REPLACE log SET seq = 2 WHERE seq = 3",
        "DELETE FROM log WHERE seq = 5",
        "DELETE FROM log",
        // INSERT OR REPLACE removes the row it collides with: by its number ...
        "INSERT OR REPLACE INTO log SELECT seq, kind, wall_ms, mono_ms, boot, bench, 'W-2H', "
        "club_id, build, club, head, shaft, confirm_id, attempt, refers, planned, made, verdict, "
        "cause, note, chart_revision, plan, hash FROM log WHERE seq = 2",
        // ... or by its confirm id, though it takes the next number.
        "INSERT OR REPLACE INTO log SELECT (SELECT max(seq) + 1 FROM log), kind, wall_ms, "
        "mono_ms, boot, bench, worker, club_id, build, club, head, shaft, confirm_id, attempt, "
        "refers, planned, made, verdict, cause, note, chart_revision, plan, hash FROM log "
        "WHERE seq = 2",
        // A gap, and a number before the end.
        "INSERT INTO log SELECT (SELECT max(seq) + 2 FROM log), kind, wall_ms, mono_ms, boot, "
        "bench, worker, club_id, build, club, head, shaft, '000000000000000000000000000000ff', "
        "attempt, refers, planned, made, verdict, cause, note, chart_revision, plan, hash "
        "FROM log WHERE seq = 2",
        "INSERT INTO log SELECT 0, kind, wall_ms, mono_ms, boot, bench, worker, club_id, build, "
        "club, head, shaft, '000000000000000000000000000000fe', attempt, NULL, planned, made, "
        "verdict, cause, note, chart_revision, plan, hash FROM log WHERE seq = 2",
    };
    struct fixture *fixture = *state;
    struct store_check before;
    struct store_check after;
    assert_int_equal(check(fixture, &before), STORE_OK);
    assert_int_equal(before.entries, 10);
    sqlite3_set_authorizer(fixture->store->db, NULL, NULL); // leave the triggers alone
    for (size_t i = 0; i < COUNT(attempts); i++) {
        int code = sqlite3_exec(fixture->store->db, attempts[i], NULL, NULL, NULL);
        if (code != SQLITE_CONSTRAINT_TRIGGER) {
            fail_msg("not stopped by a trigger (%d): %s", code, attempts[i]);
        }
    }
    assert_int_equal(check(fixture, &after), STORE_OK);
    assert_memory_equal(before.head, after.head, sizeof before.head);
    assert_int_equal(after.entries, 10);
}

// --- tampering ---------------------------------------------------------------------------------

// A connection with everything that guards the log switched off; its triggers, by fixture_strike.
static sqlite3 *intruder(const struct fixture *fixture) {
    sqlite3 *raw = fixture_raw(fixture->path);
    fixture_exec(raw, "PRAGMA ignore_check_constraints = ON");
    return raw;
}

static void expect_bad(struct fixture *fixture, int64_t seq, const char *how) {
    struct store_check found;
    enum store_result result = check(fixture, &found);
    if (result != STORE_REFUSED || found.first_bad != seq || found.problem[0] == '\0') {
        fail_msg("%s: result %d, first bad %lld, %s", how, (int)result, (long long)found.first_bad,
                 found.problem);
    }
}

// What must be named: the entry and what is wrong with it. No restart: an empty log would get a new
// genesis.
static void expect_entry(struct fixture *fixture, int64_t seq, const char *words, const char *how) {
    struct store_check found = {0};
    enum store_result result = check_now(fixture, &found);
    if (result != STORE_REFUSED || found.first_bad != seq || strstr(found.problem, words) == NULL) {
        fail_msg("%s: result %d, first bad %lld, %s", how, (int)result, (long long)found.first_bad,
                 found.problem);
    }
}

static void restore(sqlite3 *raw) {
    fixture_strike(raw, "DELETE FROM log; INSERT INTO log SELECT * FROM kept");
}

struct tampering {
    const char *column;
    const char *values[2]; // the second is used where the first is what was there
};

// Every column of every row, one at a time, put back each time.
static void finds_any_changed_field(void **state) {
    static const struct tampering columns[] = {
        {"kind", {"'hold'", "'care'"}},
        {"wall_ms", {"wall_ms + 1", NULL}},
        {"mono_ms", {"mono_ms - 1", NULL}},
        {"boot", {"boot || 'x'", NULL}},
        {"bench", {"'Bench 2'", NULL}},
        {"worker", {"'W-2H'", NULL}},
        {"club_id", {"4", NULL}},
        {"build", {"'2041'", NULL}},
        {"club", {"'8'", NULL}},
        {"head", {"'H-00044'", NULL}},
        {"shaft", {"'S-0004M'", NULL}},
        {"confirm_id", {"'ffffffffffffffffffffffffffffffff'", NULL}},
        {"attempt", {"attempt + 10", NULL}},
        {"refers", {"1", "2"}},
        {"planned", {"ifnull(planned, 0) + 1", NULL}},
        {"made", {"ifnull(made, 0) - 1", NULL}},
        {"verdict", {"'long'", NULL}},
        {"cause", {"cause || ' '", NULL}},
        {"note", {"note || char(0) || 'x'", NULL}}, // hidden behind a NUL
        {"chart_revision", {"chart_revision + 1", NULL}},
        {"plan", {"plan || 'x'", NULL}},
        {"hash", {"zeroblob(32)", NULL}},
    };
    struct fixture *fixture = *state;
    sqlite3 *raw = intruder(fixture);
    int64_t rows = fixture_number(raw, "SELECT max(seq) FROM log");
    fixture_exec(raw, "CREATE TEMP TABLE kept AS SELECT * FROM log");
    // All columns but seq are in the table above.
    assert_int_equal(fixture_number(raw, "SELECT count(*) - 1 FROM pragma_table_info('log')"),
                     COUNT(columns));
    for (size_t i = 0; i < COUNT(columns); i++) {
        for (int64_t seq = 1; seq <= rows; seq++) {
            const struct tampering *one = &columns[i];
            char sql[256];
            int changed = 0;
            fixture_exec(raw, "PRAGMA foreign_keys = OFF");
            for (int value = 0; value < 2 && one->values[value] != NULL; value++) {
                snprintf(sql, sizeof sql,
                         "UPDATE log SET %s = %s WHERE seq = %lld AND %s IS NOT %s", one->column,
                         one->values[value], (long long)seq, one->column, one->values[value]);
                changed = fixture_strike(raw, sql);
                if (changed == 1) {
                    break;
                }
            }
            assert_int_equal(changed, 1);
            expect_bad(fixture, seq, sql);
            snprintf(sql, sizeof sql,
                     "UPDATE log SET %s = (SELECT %s FROM kept WHERE kept.seq = log.seq) "
                     "WHERE seq = %lld",
                     one->column, one->column, (long long)seq);
            fixture_strike(raw, sql);
        }
    }
    sqlite3_close(raw);
    fixture_expect_check(fixture->store);
}

// "Not known" and nought are different facts, and what reads the same must be stored the same: a
// NULL for an empty text or for nought, a nought for a NULL.
static void finds_other_spellings(void **state) {
    static const char *const columns[] = {"kind",           "wall_ms", "mono_ms", "boot",  "bench",
                                          "worker",         "build",   "club",    "head",  "shaft",
                                          "confirm_id",     "attempt", "verdict", "cause", "note",
                                          "chart_revision", "plan",    "hash"};
    static const char *const nullable[] = {"club_id", "refers", "planned", "made"};
    struct fixture *fixture = *state;
    sqlite3 *raw = intruder(fixture);
    char sql[200];
    // The intruder takes the constraints out of the schema too, while the store has it open.
    fixture_exec(raw, "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = "
                      "replace(sql, ' NOT NULL', '') WHERE name = 'log'");
    sqlite3_close(raw);
    raw = fixture_raw(fixture->path);
    fixture_exec(raw, "PRAGMA ignore_check_constraints = ON; PRAGMA foreign_keys = OFF;"
                      "CREATE TEMP TABLE kept AS SELECT * FROM log");
    for (size_t i = 0; i < COUNT(columns) + COUNT(nullable); i++) {
        bool null = i < COUNT(columns);
        snprintf(sql, sizeof sql, "UPDATE log SET %s = %s WHERE seq = 2",
                 null ? columns[i] : nullable[i - COUNT(columns)], null ? "NULL" : "0");
        fixture_strike(raw, sql);
        expect_entry(fixture, 2, "Entry 2: ", sql);
        restore(raw);
    }
    fixture_strike(raw, "UPDATE log SET planned = -9223372036854775807 - 1 WHERE seq = 2");
    expect_entry(fixture, 2, "Entry 2: ", "the number that stands for unknown");
    sqlite3_close(raw);
}

// Every row dropped, the numbers left as they are or closed up; every tail cut off.
static void finds_any_dropped_row(void **state) {
    struct fixture *fixture = *state;
    sqlite3 *raw = intruder(fixture);
    fixture_exec(raw, "PRAGMA foreign_keys = OFF; CREATE TEMP TABLE kept AS SELECT * FROM log");
    for (int seq = 1; seq <= 10; seq++) {
        char sql[200];
        snprintf(sql, sizeof sql, "DELETE FROM log WHERE seq = %d", seq);
        fixture_strike(raw, sql);
        expect_entry(fixture, seq, "missing", sql);
        snprintf(sql, sizeof sql, "UPDATE log SET seq = seq - 1 WHERE seq > %d", seq);
        fixture_strike(raw, sql);
        expect_entry(fixture, seq, seq == 10 ? "missing" : "was changed", sql);
        restore(raw);
        snprintf(sql, sizeof sql, "DELETE FROM log WHERE seq >= %d", seq);
        fixture_strike(raw, sql);
        expect_entry(fixture, seq, seq == 1 ? "empty" : "missing", sql);
        restore(raw);
    }
    sqlite3_close(raw);
    fixture_expect_check(fixture->store);
}

// The review finds entries by their facets: none may be hidden from it, or shown as another's.
static void finds_a_hidden_entry(void **state) {
    static const char *const hide[] = {
        "DELETE FROM log_facet WHERE seq = 4", "UPDATE log_facet SET seq = 999 WHERE seq = 4",
        "UPDATE log_facet SET facet = (SELECT max(id) FROM facet WHERE id <> facet) WHERE seq = 1",
        "UPDATE facet SET worker = 'W-2H' WHERE id = (SELECT facet FROM log_facet WHERE seq = 4)",
        "INSERT INTO log_facet (facet, seq) VALUES (99, 4)"};
    struct fixture *fixture = *state;
    sqlite3 *raw = intruder(fixture);
    for (size_t i = 0; i < COUNT(hide); i++) {
        struct store_check found;
        fixture_exec(raw, "CREATE TEMP TABLE facets AS SELECT * FROM facet;"
                          "CREATE TEMP TABLE lists AS SELECT * FROM log_facet");
        fixture_strike(raw, hide[i]);
        if (check(fixture, &found) != STORE_REFUSED || found.first_bad != 0 ||
            strstr(found.problem, "lists that the review finds entries by") == NULL) {
            fail_msg("%s: %s", hide[i], found.problem);
        }
        fixture_exec(raw, "DELETE FROM log_facet; DELETE FROM facet;"
                          "INSERT INTO facet SELECT * FROM facets;"
                          "INSERT INTO log_facet SELECT * FROM lists;"
                          "DROP TABLE facets; DROP TABLE lists");
        fixture_expect_check(fixture->store);
    }
    sqlite3_close(raw);
}

static void finds_any_swapped_pair(void **state) {
    struct fixture *fixture = *state;
    sqlite3 *raw = intruder(fixture);
    fixture_exec(raw, "PRAGMA foreign_keys = OFF; CREATE TEMP TABLE kept AS SELECT * FROM log");
    for (int one = 1; one < 10; one++) {
        for (int two = one + 1; two <= 10; two++) {
            char sql[200];
            snprintf(sql, sizeof sql,
                     "UPDATE log SET seq = -1 WHERE seq = %d; UPDATE log SET seq = %d WHERE seq = "
                     "%d; UPDATE log SET seq = %d WHERE seq = -1",
                     one, one, two, two);
            fixture_strike(raw, sql);
            expect_entry(fixture, one, "was changed", sql);
            restore(raw);
        }
    }
    sqlite3_close(raw);
    fixture_expect_check(fixture->store);
}

// A copy of any row with a confirm id of its own at any place, the hash as it was.
static void finds_any_inserted_row(void **state) {
    struct fixture *fixture = *state;
    sqlite3 *raw = intruder(fixture);
    fixture_exec(raw, "PRAGMA foreign_keys = OFF; CREATE TEMP TABLE kept AS SELECT * FROM log;"
                      "DROP INDEX log_cut");
    for (int at = 1; at <= 11; at++) {
        for (int of = 1; of <= 10; of++) {
            char sql[600];
            snprintf(sql, sizeof sql,
                     "UPDATE log SET seq = -seq WHERE seq >= %d; UPDATE log SET seq = 1 - seq "
                     "WHERE seq < 0; INSERT INTO log SELECT %d, kind, wall_ms, mono_ms, boot, "
                     "bench, worker, club_id, build, club, head, shaft, "
                     "'000000000000000000000000000000ff', attempt, refers, planned, made, verdict, "
                     "cause, note, chart_revision, plan, hash FROM kept WHERE seq = %d",
                     at, at, of);
            fixture_strike(raw, sql);
            expect_entry(fixture, at, "was changed", sql);
            restore(raw);
        }
    }
    sqlite3_close(raw);
}

// Long enough for the second thread to have its connection before the first is through: it takes
// the end of the log first.
static void two_threads_share_a_long_log(void **state) {
    struct fixture *fixture = *state;
    struct store_check found;
    struct entry holds[STORE_APPEND_MAX];
    for (int i = 0; i < 150; i++) {
        for (size_t k = 0; k < COUNT(holds); k++) {
            holds[k] = fixture_entry(fixture, ENTRY_HOLD, 0);
            strcpy(holds[k].cause, "not_safe");
        }
        assert_int_equal(store_append_all(fixture->store, holds, COUNT(holds)), STORE_OK);
    }
    fixture->store->shared_from = 1;
    fixture_expect_check(fixture->store);
    int64_t last = holds[COUNT(holds) - 1].seq;
    sqlite3 *raw = intruder(fixture);
    for (int64_t seq = last; seq > last - 40; seq -= 13) {
        char sql[120];
        snprintf(sql, sizeof sql, "UPDATE log SET cause = 'not_hafe' WHERE seq = %lld",
                 (long long)seq);
        assert_int_equal(fixture_strike(raw, sql), 1);
        assert_int_equal(store_check(fixture->store, &found), STORE_REFUSED);
        assert_int_equal(found.first_bad, seq);
        snprintf(sql, sizeof sql, "UPDATE log SET cause = 'not_safe' WHERE seq = %lld",
                 (long long)seq);
        assert_int_equal(fixture_strike(raw, sql), 1);
    }
    sqlite3_close(raw);
    fixture_expect_check(fixture->store);
}

// A table whose type was changed behind SQLite's back, and damaged pages.
static void finds_a_damaged_file(void **state) {
    struct fixture *fixture = *state;
    struct store_check found;
    char message[STORE_MESSAGE_MAX];
    assert_int_equal(store_checkpoint(fixture->store), STORE_OK);
    int64_t page = fixture_number(fixture->store->db,
                                  "SELECT rootpage FROM sqlite_schema WHERE name = 'log_shaft'");
    store_close(fixture->store);
    fixture->store = NULL;
    FILE *file = fopen(fixture->path, "r+");
    assert_non_null(file);
    assert_int_equal(fseek(file, (page - 1) * 4096 + 8, SEEK_SET), 0);
    for (int i = 0; i < 200; i++) {
        fputc(0xA5, file);
    }
    fclose(file);
    assert_int_equal(
        store_open(fixture->path, STORE_READ, BENCH, &fixture->store, message, sizeof message),
        STORE_OK);
    memset(&found, 0, sizeof found);
    assert_int_equal(check_now(fixture, &found), STORE_REFUSED);
    assert_true(strlen(found.problem) > 10);
}

static void finds_a_dangling_reference(void **state) {
    struct fixture *fixture = *state;
    struct store_check found;
    sqlite3 *raw = fixture_raw(fixture->path);
    fixture_exec(raw, "PRAGMA foreign_keys = OFF; UPDATE head SET club = 77 WHERE club IS NULL");
    sqlite3_close(raw);
    assert_int_equal(check(fixture, &found), STORE_REFUSED);
    assert_non_null(strstr(found.problem, "head"));
    assert_int_equal(found.first_bad, 0); // the chain is whole
}

static void finds_counts_that_lag(void **state) {
    struct fixture *fixture = *state;
    struct store_check found;
    fixture_exec(fixture->store->db, "UPDATE log_span SET last_seq = 9 WHERE last_seq = 10");
    assert_int_equal(check(fixture, &found), STORE_REFUSED);
    assert_non_null(strstr(found.problem, "do not know the last"));
}

// Outside judge: Python's hashlib over the documented encoding gives the same chain.
static void agrees_with_hashlib(void **state) {
    struct fixture *fixture = *state;
    struct store_check found;
    char command[400];
    char line[128] = "";
    char expected[ENTRY_HASH_SIZE * 2 + 2] = "";
    assert_int_equal(check(fixture, &found), STORE_OK);
    for (size_t i = 0; i < ENTRY_HASH_SIZE; i++) {
        snprintf(expected + 2 * i, 3, "%02x", found.head[i]);
    }
    strcat(expected, "\n");
    snprintf(command, sizeof command, "/usr/bin/python3 %s/tests/store/chain_oracle.py %s",
             KERFSIDE_SOURCE_DIR, fixture->path);
    FILE *pipe = popen(command, "re");
    assert_non_null(pipe);
    assert_non_null(fgets(line, sizeof line, pipe));
    assert_int_equal(pclose(pipe), 0);
    assert_string_equal(line, expected);
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(is_append_only),         STEP(finds_any_changed_field),
        STEP(finds_other_spellings),  STEP(finds_any_dropped_row),
        STEP(finds_any_swapped_pair), STEP(finds_any_inserted_row),
        STEP(finds_a_hidden_entry),   STEP(two_threads_share_a_long_log),
        STEP(finds_a_damaged_file),   STEP(finds_a_dangling_reference),
        STEP(finds_counts_that_lag),  STEP(agrees_with_hashlib),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

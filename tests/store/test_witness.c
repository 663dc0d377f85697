// The log against what was signed: whatever is done to entries that a note covers is found, also by
// somebody who computes every hash anew; what no note covers is said to be so.

#include "fixture.h"
#include "restore.h"
#include "schema.h"
#include "witness.h"

#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

#define FIRST 6  // entries when the first day was signed
#define SECOND 9 // and the second
#define ENTRIES 11

static struct fixture fixture;
static struct witness_key key;
static char path[128];
static char message[1200];

static struct checkpoint sign_log(const char *day) {
    struct entry entry = fixture_entry(&fixture, ENTRY_DAY_SIGNED, 0);
    struct checkpoint checkpoint;
    struct store_check checked;
    strcpy(entry.worker, SUPERVISOR);
    assert_int_equal(store_check(fixture.store, &checked), STORE_OK);
    if (store_sign_day(fixture.store, &checked, &entry, day, &checkpoint) != STORE_OK) {
        fail_msg("%s", store_message(fixture.store));
    }
    assert_int_equal(checkpoint.size, entry.seq);
    return checkpoint;
}

static void sign_day(const char *day) {
    struct witness witness;
    struct checkpoint_note note;
    struct checkpoint checkpoint = sign_log(day);
    witness_key_sign(&key, &checkpoint, &note);
    assert_int_equal(witness_open(path, key.public, &witness, message, sizeof message), WITNESS_OK);
    assert_true(witness_append(&witness, &note, message, sizeof message));
    witness_release(&witness);
}

static int opened(void **state) {
    static const uint8_t seed[WITNESS_SEED_SIZE] = {7};
    (void)state;
    fixture_open(&fixture);
    witness_key_from_seed(seed, &key);
    snprintf(path, sizeof path, "%s/witness", fixture.folder);
    fixture_append(&fixture, ENTRY_SIGN_ON, 0);
    fixture_bring(&fixture, 3, STAGE_BUTT_SHOWN);
    sign_day("2026-03-02");
    fixture_bring(&fixture, 3, STAGE_DONE);
    sign_day("2026-03-03");
    fixture_append(&fixture, ENTRY_SIGN_OFF, 0);
    fixture_append(&fixture, ENTRY_SIGN_ON, 0);
    return 0;
}

// Which day was signed, by whom, and what stands for an entry: as the notes have it.
static void finds_signatures(void **state) {
    struct day_signature found;
    struct witness witness;
    (void)state;
    assert_int_equal(witness_read(path, key.public, &witness, message, sizeof message), WITNESS_OK);
    assert_int_equal(store_signature(fixture.store, NULL, NULL, &found), STORE_OK);
    assert_int_equal(found.checkpoint.size, SECOND);
    assert_string_equal(found.worker, SUPERVISOR);
    assert_memory_equal(&found.checkpoint, &witness.mark[1].note.checkpoint,
                        sizeof found.checkpoint);
    assert_int_equal(store_signature(fixture.store, "2026-03-01", "2026-03-02", &found), STORE_OK);
    assert_memory_equal(&found.checkpoint, &witness.mark[0].note.checkpoint,
                        sizeof found.checkpoint);
    assert_int_equal(store_signature(fixture.store, "2026-03-04", "2026-03-31", &found),
                     STORE_NONE);
    for (int64_t seq = 1; seq <= ENTRIES; seq++) {
        enum store_result result = store_signature_over(fixture.store, seq, &found);
        assert_int_equal(result, seq <= SECOND ? STORE_OK : STORE_NONE);
        assert_true(result != STORE_OK || found.checkpoint.size == (seq <= FIRST ? FIRST : SECOND));
    }
    assert_null(witness_note(&witness, FIRST + 1));
    assert_ptr_equal(witness_note(&witness, FIRST), &witness.mark[0].note);
    witness_release(&witness);
}

static int closed(void **state) {
    (void)state;
    fixture_close(&fixture);
    return 0;
}

static enum store_result check(struct store_check *ret_check, struct witness_finding *ret_finding) {
    struct witness witness;
    memset(ret_check, 0, sizeof *ret_check);
    memset(ret_finding, 0, sizeof *ret_finding);
    assert_int_equal(witness_read(path, key.public, &witness, message, sizeof message), WITNESS_OK);
    enum store_result result = store_check_witness(fixture.store, &witness, ret_check, ret_finding);
    witness_release(&witness);
    return result;
}

static void expect_whole(int64_t entries, int64_t covered) {
    struct store_check found;
    struct witness_finding finding;
    if (check(&found, &finding) != STORE_OK) {
        fail_msg("%s", found.problem);
    }
    assert_int_equal(found.entries, entries);
    assert_int_equal(finding.covered, covered);
}

static void expect_bad(int64_t first, int64_t latest, const char *words, const char *how) {
    struct store_check found;
    struct witness_finding finding;
    enum store_result result = check(&found, &finding);
    if (result != STORE_REFUSED || found.first_bad != first || finding.latest_bad != latest ||
        strstr(found.problem, words) == NULL) {
        fail_msg("%s: result %d, first bad %lld to %lld, %s", how, (int)result,
                 (long long)found.first_bad, (long long)finding.latest_bad, found.problem);
    }
}

// A hash in the log, as SQLite writes it.
static void hash_of(int64_t seq, char hex[2 * ENTRY_HASH_SIZE + 1]) {
    sqlite3_stmt *statement = NULL;
    assert_int_equal(sqlite3_prepare_v2(fixture.store->db,
                                        "SELECT hex(hash) FROM log WHERE seq = ?", -1, &statement,
                                        NULL),
                     SQLITE_OK);
    sqlite3_bind_int64(statement, 1, seq);
    assert_int_equal(sqlite3_step(statement), SQLITE_ROW);
    snprintf(hex, 2 * ENTRY_HASH_SIZE + 1, "%s", (const char *)sqlite3_column_text(statement, 0));
    sqlite3_finalize(statement);
}

static void covers_what_was_signed(void **state) {
    struct entry entry;
    char hex[2 * ENTRY_HASH_SIZE + 1];
    char expected[CHECKPOINT_SHORT_MAX];
    (void)state;
    expect_whole(ENTRIES, SECOND);
    assert_int_equal(store_entry(fixture.store, SECOND, &entry), STORE_OK);
    assert_int_equal(entry.kind, ENTRY_DAY_SIGNED);
    assert_string_equal(entry.worker, SUPERVISOR);
    hash_of(SECOND - 1, hex);
    snprintf(expected, sizeof expected, "2026-03-03 8 %.4s-%.4s-%.4s-%.4s", hex, hex + 4, hex + 8,
             hex + 12);
    assert_string_equal(entry.note, expected);
}

static void is_signed_by_supervisors(void **state) {
    struct entry entry = fixture_entry(&fixture, ENTRY_DAY_SIGNED, 0);
    struct checkpoint checkpoint;
    struct checkpoint untouched;
    (void)state;
    struct store_check checked;
    assert_int_equal(store_check(fixture.store, &checked), STORE_OK);
    memset(&checkpoint, 0x5A, sizeof checkpoint);
    untouched = checkpoint;
    assert_int_equal(store_sign_day(fixture.store, &checked, &entry, "2026-03-04", &checkpoint),
                     STORE_REFUSED);
    assert_int_equal(store_append(fixture.store, &entry), STORE_REFUSED);
    strcpy(entry.worker, SUPERVISOR);
    assert_int_equal(store_sign_day(fixture.store, &checked, &entry, "2026-02-29", &checkpoint),
                     STORE_REFUSED);
    entry.kind = ENTRY_HOLD;
    assert_int_equal(store_sign_day(fixture.store, &checked, &entry, "2026-03-04", &checkpoint),
                     STORE_REFUSED);
    assert_memory_equal(&checkpoint, &untouched, sizeof checkpoint);
    assert_string_equal(entry.note, "");
    expect_whole(ENTRIES, SECOND);
}

// --- tampering by somebody who knows the format --------------------------------------------------

static sqlite3 *intruder(void) {
    sqlite3 *raw = fixture_raw(fixture.path);
    fixture_exec(raw, "DROP TRIGGER IF EXISTS log_kept; DROP TRIGGER IF EXISTS log_stays;"
                      "DROP TRIGGER IF EXISTS log_in_order; PRAGMA foreign_keys = OFF;"
                      "PRAGMA ignore_check_constraints = ON;"
                      "CREATE TEMP TABLE kept AS SELECT * FROM log;"
                      "CREATE TEMP TABLE quarters AS SELECT * FROM log_quarter;"
                      "CREATE TEMP TABLE spans AS SELECT * FROM log_span");
    return raw;
}

static void restore(sqlite3 *raw) {
    fixture_exec(raw, "DELETE FROM log; DELETE FROM log_facet; INSERT INTO log SELECT * FROM kept;"
                      "DELETE FROM log_quarter; INSERT INTO log_quarter SELECT * FROM quarters;"
                      "DELETE FROM log_span; INSERT INTO log_span SELECT * FROM spans");
}

// As the migration itself does.
static void respan(sqlite3 *raw) {
    const char *from = strstr(schema_migrations[9].sql, "INSERT INTO log_span");
    char *sql = strndup(from, (size_t)(strchr(from, ';') - from));
    fixture_exec(raw, "DELETE FROM log_span");
    fixture_exec(raw, sql);
    free(sql);
}

// Computes every hash anew, from the first entry to the last, and puts times, counts and facets
// right.
static void rechain(sqlite3 *raw) {
    uint8_t hash[ENTRY_HASH_SIZE] = {0};
    int64_t last = fixture_number(raw, "SELECT max(seq) FROM log");
    sqlite3_stmt *statement = NULL;
    assert_int_equal(
        sqlite3_prepare_v2(raw, "UPDATE log SET hash = ? WHERE seq = ?", -1, &statement, NULL),
        SQLITE_OK);
    for (int64_t seq = 1; seq <= last; seq++) {
        uint8_t bytes[ENTRY_ENCODED_MAX];
        struct entry entry;
        assert_int_equal(store_entry(fixture.store, seq, &entry), STORE_OK);
        crypto_hash_sha256(hash, bytes, entry_encode(&entry, hash, bytes));
        sqlite3_bind_blob(statement, 1, hash, sizeof hash, SQLITE_TRANSIENT);
        sqlite3_bind_int64(statement, 2, seq);
        assert_int_equal(sqlite3_step(statement), SQLITE_DONE);
        sqlite3_reset(statement);
    }
    sqlite3_finalize(statement);
    fixture_exec(
        raw,
        "DELETE FROM log_quarter; INSERT INTO log_quarter (quarter, clubs_done, cuts, holds) "
        "SELECT wall_ms / 900000, sum(kind = 'measure' AND verdict = 'in'), "
        "sum(kind IN ('tip_cut', 'butt_cut')), sum(kind = 'hold') FROM log GROUP BY 1;"
        "DELETE FROM log_facet; DELETE FROM facet;"
        "INSERT INTO facet (bench, worker, material, verdict) "
        "SELECT DISTINCT bench, worker, '', verdict FROM log;"
        "INSERT INTO log_facet SELECT id, seq FROM log JOIN facet USING (bench, worker, verdict)");
    respan(raw);
}

// Any field of any entry, every hash computed anew: the chain is whole, and the witness is not
// deceived. Behind the last note it has nothing to say.
static void finds_any_rewritten_field(void **state) {
    static const struct {
        const char *column;
        const char *value;
    } columns[] = {
        {"kind", "iif(kind = 'hold', 'care', 'hold')"},
        {"wall_ms", "wall_ms + 1"},
        {"mono_ms", "mono_ms - 1"},
        {"boot", "boot || 'x'"},
        {"bench", "'Bench 2'"},
        {"worker", "'W-3F'"},
        {"club_id", "4"},
        {"build", "'2049'"},
        {"club", "'8'"},
        {"head", "'H-00044'"},
        {"shaft", "'S-0004M'"},
        {"confirm_id", "substr(confirm_id, 2) || 'f'"},
        {"attempt", "attempt + 10"},
        {"refers", "ifnull(refers, 0) + 1"},
        {"planned", "ifnull(planned, 0) + 1"},
        {"made", "ifnull(made, 0) - 1"},
        {"verdict", "'long'"},
        {"cause", "cause || ' '"},
        {"note", "iif(seq = 1, '0123456789abcdef0123456789abcdef', note || 'x')"},
        {"chart_revision", "chart_revision + 1"},
        {"plan", "plan || 'x'"},
    };
    (void)state;
    sqlite3 *raw = intruder();
    rechain(raw);
    expect_whole(ENTRIES, SECOND); // the intruder can do it right
    // All columns but seq and hash are in the table above.
    assert_int_equal(fixture_number(raw, "SELECT count(*) - 2 FROM pragma_table_info('log')"),
                     COUNT(columns));
    for (size_t i = 0; i < COUNT(columns); i++) {
        for (int64_t seq = 1; seq <= ENTRIES; seq++) {
            char sql[256];
            snprintf(sql, sizeof sql, "UPDATE log SET %s = %s WHERE seq = %lld AND %s IS NOT (%s)",
                     columns[i].column, columns[i].value, (long long)seq, columns[i].column,
                     columns[i].value);
            fixture_exec(raw, sql);
            assert_int_equal(sqlite3_changes(raw), 1);
            rechain(raw);
            bool whose =
                strcmp(columns[i].column, "bench") == 0 || strcmp(columns[i].column, "note") == 0;
            if (seq == 1 && whose) {
                expect_bad(0, 0, "of the log", sql);
            } else if (seq == 1 && i == 0) {
                expect_bad(1, 0, "genesis", sql);
            } else if (seq <= FIRST) {
                expect_bad(1, FIRST, "2026-03-02", sql);
            } else if (seq <= SECOND) {
                expect_bad(FIRST + 1, SECOND, "2026-03-03", sql);
            } else {
                expect_whole(ENTRIES, SECOND); // what no note covers is anybody's word
            }
            restore(raw);
        }
    }
    sqlite3_close(raw);
}

// Entries dropped, swapped, added and cut off, every hash computed anew.
static void finds_another_course_of_events(void **state) {
    static const struct {
        const char *sql;
        int64_t first, latest;
        const char *words;
    } rows[] = {
        {"DELETE FROM log WHERE seq = 4; UPDATE log SET seq = seq - 1 WHERE seq > 4", 1, FIRST,
         "rewritten"},
        {"UPDATE log SET seq = -7 WHERE seq = 7; UPDATE log SET seq = 7 WHERE seq = 8;"
         "UPDATE log SET seq = 8 WHERE seq = -7",
         FIRST + 1, SECOND, "rewritten"},
        {"UPDATE log SET seq = -seq WHERE seq > 7; UPDATE log SET seq = 1 - seq WHERE seq < 0;"
         "INSERT INTO log SELECT 8, kind, wall_ms, mono_ms, boot, bench, worker, club_id, build, "
         "club, head, shaft, 'ff' || substr(confirm_id, 3), attempt, refers, planned, made, "
         "verdict, cause, note, chart_revision, plan, hash FROM log WHERE seq = 2",
         FIRST + 1, SECOND, "rewritten"},
    };
    (void)state;
    sqlite3 *raw = intruder();
    for (size_t i = 0; i < COUNT(rows); i++) {
        fixture_exec(raw, rows[i].sql);
        rechain(raw);
        expect_bad(rows[i].first, rows[i].latest, rows[i].words, rows[i].sql);
        restore(raw);
    }
    sqlite3_close(raw);
}

// Behind the last note nobody but a later note could tell, and how many it leaves open is said.
static void finds_any_tail_cut_off(void **state) {
    (void)state;
    sqlite3 *raw = intruder();
    for (int left = ENTRIES - 1; left > 0; left--) {
        char sql[64];
        char words[64];
        snprintf(sql, sizeof sql, "DELETE FROM log WHERE seq > %d", left);
        fixture_exec(raw, sql);
        rechain(raw);
        if (left >= SECOND) {
            expect_whole(left, SECOND);
        } else {
            snprintf(words, sizeof words, "Entries %d to %d are missing", left + 1, SECOND);
            expect_bad(left + 1, 0, words, sql);
        }
        restore(raw);
    }
    sqlite3_close(raw);
}

// The chain is looked at first: what it can name, it names.
static void names_the_entry_the_chain_names(void **state) {
    (void)state;
    sqlite3 *raw = intruder();
    fixture_exec(raw, "UPDATE log SET made = 1 WHERE seq = 4");
    sqlite3_close(raw);
    expect_bad(4, 0, "Entry 4: was changed", "made = 1");
}

// --- other databases -----------------------------------------------------------------------------

static void open_instead(const char *copy) {
    store_close(fixture.store);
    assert_int_equal(store_open(copy, STORE_WRITE, BENCH, &fixture.store, message, sizeof message),
                     STORE_OK);
}

// An older copy put back shows at once, and still when it went on for longer than the log had.
static void finds_an_older_copy(void **state) {
    char copy[128];
    (void)state;
    snprintf(copy, sizeof copy, "%s/copy.db", fixture.folder);
    assert_int_equal(store_backup(fixture.store, copy), STORE_OK);
    sign_day("2026-03-04");
    open_instead(copy);
    expect_bad(ENTRIES + 1, 0, "older copy", "put back");
    fixture_append(&fixture, ENTRY_SIGN_OFF, 0);
    expect_bad(SECOND + 1, ENTRIES + 1, "older copy", "went on");
    fixture_append(&fixture, ENTRY_SIGN_ON, 0);
    expect_bad(SECOND + 1, ENTRIES + 1, "older copy", "went on for longer");
}

// Put back by the command, the check says which entry tells of it, and what to do.
static void explains_a_copy_put_back(void **state) {
    struct restored restored;
    char copy[128];
    (void)state;
    snprintf(copy, sizeof copy, "%s/copy.db", fixture.folder);
    assert_int_equal(store_backup(fixture.store, copy), STORE_OK);
    fixture_append(&fixture, ENTRY_SIGN_OFF, 0);
    fixture_append(&fixture, ENTRY_SIGN_ON, 0);
    sign_day("2026-03-04");
    store_close(fixture.store);
    fixture.store = NULL;
    if (store_restore(copy, fixture.path, BENCH, &restored, message, sizeof message) != STORE_OK) {
        fail_msg("%s", message);
    }
    open_instead(fixture.path);
    expect_bad(ENTRIES + 2, 0, "entry 12 says that a copy was put back", "put back");
    fixture_append(&fixture, ENTRY_SIGN_OFF, 0);
    fixture_append(&fixture, ENTRY_SIGN_ON, 0);
    expect_bad(SECOND + 1, ENTRIES + 3, "keep this witness and begin a new one", "went on");
}

static void finds_another_log(void **state) {
    char other[128];
    (void)state;
    snprintf(other, sizeof other, "%s/other.db", fixture.folder);
    store_close(fixture.store);
    assert_int_equal(
        store_open(other, STORE_CREATE, BENCH, &fixture.store, message, sizeof message), STORE_OK);
    expect_bad(0, 0, "line 1 of the witness is of the log Bench 1", "another incarnation");
}

// Notes in any order say the same, and one that contradicts the others is found.
static void takes_notes_in_any_order(void **state) {
    struct witness witness;
    struct store_check found;
    struct witness_finding finding;
    (void)state;
    assert_int_equal(witness_read(path, key.public, &witness, message, sizeof message), WITNESS_OK);
    witness.mark[0].note.checkpoint.head[31] ^= 1;
    assert_int_equal(store_check_witness(fixture.store, &witness, &found, &finding), STORE_REFUSED);
    assert_int_equal(found.first_bad, 1);
    assert_int_equal(finding.latest_bad, FIRST);
    witness.mark[0] = witness.mark[1];
    assert_int_equal(store_check_witness(fixture.store, &witness, &found, &finding), STORE_OK);
    witness_release(&witness);
}

// --- between the check and the signature ---------------------------------------------------------

static enum store_result sign_after(const struct store_check *checked) {
    struct entry entry = fixture_entry(&fixture, ENTRY_DAY_SIGNED, 0);
    struct checkpoint checkpoint;
    strcpy(entry.worker, SUPERVISOR);
    return store_sign_day(fixture.store, checked, &entry, "2026-03-04", &checkpoint);
}

static void signs_what_was_checked_and_what_came_since(void **state) {
    struct store_check checked;
    (void)state;
    assert_int_equal(store_check(fixture.store, &checked), STORE_OK);
    fixture_append(&fixture, ENTRY_SIGN_OFF, 0);
    fixture_append(&fixture, ENTRY_SIGN_ON, 0);
    assert_int_equal(sign_after(&checked), STORE_OK);
    expect_whole(ENTRIES + 3, SECOND);
}

static void signs_nothing_else(void **state) {
    struct store_check checked;
    struct store_check other;
    (void)state;
    assert_int_equal(store_check(fixture.store, &checked), STORE_OK);
    other = checked;
    other.head[0] ^= 1; // another log of as many entries
    assert_int_equal(sign_after(&other), STORE_REFUSED);
    assert_non_null(strstr(store_message(fixture.store), "not the one that was checked"));
    other = checked;
    other.entries++; // one that was longer
    assert_int_equal(sign_after(&other), STORE_REFUSED);
    fixture_append(&fixture, ENTRY_SIGN_OFF, 0);
    other = checked;
    other.head[0] ^= 1; // and has gone on since
    assert_int_equal(sign_after(&other), STORE_REFUSED);
    fixture_append(&fixture, ENTRY_SIGN_ON, 0);
    sqlite3 *raw = intruder();
    fixture_exec(raw, "UPDATE log SET note = 'x' WHERE seq = (SELECT max(seq) FROM log) - 1");
    assert_int_equal(sign_after(&checked), STORE_REFUSED);
    assert_non_null(strstr(store_message(fixture.store), "Entry 12: was changed"));
    restore(raw);
    sqlite3_close(raw);
    expect_whole(ENTRIES + 2, SECOND);
}

static void ends_when_asked(void **state) {
    struct store_watch watch = {.steps = 0};
    struct store_check found;
    struct witness_finding finding;
    (void)state;
    store_watch(fixture.store, &watch);
    assert_int_equal(check(&found, &finding), STORE_OK);
    assert_int_equal(atomic_load(&watch.steps), 2 * ENTRIES);
    store_stop(fixture.store);
    assert_int_equal(check(&found, &finding), STORE_FAILED);
    store_watch(fixture.store, NULL);
    expect_whole(ENTRIES, SECOND);
}

// --- power ---------------------------------------------------------------------------------------

// The process dies between entry and note: nothing is wrong, and the next note covers both.
static void survives_a_cut_between_entry_and_note(void **state) {
    (void)state;
    store_close(fixture.store);
    fixture.store = NULL;
    pid_t child = fork();
    if (child == 0) {
        open_instead(fixture.path);
        sign_log("2026-03-04");
        _exit(42);
    }
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_int_equal(WEXITSTATUS(status), 42);
    open_instead(fixture.path);
    fixture.ids += 10;
    expect_whole(ENTRIES + 1, SECOND);
    sign_day("2026-03-04");
    expect_whole(ENTRIES + 2, ENTRIES + 2);
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(covers_what_was_signed),
        STEP(finds_signatures),
        STEP(is_signed_by_supervisors),
        STEP(finds_any_rewritten_field),
        STEP(finds_another_course_of_events),
        STEP(finds_any_tail_cut_off),
        STEP(names_the_entry_the_chain_names),
        STEP(finds_an_older_copy),
        STEP(explains_a_copy_put_back),
        STEP(finds_another_log),
        STEP(takes_notes_in_any_order),
        STEP(signs_what_was_checked_and_what_came_since),
        STEP(signs_nothing_else),
        STEP(ends_when_asked),
        STEP(survives_a_cut_between_entry_and_note),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// What the tables say must be what the log says: how far a club is, its parts, what is left of a
// shaft, dry fits, consents, counts. Whoever changes a row without an entry is found, and named.

#include "desk_fixture.h"

#include <stdio.h>

static struct fixture fixture;
static sqlite3 *raw;

static void append(struct entry entry) {
    if (store_append(fixture.store, &entry) != STORE_OK) {
        fail_msg("%s: %s", entry_kind_text(entry.kind), store_message(fixture.store));
    }
}

static void supervise(enum entry_kind kind, int64_t club, const char *cause, const char *note,
                      int64_t refers) {
    struct entry entry = fixture_entry(&fixture, kind, club);
    strcpy(entry.worker, SUPERVISOR);
    snprintf(entry.cause, sizeof entry.cause, "%s", cause);
    snprintf(entry.note, sizeof entry.note, "%s", note);
    entry.refers = refers;
    append(entry);
}

// Something of everything: club 1 with consents and half cut, 2 recut, 3 withdrawn and done, 4 with
// a dry fit, cut short of its mark once and scrapped, 6 from stock, the rest untouched.
static int opened(void **state) {
    struct entry entry;
    (void)state;
    fixture_open(&fixture);
    fixture_wish(fixture.store);
    fixture_append(&fixture, ENTRY_SIGN_ON, 0);
    supervise(ENTRY_CONSENT, 1, "column", "3", 0);
    supervise(ENTRY_CONSENT, 1, "shim", "", 0);
    fixture_bring(&fixture, 1, STAGE_TIP_SHOWN);
    entry = fixture_entry(&fixture, ENTRY_TIP_PARTIAL, 1);
    entry.made = LENGTH_INCH / 2;
    append(entry);
    fixture_bring(&fixture, 1, STAGE_TIP_CUT);
    fixture_bring(&fixture, 2, STAGE_DECISION);
    supervise(ENTRY_DECIDE, 2, "recut", "S-0005K", fixture_club(&fixture, 2).progress.decision_seq);
    fixture_bring(&fixture, 3, STAGE_TIP_CUT);
    entry = fixture_entry(&fixture, ENTRY_WITHDRAW, 3);
    entry.refers = fixture_club(&fixture, 3).progress.tip_seq;
    append(entry);
    fixture_append(&fixture, ENTRY_HOLD, 3);
    fixture_bring(&fixture, 3, STAGE_DONE);
    entry = fixture_entry(&fixture, ENTRY_DRY_FIT, 4);
    entry.planned = 42 * LENGTH_INCH;
    entry.made = LENGTH_INCH;
    append(entry);
    fixture_bring(&fixture, 4, STAGE_DECISION);
    supervise(ENTRY_DECIDE, 4, "scrap", "", fixture_club(&fixture, 4).progress.decision_seq);
    entry = fixture_entry(&fixture, ENTRY_KIT, 6);
    strcpy(entry.worker, SUPERVISOR);
    strcpy(entry.shaft, "S-0008E");
    append(entry);
    fixture_expect_check(fixture.store);
    raw = fixture_raw(fixture.path);
    fixture_exec(raw, "PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON;"
                      "DROP TRIGGER shaft_one_life; DROP TRIGGER club_recounted;"
                      "DROP TRIGGER club_uncounted; DROP TRIGGER club_counted;"
                      "DROP TRIGGER log_kept; DROP TRIGGER log_stays");
    return 0;
}

static int closed(void **state) {
    (void)state;
    sqlite3_close(raw);
    fixture_close(&fixture);
    return 0;
}

static void expect_found(const char *words, const char *how) {
    struct store_check found = {0};
    enum store_result result = store_check(fixture.store, &found);
    if (result != STORE_REFUSED || strstr(found.problem, words) == NULL) {
        fail_msg("%s: result %d, %s", how, (int)result,
                 result == STORE_REFUSED ? found.problem : store_message(fixture.store));
    }
}

struct edit {
    const char *column;
    const char *value;
};

// Changes a column of every row of a table, one at a time; the check must name the row each time.
static void change_each(const char *table, const char *id, const char *name,
                        const struct edit *changes, size_t count, const char *where) {
    sqlite3_stmt *rows = NULL;
    char sql[300];
    int found = 0;
    snprintf(sql, sizeof sql, "SELECT %s, %s FROM %s", id, name, table);
    assert_int_equal(sqlite3_prepare_v2(raw, sql, -1, &rows, NULL), SQLITE_OK);
    snprintf(sql, sizeof sql, "CREATE TEMP TABLE kept AS SELECT * FROM %s", table);
    fixture_exec(raw, sql);
    while (sqlite3_step(rows) == SQLITE_ROW) {
        const char *key = (const char *)sqlite3_column_text(rows, 0);
        const char *words = (const char *)sqlite3_column_text(rows, 1);
        for (size_t i = 0; i < count; i++) {
            const char *column = changes[i].column;
            snprintf(sql, sizeof sql, "UPDATE %s SET %s = %s WHERE %s = '%s' AND %s IS NOT (%s) %s",
                     table, column, changes[i].value, id, key, column, changes[i].value, where);
            fixture_exec(raw, sql);
            if (sqlite3_changes(raw) == 0) {
                continue;
            }
            found++;
            expect_found(words, sql);
            snprintf(sql, sizeof sql,
                     "UPDATE %s SET %s = (SELECT k.%s FROM kept AS k WHERE k.%s = %s.%s) "
                     "WHERE %s = '%s'",
                     table, column, column, id, table, id, id, key);
            fixture_exec(raw, sql);
        }
    }
    sqlite3_finalize(rows);
    fixture_exec(raw, "DROP TABLE kept");
    fixture_expect_check(fixture.store);
    assert_true(found > 0);
}

static void finds_any_changed_club(void **state) {
    static const struct edit changes[] = {
        {"stage", "'done'"},
        {"stage", "'pending'"},
        {"attempt", "attempt + 1"},
        {"tip_made", "ifnull(tip_made, 0) + 25400000"},
        {"tip_seq", "iif(tip_seq = 2, 3, 2)"},
        {"butt_seq", "iif(butt_seq = 2, 3, 2)"},
        {"measure_seq", "iif(measure_seq = 2, 3, 2)"},
        {"decision_seq", "iif(decision_seq = 2, 3, 2)"},
        {"bench", "'Bench 9'"},
        {"picked_column", "'8'"},
        {"shim_consent", "1"},
        {"trim_consent", "25400001"},
        {"extension_consent", "1"},
    };
    (void)state;
    change_each("club", "id", "build || ' ' || name", changes, COUNT(changes), "");
}

static void finds_any_changed_shaft(void **state) {
    static const struct edit changes[] = {
        {"life", "'raw'"},
        {"life", "'cut'"},
        // The schema itself sees a club's shaft that is scrap.
        {"life", "iif(club IS NULL, 'scrap', life)"},
        {"remaining", "ifnull(remaining, 0) + 1"},
        {"remaining", "NULL"},
    };
    (void)state;
    change_each("shaft", "ticket", "ticket", changes, COUNT(changes), "");
    // Another ticket on a shaft that was cut, a scrapped one without a row, another one for a club.
    fixture_exec(raw, "UPDATE shaft SET ticket = 'S-9999Z' WHERE ticket = 'S-0003O'");
    expect_found("Club 2042 7: the shaft", "another ticket");
    fixture_exec(raw, "UPDATE shaft SET ticket = 'S-0003O' WHERE ticket = 'S-9999Z';"
                      "DELETE FROM shaft WHERE ticket = 'S-0002Q'");
    expect_found("S-0002Q", "DELETE");
    fixture_exec(raw, "INSERT INTO shaft (ticket, model, flex, raw_length, life, remaining) "
                      "SELECT 'S-0002Q', model, flex, raw_length, 'scrap', 35 * 25400000 "
                      "FROM shaft WHERE ticket = 'S-0003O'");
    fixture_expect_check(fixture.store);
    fixture_exec(raw, "UPDATE shaft SET club = NULL WHERE club = 3");
    expect_found("Club 2042 7: the shaft", "club = NULL");
    fixture_exec(raw, "UPDATE shaft SET club = 3 WHERE ticket = 'S-0007G'");
    expect_found("Club 2042 7: the shaft", "another shaft");
    fixture_exec(raw, "UPDATE shaft SET club = NULL WHERE ticket = 'S-0007G';"
                      "UPDATE shaft SET club = 3 WHERE ticket = 'S-0003O';"
                      "UPDATE head SET club = NULL WHERE club = 1");
    expect_found("Club 2041 1: the head", "another head");
}

static void finds_any_changed_dry_fit(void **state) {
    static const struct edit changes[] = {
        {"bore_height", "bore_height + 1"},
        {"bore_height", "NULL"},
        {"dry_fit_overall", "dry_fit_overall + 1"},
        {"dry_fit_raw", "NULL"},
    };
    (void)state;
    change_each("head", "ticket", "ticket", changes, COUNT(changes), "AND ticket = 'H-00044'");
    fixture_exec(raw, "DELETE FROM head WHERE ticket = 'H-00044'");
    expect_found("H-00044", "DELETE");
}

static void finds_any_changed_count(void **state) {
    static const struct edit quarters[] = {
        {"quarter", "quarter + 1000"}, {"clubs_done", "clubs_done + 1"},
        {"cuts", "cuts + 1"},          {"out_of_tolerance", "out_of_tolerance + 1"},
        {"holds", "holds + 1"},
    };
    (void)state;
    // All columns but the last are in the table above.
    assert_int_equal(fixture_number(raw, "SELECT count(*) FROM pragma_table_info('log_quarter')"),
                     COUNT(quarters));
    change_each("log_quarter", "quarter", "'counts of the days'", quarters + 1, COUNT(quarters) - 1,
                "");
    fixture_exec(raw, "UPDATE log_quarter SET quarter = -quarter");
    expect_found("counts of the days", "quarter");
    fixture_exec(raw, "UPDATE log_quarter SET quarter = -quarter;"
                      "INSERT INTO log_quarter VALUES (5, 0, 0, 0, 0)");
    expect_found("counts of the days", "one more");
    fixture_exec(raw, "DELETE FROM log_quarter WHERE quarter = 5;"
                      "UPDATE club_count SET clubs = clubs + 1 WHERE stage = 'done'");
    expect_found("counts of clubs at a stage are not those of the orders: done", "club_count");
    fixture_exec(raw, "UPDATE club_count SET clubs = clubs - 1 WHERE stage = 'done';"
                      "INSERT INTO club_count VALUES ('done', 'Nowhere', 3, 3)");
    expect_found("done Nowhere", "one more count");
    fixture_exec(raw, "DELETE FROM club_count");
    expect_found("counts of clubs", "no counts");
}

static void finds_any_changed_time(void **state) {
    static const char says[] = "list of the times of the entries";
    static const struct edit spans[] = {
        {"run", "0"},
        {"quarter", "quarter - 1"},
        {"first_seq", "first_seq + 1"},
    };
    (void)state;
    // The last column is looked at before: it says where the log ends.
    assert_int_equal(fixture_number(raw, "SELECT count(*) FROM pragma_table_info('log_span')"),
                     COUNT(spans) + 1);
    for (size_t i = 0; i < COUNT(spans); i++) {
        char sql[160];
        fixture_exec(raw, "CREATE TEMP TABLE kept AS SELECT * FROM log_span");
        snprintf(sql, sizeof sql, "UPDATE log_span SET %s = %s WHERE first_seq = 1",
                 spans[i].column, spans[i].value);
        fixture_exec(raw, sql);
        expect_found(says, sql);
        fixture_exec(raw, "DELETE FROM log_span; INSERT INTO log_span SELECT * FROM kept;"
                          "DROP TABLE kept");
    }
    fixture_exec(raw, "UPDATE log_span SET last_seq = last_seq - 1 WHERE first_seq = 1");
    expect_found("", "last_seq");
    fixture_exec(raw, "UPDATE log_span SET last_seq = last_seq + 1 WHERE first_seq = 1;"
                      "INSERT INTO log_span VALUES (0, 5, 1, 1)");
    expect_found(says, "one more");
}

static void finds_a_club_that_is_gone(void **state) {
    (void)state;
    fixture_exec(raw, "UPDATE shaft SET club = NULL WHERE club = 1;"
                      "UPDATE head SET club = NULL WHERE club = 1; UPDATE club SET id = 77 "
                      "WHERE id = 1");
    expect_found("A row refers to something that is not there", "another id");
    fixture_exec(raw, "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = "
                      "replace(sql, 'club_id INTEGER REFERENCES club (id)', 'club_id INTEGER') "
                      "WHERE name = 'log'; PRAGMA schema_version = 99");
    // Open as it is, the store reads the schema anew and finds no such reference any more.
    expect_found("Club 2041 1: the stage", "no reference");
    fixture_exec(raw, "DELETE FROM club WHERE id = 77");
    expect_found("head H-0001A and shaft S-0001S is in the log and not in the orders", "deleted");
}

// What the desk changed, and nothing else wrote since: the newest change of each cell counts.
static void finds_any_changed_cell(void **state) {
    static const char recount[] =
        "DELETE FROM club_count; INSERT INTO club_count SELECT stage, bench, rank, count(*) "
        "FROM club GROUP BY stage, bench, rank";
    (void)state;
    struct document head = desk_load(&fixture, "heads", "H-00052", NULL, NULL);
    struct document heavier = head, again = head;
    assert_true(document_set(&heavier, "weight_g", "281"));
    assert_true(document_set(&heavier, "lot", "March"));
    assert_true(document_set(&again, "weight_g", "282"));
    assert_true(document_set(&again, "lot", "March"));
    desk_changes(&fixture, &head, &heavier);
    desk_changes(&fixture, &heavier, &again);
    struct document order = desk_load(&fixture, "orders", "2050", NULL, NULL);
    struct document held = order;
    assert_true(document_set(&held, "status", "held"));
    assert_true(document_set(&held, "note", "waits for paint"));
    desk_changes(&fixture, &order, &held);
    struct document level = {.sheet = "stock_levels", .keys = 3};
    assert_true(document_set(&level, "head_model", "Plover 8") &&
                document_set(&level, "shaft_model", "") && document_set(&level, "flex", "") &&
                document_set(&level, "least", "2") && document_set(&level, "wanted", "5"));
    desk_changes(&fixture, NULL, &level);
    struct document line = desk_load(&fixture, "builds", "2042", "9", NULL);
    struct document cancelled = line;
    assert_true(document_set(&cancelled, "cancelled", "yes"));
    desk_changes(&fixture, &line, &cancelled);
    fixture_exec(raw, recount); // whose triggers are gone
    fixture_expect_check(fixture.store);
    static const struct {
        const char *wrong, *right, *says;
    } rows[] = {
        {"UPDATE head SET weight = 281000 WHERE ticket = 'H-00052'",
         "UPDATE head SET weight = 282000 WHERE ticket = 'H-00052'",
         "heads H-00052: the weight_g is not what the log says"},
        {"UPDATE head SET lot = 'April' WHERE ticket = 'H-00052'",
         "UPDATE head SET lot = 'March' WHERE ticket = 'H-00052'", "H-00052: the lot"},
        {"UPDATE build SET status = 'released' WHERE name = '2050'",
         "UPDATE build SET status = 'held' WHERE name = '2050'", "orders 2050: the status"},
        {"UPDATE build SET note = '' WHERE name = '2050'",
         "UPDATE build SET note = 'waits for paint' WHERE name = '2050'", "orders 2050: the note"},
        {"UPDATE build SET changed_seq = 1 WHERE name = '2050'",
         "UPDATE build SET changed_seq = NULL WHERE name = '2050'",
         "Order 2050: what a bench must still hear of"},
        {"UPDATE build SET changed_seq = NULL WHERE name = '2042'", NULL,
         "Order 2042: what a bench must still hear of"},
        {"UPDATE stock_level SET least = 1", "UPDATE stock_level SET least = 2", "the least"},
        {"DELETE FROM stock_level", "INSERT INTO stock_level VALUES ('head', 'Plover 8', '', 2, 5)",
         "the row is not what the log says"},
        {"UPDATE club SET cancelled = 0 WHERE id = 5", "UPDATE club SET cancelled = 1 WHERE id = 5",
         "builds 2042 9: the cancelled"},
        {"UPDATE club SET rank = 1 WHERE id = 6", "UPDATE club SET rank = 0 WHERE id = 6",
         "What the bench goes by is not what the order says: club 2050 7"},
        {"UPDATE lot SET heads = 7 WHERE name = 'March'",
         "UPDATE lot SET heads = 1 WHERE name = 'March'", "counts of a lot"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        int64_t changed = fixture_number(raw, "SELECT changed_seq FROM build WHERE name = '2042'");
        char back[96];
        snprintf(back, sizeof back, "UPDATE build SET changed_seq = %lld WHERE name = '2042'",
                 (long long)changed);
        fixture_exec(raw, rows[i].wrong);
        expect_found(rows[i].says, rows[i].wrong);
        fixture_exec(raw, rows[i].right == NULL ? back : rows[i].right);
    }
    fixture_exec(raw, recount);
    fixture_expect_check(fixture.store);
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(finds_any_changed_club),    STEP(finds_any_changed_shaft),
        STEP(finds_any_changed_dry_fit), STEP(finds_any_changed_count),
        STEP(finds_any_changed_time),    STEP(finds_a_club_that_is_gone),
        STEP(finds_any_changed_cell),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

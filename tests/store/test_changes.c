// Which entries changed what: listed newest first, held against the log, filled for older logs.

#include "fixture.h"
#include "lists.h"
#include "schema.h"

#include <stdio.h>
#include <stdlib.h>

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

static struct document load(struct fixture *fixture, const char *sheet, const char *const *keys) {
    struct document document;
    if (store_document(fixture->store, sheet, keys, &document) != STORE_OK) {
        fail_msg("%s %s: %s", sheet, keys[0], store_message(fixture->store));
    }
    return document;
}

static int64_t append(struct fixture *fixture, const struct change *change, const char *note,
                      int64_t refers) {
    struct entry entry = fixture_entry(fixture, ENTRY_CHANGE, 0);
    assert_true(change_write(change, entry.plan, sizeof entry.plan));
    strcpy(entry.worker, SUPERVISOR);
    strcpy(entry.note, note);
    entry.refers = refers;
    if (store_append(fixture->store, &entry) != STORE_OK) {
        fail_msg("%s", store_message(fixture->store));
    }
    return entry.seq;
}

// Sets one cell.
static int64_t sets(struct fixture *fixture, const char *sheet, const char *const *keys,
                    const char *cell, const char *value, const char *note) {
    struct document before = load(fixture, sheet, keys);
    struct document after = before;
    struct change change;
    assert_true(document_set(&after, cell, value));
    change_between(&before, &after, &change);
    return append(fixture, &change, note, 0);
}

static int64_t takes_back(struct fixture *fixture, int64_t seq) {
    struct entry first;
    struct change change, back;
    assert_int_equal(store_entry(fixture->store, seq, &first), STORE_OK);
    assert_true(change_read(first.plan, &change));
    change_back(&change, &back);
    return append(fixture, &back, "a mistake", seq);
}

static const char *const wood[] = {"Reed 60", "R", "wood"};
static const char *const head[] = {"H-00052"};
static const char *const third[] = {"2041", "1"};
static const char *const other[] = {"2042", "9"};

static void lists_them_newest_first(void **state) {
    struct fixture *fixture = *state;
    struct changed_line lines[8];
    int64_t first = sets(fixture, "charts", wood, ":3", "210 5/8", "the maker's letter");
    int64_t second = sets(fixture, "heads", head, "weight_g", "281", "");
    int64_t third_seq = sets(fixture, "charts", wood, ":3", "210 3/4", "");
    int64_t back = takes_back(fixture, third_seq);
    assert_int_equal(store_changes(fixture->store, NULL, NULL, 0, lines, 8), 4);
    assert_int_equal(lines[0].seq, back);
    assert_int_equal(lines[0].takes_back, third_seq);
    assert_int_equal(lines[1].seq, third_seq);
    assert_int_equal(lines[1].taken_back, back);
    assert_int_equal(lines[2].seq, second);
    assert_string_equal(lines[2].sheet, "heads");
    assert_string_equal(lines[2].thing, "H-00052");
    assert_string_equal(lines[2].words, "weight_g none to 281");
    assert_int_equal(lines[2].revision, 0);
    assert_int_equal(lines[3].seq, first);
    assert_string_equal(lines[3].thing, "Reed 60\tR\twood");
    assert_string_equal(lines[3].words, "column 3: 210 1/2 to 210 5/8");
    assert_string_equal(lines[3].note, "the maker's letter");
    assert_string_equal(lines[3].worker, SUPERVISOR);
    assert_int_equal(lines[3].revision, 3);
    assert_int_equal(lines[1].revision, 4);
    assert_int_equal(lines[0].revision, 5);
    assert_true(lines[3].takes_back == 0 && lines[3].taken_back == 0 && !lines[3].made);
    fixture_expect_check(fixture->store);
}

static void lists_those_of_one_thing_by_pages(void **state) {
    struct fixture *fixture = *state;
    struct changed_line line;
    struct changed_line lines[8];
    int64_t seqs[5];
    for (int i = 0; i < 5; i++) {
        char value[8];
        snprintf(value, sizeof value, "%d", 281 + i);
        seqs[i] = sets(fixture, "heads", head, "weight_g", value, "");
        sets(fixture, "builds", i < 3 ? third : other, "playing_length",
             i % 2 == 0 ? "42" : "42 1/2", "");
    }
    int64_t before = 0;
    for (int i = 4; i >= 0; i--) {
        assert_int_equal(store_changes(fixture->store, "heads", "H-00052", before, &line, 1), 1);
        assert_int_equal(line.seq, seqs[i]);
        before = line.seq;
    }
    assert_int_equal(store_changes(fixture->store, "heads", "H-00052", before, &line, 1), 0);
    assert_int_equal(store_changes(fixture->store, "heads", NULL, 0, lines, 8), 5);
    // A build has all its clubs, whole cells only.
    assert_int_equal(store_changes(fixture->store, "builds", "2041", 0, lines, 8), 3);
    assert_string_equal(lines[0].thing, "2041\t1");
    assert_int_equal(store_changes(fixture->store, "builds", "2042\t9", 0, lines, 8), 2);
    assert_int_equal(store_changes(fixture->store, "builds", "204", 0, lines, 8), 0);
    assert_int_equal(store_changes(fixture->store, "builds", "2041\t", 0, lines, 8), 0);
    assert_int_equal(store_changes(fixture->store, "shafts", NULL, 0, lines, 8), 0);
    fixture_expect_check(fixture->store);
}

static void one_that_was_not_appended_is_not_listed(void **state) {
    struct fixture *fixture = *state;
    struct changed_line line;
    struct document before = load(fixture, "heads", head);
    struct document after = before;
    struct change change;
    struct entry entry = fixture_entry(fixture, ENTRY_CHANGE, 0);
    assert_true(document_set(&after, "weight_g", "heavy"));
    change_between(&before, &after, &change);
    assert_true(change_write(&change, entry.plan, sizeof entry.plan));
    strcpy(entry.worker, SUPERVISOR);
    assert_int_equal(store_append(fixture->store, &entry), STORE_REFUSED);
    assert_int_equal(store_changes(fixture->store, NULL, NULL, 0, &line, 1), 0);
}

static void a_list_that_does_not_fit_the_log_is_found(void **state) {
    static const char *const faults[] = {
        "DELETE FROM change WHERE sheet = 'heads'",
        "UPDATE change SET thing = 'H-00060' WHERE sheet = 'heads'",
        "UPDATE change SET sheet = 'shafts' WHERE sheet = 'heads'",
        "UPDATE change SET revision = 9 WHERE sheet = 'charts'",
        "INSERT INTO change (seq, sheet, thing) VALUES (1, 'heads', 'H-00052')",
    };
    struct fixture *fixture = *state;
    sets(fixture, "charts", wood, ":3", "210 5/8", "");
    sets(fixture, "heads", head, "weight_g", "281", "");
    for (size_t i = 0; i < COUNT(faults); i++) {
        struct store_check check = {0};
        fixture_exec(fixture->store->db, "BEGIN");
        fixture_exec(fixture->store->db, faults[i]);
        fixture_exec(fixture->store->db, "COMMIT");
        if (store_check(fixture->store, &check) != STORE_REFUSED ||
            strstr(check.problem, "what was changed does not fit the log: entry ") == NULL) {
            fail_msg("%s: %s", faults[i], check.problem);
        }
        fixture_exec(fixture->store->db, "BEGIN; DELETE FROM change; INSERT INTO change (seq, "
                                         "sheet, thing) SELECT seq, sheet, thing FROM change_said; "
                                         "COMMIT");
    }
    fixture_expect_check(fixture->store);
}

// What the migration makes of an older log is what the store would have written, but for the
// revisions, which nobody knows any more.
static void an_older_log_is_read_when_it_comes_up(void **state) {
    struct fixture *fixture = *state;
    struct changed_line was[8], is[8];
    struct document chart = {.sheet = "charts", .keys = 3};
    struct change change;
    assert_true(document_set(&chart, "model", "Reed 60") && document_set(&chart, "flex", "X") &&
                document_set(&chart, "kind", "wood") && document_set(&chart, ":1", "200 1/4"));
    change_between(NULL, &chart, &change);
    int64_t made = append(fixture, &change, "", 0);
    takes_back(fixture, made);
    sets(fixture, "builds", other, "playing_length", "36", "");
    sets(fixture, "heads", head, "weight_g", "281", "");
    assert_int_equal(store_changes(fixture->store, NULL, NULL, 0, was, 8), 4);
    assert_true(was[3].made && was[2].taken);
    sqlite3 *raw = fixture_raw(fixture->path);
    fixture_exec(raw, "DROP VIEW change_said; DROP VIEW revision_there; DROP TABLE change; "
                      "PRAGMA user_version = 8; CREATE TEMP TABLE counts AS SELECT * FROM "
                      "log_quarter JOIN (SELECT quarter, min(first_seq), max(last_seq) FROM "
                      "log_span GROUP BY quarter) USING (quarter); DROP TABLE log_span; "
                      "DROP TABLE log_quarter");
    const char *from = strstr(schema_migrations[0].sql, "CREATE TABLE log_quarter");
    char *sql = strndup(from, (size_t)(strchr(from, ';') - from));
    fixture_exec(raw, sql);
    free(sql);
    fixture_exec(raw, "INSERT INTO log_quarter SELECT quarter, \"min(first_seq)\", "
                      "\"max(last_seq)\", clubs_done, cuts, out_of_tolerance, holds FROM counts");
    sqlite3_close(raw);
    fixture_restart(fixture);
    assert_int_equal(store_changes(fixture->store, NULL, NULL, 0, is, 8), 4);
    for (int i = 0; i < 4; i++) {
        was[i].revision = 0;
        assert_memory_equal(&is[i], &was[i], sizeof is[i]);
    }
    fixture_expect_check(fixture->store);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(lists_them_newest_first),
        TEST(lists_those_of_one_thing_by_pages),
        TEST(one_that_was_not_appended_is_not_listed),
        TEST(a_list_that_does_not_fit_the_log_is_found),
        TEST(an_older_log_is_read_when_it_comes_up),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// Filters, pages, days and CSV of a log of some hundred random entries, against the same asked of
// every entry one by one.

#include "csv.h"
#include "fixture.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#define ENTRIES 600
#define QUARTER 900000

static struct fixture fixture;
static struct entry entries[ENTRIES + 1]; // by seq
static int64_t last;
static uint32_t seed = 20260302;

static uint32_t pick(uint32_t below) {
    seed = seed * 1664525u + 1013904223u;
    return (seed >> 8) % below;
}

// The clock of this bench runs in jumps, and is set back now and then.
static int64_t some_time(void) {
    static int64_t now = 1772440200000;
    now += pick(20) * 60000 + pick(1000);
    return pick(15) == 0 ? now - 5 * 3600000 : now;
}

static void append_random(void) {
    static const enum entry_kind anything[] = {ENTRY_TIP_PARTIAL, ENTRY_WITHDRAW, ENTRY_WITHDRAW,
                                               ENTRY_WITHDRAW,    ENTRY_HOLD,     ENTRY_SIGN_ON};
    static const enum entry_kind next[STAGE_COUNT] = {
        [STAGE_PENDING] = ENTRY_TIP_SHOWN,  [STAGE_TIP_SHOWN] = ENTRY_TIP_CUT,
        [STAGE_TIP_CUT] = ENTRY_BUTT_SHOWN, [STAGE_BUTT_SHOWN] = ENTRY_BUTT_CUT,
        [STAGE_BUTT_CUT] = ENTRY_MEASURE,   [STAGE_DECISION] = ENTRY_DECIDE,
        [STAGE_DONE] = ENTRY_WITHDRAW,
    };
    int64_t club = 1 + pick(4);
    struct progress progress = fixture_club(&fixture, club).progress;
    enum entry_kind kind = pick(2) > 0 ? next[progress.stage] : anything[pick(COUNT(anything))];
    struct entry entry = fixture_entry(&fixture, kind, kind == ENTRY_SIGN_ON ? 0 : club);
    entry.wall_ms = some_time();
    if (progress.bench[0] == '\0' || kind == ENTRY_SIGN_ON || kind == ENTRY_HOLD) {
        strcpy(entry.bench, pick(3) > 0 ? BENCH : "Bench 7");
    } else {
        memcpy(entry.bench, progress.bench, sizeof entry.bench);
    }
    if (kind != ENTRY_DECIDE && pick(3) == 0) {
        strcpy(entry.worker, pick(2) == 0 ? SUPERVISOR : "");
    }
    if (kind == ENTRY_TIP_PARTIAL) {
        entry.made = LENGTH_INCH / 4;
    }
    if ((kind == ENTRY_TIP_CUT || kind == ENTRY_MEASURE) && pick(3) == 0) {
        entry.verdict = kind == ENTRY_MEASURE && pick(2) == 0 ? VERDICT_LONG : VERDICT_SHORT;
    }
    if (kind == ENTRY_WITHDRAW) {
        entry.refers = progress.measure_seq != 0 ? progress.measure_seq
                       : progress.butt_seq != 0  ? progress.butt_seq
                                                 : progress.tip_seq;
    }
    if (kind == ENTRY_DECIDE) {
        entry.refers = progress.decision_seq;
        strcpy(entry.cause, "use");
    }
    if (kind == ENTRY_HOLD) {
        strcpy(entry.cause, "not_safe");
    }
    if (store_append(fixture.store, &entry) == STORE_OK) {
        last = entry.seq;
    }
}

static int opened(void **state) {
    (void)state;
    fixture_open(&fixture);
    while (last < ENTRIES) {
        append_random();
    }
    for (int64_t seq = 1; seq <= last; seq++) {
        assert_int_equal(store_entry(fixture.store, seq, &entries[seq]), STORE_OK);
    }
    return 0;
}

static int closed(void **state) {
    (void)state;
    fixture_expect_check(fixture.store);
    fixture_close(&fixture);
    return 0;
}

static bool is_open(int64_t seq) {
    return entries[seq].club_id != 0 &&
           fixture_club(&fixture, entries[seq].club_id).progress.decision_seq == seq;
}

// By workshop.sql: the shaft of club 1 is of graphite, those of the others of steel.
static const char *material_of(const struct entry *entry) {
    if (entry->shaft[0] != '\0') {
        return strcmp(entry->shaft, "S-0001S") == 0 ? "graphite" : "steel";
    }
    return entry->kind == ENTRY_CARE ? entry->cause : "";
}

static bool wanted(const struct log_filter *filter, int64_t seq) {
    const struct entry *entry = &entries[seq];
    return (filter->from_ms == 0 || entry->wall_ms >= filter->from_ms) &&
           (filter->to_ms == 0 || entry->wall_ms < filter->to_ms) &&
           (filter->build[0] == '\0' || strcmp(filter->build, entry->build) == 0) &&
           (filter->worker[0] == '\0' || strcmp(filter->worker, entry->worker) == 0) &&
           (filter->ticket[0] == '\0' || strcmp(filter->ticket, entry->head) == 0 ||
            strcmp(filter->ticket, entry->shaft) == 0) &&
           (filter->verdict == VERDICT_NONE || filter->verdict == entry->verdict) &&
           (filter->bench[0] == '\0' || strcmp(filter->bench, entry->bench) == 0) &&
           (filter->material[0] == '\0' || strcmp(filter->material, material_of(entry)) == 0) &&
           (!filter->needs_decision || is_open(seq));
}

static struct log_filter some_filter(void) {
    static const char *const builds[] = {"", "", "2041", "2042", "2043"};
    static const char *const workers[] = {"", "", BUILDER, SUPERVISOR, "W-9Z"};
    static const char *const tickets[] = {"", "", "", "H-00028", "S-0001S", "S-9999Z"};
    static const char *const benches[] = {"", "", BENCH, "Bench 7", "Bench 8"};
    static const char *const materials[] = {"", "", "steel", "graphite"};
    struct log_filter filter = {.needs_decision = pick(6) == 0};
    strcpy(filter.build, builds[pick(COUNT(builds))]);
    strcpy(filter.worker, workers[pick(COUNT(workers))]);
    strcpy(filter.ticket, tickets[pick(COUNT(tickets))]);
    strcpy(filter.bench, benches[pick(COUNT(benches))]);
    strcpy(filter.material, materials[pick(COUNT(materials))]);
    filter.verdict = pick(2) == 0 ? VERDICT_NONE : (enum verdict)pick(VERDICT_COUNT);
    if (pick(2) == 0) {
        filter.from_ms = entries[1 + pick(ENTRIES)].wall_ms;
    }
    if (pick(2) == 0) {
        filter.to_ms = entries[1 + pick(ENTRIES)].wall_ms;
    }
    return filter;
}

static void expect_line(const struct log_line *line) {
    const struct entry *entry = &entries[line->seq];
    assert_int_equal(line->kind, entry->kind);
    assert_int_equal(line->wall_ms, entry->wall_ms);
    assert_string_equal(line->worker, entry->worker);
    assert_string_equal(line->build, entry->build);
    assert_string_equal(line->club, entry->club);
    assert_string_equal(line->shaft, entry->shaft);
    assert_true(line->planned == entry->planned && line->made == entry->made);
    assert_int_equal(line->verdict, entry->verdict);
    assert_string_equal(line->cause, entry->cause);
    assert_int_equal(line->refers, entry->refers);
    assert_int_equal(line->open, is_open(line->seq));
}

static void filters_like_a_person(void **state) {
    struct log_line lines[7];
    int found = 0;
    (void)state;
    for (int round = 0; round < 1500; round++) {
        struct log_filter filter = some_filter();
        int64_t seq = last;
        int64_t before = 0;
        int count;
        do { // page by page, newest first
            count = store_log(fixture.store, &filter, before, lines, COUNT(lines));
            assert_true(count >= 0);
            for (int i = 0; i < count; i++) {
                while (seq > 0 && !wanted(&filter, seq)) {
                    seq--;
                }
                if (lines[i].seq != seq) {
                    fail_msg("round %d: entry %d instead of %d", round, (int)lines[i].seq,
                             (int)seq);
                }
                expect_line(&lines[i]);
                before = seq--;
                found++;
            }
        } while (count == COUNT(lines));
        for (; seq > 0; seq--) {
            assert_false(wanted(&filter, seq));
        }
    }
    assert_true(found > 10000); // the filters were not all empty
}

// How many entries of the random log each filter can meet.
static void log_holds_everything(void **state) {
    int kinds[ENTRY_KIND_COUNT] = {0};
    int open = 0;
    (void)state;
    for (int64_t seq = 1; seq <= last; seq++) {
        kinds[entries[seq].kind]++;
        open += is_open(seq);
    }
    assert_true(kinds[ENTRY_WITHDRAW] > 10 && kinds[ENTRY_DECIDE] > 5 &&
                kinds[ENTRY_TIP_CUT] > 10 && kinds[ENTRY_MEASURE] > 10 && kinds[ENTRY_HOLD] > 10);
    assert_true(open > 0);
}

static int64_t floor_quarter(int64_t time) {
    return time / QUARTER * QUARTER;
}

// The counts of a span of time from the entries alone.
static struct day_count count_by_hand(int64_t from, int64_t to) {
    struct day_count count = {0};
    bool gone[ENTRIES + 1] = {false};
    bool measured[ENTRIES + 1] = {false}; // a measure that made its club done
    for (int64_t seq = 1; seq <= last; seq++) {
        const struct entry *entry = &entries[seq];
        measured[seq] = entry->kind == ENTRY_MEASURE && entry->verdict == VERDICT_IN;
        if (entry->kind == ENTRY_WITHDRAW) {
            gone[entry->refers] = true;
        } else if (entry->kind == ENTRY_DECIDE && entries[entry->refers].kind == ENTRY_MEASURE) {
            measured[entry->refers] = true; // used as it is
        }
    }
    for (int64_t seq = 1; seq <= last; seq++) {
        const struct entry *entry = &entries[seq];
        if (entry->wall_ms < from || entry->wall_ms >= to) {
            continue;
        }
        bool off = entry->verdict == VERDICT_SHORT &&
                   (entry->kind == ENTRY_TIP_CUT || entry->kind == ENTRY_MEASURE);
        bool cut = entry->kind == ENTRY_TIP_CUT || entry->kind == ENTRY_BUTT_CUT;
        count.holds += entry->kind == ENTRY_HOLD;
        count.cuts += cut && !gone[seq];
        count.out_of_tolerance += off && !gone[seq];
        count.clubs_done += measured[seq] && !gone[seq];
    }
    for (int64_t seq = 1; seq <= last; seq++) {
        count.open_decisions += is_open(seq);
    }
    return count;
}

static void counts_days(void **state) {
    struct day_count count;
    int64_t cuts = 0;
    (void)state;
    for (int round = 0; round < 300; round++) {
        int64_t from = floor_quarter(entries[1 + pick(ENTRIES)].wall_ms);
        int64_t to = from + (int64_t)(1 + pick(96)) * QUARTER;
        struct day_count expected = count_by_hand(from, to);
        assert_int_equal(store_day(fixture.store, from, to, &count), STORE_OK);
        assert_memory_equal(&count, &expected, sizeof count);
        cuts += count.cuts;
    }
    assert_true(cuts > 0);
    assert_int_equal(store_day(fixture.store, 0, INT64_MAX, &count), STORE_OK);
    struct day_count all = count_by_hand(0, INT64_MAX);
    assert_memory_equal(&count, &all, sizeof count);
    assert_true(all.clubs_done > 0 && all.out_of_tolerance > 0);
    assert_int_equal(store_day(fixture.store, 0, QUARTER, &count), STORE_OK);
    assert_int_equal(count.cuts, 0);
}

// --- entry by entry ------------------------------------------------------------------------------

struct given {
    const struct log_filter *filter; // NULL: those about first to last
    int64_t first;
    int64_t last;
    int64_t next; // seq that must not be passed over
    int left;     // -1: never says that it is enough
    int count;
};

static bool meant(const struct given *given, int64_t seq) {
    return given->filter != NULL
               ? wanted(given->filter, seq)
               : entries[seq].refers != 0 && entries[seq].refers >= given->first &&
                     entries[seq].refers <= given->last;
}

static bool take(void *context, const struct entry *entry) {
    struct given *given = context;
    while (given->next <= last && !meant(given, given->next)) {
        given->next++;
    }
    assert_int_equal(entry->seq, given->next);
    assert_memory_equal(entry, &entries[entry->seq], sizeof *entry);
    given->next++;
    given->count++;
    return --given->left != 0;
}

static void expect_all(struct given *given) {
    while (given->next <= last) {
        assert_false(meant(given, given->next++));
    }
}

static void gives_entries(void **state) {
    int count = 0;
    (void)state;
    for (int round = 0; round < 60; round++) {
        struct log_filter filter = some_filter();
        filter.needs_decision = false;
        struct given given = {.filter = &filter, .next = 1, .left = -1};
        assert_int_equal(store_log_each(fixture.store, &filter, take, &given), STORE_OK);
        expect_all(&given);
        struct given about = {.first = 1 + pick(ENTRIES / 2), .next = 1, .left = -1};
        about.last = about.first + pick(ENTRIES / 2);
        assert_int_equal(store_log_about(fixture.store, about.first, about.last, take, &about),
                         STORE_OK);
        expect_all(&about);
        count += about.count;
    }
    assert_true(count > 300);
    struct log_filter all = {0};
    struct given two = {.filter = &all, .next = 1, .left = 2};
    assert_int_equal(store_log_each(fixture.store, &all, take, &two), STORE_OK);
    assert_int_equal(two.count, 2); // enough
}

// --- CSV ---------------------------------------------------------------------------------------

static size_t export(const struct log_filter *filter, char *buffer, size_t size,
                     int64_t *ret_rows) {
    char path[] = "/tmp/kerfside-csv-XXXXXX";
    int fd = mkstemp(path);
    assert_true(fd >= 0);
    assert_int_equal(store_log_csv(fixture.store, filter, fd, ret_rows), STORE_OK);
    assert_int_equal(lseek(fd, 0, SEEK_SET), 0);
    ssize_t bytes = read(fd, buffer, size);
    assert_true(bytes > 0 && (size_t)bytes < size);
    close(fd);
    unlink(path);
    return (size_t)bytes;
}

static void expect_row(const struct csv_row *row, const struct entry *entry) {
    char text[LENGTH_TEXT_MAX];
    assert_int_equal(row->count, 18);
    assert_int_equal(strtoll(row->cell[0], NULL, 10), entry->seq);
    assert_string_equal(row->cell[2], entry_kind_text(entry->kind));
    assert_string_equal(row->cell[3], entry->bench);
    assert_string_equal(row->cell[4], entry->worker);
    assert_string_equal(row->cell[5], entry->build);
    assert_string_equal(row->cell[8], entry->shaft);
    assert_int_equal(strtoll(row->cell[9], NULL, 10), entry->attempt);
    assert_int_equal(strtoll(row->cell[10], NULL, 10), entry->refers);
    length_text_exact(entry->planned, text);
    assert_string_equal(row->cell[11], entry->planned == LENGTH_UNKNOWN ? "" : text);
    assert_string_equal(row->cell[13], verdict_text(entry->verdict));
    assert_string_equal(row->cell[17], entry->confirm_id);
}

static void exports_csv(void **state) {
    static char buffer[400000];
    static struct csv_row row;
    struct log_filter filter = {.build = "2042", .verdict = VERDICT_IN};
    int64_t rows = -1;
    int64_t count = 0;
    (void)state;
    struct csv_reader reader = csv_open(buffer, export(&filter, buffer, sizeof buffer, &rows));
    assert_int_equal(csv_next(&reader, &row), CSV_ROW);
    assert_string_equal(row.cell[0], "seq");
    assert_string_equal(row.cell[17], "confirm_id");
    for (int64_t seq = 1; seq <= last; seq++) { // oldest first
        if (wanted(&filter, seq)) {
            assert_int_equal(csv_next(&reader, &row), CSV_ROW);
            expect_row(&row, &entries[seq]);
            count++;
        }
    }
    assert_int_equal(csv_next(&reader, &row), CSV_END);
    assert_int_equal(rows, count);
    assert_true(count > 50);
}

// Quotes, commas, lines and what a spreadsheet would run; time in ISO 8601, UTC: 1 January 2026,
// 00:00:00 is 1767225600 seconds after the epoch (`date -u -d @1767225600`).
static void quotes_what_must_be(void **state) {
    static char buffer[400000];
    static struct csv_row row;
    struct log_filter filter = {.from_ms = 1767225600000, .to_ms = 1767225601000};
    int64_t rows;
    (void)state;
    struct entry entry = fixture_entry(&fixture, ENTRY_HOLD, 0);
    entry.wall_ms = 1767225600999;
    entry.made = LENGTH_INCH * 5 / 8;
    strcpy(entry.cause, "=cmd");
    strcpy(entry.note, "a \"b\", c\nd");
    assert_int_equal(store_append(fixture.store, &entry), STORE_OK);
    size_t size = export(&filter, buffer, sizeof buffer, &rows);
    assert_int_equal(rows, 1);
    struct csv_reader reader = csv_open(buffer, size);
    assert_int_equal(csv_next(&reader, &row), CSV_ROW);
    assert_int_equal(csv_next(&reader, &row), CSV_ROW);
    assert_string_equal(row.cell[1], "2026-01-01T00:00:00Z");
    assert_string_equal(row.cell[9], "");
    assert_string_equal(row.cell[12], "0.625");
    assert_string_equal(row.cell[14], "'=cmd");
    assert_string_equal(row.cell[15], "a \"b\", c\nd");
    int64_t untouched = -7;
    int full = open("/dev/full", O_WRONLY);
    assert_true(full >= 0);
    assert_int_equal(store_log_csv(fixture.store, &filter, full, &untouched), STORE_FULL);
    assert_int_equal(store_log_csv(fixture.store, &filter, -1, &untouched), STORE_FAILED);
    assert_int_equal(untouched, -7);
    close(full);
}

// --- speed by construction ---------------------------------------------------------------------

static int count_step(void *steps) {
    ++*(int *)steps;
    return 0;
}

static int steps_of(const struct log_filter *filter, int *ret_count) {
    struct log_line lines[40];
    int steps = 0;
    sqlite3_progress_handler(fixture.store->db, 1, count_step, &steps);
    *ret_count = store_log(fixture.store, filter, 0, lines, COUNT(lines));
    sqlite3_progress_handler(fixture.store->db, 0, NULL, NULL);
    return steps;
}

// A clock that was set far back at the end of the log: a list that begins there and ends in the
// log's first hours touches both its ends, and passes over nothing between them.
static void passes_over_no_other_day(void **state) {
    (void)state;
    struct entry entry = fixture_entry(&fixture, ENTRY_SIGN_ON, 0);
    int64_t first_day = entries[2].wall_ms;
    int one, more;
    entry.wall_ms = first_day - (int64_t)400 * 24 * 3600000;
    struct log_filter filter = {.from_ms = entry.wall_ms, .to_ms = first_day + 1};
    for (int worker = 0; worker < 2; worker++) {
        strcpy(filter.worker, worker == 1 ? BUILDER : "");
        int before = steps_of(&filter, &one);
        strcpy(entry.worker, BUILDER);
        memset(entry.confirm_id, worker == 1 ? 'b' : 'a', 32);
        assert_int_equal(store_append(fixture.store, &entry), STORE_OK);
        int after = steps_of(&filter, &more);
        assert_int_equal(more, one + 1);
        if (after > before + 400) {
            fail_msg("%d steps for %d entries, %d with one of another time", before, one, after);
        }
    }
}

// No statement of the review or the bench passes over a big table: by SQLite's own account.
static void searches_by_index(void **state) {
    // All of `kerfside check`, which looks at everything, also at tables of long ago.
    static const enum statement scans[] = {STATEMENT_CHECK_CLUBS,
                                           STATEMENT_CHECK_SHAFTS,
                                           STATEMENT_CHECK_HEADS,
                                           STATEMENT_CHECK_QUARTERS,
                                           STATEMENT_CHECK_COUNTS,
                                           STATEMENT_CHECK_FACETS,
                                           STATEMENT_CHECK_ORDERS,
                                           STATEMENT_CHECK_RANKS,
                                           STATEMENT_CHECK_LOTS,
                                           STATEMENT_CHECK_SPANS,
                                           STATEMENT_CHECK_TAIL_BEFORE_SPANS,
                                           STATEMENT_CHECK_HAS_SPANS};
    (void)state;
    sqlite3 *db = fixture.store->db;
    sqlite3_set_authorizer(db, NULL, NULL);
    int searched = 0;
    for (int i = 0; i < STATEMENT_COUNT; i++) {
        char sql[4096];
        sqlite3_stmt *plan = NULL;
        snprintf(sql, sizeof sql, "EXPLAIN QUERY PLAN %s", statement_sql((enum statement)i));
        bool scan = false;
        for (size_t j = 0; j < COUNT(scans); j++) {
            scan |= (int)scans[j] == i;
        }
        if (strncmp(statement_sql((enum statement)i), "SELECT", 6) != 0 || scan) {
            continue;
        }
        assert_int_equal(sqlite3_prepare_v2(db, sql, -1, &plan, NULL), SQLITE_OK);
        while (sqlite3_step(plan) == SQLITE_ROW) {
            const char *step = (const char *)sqlite3_column_text(plan, 3);
            bool ordered = strstr(statement_sql((enum statement)i), "LIMIT") != NULL &&
                           strstr(step, "TEMP B-TREE") == NULL;
            bool small = strstr(step, "club_count") != NULL || strcmp(step, "SCAN w") == 0 ||
                         strcmp(step, "SCAN t") == 0 || // people
                         strcmp(step, "SCAN r") == 0 || // runs of the clock
                         strcmp(step, "SCAN CONSTANT ROW") == 0 ||
                         strstr(step, "SCAN facet") == step;
            if (strncmp(step, "SCAN", 4) == 0 && !ordered && !small) {
                fail_msg("%s: %s", statement_sql((enum statement)i), step);
            }
            searched++;
        }
        sqlite3_finalize(plan);
    }
    assert_true(searched > 50);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(log_holds_everything), cmocka_unit_test(filters_like_a_person),
        cmocka_unit_test(counts_days),          cmocka_unit_test(exports_csv),
        cmocka_unit_test(gives_entries),        cmocka_unit_test(quotes_what_must_be),
        cmocka_unit_test(searches_by_index),    cmocka_unit_test(passes_over_no_other_day),
    };
    return cmocka_run_group_tests(tests, opened, closed);
}

// What an entry does to its club, its parts and the log, and what is refused.

#include "fixture.h"

#include <stdio.h>

static int opened(void **state) {
    static struct fixture fixture;
    fixture_open(&fixture);
    *state = &fixture;
    return 0;
}

static int closed(void **state) {
    fixture_expect_check((*(struct fixture **)state)->store);
    fixture_close(*state);
    return 0;
}

static struct part part(struct fixture *fixture, const char *ticket) {
    struct part found;
    assert_int_equal(store_part(fixture->store, ticket, &found), STORE_OK);
    return found;
}

static int64_t remaining(struct fixture *fixture, const char *ticket) {
    char sql[96];
    snprintf(sql, sizeof sql, "SELECT coalesce(remaining, -1) FROM shaft WHERE ticket = '%s'",
             ticket);
    return fixture_number(fixture->store->db, sql);
}

static int64_t entries(struct fixture *fixture) {
    return fixture_number(fixture->store->db, "SELECT max(seq) FROM log");
}

// Refused, with a sentence for a person, and nothing changed anywhere.
static void refuses(struct fixture *fixture, struct entry *entry, const char *words) {
    int64_t before = entries(fixture);
    struct club club = {0};
    struct club after = {0};
    enum store_result known = store_club(fixture->store, entry->club_id, &club);
    if (store_append(fixture->store, entry) != STORE_REFUSED) {
        fail_msg("not refused (%s): %s", words, store_message(fixture->store));
    }
    if (strstr(store_message(fixture->store), words) == NULL) {
        fail_msg("\"%s\" is not in: %s", words, store_message(fixture->store));
    }
    assert_int_equal(entry->seq, 0);
    assert_int_equal(entries(fixture), before);
    assert_int_equal(store_club(fixture->store, entry->club_id, &after), known);
    assert_memory_equal(&club.progress, &after.progress, sizeof club.progress);
    assert_true(sqlite3_get_autocommit(fixture->store->db));
}

// Part 1's way of a club, each step with what it leaves behind (R14).
static void walks_a_club(void **state) {
    struct fixture *fixture = *state;
    length_nm raw = 41 * LENGTH_INCH;
    assert_int_equal(part(fixture, "S-0003O").life, PART_RAW);
    int64_t shown = fixture_append(fixture, ENTRY_TIP_SHOWN, 3);
    assert_int_equal(shown, 2); // after genesis
    struct club club = fixture_club(fixture, 3);
    assert_int_equal(club.progress.stage, STAGE_TIP_SHOWN);
    assert_string_equal(club.progress.bench, BENCH);
    assert_int_equal(part(fixture, "S-0003O").life, PART_RAW);

    struct entry partial = fixture_entry(fixture, ENTRY_TIP_PARTIAL, 3);
    partial.planned = 2 * LENGTH_INCH;
    partial.made = LENGTH_INCH / 2;
    assert_int_equal(store_append(fixture->store, &partial), STORE_OK);
    assert_int_equal(part(fixture, "S-0003O").life, PART_CUT);
    assert_int_equal(remaining(fixture, "S-0003O"), raw - LENGTH_INCH / 2);
    assert_int_equal(fixture_club(fixture, 3).progress.tip_made, LENGTH_INCH / 2);

    int64_t tip = fixture_append(fixture, ENTRY_TIP_CUT, 3);
    club = fixture_club(fixture, 3);
    assert_int_equal(club.progress.stage, STAGE_TIP_CUT);
    assert_int_equal(club.progress.tip_seq, tip);
    assert_int_equal(club.progress.tip_made, LENGTH_INCH);
    assert_int_equal(remaining(fixture, "S-0003O"), raw - LENGTH_INCH);

    fixture_append(fixture, ENTRY_BUTT_SHOWN, 3);
    int64_t butt = fixture_append(fixture, ENTRY_BUTT_CUT, 3);
    assert_int_equal(remaining(fixture, "S-0003O"), 36 * LENGTH_INCH);
    int64_t measure = fixture_append(fixture, ENTRY_MEASURE, 3);
    club = fixture_club(fixture, 3);
    assert_int_equal(club.progress.stage, STAGE_DONE);
    assert_int_equal(club.progress.butt_seq, butt);
    assert_int_equal(club.progress.measure_seq, measure);
    assert_int_equal(part(fixture, "S-0003O").life, PART_CUT);
    assert_int_equal(part(fixture, "S-0003O").club_id, 3);
    fixture_restart(fixture);
    assert_int_equal(fixture_club(fixture, 3).progress.stage, STAGE_DONE);
}

static void reads_back_every_field(void **state) {
    struct fixture *fixture = *state;
    struct entry read;
    struct entry entry = fixture_entry(fixture, ENTRY_HOLD, 2);
    entry.refers = 1;
    entry.attempt = 3;
    entry.planned = -5;
    entry.made = 0;
    entry.verdict = VERDICT_LONG;
    strcpy(entry.cause, "not_safe");
    strcpy(entry.note, "wheel; \"cracked\", \xC3\xA9t\xC3\xA9\n=1+1");
    entry.chart_revision = 4;
    memset(entry.plan, 'p', sizeof entry.plan - 1); // as long as can be
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    assert_int_equal(entry.seq, 2);
    memset(&read, 0xFF, sizeof read);
    assert_int_equal(store_entry(fixture->store, 2, &read), STORE_OK);
    assert_memory_equal(&read, &entry, sizeof entry);
    assert_int_equal(store_entry(fixture->store, 3, &read), STORE_NONE);
    assert_memory_equal(&read, &entry, sizeof entry); // untouched

    entry = fixture_entry(fixture, ENTRY_SIGN_OFF, 0);
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    assert_int_equal(store_entry(fixture->store, 3, &read), STORE_OK);
    assert_memory_equal(&read, &entry, sizeof entry);
}

static void confirms_once(void **state) {
    struct fixture *fixture = *state;
    int64_t seq = 0;
    fixture_append(fixture, ENTRY_TIP_SHOWN, 3);
    struct entry entry = fixture_entry(fixture, ENTRY_TIP_CUT, 3);
    struct entry again = entry;
    assert_int_equal(store_confirmed(fixture->store, entry.confirm_id, &seq), STORE_NONE);
    assert_int_equal(seq, 0);
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    assert_int_equal(store_append(fixture->store, &again), STORE_OK);
    assert_int_equal(again.seq, entry.seq);
    fixture_restart(fixture);
    again.seq = 0;
    assert_int_equal(store_append(fixture->store, &again), STORE_OK);
    assert_int_equal(again.seq, entry.seq);
    assert_int_equal(entries(fixture), entry.seq);
    assert_int_equal(store_confirmed(fixture->store, entry.confirm_id, &seq), STORE_OK);
    assert_int_equal(seq, entry.seq);
    assert_int_equal(fixture_club(fixture, 3).progress.stage, STAGE_TIP_CUT);
}

static void refuses_a_second_cut(void **state) {
    struct fixture *fixture = *state;
    fixture_bring(fixture, 3, STAGE_TIP_SHOWN);
    struct entry second = fixture_entry(fixture, ENTRY_TIP_CUT, 3);
    fixture_append(fixture, ENTRY_TIP_CUT, 3);
    refuses(fixture, &second, "tip_cut is not possible");
    fixture_append(fixture, ENTRY_BUTT_SHOWN, 3);
    refuses(fixture, &second, "tip_cut is not possible");
    second = fixture_entry(fixture, ENTRY_BUTT_CUT, 3);
    fixture_append(fixture, ENTRY_BUTT_CUT, 3);
    refuses(fixture, &second, "butt_cut is not possible");
    // Even for a program that does not know the stages: the table itself says no.
    sqlite3 *raw = fixture_raw(fixture->path);
    assert_int_equal(
        sqlite3_exec(raw,
                     "INSERT INTO log SELECT (SELECT max(seq) + 1 FROM log), kind, wall_ms, "
                     "mono_ms, boot, bench, worker, club_id, build, club, head, shaft, "
                     "'00000000000000000000000000000fff', attempt, refers, planned, made, verdict, "
                     "cause, note, chart_revision, plan, hash FROM log WHERE kind = 'tip_cut'",
                     NULL, NULL, NULL),
        SQLITE_CONSTRAINT);
    assert_non_null(strstr(sqlite3_errmsg(raw), "log.shaft, log.kind, log.attempt"));
    sqlite3_close(raw);
}

static void refuses_what_is_elsewhere(void **state) {
    struct fixture *fixture = *state;
    fixture_bring(fixture, 3, STAGE_TIP_SHOWN);
    struct entry entry = fixture_entry(fixture, ENTRY_TIP_CUT, 3);
    strcpy(entry.bench, "Bench 2");
    refuses(fixture, &entry, "of Bench 1");
    entry = fixture_entry(fixture, ENTRY_TIP_CUT, 3);
    strcpy(entry.shaft, "S-0005K");
    refuses(fixture, &entry, "S-0003O now");
    entry = fixture_entry(fixture, ENTRY_TIP_CUT, 3);
    strcpy(entry.head, "H-0001A");
    refuses(fixture, &entry, "H-00028");
    entry = fixture_entry(fixture, ENTRY_TIP_CUT, 3);
    entry.attempt = 2;
    refuses(fixture, &entry, "attempt 2, now 1");
    entry = fixture_entry(fixture, ENTRY_TIP_SHOWN, 5); // neither head nor shaft
    refuses(fixture, &entry, "made of");
    entry = fixture_entry(fixture, ENTRY_TIP_SHOWN, 3);
    entry.club_id = 99;
    refuses(fixture, &entry, "no club");
    entry = fixture_entry(fixture, ENTRY_TIP_SHOWN, 3);
    entry.club_id = 0;
    refuses(fixture, &entry, "needs a club");
    entry = fixture_entry(fixture, ENTRY_HOLD, 0);
    entry.club_id = -4;
    refuses(fixture, &entry, "no club");
}

static void refuses_what_is_not_well_formed(void **state) {
    struct fixture *fixture = *state;
    struct entry entry = fixture_entry(fixture, ENTRY_HOLD, 0);
    memset(entry.note, 'x', sizeof entry.note);
    refuses(fixture, &entry, "not well formed");
    entry = fixture_entry(fixture, ENTRY_HOLD, 0);
    entry.kind = ENTRY_KIND_COUNT;
    refuses(fixture, &entry, "not well formed");
    entry = fixture_entry(fixture, ENTRY_HOLD, 0);
    entry.verdict = VERDICT_COUNT;
    refuses(fixture, &entry, "not well formed");
    entry = fixture_entry(fixture, ENTRY_HOLD, 0);
    memset(entry.confirm_id, 'a', sizeof entry.confirm_id);
    refuses(fixture, &entry, "not well formed");
    entry = fixture_entry(fixture, ENTRY_HOLD, 0);
    strcpy(entry.confirm_id, "short");
    refuses(fixture, &entry, "CHECK constraint failed");
    entry = fixture_entry(fixture, ENTRY_HOLD, 0);
    entry.refers = 77;
    refuses(fixture, &entry, "refers < seq"); // an entry that is not there
    entry = fixture_entry(fixture, ENTRY_HOLD, 0);
    entry.attempt = -1;
    refuses(fixture, &entry, "CHECK constraint failed");
}

static void withdraws_into_a_new_attempt(void **state) {
    struct fixture *fixture = *state;
    fixture_bring(fixture, 3, STAGE_TIP_SHOWN);
    struct entry late = fixture_entry(fixture, ENTRY_TIP_CUT, 3);
    int64_t first = fixture_append(fixture, ENTRY_TIP_CUT, 3);
    struct entry entry = fixture_entry(fixture, ENTRY_WITHDRAW, 3);
    entry.refers = first - 1;
    refuses(fixture, &entry, "withdraw is not possible");
    entry = fixture_entry(fixture, ENTRY_WITHDRAW, 3);
    entry.refers = first;
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    struct club club = fixture_club(fixture, 3);
    assert_int_equal(club.progress.stage, STAGE_TIP_SHOWN);
    assert_int_equal(club.progress.attempt, 2);
    assert_int_equal(club.progress.tip_seq, 0);
    assert_true(club.progress.tip_made == LENGTH_UNKNOWN);
    // Nobody knows what is left, and it is no raw stock again.
    assert_int_equal(part(fixture, "S-0003O").life, PART_CUT);
    assert_int_equal(remaining(fixture, "S-0003O"), -1);
    refuses(fixture, &late, "attempt 1, now 2"); // a press that was under way
    int64_t second = fixture_append(fixture, ENTRY_TIP_CUT, 3);
    assert_int_equal(fixture_club(fixture, 3).progress.tip_seq, second);
    struct entry read;
    assert_int_equal(store_entry(fixture->store, second, &read), STORE_OK);
    assert_int_equal(read.attempt, 2);
}

static void measures_short(struct fixture *fixture) {
    fixture_bring(fixture, 3, STAGE_DECISION);
}

static struct entry decision(struct fixture *fixture, const char *cause, const char *note) {
    struct entry entry = fixture_entry(fixture, ENTRY_DECIDE, 3);
    entry.refers = fixture_club(fixture, 3).progress.decision_seq;
    strcpy(entry.cause, cause);
    strcpy(entry.note, note);
    return entry;
}

static void decides_to_use(void **state) {
    struct fixture *fixture = *state;
    measures_short(fixture);
    struct entry entry = decision(fixture, "use", "customer agrees");
    strcpy(entry.worker, BUILDER);
    refuses(fixture, &entry, "Only a supervisor");
    entry = decision(fixture, "use", "customer agrees");
    strcpy(entry.worker, "");
    refuses(fixture, &entry, "not nobody");
    entry = decision(fixture, "use", "customer agrees");
    entry.refers--;
    refuses(fixture, &entry, "decide is not possible");
    entry = decision(fixture, "use", "customer agrees");
    strcpy(entry.bench, "Office"); // a decision may come from any bench
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    assert_int_equal(fixture_club(fixture, 3).progress.stage, STAGE_DONE);
    assert_int_equal(part(fixture, "S-0003O").club_id, 3);
}

static void decides_to_recut(void **state) {
    static const struct {
        const char *note, *why;
    } bad[] = {
        {"S-0007G other model", "S-0007G is no raw, free shaft"},
        {"S-0006I scrap", "S-0006I is no raw, free shaft"},
        {"S-0004M another club's", "S-0004M is no raw, free shaft"},
        {"S-0003O itself", "S-0003O is no raw, free shaft"},
        {"S-9999Z unknown", "S-9999Z is no raw, free shaft"},
        {"", " is no raw, free shaft"},
    };
    struct fixture *fixture = *state;
    measures_short(fixture);
    fixture_scrap(fixture->store, true);
    for (size_t i = 0; i < COUNT(bad); i++) {
        struct entry entry = decision(fixture, "recut", bad[i].note);
        refuses(fixture, &entry, bad[i].why);
        assert_int_equal(part(fixture, "S-0003O").life, PART_CUT);
    }
    fixture_scrap(fixture->store, false);
    struct entry entry = decision(fixture, "recut", "S-0005K cut 1/2 in short");
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    struct club club = fixture_club(fixture, 3);
    assert_string_equal(club.shaft.ticket, "S-0005K");
    assert_int_equal(club.progress.stage, STAGE_PENDING);
    assert_int_equal(club.progress.attempt, 1);
    assert_string_equal(club.progress.bench, "");
    assert_int_equal(part(fixture, "S-0003O").life, PART_SCRAP);
    assert_int_equal(part(fixture, "S-0003O").club_id, 0);
    fixture_bring(fixture, 3, STAGE_DONE); // first attempts of the new shaft
    assert_int_equal(part(fixture, "S-0005K").life, PART_CUT);
    // A bench that still holds the old shaft is told so.
    struct entry late = fixture_entry(fixture, ENTRY_MEASURE, 3);
    strcpy(late.shaft, "S-0003O");
    refuses(fixture, &late, "S-0005K now");
}

static void decides_to_scrap(void **state) {
    struct fixture *fixture = *state;
    measures_short(fixture);
    struct entry entry = decision(fixture, "scrap", "split at the tip");
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    assert_string_equal(fixture_club(fixture, 3).shaft.ticket, "");
    assert_string_equal(fixture_club(fixture, 3).head.ticket, "H-00028");
    assert_int_equal(part(fixture, "S-0003O").life, PART_SCRAP);
    assert_int_equal(part(fixture, "S-0003O").club_id, 0);
    // R14, in the schema itself.
    static const char *const again[] = {
        "UPDATE shaft SET life = 'raw' WHERE ticket = 'S-0003O'",
        "UPDATE shaft SET life = 'cut' WHERE ticket = 'S-0003O'",
        "UPDATE shaft SET club = 5 WHERE ticket = 'S-0003O'",
    };
    for (size_t i = 0; i < COUNT(again); i++) {
        assert_int_equal(sqlite3_exec(fixture->store->db, again[i], NULL, NULL, NULL) & 0xFF,
                         SQLITE_CONSTRAINT);
    }
}

static void keeps_a_dry_fit(void **state) {
    struct fixture *fixture = *state;
    struct entry entry = fixture_entry(fixture, ENTRY_DRY_FIT, 1);
    entry.planned = 47 * LENGTH_INCH + LENGTH_INCH / 4; // common practice, no source: raw 46,
    entry.made = LENGTH_INCH + LENGTH_INCH / 4;         // overall 47 1/4 is a bore height of 1 1/4
    assert_true(fixture_club(fixture, 1).head.bore_height == LENGTH_UNKNOWN);
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    assert_int_equal(fixture_club(fixture, 1).head.bore_height, 31750000);
    assert_int_equal(
        fixture_number(fixture->store->db, "SELECT dry_fit_raw FROM head WHERE ticket = 'H-0001A'"),
        46 * LENGTH_INCH);
    entry = fixture_entry(fixture, ENTRY_DRY_FIT, 1);
    entry.made = 3 * LENGTH_INCH; // R11
    refuses(fixture, &entry, "CHECK constraint failed");
    entry = fixture_entry(fixture, ENTRY_DRY_FIT, 0);
    strcpy(entry.head, "H-77777");
    refuses(fixture, &entry, "no head H-77777");
    entry = fixture_entry(fixture, ENTRY_DRY_FIT, 1);
    strcpy(entry.head, "H-00028"); // another club's head
    refuses(fixture, &entry, "H-0001A");
}

static void keeps_a_consent(void **state) {
    struct fixture *fixture = *state;
    struct entry entry = fixture_entry(fixture, ENTRY_CONSENT, 3);
    strcpy(entry.cause, "column");
    strcpy(entry.note, "8");
    strcpy(entry.worker, BUILDER);
    refuses(fixture, &entry, "Only a supervisor");
    strcpy(entry.worker, SUPERVISOR);
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    assert_string_equal(fixture_club(fixture, 3).order.picked_column, "8");
    assert_false(fixture_club(fixture, 3).order.shim_consent);
    entry = fixture_entry(fixture, ENTRY_CONSENT, 3);
    strcpy(entry.cause, "shim");
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    assert_true(fixture_club(fixture, 3).order.shim_consent);
    assert_string_equal(fixture_club(fixture, 3).order.picked_column, "8");
    entry = fixture_entry(fixture, ENTRY_CONSENT, 0);
    refuses(fixture, &entry, "needs a club");
    entry = fixture_entry(fixture, ENTRY_CONSENT, 3);
    strcpy(entry.cause, "anything");
    refuses(fixture, &entry, "a column, a shim, a trim or an extension");
}

static void keeps_a_trim_and_an_extension(void **state) {
    struct fixture *fixture = *state;
    struct store_check check;
    struct entry entry = fixture_entry(fixture, ENTRY_CONSENT, 3);
    assert_true(fixture_club(fixture, 3).order.trim_consent == LENGTH_UNKNOWN);
    assert_false(fixture_club(fixture, 3).order.extension_consent);
    strcpy(entry.cause, "trim");
    strcpy(entry.note, "about an inch");
    refuses(fixture, &entry, "trim about an inch");
    strcpy(entry.note, "1 1/2 in");
    strcpy(entry.worker, BUILDER);
    refuses(fixture, &entry, "Only a supervisor");
    strcpy(entry.worker, SUPERVISOR);
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    assert_int_equal(fixture_club(fixture, 3).order.trim_consent, 3 * LENGTH_INCH / 2);
    assert_true(fixture_club(fixture, 3).order.given_trim == LENGTH_UNKNOWN);
    entry = fixture_entry(fixture, ENTRY_CONSENT, 3);
    strcpy(entry.cause, "extension");
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    assert_true(fixture_club(fixture, 3).order.extension_consent);
    assert_false(fixture_club(fixture, 3).order.extension);
    assert_int_equal(fixture_club(fixture, 3).order.trim_consent, 3 * LENGTH_INCH / 2);
    assert_true(fixture_club(fixture, 4).order.trim_consent == LENGTH_UNKNOWN);
    assert_int_equal(store_check(fixture->store, &check), STORE_OK);
}

static struct entry note(struct fixture *fixture, int64_t about, int64_t club) {
    struct entry entry = fixture_entry(fixture, ENTRY_NOTE, club);
    strcpy(entry.worker, SUPERVISOR);
    strcpy(entry.note, "edge was burred");
    entry.refers = about;
    return entry;
}

static bool gather(void *context, const struct entry *entry) {
    int64_t *found = context;
    found[0]++;
    found[1] = entry->seq;
    return true;
}

static void takes_a_note_about_any_entry(void **state) {
    struct fixture *fixture = *state;
    struct store_check check;
    struct entry read;
    fixture_bring(fixture, 3, STAGE_DONE);
    struct club before = fixture_club(fixture, 3);
    int64_t cut = before.progress.tip_seq;
    struct entry entry = note(fixture, cut, 3);
    strcpy(entry.worker, BUILDER);
    refuses(fixture, &entry, "Only a supervisor");
    entry = note(fixture, cut, 3);
    strcpy(entry.note, "   ");
    refuses(fixture, &entry, "needs words");
    entry = note(fixture, 0, 3);
    refuses(fixture, &entry, "no entry 0");
    entry = note(fixture, 999, 3);
    refuses(fixture, &entry, "no entry 999");
    entry = note(fixture, cut, 1); // another club's parts
    refuses(fixture, &entry, "about other parts");
    entry = note(fixture, cut, 3);
    strcpy(entry.shaft, "S-0005K");
    refuses(fixture, &entry, "about other parts");
    entry = note(fixture, 1, 3); // the genesis is about no club
    refuses(fixture, &entry, "about other parts");
    entry = note(fixture, cut, 3);
    strcpy(entry.bench, "Office");
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    assert_int_equal(store_append(fixture->store, &entry), STORE_OK); // once
    int64_t found[2] = {0, 0};
    assert_int_equal(store_log_about(fixture->store, cut, cut, gather, found), STORE_OK);
    assert_int_equal(found[0], 1);
    assert_int_equal(found[1], entry.seq);
    assert_int_equal(store_entry(fixture->store, entry.seq, &read), STORE_OK);
    assert_memory_equal(&read, &entry, sizeof read);
    struct club after = fixture_club(fixture, 3); // it moves nothing
    assert_memory_equal(&after.progress, &before.progress, sizeof after.progress);
    struct entry first = note(fixture, 1, 0);
    assert_int_equal(store_append(fixture->store, &first), STORE_OK);
    first = note(fixture, entry.seq, 3); // a note on a note
    assert_int_equal(store_append(fixture->store, &first), STORE_OK);
    static const struct log_filter lives[] = {
        {.ticket = "S-0003O"},
        {.ticket = "H-00028"},
        {.build = "2042"},
        {.worker = SUPERVISOR, .bench = "Office", .material = "steel"}};
    for (size_t i = 0; i < COUNT(lives); i++) {
        struct log_line line[4];
        struct log_filter filter = lives[i];
        if (filter.build[0] != '\0') {
            strcpy(filter.build, entry.build);
        }
        assert_true(store_log(fixture->store, &filter, 0, line, 4) > 0);
        int64_t newest = filter.bench[0] != '\0' ? entry.seq : first.seq;
        assert_int_equal(line[0].seq, newest);
        assert_int_equal(line[0].kind, ENTRY_NOTE);
    }
    assert_int_equal(store_check(fixture->store, &check), STORE_OK);
}

#define STEP(name) cmocka_unit_test_setup_teardown(name, opened, closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(walks_a_club),
        STEP(reads_back_every_field),
        STEP(confirms_once),
        STEP(refuses_a_second_cut),
        STEP(refuses_what_is_elsewhere),
        STEP(refuses_what_is_not_well_formed),
        STEP(withdraws_into_a_new_attempt),
        STEP(decides_to_use),
        STEP(decides_to_recut),
        STEP(decides_to_scrap),
        STEP(keeps_a_dry_fit),
        STEP(keeps_a_consent),
        STEP(keeps_a_trim_and_an_extension),
        STEP(takes_a_note_about_any_entry),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

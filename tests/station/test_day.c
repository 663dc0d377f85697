// A day of the review: its figures and papers, and signing it.

#include "bench.h"
#include "cmocka_all.h"

#include <string.h>

static struct bench bench;

static int fresh(void **state) {
    *state = &bench;
    bench_init(&bench);
    bench_sign_on(&bench);
    bench_to_review(&bench);
    return 0;
}

static void to_the_question(struct bench *b) {
    bench_act(b, ACTION_DAY, 0);
    bench_act(b, ACTION_SIGN, 0);
    assert_true(bench_can(b, ACTION_SIGN_CONFIRM));
    assert_int_equal(shop_count(&b->shop, ENTRY_DAY_SIGNED), 0);
}

static bool has_line(const struct bench *b, const char *words) {
    for (size_t i = 0; i < b->view.day.line_count; i++) {
        if (strstr(b->view.day.line[i], words) != NULL) {
            return true;
        }
    }
    return false;
}

static void shows_the_day(void **state) {
    struct bench *b = *state;
    bench_act(b, ACTION_DAY, 0);
    assert_int_equal(b->view.body, VIEW_DAY);
    assert_int_equal(b->view.day.fact_count, 7);
    assert_string_equal(b->view.day.fact[5].name, "Entries of the whole log");
    assert_string_equal(b->view.day.verdict, "This day is not signed yet");
    assert_string_equal(b->view.day.note, "");
    b->shop.lost = 1;
    bench_wait(b, 1);
    assert_string_equal(b->view.day.verdict, "The log does not answer. Try again.");
    b->shop.lost = 0;
    bench_act(b, ACTION_BACK, 0);
    assert_int_equal(b->view.body, VIEW_LOG);
}

static void writes_its_papers(void **state) {
    struct bench *b = *state;
    int before = shop_count(&b->shop, ENTRY_EXPORT);
    bench_act(b, ACTION_DAY, 0);
    bench_act(b, ACTION_REPORT, 0);
    assert_string_equal(b->view.band, "Written to /var/report.pdf");
    bench_act(b, ACTION_LEDGER, 0);
    assert_string_equal(b->view.band, "Written to /var/ledger.csv");
    assert_int_equal(shop_count(&b->shop, ENTRY_EXPORT), before + 2);
    b->shop.broken = true;
    bench_act(b, ACTION_REPORT, 0);
    assert_string_equal(b->view.band, "The file could not be written. Is there room on the disk?");
    assert_int_equal(shop_count(&b->shop, ENTRY_EXPORT), before + 2);
}

static void signs_when_asked_twice(void **state) {
    struct bench *b = *state;
    to_the_question(b);
    assert_int_equal(b->view.day.tone, TONE_CAUTION);
    assert_true(has_line(b, "You sign all "));
    bench_act(b, ACTION_BACK, 0); // not now
    assert_int_equal(b->view.body, VIEW_DAY);
    assert_false(bench_can(b, ACTION_SIGN_CONFIRM));
    assert_int_equal(shop_count(&b->shop, ENTRY_DAY_SIGNED), 0);
    bench_act(b, ACTION_SIGN, 0);
    bench_press(b); // a button never chooses
    assert_true(bench_can(b, ACTION_SIGN_CONFIRM));
    bench_scan(b, TICKET_WORKER, "3"); // nor does a scan
    assert_int_equal(shop_count(&b->shop, ENTRY_DAY_SIGNED), 0);
    to_the_question(b);
    bench_act(b, ACTION_SIGN_CONFIRM, 0);
    assert_int_equal(shop_count(&b->shop, ENTRY_DAY_SIGNED), 0); // it is checked first
    bench_wait(b, 250);
    assert_int_equal(shop_count(&b->shop, ENTRY_DAY_SIGNED), 1);
    assert_string_equal(shop_last(&b->shop, ENTRY_DAY_SIGNED)->worker,
                        shop_ticket(TICKET_WORKER, "3"));
    assert_string_equal(b->view.band, "Signed: in the log and in the witness.");
    assert_int_equal(b->view.day.tone, TONE_FINE);
    assert_string_equal(b->view.day.brief, "2025-11-25 7 9F86-D081-884C-7D65");
    assert_true(strstr(b->view.day.note, "\nday 2025-11-25\n") != NULL);
    bench_act(b, ACTION_SIGN_CONFIRM, 0); // a touch too many
    assert_int_equal(shop_count(&b->shop, ENTRY_DAY_SIGNED), 1);
    bench_act(b, ACTION_BACK, 0);
    bench_act(b, ACTION_DAY, 0);
    assert_string_equal(b->view.day.note, ""); // shown once
    assert_int_equal(b->view.day.tone, TONE_FINE);
}

static void says_what_is_missing_before_asking(void **state) {
    struct bench *b = *state;
    b->shop.no_stick = true;
    bench_act(b, ACTION_DAY, 0);
    bench_act(b, ACTION_SIGN, 0);
    assert_false(bench_can(b, ACTION_SIGN_CONFIRM));
    assert_string_equal(b->view.band, "Not signed.");
    assert_int_equal(b->view.day.tone, TONE_STOP);
    assert_true(has_line(b, "stick plugged in"));
    b->shop.no_stick = false;
    bench_act(b, ACTION_SIGN, 0);
    assert_true(bench_can(b, ACTION_SIGN_CONFIRM));
    assert_false(has_line(b, "stick plugged in"));
}

static void never_says_signed_untruly(void **state) {
    static const struct {
        enum station_sign signing;
        const char *band;
        const char *line;
        enum view_tone tone;
        int entries;
        bool note;
    } rows[] = {
        {STATION_NOT_SIGNED, "Not signed.", "does not fit", TONE_STOP, 0, false},
        {STATION_SIGN_UNKNOWN, "Nobody can say yet whether the day was signed.", "not known",
         TONE_STOP, 0, false},
        {STATION_SIGNED_UNKEPT, "Signed in the log, but the witness does not have it.",
         "Sign once more", TONE_CAUTION, 1, true},
    };
    struct bench *b = *state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        fresh(state);
        b->shop.signing = rows[i].signing;
        to_the_question(b);
        bench_act(b, ACTION_SIGN_CONFIRM, 0);
        bench_wait(b, 250);
        assert_string_equal(b->view.band, rows[i].band);
        assert_true(has_line(b, rows[i].line));
        assert_int_equal(b->view.day.tone, rows[i].tone);
        assert_int_equal(shop_count(&b->shop, ENTRY_DAY_SIGNED), rows[i].entries);
        assert_int_equal(b->view.day.note[0] != '\0', rows[i].note);
    }
}

static void is_gone_with_the_supervisor(void **state) {
    struct bench *b = *state;
    to_the_question(b);
    bench_wait(b, 5 * 60 * 1000);
    assert_int_equal(b->station.state, STATION_READY);
    bench_act(b, ACTION_SIGN_CONFIRM, 0);
    assert_int_equal(shop_count(&b->shop, ENTRY_DAY_SIGNED), 0);
}

static void to_the_check(struct bench *b, int looks) {
    b->shop.check_looks = looks;
    to_the_question(b);
    bench_act(b, ACTION_SIGN_CONFIRM, 0);
    assert_true(b->shop.checking);
    assert_int_equal(station_deadline(&b->station), b->shop.now_ms + 250);
}

static void is_checked_in_steps(void **state) {
    struct bench *b = *state;
    to_the_check(b, 3);
    bench_wait(b, 250);
    assert_string_equal(b->view.day.verdict, "Checking the log: 3.1 of 10 million entries");
    assert_int_equal(b->view.day.tone, TONE_WORK);
    assert_true(has_line(b, "Nothing is signed yet."));
    bench_wait(b, 250);
    assert_string_equal(b->view.day.verdict, "Checking the log: 6.2 of 10 million entries");
    bench_scan(b, TICKET_WORKER, "3"); // another list would be another day
    assert_int_equal(b->view.body, VIEW_DAY);
    assert_true(b->shop.checking);
    assert_false(bench_can(b, ACTION_SIGN_OUT));
    b->shop.check_read = 10000000 - 3100000;
    bench_wait(b, 6 * 60 * 1000); // longer than a supervisor may idle
    assert_string_equal(b->view.day.verdict,
                        "Checking the log: all entries are read, now what belongs to them");
    assert_int_equal(shop_count(&b->shop, ENTRY_DAY_SIGNED), 0);
    bench_wait(b, 250);
    assert_int_equal(shop_count(&b->shop, ENTRY_DAY_SIGNED), 1);
    assert_string_equal(b->view.band, "Signed: in the log and in the witness.");
    assert_true(b->view.day.note[0] != '\0');
    bench_wait(b, 4 * 60 * 1000);
    assert_int_equal(b->view.body, VIEW_DAY); // the note stays as long as anything would
    bench_wait(b, 2 * 60 * 1000);
    assert_int_equal(b->station.state, STATION_READY);
}

static void says_small_logs_to_the_entry(void **state) {
    struct bench *b = *state;
    to_the_check(b, 1);
    b->station.day.checked = 31200;
    b->station.day.all = 120000;
    station_view(&b->station, &b->view);
    assert_string_equal(b->view.day.verdict, "Checking the log: 31200 of 120000 entries");
}

static void is_not_signed(const struct bench *b, const char *band) {
    assert_false(b->shop.checking);
    assert_int_equal(b->view.body, VIEW_DAY);
    assert_string_equal(b->view.band, band);
    assert_string_equal(b->view.day.note, "");
    assert_true(bench_can(b, ACTION_SIGN));
}

static void stops_when_asked(void **state) {
    struct bench *b = *state;
    to_the_check(b, 9);
    bench_wait(b, 250);
    bench_press(b);
    is_not_signed(b, "Stopped. Not signed.");
    to_the_check(b, 9);
    bench_act(b, ACTION_BACK, 0);
    is_not_signed(b, "Stopped. Not signed.");
    bench_wait(b, 60 * 1000);
    assert_int_equal(shop_count(&b->shop, ENTRY_DAY_SIGNED), 0);
    to_the_check(b, 0);
    bench_wait(b, 250);
    assert_int_equal(shop_count(&b->shop, ENTRY_DAY_SIGNED), 1);
}

// The touch that says yes bounces.
static void is_not_stopped_by_a_bounce(void **state) {
    struct bench *b = *state;
    struct event yes = {.kind = EVENT_ACTION, .action = ACTION_SIGN_CONFIRM};
    struct event press = {.kind = EVENT_PRESS};
    to_the_question(b);
    b->shop.check_looks = 9;
    station_event(&b->station, &yes);
    b->shop.now_ms += 100;
    station_event(&b->station, &press);
    assert_true(b->shop.checking);
}

static void stops_when_something_comes_between(void **state) {
    struct bench *b = *state;
    to_the_check(b, 9);
    bench_fault(b, "The scanner sends what nobody reads.");
    assert_int_equal(b->station.state, STATION_HOLD);
    assert_false(b->shop.checking);
    bench_press(b);
    is_not_signed(b, "Stopped. Not signed.");
    bench_wait(b, 60 * 1000);
    assert_int_equal(shop_count(&b->shop, ENTRY_DAY_SIGNED), 0);
}

static void stops_when_the_review_is_left(void **state) {
    static const char *const commands[] = {"OUT", "BACK"};
    struct bench *b = *state;
    for (size_t i = 0; i < sizeof commands / sizeof commands[0]; i++) {
        fresh(state);
        to_the_check(b, 9);
        bench_scan(b, TICKET_COMMAND, commands[i]);
        assert_int_not_equal(b->station.state, STATION_REVIEW);
        assert_false(b->shop.checking);
        bench_wait(b, 60 * 1000);
        assert_int_equal(shop_count(&b->shop, ENTRY_DAY_SIGNED), 0);
    }
}

static void signs_nothing_that_is_not_whole(void **state) {
    struct bench *b = *state;
    b->shop.check_fails = true;
    to_the_check(b, 2);
    bench_wait(b, 250);
    bench_wait(b, 250);
    assert_true(b->shop.checking);
    bench_wait(b, 250);
    is_not_signed(b, "Not signed.");
    assert_int_equal(b->view.day.tone, TONE_STOP);
    assert_true(has_line(b, "Entry 7"));
    bench_wait(b, 60 * 1000);
    assert_int_equal(shop_count(&b->shop, ENTRY_DAY_SIGNED), 0);
}

static void says_when_it_cannot_start(void **state) {
    struct bench *b = *state;
    to_the_question(b);
    b->shop.broken = true;
    bench_act(b, ACTION_SIGN_CONFIRM, 0);
    is_not_signed(b, "Not signed.");
    assert_true(has_line(b, "could not be started"));
}

static void prints_a_builds_tickets(void **state) {
    struct bench *b = *state;
    assert_false(bench_can(b, ACTION_TICKETS));
    bench_act(b, ACTION_BACK, 0);
    bench_to_mark(b, "1");
    bench_act(b, ACTION_START_OVER, 0);
    bench_to_review(b);
    bench_act(b, ACTION_ROW, shop_last(&b->shop, ENTRY_TIP_SHOWN)->seq);
    bench_act(b, ACTION_TICKETS, 0);
    assert_string_equal(b->view.band, "Written to 2041");
    assert_int_equal(b->view.body, VIEW_LOG);
}

// The life of a part has no day to sign.
static void needs_a_day(void **state) {
    struct bench *b = *state;
    assert_true(bench_can(b, ACTION_DAY));
    b->station.review.filter.from_ms = 0;
    bench_wait(b, 1);
    assert_false(bench_can(b, ACTION_DAY));
    b->station.review.filter.from_ms = 1764028800000;
    b->station.review.filter.to_ms = 1764028800000 + (int64_t)3 * 24 * 3600 * 1000;
    bench_wait(b, 1);
    assert_false(bench_can(b, ACTION_DAY));
}

#define STEP(name) cmocka_unit_test_setup(name, fresh)

int main(void) {
    const struct CMUnitTest tests[] = {
        STEP(shows_the_day),
        STEP(writes_its_papers),
        STEP(signs_when_asked_twice),
        STEP(says_what_is_missing_before_asking),
        STEP(never_says_signed_untruly),
        STEP(is_gone_with_the_supervisor),
        STEP(is_checked_in_steps),
        STEP(says_small_logs_to_the_entry),
        STEP(stops_when_asked),
        STEP(is_not_stopped_by_a_bounce),
        STEP(stops_when_something_comes_between),
        STEP(stops_when_the_review_is_left),
        STEP(signs_nothing_that_is_not_whole),
        STEP(says_when_it_cannot_start),
        STEP(prints_a_builds_tickets),
        STEP(needs_a_day),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

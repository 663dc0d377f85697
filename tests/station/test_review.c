// Supervisor: PIN, the day's log, one entry with its plan, decisions.

#include "bench.h"
#include "cmocka_all.h"

#include <string.h>

static struct bench bench;
static char plan[ENTRY_PLAN_MAX];

static int fresh(void **state) {
    *state = &bench;
    bench_init(&bench);
    bench.shop.plan_text = plan;
    return 0;
}

static void short_butt(struct bench *b) {
    bench_to_mark(b, "1");
    bench_press(b);
    bench_press(b);
    bench_type(b, "36 3/4");
    bench_press(b);
    assert_int_equal(b->station.hold.cause, HOLD_BUTT_SHORT);
    bench_press(b);
}

static int64_t select_short(struct bench *b) {
    int64_t seq = shop_last(&b->shop, ENTRY_MEASURE)->seq;
    bench_act(b, ACTION_ROW, seq);
    assert_true(b->view.log.selected >= 0);
    return seq;
}

static void the_pin(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    bench_scan(b, TICKET_WORKER, "3");
    assert_int_equal(b->view.body, VIEW_PIN);
    bench_press(b);
    assert_string_equal(b->view.pin_message, "Type the PIN first.");
    bench_scan_text(b, "4711"); // a scan is no PIN
    assert_int_equal(b->view.pin_digits, 0);
    assert_string_equal(b->view.pin_message, "A scan is no PIN. Type the digits.");
    bench_type(b, "47x1\b12");
    assert_int_equal(b->view.pin_digits, 4);
    bench_press(b);
    assert_string_equal(b->view.pin_message, "The PIN is wrong. Try again.");
    assert_string_equal(shop_last(&b->shop, ENTRY_PIN)->cause, "refused");
    assert_int_equal(b->view.pin_digits, 0);
    b->shop.pin_wait_s = 30;
    bench_type(b, "4711");
    bench_press(b);
    assert_string_equal(b->view.pin_message, "Too many tries. Wait 30 seconds, then try again.");
    b->shop.pin_wait_s = 0;
    bench_type(b, "4711");
    bench_scan_text(b, "4711"); // the Enter that ends typing
    assert_int_equal(b->station.state, STATION_PIN);
    bench_press(b);
    assert_int_equal(b->view.body, VIEW_LOG);
    assert_string_equal(shop_last(&b->shop, ENTRY_PIN)->cause, "accepted");
    assert_string_equal(b->view.worker, "Cleo Marsh");
}

static void a_builder_gets_nowhere(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    bench_act(b, ACTION_REVIEW, 0);
    bench_type(b, "4711");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_PIN);
    bench_scan(b, TICKET_WORKER, "15");
    assert_string_equal(b->view.pin_message,
                        "Ben Rowan is no supervisor. Scan a supervisor's badge.");
    bench_act(b, ACTION_BACK, 0);
    assert_int_equal(b->station.state, STATION_READY);
}

static void idling_ends_it(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    bench_to_review(b);
    bench_wait(b, 5 * 60 * 1000 - 1000);
    assert_int_equal(b->station.state, STATION_REVIEW);
    bench_wait(b, 1000);
    assert_int_equal(b->station.state, STATION_READY);
    assert_string_equal(b->station.supervisor.badge, "");
}

static void one_entry_with_its_plan(void **state) {
    struct bench *b = *state;
    short_butt(b);
    bench_to_review(b);
    select_short(b);
    assert_true(strstr(b->view.log.detail[0], "Plan 36 7/8 in, made 36 3/4 in") != NULL);
    assert_true(bench_can(b, ACTION_DECIDE_USE));
    bench_act(b, ACTION_OPEN_ENTRY, 0);
    assert_int_equal(b->view.body, VIEW_ENTRY);
    assert_true(b->view.entry.fact_count >= 10);
    assert_int_equal(b->view.entry.receipt_count, 1); // tip already cut: R_TIP_MADE
    assert_string_equal(b->view.entry.total.amount, "1 1/2 in");
    bench_act(b, ACTION_BACK, 0);
    assert_int_equal(b->view.body, VIEW_LOG);
}

static void use_needs_a_note(void **state) {
    struct bench *b = *state;
    short_butt(b);
    bench_to_review(b);
    int64_t seq = select_short(b);
    bench_act(b, ACTION_DECIDE_USE, 0);
    assert_int_equal(shop_count(&b->shop, ENTRY_DECIDE), 0);
    assert_true(b->view.log.note_active);
    bench_type(b, "customer agreez\bs");
    bench_scan_text(b, "customer agrees"); // the Enter that ends typing
    assert_false(b->view.log.note_active);
    assert_string_equal(b->view.log.note, "customer agrees");
    bench_act(b, ACTION_DECIDE_USE, 0);
    assert_string_equal(b->view.band, "Decided and logged.");
    assert_int_equal(shop_last(&b->shop, ENTRY_DECIDE)->refers, seq);
    assert_string_equal(shop_last(&b->shop, ENTRY_DECIDE)->worker, shop_ticket(TICKET_WORKER, "3"));
    assert_int_equal(b->shop.club[0].progress.stage, STAGE_DONE);
    assert_false(bench_can(b, ACTION_DECIDE_USE));
}

static void recut_on_a_spare(void **state) {
    struct bench *b = *state;
    short_butt(b);
    bench_to_review(b);
    select_short(b);
    bench_act(b, ACTION_DECIDE_RECUT, 0);
    assert_true(bench_can(b, ACTION_SPARE));
    bench_act(b, ACTION_SPARE, 0);
    assert_int_equal(b->shop.club[0].progress.stage, STAGE_PENDING);
    bench_act(b, ACTION_BACK, 0);
    bench_scan(b, TICKET_HEAD, "1");
    bench_scan(b, TICKET_SHAFT, "51");
    assert_int_equal(b->station.state, STATION_TIP_CUT);
}

static void scrap_and_gone(void **state) {
    struct bench *b = *state;
    short_butt(b);
    bench_to_review(b);
    select_short(b);
    bench_act(b, ACTION_NOTE, 0);
    bench_type(b, "split");
    bench_act(b, ACTION_NOTE, 0);
    b->shop.club[0].progress.decision_seq = 1; // decided elsewhere meanwhile
    bench_act(b, ACTION_DECIDE_SCRAP, 0);
    assert_int_equal(shop_count(&b->shop, ENTRY_DECIDE), 0);
}

static void filters_days_and_pages(void **state) {
    struct bench *b = *state;
    short_butt(b);
    for (int i = 0; i < 12; i++) {
        bench_scan_text(b, i % 2 == 0 ? "S-1X" : "H-1!");
    }
    bench_press(b);
    bench_to_review(b);
    assert_int_equal(b->view.log.row_count, STATION_ROWS_MAX);
    int64_t newest = b->view.log.row[0].seq;
    bench_act(b, ACTION_OLDER, 0);
    assert_int_equal(b->view.log.row[0].seq, newest - STATION_ROWS_MAX);
    bench_act(b, ACTION_NEWER, 0);
    assert_int_equal(b->view.log.row[0].seq, newest);
    bench_act(b, ACTION_FILTER_OPEN, 0);
    assert_int_equal(b->view.log.row_count, 1);
    assert_string_equal(b->view.log.filters, "Waiting for a decision");
    select_short(b);
    bench_act(b, ACTION_FILTER_WORKER, 0);
    assert_true(strstr(b->view.log.filters, shop_ticket(TICKET_WORKER, "14")) != NULL);
    bench_act(b, ACTION_FILTER_CLEAR, 0);
    assert_string_equal(b->view.log.filters, "All entries");
    bench_act(b, ACTION_FILTER_VERDICT, 0);
    assert_string_equal(b->view.log.filters, "Verdict in");
    int64_t from = b->station.review.filter.from_ms;
    bench_act(b, ACTION_DAY_BACK, 0);
    assert_int_equal(b->station.review.filter.from_ms, from - 86400000);
    assert_int_equal(b->station.review.filter.to_ms, from);
    bench_act(b, ACTION_DAY_ON, 0);
    assert_int_equal(b->station.review.filter.from_ms, from);
}

static void export_says_where(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    bench_to_review(b);
    bench_act(b, ACTION_EXPORT, 0);
    assert_string_equal(b->view.band, "Written to /var/log.csv");
    assert_int_equal(shop_count(&b->shop, ENTRY_EXPORT), 1);
    b->shop.broken = true;
    bench_act(b, ACTION_EXPORT, 0);
    assert_true(strstr(b->view.band, "could not be written") != NULL);
    bench_scan(b, TICKET_WORKER, "14");
    assert_string_equal(b->view.band, "The log is open: close it before you scan.");
}

static void charts_of_the_day(void **state) {
    struct bench *b = *state;
    short_butt(b); // one club, 1/8 in short
    bench_to_review(b);
    bench_act(b, ACTION_STATS, 0);
    assert_int_equal(b->view.body, VIEW_SET);
    assert_int_equal(b->view.set.plot[0].count, 1);
    assert_true(b->view.set.plot[0].point[0].planned < -124.9 &&
                b->view.set.plot[0].point[0].planned > -125.1);
    assert_string_equal(b->view.set.note[0], "Too few clubs measured for a chart.");
    assert_ptr_equal(strstr(b->view.set.note[1], "Clubs measured 1, cuts 2"), b->view.set.note[1]);
    assert_true(b->view.set.row_count > 0); // the stop that the short shaft was
    bench_act(b, ACTION_BACK, 0);
    assert_int_equal(b->view.body, VIEW_LOG);
}

#define T(name) cmocka_unit_test_setup(name, fresh)
int main(void) {
    const struct CMUnitTest tests[] = {
        T(the_pin),           T(a_builder_gets_nowhere),
        T(idling_ends_it),    T(one_entry_with_its_plan),
        T(use_needs_a_note),  T(recut_on_a_spare),
        T(scrap_and_gone),    T(filters_days_and_pages),
        T(charts_of_the_day), T(export_says_where),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// Supervisor: PIN, the day's log, one entry with its plan, decisions.

#include "bench.h"
#include "cmocka_all.h"

#include <stdio.h>
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

static void one_of_each(void *ctx, struct view_today *ret_today) {
    (void)ctx;
    *ret_today = (struct view_today){.cuts = 1, .out = 1, .holds = 1};
}

static void a_sum_of_many(void *ctx, struct view_today *ret_today) {
    (void)ctx;
    *ret_today = (struct view_today){.cuts = 74, .out = 2, .holds = 0};
}

static void the_day_s_sum_is_right_in_number(void **state) {
    struct bench *b = *state;
    b->ops.today = one_of_each;
    bench_sign_on(b);
    bench_to_review(b);
    assert_non_null(strstr(b->view.log.subtitle, " · 1 cut · 1 out of tolerance · 1 stop"));
    assert_null(strstr(b->view.log.subtitle, "stops"));
    b->ops.today = a_sum_of_many;
    bench_act(b, ACTION_OLDER, 0);
    assert_non_null(strstr(b->view.log.subtitle, " · 74 cuts · 2 out of tolerance · 0 stops"));
}

static const char *tolerance_told(const struct bench *b) {
    for (size_t i = 0; i < b->view.log.detail_count; i++) {
        if (strncmp(b->view.log.detail[i], "Tolerance ", 10) == 0) {
            return b->view.log.detail[i];
        }
    }
    return NULL;
}

static void an_entry_tells_the_tolerance_of_its_own(void **state) {
    struct bench *b = *state;
    b->station.settings.rules.tolerance = LENGTH_INCH / 32;
    short_butt(b);
    b->station.settings.rules.tolerance = LENGTH_INCH / 8; // the shop's of today
    bench_to_review(b);
    select_short(b);
    assert_string_equal(tolerance_told(b), "Tolerance 1/32 in");
    assert_true(memcmp(plan, "kerfside-plan", 13) == 0);
    plan[0] = 'X'; // a plan that nobody can read tells none
    bench_act(b, ACTION_ROW, shop_last(&b->shop, ENTRY_MEASURE)->seq);
    assert_ptr_equal(strstr(b->view.log.detail[0], "Plan "), b->view.log.detail[0]);
    assert_null(tolerance_told(b));
}

// Years later: other charts, weights, lengths and settings, another sitting.
static void everything_changes(struct bench *later) {
    struct station_settings settings = shop_settings();
    settings.tip_right = !later->station.settings.tip_right;
    settings.metric_first = !later->station.settings.metric_first;
    settings.rules.mark_step = LENGTH_INCH / 32;
    settings.rules.tolerance = LENGTH_INCH / 32;
    for (size_t i = 0; i < later->catalogue.club_count; i++) {
        struct club *club = &later->catalogue.club[i];
        club->head.weight += 9 * MASS_GRAM;
        club->head.bore_height += LENGTH_INCH / 4;
        strcpy(club->head.engraved, "X");
        club->shaft.raw_length += LENGTH_INCH;
        strcpy(club->shaft.flex, "Q");
        club->model.material = MATERIAL_COUNT - 1 - club->model.material;
        club->model.revision++;
        club->chart.revision++;
        club->order.playing_length -= LENGTH_INCH;
        club->order.count++;
        for (size_t k = 0; k < club->chart.count; k++) {
            club->chart.column[k].tip_trim += LENGTH_INCH / 2;
        }
    }
    later->shop.catalogue = &later->catalogue;
    later->ops = shop_ops_for(&later->shop);
    station_init(&later->station, &settings, &later->ops);
}

// The mark that `then` shows, out of its entry alone.
static void expect_shown_again(const struct bench *then) {
    static struct bench later;
    static char kept[ENTRY_PLAN_MAX];
    memcpy(kept, plan, sizeof kept);
    later = *then;
    everything_changes(&later);
    bench_sign_on(&later);
    bench_to_review(&later);
    int64_t seq = then->station.shown_seq;
    bench_act(&later, ACTION_ROW, seq);
    assert_int_equal(later.station.review.selected, seq);
    bench_act(&later, ACTION_OPEN_ENTRY, 0);
    bench_act(&later, ACTION_SHOWN, 0);
    assert_int_equal(later.view.body, VIEW_SHOWN);
    assert_memory_equal(&later.view.cut, &then->view.cut, sizeof later.view.cut);
    assert_string_equal(later.view.band, "Not for cutting. Back to the entry: F3");
    bench_act(&later, ACTION_BACK, 0);
    assert_int_equal(later.view.body, VIEW_ENTRY);
    assert_memory_equal(kept, plan, sizeof kept);
}

static void shown_again(void **state) {
    struct bench *b = *state;
    static const char *const clubs[] = {"1", "2"};
    int seen[2] = {0}; // tips, butts
    for (size_t i = 0; i < 8; i++) {
        fresh(state);
        b->station.settings.tip_right = i / 2 % 2 == 1;
        b->station.settings.metric_first = i / 4 == 1;
        bench_to_mark(b, clubs[i % 2]);
        while (b->view.body == VIEW_CUT) {
            seen[b->view.cut.butt]++;
            expect_shown_again(b);
            bench_press(b);
        }
    }
    assert_true(seen[0] >= 8 && seen[1] >= 8);
}

// Cut short of the mark: what is left to cut, and what is cut already, were on the screen too.
static void shown_again_after_part_of_it(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_held(b);
    bench_act(b, ACTION_WRONG_MISCUT, 0);
    bench_type(b, "1");
    bench_press(b);
    assert_int_equal(b->view.body, VIEW_CUT);
    assert_true(b->view.cut.warning_count > 0);
    expect_shown_again(b);
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
    char planned[VIEW_TEXT_MAX];
    snprintf(planned, sizeof planned,
             "Decided and logged. %s is reserved: tip mark 1 1/2 in, butt mark 36 7/8 in.",
             shop_ticket(TICKET_SHAFT, "51"));
    assert_string_equal(b->view.band, planned);
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

// Any entry takes a note, and none but a press saves it.
static void a_note_on_any_entry(void **state) {
    static struct entry noted;
    struct bench *b = *state;
    b->shop.noted = &noted;
    bench_to_mark(b, "1");
    bench_act(b, ACTION_START_OVER, 0);
    bench_to_review(b);
    const struct shop_entry *shown = shop_last(&b->shop, ENTRY_TIP_SHOWN);
    int64_t seq = shown->seq;
    bench_act(b, ACTION_NOTE, 0);
    assert_false(b->view.log.note_active); // nothing is selected
    bench_act(b, ACTION_ROW, seq);
    assert_false(bench_can(b, ACTION_DECIDE_USE));
    assert_false(bench_can(b, ACTION_PRESS));
    bench_press(b); // nothing is typed
    bench_act(b, ACTION_NOTE, 0);
    bench_type(b, "  ");
    bench_press(b);
    assert_int_equal(shop_count(&b->shop, ENTRY_NOTE), 0);
    bench_type(b, "burred edge");
    bench_scan_text(b, "burred edge"); // the Enter that ends typing
    assert_false(b->view.log.note_active);
    assert_int_equal(shop_count(&b->shop, ENTRY_NOTE), 0);
    char band[VIEW_TEXT_MAX];
    snprintf(band, sizeof band, "Press to save the note with entry %d.", (int)seq);
    assert_string_equal(b->view.band, band);
    assert_true(bench_can(b, ACTION_PRESS));
    bench_press(b);
    bench_wait(b, 1000);
    bench_press(b); // once more
    assert_int_equal(shop_count(&b->shop, ENTRY_NOTE), 1);
    snprintf(band, sizeof band, "The note is in the log, with entry %d.", (int)seq);
    assert_int_equal(noted.refers, seq);
    assert_int_equal(noted.club_id, shown->club_id);
    assert_string_equal(noted.worker, shop_ticket(TICKET_WORKER, "3"));
    assert_string_equal(noted.note, "  burred edge");
    assert_string_equal(noted.build, b->catalogue.club[0].order.build);
    assert_string_equal(noted.club, b->catalogue.club[0].order.club);
    assert_string_equal(noted.head, b->catalogue.club[0].head.ticket);
    assert_string_equal(noted.shaft, b->catalogue.club[0].shaft.ticket);
    assert_string_equal(b->view.log.note, "");
    bench_act(b, ACTION_OPEN_ENTRY, 0);
    assert_int_equal(b->view.entry.said_count, 1);
    assert_non_null(strstr(b->view.entry.said[0], noted.worker));
    assert_non_null(strstr(b->view.entry.said[0], "note:   burred edge"));
}

static void notes_of_many_and_none(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    bench_to_review(b);
    int64_t seq = shop_last(&b->shop, ENTRY_SIGN_ON)->seq;
    bench_act(b, ACTION_ROW, seq);
    bench_act(b, ACTION_OPEN_ENTRY, 0);
    assert_int_equal(b->view.entry.said_count, 0);
    bench_act(b, ACTION_BACK, 0);
    for (int i = 0; i < VIEW_SAID_MAX + 2; i++) {
        bench_wait(b, 1000);
        bench_act(b, ACTION_ROW, seq);
        bench_act(b, ACTION_NOTE, 0);
        bench_type(b, "x");
        bench_press(b);
    }
    assert_int_equal(shop_count(&b->shop, ENTRY_NOTE), VIEW_SAID_MAX + 2);
    bench_act(b, ACTION_OPEN_ENTRY, 0);
    assert_int_equal(b->view.entry.said_count, VIEW_SAID_MAX + 1);
    assert_string_equal(b->view.entry.said[0], "2 more entries before these.");
    bench_act(b, ACTION_BACK, 0);
    bench_act(b, ACTION_NOTE, 0);
    bench_type(b, "disk");
    bench_wait(b, 1000);
    b->shop.broken = true;
    bench_press(b);
    assert_int_equal(b->station.saving, SAVING_REFUSED); // kept, tried again
    b->shop.broken = false;
    bench_wait(b, 3000);
    assert_int_equal(b->station.saving, SAVING_NONE);
    assert_int_equal(shop_count(&b->shop, ENTRY_NOTE), VIEW_SAID_MAX + 3);
}

// Filter `dimension` set to its choice `value`, left open.
static void choose(struct bench *b, int64_t dimension, int64_t value) {
    if (bench_can(b, ACTION_FILTER)) {
        bench_act(b, ACTION_FILTER, 0);
    }
    bench_act(b, ACTION_FILTER_PICK, dimension);
    bench_act(b, ACTION_FILTER_VALUE, value);
}

static void every_filter_together(void **state) {
    struct bench *b = *state;
    const struct review_filter *filter = &b->station.review.filter;
    short_butt(b);
    bench_to_review(b);
    int64_t today = filter->from_ms;
    choose(b, 1, 1);
    choose(b, 2, 1);
    choose(b, 3, 2);
    choose(b, 4, VERDICT_SHORT);
    bench_act(b, ACTION_FILTER_OPEN, 0);
    assert_string_equal(filter->worker, shop_ticket(TICKET_WORKER, "14"));
    assert_string_equal(filter->bench, "Bench 1");
    assert_string_equal(filter->material, "steel");
    char all[VIEW_TEXT_MAX];
    snprintf(all, sizeof all,
             "Worker %s · Bench 1 · steel · Verdict short · Waiting for a decision",
             shop_ticket(TICKET_WORKER, "14"));
    assert_string_equal(b->view.log.filters, all);
    choose(b, 3, 0); // any
    assert_string_equal(filter->material, "");
    bench_act(b, ACTION_FILTER_CLEAR, 0);
    assert_string_equal(b->view.log.filters, "All entries");
    assert_int_equal(filter->from_ms, today);
    bench_act(b, ACTION_BACK, 0);
    assert_true(bench_can(b, ACTION_FILTER));
}

static void days_and_ranges(void **state) {
    struct bench *b = *state;
    const struct review_filter *filter = &b->station.review.filter;
    const int64_t day = 86400000;
    bench_sign_on(b);
    bench_to_review(b);
    int64_t today = filter->from_ms;
    choose(b, 0, 1); // the last 7 days
    assert_int_equal(filter->from_ms, today - 6 * day);
    assert_int_equal(filter->to_ms, today + day);
    char words[VIEW_TEXT_MAX];
    snprintf(words, sizeof words, "day %d to day %d", (int)(today / day) - 6, (int)(today / day));
    assert_string_equal(b->view.log.subtitle, words);
    bench_act(b, ACTION_FILTER_PICK, 0);
    bench_act(b, ACTION_FILTER_VALUE, 5); // first day back
    bench_act(b, ACTION_FILTER_VALUE, 7); // last day back
    assert_int_equal(filter->from_ms, today - 7 * day);
    assert_int_equal(filter->to_ms, today);
    bench_act(b, ACTION_FILTER_VALUE, 6);
    bench_act(b, ACTION_FILTER_VALUE, 8);
    assert_int_equal(filter->from_ms, today - 6 * day);
    assert_int_equal(filter->to_ms, today + day);
    for (int i = 0; i < 10; i++) {
        bench_act(b, ACTION_FILTER_VALUE, 6); // never past the last day
    }
    assert_int_equal(filter->from_ms, today);
    bench_act(b, ACTION_FILTER_VALUE, 4);
    assert_int_equal(filter->from_ms, 0);
    assert_string_equal(b->view.log.subtitle, "Every day");
    bench_act(b, ACTION_BACK, 0);
    bench_scan_text(b, "1970-01-03"); // typed
    assert_int_equal(filter->from_ms, 2 * day);
    assert_int_equal(filter->to_ms, 3 * day);
    bench_scan_text(b, "1970-01-03/1970-01-09");
    assert_int_equal(filter->to_ms, 9 * day);
    bench_scan_text(b, "1970-01-09/1970-01-03"); // no days at all
    assert_int_equal(filter->to_ms, 9 * day);
    assert_non_null(strstr(b->view.band, "no ticket, build or day"));
    bench_act(b, ACTION_DAY_ON, 0);
    assert_int_equal(filter->from_ms, 9 * day);
    assert_int_equal(filter->to_ms, 10 * day);
}

static void lives(void **state) {
    struct bench *b = *state;
    const struct review_filter *filter = &b->station.review.filter;
    const struct club *club = &b->catalogue.club[0];
    short_butt(b);
    bench_to_review(b);
    bench_scan(b, TICKET_HEAD, "1");
    assert_string_equal(filter->ticket, club->head.ticket);
    assert_int_equal(filter->from_ms, 0);
    bench_scan_text(b, club->shaft.ticket);
    assert_string_equal(filter->ticket, club->shaft.ticket);
    bench_scan_text(b, club->order.build); // typed
    assert_string_equal(filter->ticket, "");
    assert_string_equal(filter->build, club->order.build);
    assert_int_equal(filter->from_ms, 0);
    bench_act(b, ACTION_FILTER_CLEAR, 0);
    assert_string_equal(filter->build, "");
    assert_true(filter->from_ms > 0);
    select_short(b);
    bench_act(b, ACTION_LIFE, 0); // of the row's shaft
    assert_string_equal(filter->ticket, club->shaft.ticket);
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
    choose(b, 1, 1);
    assert_true(strstr(b->view.log.filters, shop_ticket(TICKET_WORKER, "14")) != NULL);
    assert_true(strstr(b->view.log.filters, "Waiting for a decision") != NULL);
    bench_act(b, ACTION_BACK, 0);
    assert_int_equal(b->view.log.row_count, 1);
    bench_act(b, ACTION_FILTER_CLEAR, 0);
    assert_string_equal(b->view.log.filters, "All entries");
    choose(b, 4, VERDICT_IN);
    assert_string_equal(b->view.log.filters, "Verdict in");
    bench_act(b, ACTION_BACK, 0);
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
    bench_scan(b, TICKET_WORKER, "14"); // what this worker did
    assert_string_equal(b->station.review.filter.worker, shop_ticket(TICKET_WORKER, "14"));
}

static void charts_of_the_day(void **state) {
    struct bench *b = *state;
    short_butt(b); // one club, 1/8 in short
    bench_to_review(b);
    bench_act(b, ACTION_STATS, 0);
    assert_int_equal(b->view.body, VIEW_SET);
    assert_int_equal(b->view.set.plot_count, 2); // of one club no change to the next
    assert_int_equal(b->view.set.plot[0].count, 1);
    assert_true(b->view.set.plot[0].point[0].planned < -124.9 &&
                b->view.set.plot[0].point[0].planned > -125.1);
    assert_string_equal(b->view.set.note[0], "A chart of lengths needs two measured clubs.");
    assert_ptr_equal(strstr(b->view.set.note[1], "Clubs measured 1, cuts 2"), b->view.set.note[1]);
    assert_true(b->view.set.row_count > 0); // the stop that the short shaft was
    bench_act(b, ACTION_BACK, 0);
    assert_int_equal(b->view.body, VIEW_LOG);
}

static void charts_say_what_they_leave_out(void **state) {
    struct bench *b = *state;
    short_butt(b);
    bench_to_review(b);
    bench_act(b, ACTION_STATS, 0);
    for (size_t i = 0; i < b->view.set.note_count; i++) {
        assert_null(strstr(b->view.set.note[i], "newest"));
    }
    b->shop.stats_from_ms = 86400000 * (int64_t)9;
    bench_act(b, ACTION_BACK, 0);
    bench_act(b, ACTION_STATS, 0);
    char words[VIEW_TEXT_MAX];
    snprintf(words, sizeof words, "newest %d entries", (int)b->shop.seq);
    assert_non_null(strstr(b->view.set.note[1], words));
    assert_non_null(strstr(b->view.set.note[1], "day 9"));
}

#define T(name) cmocka_unit_test_setup(name, fresh)
int main(void) {
    const struct CMUnitTest tests[] = {
        T(the_pin),
        T(a_builder_gets_nowhere),
        T(idling_ends_it),
        T(the_day_s_sum_is_right_in_number),
        T(one_entry_with_its_plan),
        T(an_entry_tells_the_tolerance_of_its_own),
        T(use_needs_a_note),
        T(a_note_on_any_entry),
        T(notes_of_many_and_none),
        T(recut_on_a_spare),
        T(scrap_and_gone),
        T(filters_days_and_pages),
        T(charts_of_the_day),
        T(charts_say_what_they_leave_out),
        T(export_says_where),
        T(shown_again),
        T(shown_again_after_part_of_it),
        T(every_filter_together),
        T(days_and_ranges),
        T(lives),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

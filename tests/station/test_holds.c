// Every stop: reached the way a worker reaches it, logged under its word, with words that say what
// happened and what to do, and a way out.

#include "bench.h"
#include "cmocka_all.h"

#include <string.h>

static struct bench bench;

static int fresh(void **state) {
    *state = &bench;
    bench_init(&bench);
    return 0;
}

static void check(struct bench *b, enum hold_cause cause, const char *logged_as) {
    const struct view_notice *notice = &b->view.notice;
    const struct shop_entry *entry = shop_last(&b->shop, ENTRY_HOLD);
    assert_int_equal(b->station.state, STATION_HOLD);
    assert_int_equal(b->station.hold.cause, cause);
    assert_int_equal(b->view.body, VIEW_NOTICE);
    assert_true(notice->title[0] != '\0');
    assert_true(notice->todo_count > 0);
    assert_true(b->view.band[0] != '\0');
    assert_non_null(entry);
    assert_string_equal(entry->cause, logged_as);
    assert_string_equal(notice->foot, "This stop is in the log.");
}

static void unreadable(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    bench_scan_text(b, "S-1187X");
    check(b, HOLD_BAD_CODE, "bad_code");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_READY);
    bench_scan_text(b, "6291041500213"); // EAN-13 worked example, GS1 mod 10
    check(b, HOLD_MAKERS_CODE, "makers_code");
    assert_string_equal(b->view.notice.line[1], "It is the shaft Reed 60 R. Free in stock: 3.");
    bench_fault(b, "The scanner types Q for A: its keyboard is set to French.");
    check(b, HOLD_SCAN_FAULT, "scan_fault");
}

static void unknown(void **state) {
    struct bench *b = *state;
    bench_scan(b, TICKET_WORKER, "99");
    check(b, HOLD_UNKNOWN_BADGE, "unknown_badge");
    bench_scan(b, TICKET_HEAD, "1");
    check(b, HOLD_NOT_SIGNED_ON, "not_signed_on");
    bench_sign_on(b);
    assert_int_equal(b->station.state, STATION_READY);
    bench_scan(b, TICKET_HEAD, "99");
    check(b, HOLD_UNKNOWN_PART, "unknown_ticket");
    bench_scan(b, TICKET_BUILD, "2041");
    check(b, HOLD_BUILD_TICKET, "build_ticket");
    bench_scan(b, TICKET_HEAD, "1");
    assert_int_equal(b->station.state, STATION_PAIR);
}

static void wrong_pair_goes_on_with_the_right_part(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    bench_scan(b, TICKET_HEAD, "1");
    bench_scan(b, TICKET_SHAFT, "2");
    check(b, HOLD_WRONG_PAIR, "wrong_pair");
    assert_true(strstr(b->view.notice.line[0], "is for build 2041, club 1.") != NULL);
    assert_true(strstr(b->view.notice.line[1], "is for build 2042, club 2.") != NULL);
    assert_true(strstr(b->view.notice.todo[0], shop_ticket(TICKET_SHAFT, "2")) != NULL);
    assert_true(strstr(b->view.notice.todo[1], "rack B, slot 1") != NULL);
    int holds = shop_count(&b->shop, ENTRY_HOLD);
    bench_scan(b, TICKET_SHAFT, "2");
    assert_int_equal(shop_count(&b->shop, ENTRY_HOLD), holds); // the same stop once
    bench_scan(b, TICKET_SHAFT, "1");
    assert_int_equal(b->station.state, STATION_CARE);
}

static void two_of_a_kind_and_the_same_twice(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    bench_scan(b, TICKET_HEAD, "1");
    int heard = b->shop.sounds[SOUND_ACCEPTED] + b->shop.sounds[SOUND_HOLD];
    bench_scan(b, TICKET_HEAD, "1");
    assert_int_equal(b->station.state, STATION_PAIR);
    assert_int_equal(b->shop.sounds[SOUND_ACCEPTED] + b->shop.sounds[SOUND_HOLD], heard);
    bench_scan(b, TICKET_HEAD, "2");
    check(b, HOLD_SAME_KIND, "same_kind");
}

static void stock_that_cannot_be_cut(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    bench_scan(b, TICKET_SHAFT, "51");
    check(b, HOLD_NO_BUILD, "no_build");
    bench_scan(b, TICKET_SHAFT, "52");
    check(b, HOLD_ALREADY_CUT, "already_cut");
    bench_scan(b, TICKET_SHAFT, "53");
    check(b, HOLD_SCRAP, "scrap");
}

static void a_done_club(void **state) {
    struct bench *b = *state;
    b->shop.club[0].progress.stage = STAGE_DONE;
    bench_sign_on(b);
    bench_scan(b, TICKET_SHAFT, "1");
    check(b, HOLD_ALREADY_CUT, "already_cut");
    bench_scan(b, TICKET_HEAD, "1");
    check(b, HOLD_CLUB_DONE, "club_done");
}

static void another_bench(void **state) {
    struct bench *b = *state;
    bench_pair(b, "3");
    check(b, HOLD_OTHER_BENCH, "other_bench");
    assert_true(strstr(b->view.notice.todo[0], "Bench 9") != NULL);
}

static void a_club_without_a_second_part(void **state) {
    struct bench *b = *state;
    memset(b->catalogue.club[0].head.ticket, 0, TICKET_TEXT_MAX);
    bench_sign_on(b);
    bench_scan(b, TICKET_SHAFT, "1");
    check(b, HOLD_NO_PARTNER, "no_partner");
}

static void refused_plans(void **state) {
    struct bench *b = *state;
    bench_pair(b, "8");
    check(b, HOLD_PLAN_REFUSED, "plan_refused");
    assert_true(strstr(b->view.notice.line[0], "too short by") != NULL);
    assert_false(bench_can(b, ACTION_CONSENT));
    bench_press(b);
    bench_scan(b, TICKET_HEAD, "5");
    bench_scan(b, TICKET_SHAFT, "5");
    check(b, HOLD_PLAN_REFUSED, "plan_refused");
    assert_true(bench_can(b, ACTION_CONSENT));
}

static void a_supervisor_picks_a_column(void **state) {
    struct bench *b = *state;
    bench_pair(b, "5");
    bench_act(b, ACTION_CONSENT, 0);
    bench_scan(b, TICKET_WORKER, "14");
    assert_string_equal(b->view.pin_message,
                        "Ada Birch is no supervisor. Scan a supervisor's badge.");
    bench_scan(b, TICKET_WORKER, "3");
    bench_type(b, "4711");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_CONSENT);
    assert_string_equal(b->view.action[2].label, "Column C · 254 g");
    bench_act(b, ACTION_ROW, 2);
    assert_int_equal(b->station.state, STATION_CARE);
    assert_string_equal(shop_last(&b->shop, ENTRY_CONSENT)->worker,
                        shop_ticket(TICKET_WORKER, "3"));
    assert_string_equal(shop_last(&b->shop, ENTRY_CONSENT)->cause, "column");
    bench_press(b);
    assert_int_equal(b->view.cut.mark.value, 2 * LENGTH_INCH);
}

static void a_supervisor_agrees_to_a_shim(void **state) {
    struct bench *b = *state;
    bench_pair(b, "6");
    bench_act(b, ACTION_CONSENT, 0);
    bench_scan(b, TICKET_WORKER, "3");
    bench_type(b, "4711");
    bench_press(b);
    bench_act(b, ACTION_ROW, 0);
    assert_int_equal(b->station.state, STATION_CARE);
    assert_true(b->shop.club[5].shim);
}

static void disk_and_store(void **state) {
    struct bench *b = *state;
    bench_pair(b, "1");
    b->shop.full = true;
    bench_press(b);
    check(b, HOLD_DISK_FULL, "disk_full");
    assert_int_equal(shop_count(&b->shop, ENTRY_TIP_SHOWN), 0);
    b->shop.full = false;
    bench_press(b);
    b->shop.lost = 1;
    bench_scan(b, TICKET_HEAD, "1");
    check(b, HOLD_STORE_FAILED, "store_failed");
    b->shop.broken = true;
    bench_scan_text(b, "nonsense");
    assert_int_equal(b->station.state, STATION_HOLD);
    assert_string_equal(b->view.notice.foot,
                        "The disk did not take this stop: it is NOT in the log.");
}

static void scanner_gone(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    bench_scan(b, TICKET_HEAD, "1");
    bench_device(b, DEVICE_SCANNER, false);
    check(b, HOLD_SCANNER_GONE, "scanner_gone");
    assert_int_equal(b->view.status[0].health, HEALTH_BAD);
    bench_device(b, DEVICE_SCANNER, true);
    assert_int_equal(b->station.state, STATION_PAIR);
    bench_device(b, DEVICE_SCANNER, false);
    bench_scan(b, TICKET_SHAFT, "1"); // typed on the keyboard
    assert_int_equal(b->station.state, STATION_CARE);
    bench_press(b);
    bench_device(b, DEVICE_SCANNER, true);
    bench_device(b, DEVICE_SCANNER, false);
    assert_int_equal(b->station.state, STATION_TIP_CUT);
    assert_int_equal(b->view.status[0].health, HEALTH_BAD);
}

static void in_work(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_scan(b, TICKET_SHAFT, "2");
    check(b, HOLD_OTHER_PART, "other_part");
    bench_press(b);
    bench_scan(b, TICKET_WORKER, "15");
    check(b, HOLD_BADGE_NOW, "badge_now");
    bench_press(b);
    bench_scan(b, TICKET_SHAFT, "1");
    bench_scan(b, TICKET_WORKER, "14");
    assert_int_equal(b->station.state, STATION_TIP_CUT);
}

static void not_safe_asks_care_again(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_held(b);
    check(b, HOLD_SOMETHING_WRONG, "something_wrong");
    bench_act(b, ACTION_WRONG_NOT_SAFE, 0);
    check(b, HOLD_NOT_SAFE, "not_safe");
    bench_scan_text(b, "S-1X");
    bench_held(b);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_CARE);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_RESUME);
}

static void wrong_parts_and_supervisor(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_held(b);
    bench_act(b, ACTION_WRONG_SUPERVISOR, 0);
    check(b, HOLD_SUPERVISOR, "supervisor");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_TIP_CUT);
    bench_held(b);
    bench_act(b, ACTION_WRONG_PARTS, 0);
    check(b, HOLD_WRONG_PARTS, "wrong_parts");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_READY);
}

static void miscut_tip(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_held(b);
    bench_act(b, ACTION_WRONG_MISCUT, 0);
    bench_type(b, "1 3/4");
    assert_string_equal(b->view.number.result, "1/4 in past the mark: a supervisor decides.");
    bench_press(b);
    check(b, HOLD_TIP_PAST, "tip_past_mark");
    assert_int_equal(b->shop.club[0].progress.stage, STAGE_DECISION);
    bench_act(b, ACTION_WRONG_MISCUT, 0); // it was measured wrong
    bench_type(b, "1 1/2");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_BUTT_CUT);
    assert_int_equal(shop_count(&b->shop, ENTRY_WITHDRAW), 1);
}

static void pressed_too_early(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_press(b);
    bench_held(b);
    bench_act(b, ACTION_WRONG_TOO_EARLY, 0);
    assert_int_equal(b->station.state, STATION_TIP_CUT);
    assert_string_equal(shop_last(&b->shop, ENTRY_WITHDRAW)->cause, "pressed_too_early");
    assert_int_equal(b->shop.club[0].progress.attempt, 2);
    bench_press(b);
    bench_held(b);
    bench_act(b, ACTION_WRONG_MISCUT, 0);
    bench_type(b, "1 1/4");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_TIP_CUT);
    assert_int_equal(b->view.cut.mark.value, LENGTH_INCH / 4);
    bench_press(b);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_MEASURE);
    bench_held(b);
    bench_act(b, ACTION_WRONG_TOO_EARLY, 0);
    assert_int_equal(b->station.state, STATION_BUTT_CUT);
    bench_press(b);
    bench_type(b, "36 7/8");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_LOGGED);
    bench_held(b);
    bench_act(b, ACTION_WRONG_MISCUT, 0);
    assert_int_equal(b->station.state, STATION_MEASURE);
    bench_type(b, "36 7/8");
    bench_press(b);
    bench_held(b);
    bench_act(b, ACTION_WRONG_TOO_EARLY, 0);
    assert_int_equal(b->station.state, STATION_BUTT_CUT);
}

static void moved_elsewhere(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    b->shop.club[0].progress.stage = STAGE_TIP_CUT; // by another program
    bench_press(b);
    check(b, HOLD_ALREADY_LOGGED, "already_logged");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_READY);
}

static void the_guard_stops_a_mark_without_grounds(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    b->station.care_done[MATERIAL_STEEL] = false; // a fault in the program itself
    station_view(&b->station, &b->view);
    assert_int_equal(b->view.body, VIEW_NOTICE);
    bench_wait(b, 1);
    check(b, HOLD_GUARD, "guard");
}

static void every_cause_has_words(void **state) {
    (void)state;
    static const char *const titles[] = {
#define X(name, word, title) title,
        HOLD_CAUSES(X)
#undef X
    };
    static const char *const logged[] = {
#define X(name, word, title) word,
        HOLD_CAUSES(X)
#undef X
    };
    for (int i = 1; i < HOLD_CAUSE_COUNT; i++) {
        assert_true(strlen(titles[i]) > 5 && strlen(titles[i]) < 60);
        assert_true(strlen(logged[i]) > 2 && strlen(logged[i]) < ENTRY_CAUSE_MAX);
    }
}

#define T(name) cmocka_unit_test_setup(name, fresh)
int main(void) {
    const struct CMUnitTest tests[] = {
        T(unreadable),
        T(unknown),
        T(wrong_pair_goes_on_with_the_right_part),
        T(two_of_a_kind_and_the_same_twice),
        T(stock_that_cannot_be_cut),
        T(a_done_club),
        T(another_bench),
        T(a_club_without_a_second_part),
        T(refused_plans),
        T(a_supervisor_picks_a_column),
        T(a_supervisor_agrees_to_a_shim),
        T(disk_and_store),
        T(scanner_gone),
        T(in_work),
        T(not_safe_asks_care_again),
        T(wrong_parts_and_supervisor),
        T(miscut_tip),
        T(pressed_too_early),
        T(moved_elsewhere),
        T(the_guard_stops_a_mark_without_grounds),
        T(every_cause_has_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

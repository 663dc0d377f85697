// Orders that the desk holds, cancels or changes while the bench works on them.

#include "bench.h"
#include "cmocka_all.h"

#include <string.h>

static struct bench bench;

static int fresh(void **state) {
    *state = &bench;
    bench_init(&bench);
    return 0;
}

static void check(const struct bench *b, enum hold_cause cause) {
    assert_int_equal(b->station.state, STATION_HOLD);
    assert_int_equal(b->station.hold.cause, cause);
    assert_true(b->view.notice.todo_count > 0);
    assert_string_equal(shop_last(&b->shop, ENTRY_HOLD)->cause,
                        cause == HOLD_ORDER_CHANGED ? "order_changed" : "not_released");
}

static void waits_until_it_is_released(void **state) {
    static const struct {
        enum order_status status;
        const char *line;
    } rows[] = {{ORDER_HELD, "Order 2041 is held."},
                {ORDER_DRAFT, "Order 2041 is a draft."},
                {ORDER_CANCELLED, "Order 2041 is cancelled."}};
    struct bench *b = *state;
    bench_sign_on(b);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        b->shop.status = rows[i].status;
        bench_scan(b, TICKET_HEAD, "1");
        check(b, HOLD_NOT_RELEASED);
        assert_string_equal(b->view.notice.line[0], rows[i].line);
        bench_press(b);
        assert_int_equal(b->station.state, STATION_READY);
    }
    b->shop.status = ORDER_RELEASED;
    bench_to_mark(b, "1");
    assert_int_equal(b->view.body, VIEW_CUT);
}

// It was held after the first scan, before the mark: the log's refusal is said for what it is.
static void held_on_the_way_to_the_mark(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    bench_pair(b, "1");
    assert_int_equal(b->station.state, STATION_CARE);
    b->shop.status = ORDER_HELD;
    bench_press(b);
    check(b, HOLD_NOT_RELEASED);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_READY);
    assert_int_equal(shop_count(&b->shop, ENTRY_TIP_SHOWN), 0);
}

static void a_change_is_told_before_anything_is_cut(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    shop_change(&b->shop, -LENGTH_INCH / 2);
    bench_pair(b, "1");
    check(b, HOLD_ORDER_CHANGED);
    assert_string_equal(b->view.notice.title, "This order was changed");
    assert_non_null(strstr(b->view.notice.line[0], "Club 1: playing_length 37 to 36 1/2."));
    assert_non_null(strstr(b->view.notice.line[0], b->catalogue.worker[2].name)); // who
    assert_string_equal(b->view.band, "Understood");
    assert_int_equal(shop_count(&b->shop, ENTRY_CARE), 0);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_CARE);
    assert_int_equal(shop_last(&b->shop, ENTRY_TOLD)->refers, b->shop.newest_seq);
    bench_scan(b, TICKET_COMMAND, "BACK");
    bench_pair(b, "1"); // once
    assert_int_equal(b->station.state, STATION_CARE);
    assert_int_equal(shop_count(&b->shop, ENTRY_TOLD), 1);
}

// Whoever goes on without the press is asked again.
static void a_scan_does_not_say_it_was_heard(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    shop_change(&b->shop, -LENGTH_INCH / 2);
    bench_pair(b, "1");
    check(b, HOLD_ORDER_CHANGED);
    bench_scan(b, TICKET_HEAD, "1");
    assert_int_equal(b->station.state, STATION_PAIR);
    bench_scan(b, TICKET_SHAFT, "1");
    check(b, HOLD_ORDER_CHANGED);
    assert_int_equal(shop_count(&b->shop, ENTRY_TOLD), 0);
    bench_held(b); // the supervisor is called; then it starts over
    bench_press(b);
    assert_int_equal(b->station.state, STATION_READY);
    assert_int_equal(shop_count(&b->shop, ENTRY_TOLD), 0);
}

static void one_more_change_is_told_too(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    shop_change(&b->shop, -LENGTH_INCH / 2);
    bench_pair(b, "1");
    shop_change(&b->shop, -LENGTH_INCH); // while the first is on the screen
    bench_press(b);
    check(b, HOLD_ORDER_CHANGED);
    assert_true(b->view.notice.line[1][0] != '\0');
    for (int i = 0; i < 3; i++) {
        shop_change(&b->shop, -LENGTH_INCH);
    }
    bench_press(b);
    check(b, HOLD_ORDER_CHANGED);
    assert_string_equal(b->view.notice.todo[1], "And 2 more before: ask for them at the desk.");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_CARE);
}

// The desk makes the club shorter while its butt mark is on the screen. The press is not logged as
// a cut at a mark that no longer holds: the change is said, then whether it was cut is asked.
static void the_mark_on_the_screen_no_longer_holds(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    bench_to_mark(b, "1");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_BUTT_CUT);
    length_nm old = b->view.cut.mark.value;
    shop_change(&b->shop, -LENGTH_INCH / 2);
    bench_press(b);
    check(b, HOLD_ORDER_CHANGED);
    assert_int_equal(shop_count(&b->shop, ENTRY_BUTT_CUT), 0);
    assert_string_equal(b->view.notice.todo[1],
                        "If the last mark is cut already, say so on the next screen.");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_RESUME);
    struct bench cut = *b;
    cut.ops.ctx = &cut.shop;
    cut.station.ops = &cut.ops;
    // Not cut: the new mark, half an inch shorter.
    bench_act(b, ACTION_RESUME_NOT_CUT, 0);
    assert_int_equal(b->station.state, STATION_BUTT_CUT);
    assert_int_equal(b->view.cut.mark.value, old - LENGTH_INCH / 2);
    bench_press(b);
    assert_int_equal(shop_last(&b->shop, ENTRY_BUTT_CUT)->made, old - LENGTH_INCH / 2);
    // Cut by the old mark: that length is in the field, too long by half an inch, so the new mark.
    bench_act(&cut, ACTION_RESUME_CUT, 0);
    assert_int_equal(cut.station.state, STATION_MISCUT);
    length_nm field = 0;
    assert_int_equal(length_parse(cut.station.number.text[0], LENGTH_UNIT_INCH, &field, NULL),
                     LENGTH_OK);
    assert_int_equal(field, old);
    bench_press(&cut);
    assert_int_equal(cut.station.state, STATION_BUTT_CUT);
    assert_int_equal(cut.view.cut.mark.value, old - LENGTH_INCH / 2);
}

// The same at the tip, and the club made longer: what was cut stays, whatever the plan is now.
static void the_tip_mark_was_cut_before_the_change(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    bench_to_mark(b, "1");
    length_nm mark = b->view.cut.mark.value;
    shop_change(&b->shop, LENGTH_INCH / 2); // moves the butt, not the tip
    bench_press(b);
    check(b, HOLD_ORDER_CHANGED);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_RESUME);
    bench_act(b, ACTION_RESUME_CUT, 0); // the same mark: shown again with its warning
    assert_int_equal(b->station.state, STATION_TIP_CUT);
    bench_press(b);
    assert_int_equal(shop_last(&b->shop, ENTRY_TIP_CUT)->made, mark);
    assert_int_equal(b->station.state, STATION_BUTT_CUT);
}

// The power goes between the press and the change: the mark on the screen was another.
static void asks_about_the_mark_that_was_shown(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    bench_to_mark(b, "1");
    bench_press(b);
    length_nm old = b->view.cut.mark.value;
    shop_change(&b->shop, -LENGTH_INCH / 2);
    bench_restart(b);
    bench_sign_on(b);
    bench_pair(b, "1");
    check(b, HOLD_ORDER_CHANGED);
    bench_press(b);
    bench_press(b); // the care list
    assert_int_equal(b->station.state, STATION_RESUME);
    char words[VIEW_TEXT_MAX];
    length_text_fraction(old, words);
    assert_non_null(strstr(b->view.notice.line[1], words));
}

static void says_how_long_the_clubs_take(void **state) {
    static const struct {
        int64_t clubs, pace_ms;
        const char *words;
    } rows[] = {
        {9, 9 * 60000, "9 clubs wait: about 1 h 20 min at this bench's pace"},
        {1, 9 * 60000, "1 club waits: about 10 min at this bench's pace"},
        {9, 0, "9 clubs wait"},
        {1, 0, "1 club waits"},
        {0, 9 * 60000, ""},
    };
    struct bench *b = *state;
    bench_sign_on(b);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        b->shop.wait = (struct station_wait){rows[i].clubs, rows[i].pace_ms};
        bench_wait(b, 1000);
        station_view(&b->station, &b->view);
        assert_string_equal(b->view.waits, rows[i].words);
    }
}

#define TEST(name) cmocka_unit_test_setup(name, fresh)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(waits_until_it_is_released),
        TEST(held_on_the_way_to_the_mark),
        TEST(a_change_is_told_before_anything_is_cut),
        TEST(a_scan_does_not_say_it_was_heard),
        TEST(one_more_change_is_told_too),
        TEST(the_mark_on_the_screen_no_longer_holds),
        TEST(the_tip_mark_was_cut_before_the_change),
        TEST(asks_about_the_mark_that_was_shown),
        TEST(says_how_long_the_clubs_take),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

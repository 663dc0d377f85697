// The store fails: at every call of a whole club in turn, for a while, or without saying.

#include "bench.h"
#include "cmocka_all.h"
#include "laws.h"

#include <stdio.h>
#include <string.h>

static struct bench bench;

static int fresh(void **state) {
    *state = &bench;
    bench_init(&bench);
    return 0;
}

static void not_logged_keeps_the_number(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    b->shop.broken = true;
    bench_press(b);
    assert_string_equal(b->view.notice.title, "NOT LOGGED");
    assert_true(b->view.notice.has_mark);
    assert_int_equal(b->view.notice.mark.value, 3 * LENGTH_INCH / 2);
    assert_true(strstr(b->view.notice.todo[0], "Write it down: tip cut of shaft") != NULL);
    assert_int_equal(b->view.status[2].health, HEALTH_BAD);
    assert_int_equal(b->view.action_count, 0);
    bench_press(b);
    bench_scan(b, TICKET_HEAD, "2");
    bench_scan(b, TICKET_COMMAND, "BACK");
    assert_string_equal(b->view.notice.title, "NOT LOGGED");
    assert_int_equal(station_deadline(&b->station), b->station.retry_ms);
    bench_wait(b, 2000);
    assert_string_equal(b->view.notice.title, "NOT LOGGED");
    b->shop.broken = false;
    bench_wait(b, 2000);
    assert_int_equal(b->station.state, STATION_BUTT_CUT);
    assert_int_equal(shop_count(&b->shop, ENTRY_TIP_CUT), 1);
}

static void a_mark_stays_hidden_until_it_is_logged(void **state) {
    struct bench *b = *state;
    bench_pair(b, "1");
    b->shop.broken = true;
    bench_press(b); // the care entry
    b->shop.broken = false;
    b->shop.fault = SHOP_NO_FAULT;
    bench_wait(b, 2000);
    assert_int_equal(b->view.body, VIEW_CUT);
    bench_restart(b);
    bench_to_mark(b, "2");
    b->shop.broken = true;
    bench_press(b);
    assert_false(b->view.body == VIEW_CUT);
}

static void unknown_is_looked_up(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    b->shop.fault = SHOP_UNKNOWN_FOUND;
    bench_press(b); // written; the first look finds it
    assert_int_equal(b->station.state, STATION_BUTT_CUT);
    b->shop.fault = SHOP_UNKNOWN_BLIND;
    bench_press(b);
    assert_string_equal(b->view.notice.title, "Checking the log");
    assert_int_equal(b->view.status[2].health, HEALTH_WARN);
    bench_wait(b, 1000);
    assert_int_equal(b->station.state, STATION_MEASURE);
    assert_int_equal(shop_count(&b->shop, ENTRY_BUTT_CUT), 1);
    bench_type(b, "36 7/8");
    b->shop.fault = SHOP_UNKNOWN_ABSENT;
    bench_press(b); // not written; tried again under the same id
    assert_int_equal(b->station.state, STATION_LOGGED);
    assert_int_equal(shop_count(&b->shop, ENTRY_MEASURE), 1);
}

// Returns how many calls of the world the club took.
static int club_with_a_failing_call(struct bench *b, int nth) {
    bench_init(b);
    b->shop.calls_to_failure = nth;
    for (int i = 0; i < 60; i++) {
        struct event event;
        struct laws_before before;
        int64_t ms;
        if (!bench_next(b, "1", &event, &ms)) {
            return b->shop.calls;
        }
        b->shop.now_ms += ms;
        laws_remember(&b->station, &b->shop, &before);
        station_event(&b->station, &event);
        station_view(&b->station, &b->view);
        const char *broken = laws_judge(&b->station, &b->shop, &before, &event, &b->view);
        if (broken != NULL) {
            fail_msg("call %d fails: %s", nth, broken);
        }
    }
    fail_msg("call %d fails: the club is never logged", nth);
    return 0;
}

static void every_call_fails_once(void **state) {
    struct bench *b = *state;
    int calls = club_with_a_failing_call(b, 0);
    assert_true(calls > 10);
    for (int nth = 1; nth <= calls; nth++) {
        club_with_a_failing_call(b, nth);
        assert_int_equal(b->shop.club[0].progress.stage, STAGE_DONE);
        assert_int_equal(shop_count(&b->shop, ENTRY_TIP_CUT), 1);
        assert_int_equal(shop_count(&b->shop, ENTRY_BUTT_CUT), 1);
    }
    printf("saves: a club takes %d calls of the world; each failed once, each time logged once\n",
           calls);
}

#define T(name) cmocka_unit_test_setup(name, fresh)
int main(void) {
    const struct CMUnitTest tests[] = {
        T(not_logged_keeps_the_number),
        T(a_mark_stays_hidden_until_it_is_logged),
        T(unknown_is_looked_up),
        T(every_call_fails_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

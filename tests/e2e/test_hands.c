// A bench by keyboard alone, and by fingers in gloves: the whole way from keys and touches to the
// station, with a workshop of the station's tests behind it.

#include "explore.h"
#include "hands.h"

#include <linux/input-event-codes.h>
#include <stdio.h>

static bool ring(enum view_action_id *ret_action) {
    int64_t argument;
    return screen_focus(bench.screen, ret_action, &argument);
}

static bool ring_to(enum view_action_id wanted) {
    enum view_action_id action;
    for (int i = 0; i < 80; i++) {
        key(KEY_RIGHT);
        if (ring(&action) && action == wanted) {
            return true;
        }
    }
    return false;
}

static void sign_on(void) {
    scan(TICKET_WORKER, "14", 1);
    assert_int_equal(bench.station.state, STATION_READY);
}

static void arrows_and_enter_choose(void **state) {
    enum view_action_id action;
    (void)state;
    sign_on();
    pass(1000);
    assert_false(ring(&action));
    key(KEY_ENTER); // without a ring it is a key like others
    assert_int_equal(bench.station.state, STATION_READY);
    assert_true(ring_to(ACTION_CHECK));
    pass(400);
    key(KEY_SPACE);
    assert_int_equal(bench.station.state, STATION_READY);
    pass(400);
    wedge_clear(&bench.keys);
    assert_true(ring_to(ACTION_CHECK));
    key(KEY_ENTER);
    assert_int_equal(bench.station.state, STATION_CHECK);
    assert_false(ring(&action)); // another view
}

static void the_ring_goes_by_itself(void **state) {
    enum view_action_id action;
    (void)state;
    sign_on();
    pass(1000);
    assert_true(ring_to(ACTION_SIGN_OUT));
    pass(14000);
    assert_true(ring(&action));
    pass(1500);
    assert_false(ring(&action));
    key(KEY_ENTER);
    assert_int_equal(bench.station.state, STATION_READY);
}

// Law 4 with a ring on the screen: neither the Enter that ends a code, nor a second one of it.
static void a_scan_takes_nothing(void **state) {
    enum view_action_id action;
    (void)state;
    sign_on();
    pass(1000);
    assert_true(ring_to(ACTION_SIGN_OUT));
    scan(TICKET_HEAD, "1", 1);
    assert_int_equal(bench.station.state, STATION_PAIR);
    assert_false(ring(&action));
    pass(1000);
    assert_true(ring_to(ACTION_START_OVER));
    scan(TICKET_HEAD, "1", 2);
    assert_int_equal(bench.station.state, STATION_PAIR);
    pass(1000);
    assert_true(ring_to(ACTION_START_OVER));
    // A code of which nothing was left but a control character and the end.
    key(KEY_LEFTCTRL);
    bench_clock_pass(&bench.clock, 4000);
    key(KEY_ENTER);
    assert_int_equal(bench.station.state, STATION_PAIR);
    assert_true(ring(&action));
    // Or its last digit.
    key(KEY_7);
    bench_clock_pass(&bench.clock, 4000);
    key(KEY_ENTER);
    key(KEY_ENTER);
    assert_int_not_equal(bench.station.state, STATION_READY);
}

// What confirms is never in the ring, wherever it is moved.
static void the_band_is_never_in_the_ring(void **state) {
    enum view_action_id action;
    (void)state;
    sign_on();
    scan(TICKET_HEAD, "1", 1);
    scan(TICKET_SHAFT, "1", 1);
    assert_int_equal(bench.station.state, STATION_CARE);
    assert_false(ring_to(ACTION_PRESS));
    assert_true(ring(&action));
    press();
    assert_int_equal(bench.station.state, STATION_TIP_CUT);
    assert_false(ring_to(ACTION_PRESS));
}

static bool has_key(const struct view_action *action) {
    return action->key[0] != '\0';
}

static bool reached(const struct view_action *wanted) {
    static const uint16_t ways[] = {KEY_RIGHT, KEY_LEFT};
    for (size_t w = 0; w < COUNT(ways); w++) {
        screen_focus_clear(bench.screen);
        for (int i = 0; i < 130; i++) {
            enum view_action_id action;
            int64_t argument;
            key(ways[w]);
            if (screen_focus(bench.screen, &action, &argument) && action == wanted->id &&
                argument == wanted->argument) {
                return true;
            }
        }
    }
    return false;
}

static void all_can_be_reached(void) {
    const struct view *view = bench_view(&bench);
    for (size_t i = 0; i < view->action_count; i++) {
        const struct view_action *action = &view->action[i];
        if (!has_key(action) && !reached(action)) {
            fail_msg("%s: no key for %s", station_state_name(bench.station.state), action->label);
        }
    }
}

// A workshop at random: in every view that comes up each action has a key, or gets into the ring.
static void keys_reach_everything(void **state) {
    static bool seen[STATION_STATE_COUNT][HOLD_CAUSE_COUNT];
    uint32_t chance = 20260331;
    int views = 0;
    (void)state;
    for (int i = 0; i < 12000; i++) {
        struct step steps[EXPLORE_EVENTS];
        if (i % 200 == 0) { // the clubs are soon used up
            struct station_settings station = shop_settings();
            shop_init(&shop, &catalogue);
            station_init(&bench.station, &station, &ops);
            bench.stale = true;
        }
        size_t count =
            explore_steps(&bench.station, bench_view(&bench), false, steps, EXPLORE_EVENTS);
        chance = chance * 1664525u + 1013904223u;
        // A press, one of the last, which are numbers, or any: so that clubs get done as well.
        size_t at = (chance >> 12) % count;
        at = (chance >> 8) % 4 == 0 ? 0 : (chance >> 8) % 4 == 1 ? count - 1 - at % 4 : at;
        explore_apply(&steps[at], &bench.station, &shop);
        bench.stale = true;
        bool *known = &seen[bench.station.state][bench.station.hold.cause];
        if (!*known && bench.station.state != STATION_DESK) {
            *known = true;
            views++;
            bench.dirty = true;
            bench_draw(&bench);
            all_can_be_reached();
        }
        if (bench.station.state == STATION_DESK) {
            const struct event back = {.kind = EVENT_ACTION, .action = ACTION_BACK};
            station_event(&bench.station, &back);
        }
    }
    print_message("%d views\n", views);
    assert_true(views >= 20);
}

// From a dry fit to a club that is logged, each step of it.
static void keys_reach_a_whole_club(void **state) {
    static const enum station_state way[] = {STATION_CARE, STATION_TIP_CUT, STATION_BUTT_CUT,
                                             STATION_MEASURE};
    (void)state;
    all_can_be_reached();
    sign_on();
    all_can_be_reached();
    scan(TICKET_HEAD, "9", 1); // no bore height
    all_can_be_reached();
    scan(TICKET_SHAFT, "9", 1);
    assert_int_equal(bench.station.state, STATION_DRY_FIT);
    all_can_be_reached();
    scan(TICKET_COMMAND, "BACK", 1);
    scan(TICKET_HEAD, "1", 1);
    scan(TICKET_SHAFT, "1", 1);
    for (size_t i = 0; i < COUNT(way); i++) {
        assert_int_equal(bench.station.state, way[i]);
        all_can_be_reached();
        if (i + 1 < COUNT(way)) {
            press();
        }
    }
    for (size_t i = 0; i < bench.view.number.pick_count; i++) {
        if (bench.view.number.pick[i].planned) {
            touch(ACTION_PICK, bench.view.number.pick[i].mark.value, false);
            break;
        }
    }
    press();
    assert_int_equal(bench.station.state, STATION_LOGGED);
    all_can_be_reached();
}

static void a_finger_that_slips_off_does_nothing(void **state) {
    (void)state;
    sign_on();
    scan(TICKET_HEAD, "1", 1);
    scan(TICKET_SHAFT, "1", 1);
    pass(1000);
    touch(ACTION_PRESS, 0, true);
    touch(ACTION_START_OVER, 0, true);
    assert_int_equal(bench.station.state, STATION_CARE);
    pass(3000); // nor does it count as held
    assert_int_equal(bench.station.state, STATION_CARE);
    touch(ACTION_PRESS, 0, false);
    assert_int_equal(bench.station.state, STATION_TIP_CUT);
}

static void a_finger_that_bounces_counts_once(void **state) {
    (void)state;
    sign_on();
    scan(TICKET_HEAD, "9", 1); // no bore height: a dry fit
    scan(TICKET_SHAFT, "9", 1);
    assert_int_equal(bench.station.state, STATION_DRY_FIT);
    pass(1000);
    touch(ACTION_KEY, '4', false);
    touch(ACTION_KEY, '4', false);
    assert_string_equal(bench.station.number.text[0], "4");
    pass(200);
    touch(ACTION_KEY, '4', false);
    assert_string_equal(bench.station.number.text[0], "44");
    touch(ACTION_KEY, '7', false);
    assert_string_equal(bench.station.number.text[0], "447");
    pass(1000);
    touch(ACTION_HELD, 0, false);
    assert_int_equal(bench.station.state, STATION_HOLD);
    pass(100);
    touch(ACTION_BACK, 0, false);
    assert_int_equal(bench.station.state, STATION_DRY_FIT);
    touch(ACTION_BACK, 0, false);
    assert_int_equal(bench.station.state, STATION_DRY_FIT);
    pass(250); // 350 ms behind the one that counted: each is let go 50 ms after it came down
    touch(ACTION_BACK, 0, false);
    assert_int_equal(bench.station.state, STATION_DRY_FIT);
    pass(20);
    touch(ACTION_BACK, 0, false);
    assert_int_equal(bench.station.state, STATION_READY);
}

#define BENCH(test) cmocka_unit_test_setup_teardown(test, open_bench, close_bench)

int main(void) {
    const struct CMUnitTest tests[] = {
        BENCH(arrows_and_enter_choose),
        BENCH(the_ring_goes_by_itself),
        BENCH(a_scan_takes_nothing),
        BENCH(the_band_is_never_in_the_ring),
        BENCH(keys_reach_everything),
        BENCH(keys_reach_a_whole_club),
        BENCH(a_finger_that_slips_off_does_nothing),
        BENCH(a_finger_that_bounces_counts_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

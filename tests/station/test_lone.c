// Nothing but a button and a scanner: whole clubs, stops, wrong parts, resuming, signing off.

#include "bench.h"
#include "cmocka_all.h"
#include "ticket_number.h"

#include <string.h>

static struct bench bench;

static int fresh(void **state) {
    *state = &bench;
    shop_one_button = true;
    bench_init(&bench);
    return 0;
}

static int over(void **state) {
    (void)state;
    shop_one_button = false;
    return 0;
}

// Presses until the ring is round this, as a person does who looks at it.
static void press_to(struct bench *b, enum view_action_id wanted) {
    for (int i = 0; i < 20; i++) {
        bench_press(b);
        if (b->view.ring == wanted) {
            return;
        }
    }
    fail_msg("the ring never gets to action %d", wanted);
}

static void take(struct bench *b, enum view_action_id wanted) {
    press_to(b, wanted);
    bench_held(b);
}

static void number_tickets(struct bench *b, const char *const *bodies, size_t count) {
    for (size_t i = 0; i < count; i++) {
        bench_scan(b, TICKET_COMMAND, bodies[i]);
    }
}

// Two scans and six presses, one of them long.
static void a_whole_club(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    bench_scan(b, TICKET_HEAD, "1");
    bench_scan(b, TICKET_SHAFT, "1");
    bench_press(b); // care
    assert_int_equal(b->view.body, VIEW_CUT);
    assert_string_equal(b->view.band, "Cut made? Press the button.");
    bench_press(b);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_MEASURE);
    bench_press(b); // the planned length first
    assert_int_equal(b->view.ring, ACTION_PICK);
    assert_int_equal(b->view.ring_argument, 36 * LENGTH_INCH + 7 * EIGHTH);
    assert_string_equal(b->view.band, "Enter 36 7/8 in: hold 2 seconds");
    bench_held(b);
    assert_int_equal(b->station.state, STATION_LOGGED);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_READY);
    assert_int_equal(b->shop.club[0].progress.stage, STAGE_DONE);
}

// Presses alone, however many, confirm nothing where there is something to choose.
static void presses_alone_log_nothing(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_press(b);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_MEASURE);
    int64_t seq = b->shop.seq;
    for (int i = 0; i < 30; i++) {
        bench_press(b);
        bench_bounce(b);
    }
    assert_int_equal(b->shop.seq, seq);
    assert_int_equal(b->station.state, STATION_MEASURE);
    assert_string_equal(b->station.number.text[0], "");
    // Whatever else comes takes the ring away: holding then says that something is wrong.
    press_to(b, ACTION_PICK);
    bench_scan(b, TICKET_COMMAND, "N3");
    assert_int_equal(b->view.ring, ACTION_NONE);
    bench_held(b);
    assert_int_equal(b->station.hold.cause, HOLD_SOMETHING_WRONG);
    assert_int_equal(b->shop.club[0].progress.stage, STAGE_BUTT_CUT);
}

// A touch is no button that is held.
static void a_touch_takes_nothing(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_press(b);
    bench_press(b);
    press_to(b, ACTION_PICK);
    bench_act(b, ACTION_HELD, 0);
    assert_int_equal(b->station.hold.cause, HOLD_SOMETHING_WRONG);
    assert_int_equal(shop_count(&b->shop, ENTRY_MEASURE), 0);
}

static void numbers_by_tickets(void **state) {
    static const char *const overall[] = {"N4", "N1", "R14"};
    static const char *const wrong[] = {"N4", "RUBOUT", "N3", "N6", "R3", "R14"};
    struct bench *b = *state;
    bench_sign_on(b);
    bench_scan(b, TICKET_HEAD, "9"); // no bore height
    bench_scan(b, TICKET_SHAFT, "9");
    assert_int_equal(b->station.state, STATION_DRY_FIT);
    number_tickets(b, overall, 3);
    assert_string_equal(b->view.number.field[0].text, "41 7/8");
    bench_scan(b, TICKET_COMMAND, "NEXT");
    assert_true(b->view.number.field[1].active);
    bench_scan(b, TICKET_COMMAND, "NEXT");
    take(b, ACTION_PRESS);
    assert_string_equal(b->view.number.error, "");
    assert_int_equal(b->station.state, STATION_CARE);
    bench_press(b);
    bench_press(b);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_MEASURE);
    number_tickets(b, wrong, 6);
    assert_string_equal(b->view.number.field[0].text, "36 7/8");
    take(b, ACTION_PRESS);
    assert_int_equal(shop_count(&b->shop, ENTRY_MEASURE), 1);
}

// A number ticket is a key: it confirms nothing, and elsewhere it is a command that does nothing.
static void number_tickets_confirm_nothing(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_press(b);
    bench_press(b);
    int64_t seq = b->shop.seq;
    for (int i = 0; ticket_number(i) != NULL; i++) {
        bench_scan(b, TICKET_COMMAND, ticket_number(i)->body);
        assert_int_equal(b->station.state, STATION_MEASURE);
    }
    assert_int_equal(b->shop.seq, seq);
    bench_scan(b, TICKET_COMMAND, "BACK");
    bench_scan(b, TICKET_COMMAND, "N1");
    assert_int_equal(b->station.hold.cause, HOLD_COMMAND_NOW);
}

static void something_is_wrong(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_held(b);
    assert_int_equal(b->station.hold.cause, HOLD_SOMETHING_WRONG);
    bench_held(b); // nothing chosen yet
    assert_int_equal(b->station.hold.cause, HOLD_SOMETHING_WRONG);
    take(b, ACTION_WRONG_PARTS);
    assert_int_equal(b->station.hold.cause, HOLD_WRONG_PARTS);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_READY);
    bench_to_mark(b, "1");
    take(b, ACTION_RESUME_NOT_CUT);
    assert_int_equal(b->station.state, STATION_TIP_CUT);
    bench_held(b);
    take(b, ACTION_WRONG_NOT_SAFE);
    assert_int_equal(b->station.hold.cause, HOLD_NOT_SAFE);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_CARE);
    bench_scan(b, TICKET_COMMAND, "BACK");
    bench_scan(b, TICKET_HEAD, "1");
    bench_scan(b, TICKET_SHAFT, "2"); // of another club
    assert_int_equal(b->station.hold.cause, HOLD_WRONG_PAIR);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_READY);
}

// Cut off too much: said, decided by nobody here.
static void cut_past_the_mark(void **state) {
    static const char *const made[] = {"N1", "R14"};
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_held(b);
    take(b, ACTION_WRONG_MISCUT);
    assert_int_equal(b->station.state, STATION_MISCUT);
    number_tickets(b, made, 2);
    take(b, ACTION_PRESS);
    assert_int_equal(b->station.hold.cause, HOLD_TIP_PAST);
    take(b, ACTION_WRONG_MISCUT); // measured wrong
    assert_int_equal(b->station.state, STATION_MISCUT);
    take(b, ACTION_PICK);
    assert_int_equal(b->station.state, STATION_BUTT_CUT);
}

static void a_restart_and_the_end_of_a_shift(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_BUTT_CUT);
    bench_restart(b);
    bench_sign_on(b);
    bench_scan(b, TICKET_SHAFT, "1");
    bench_scan(b, TICKET_HEAD, "1");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_RESUME);
    take(b, ACTION_RESUME_CUT);
    assert_int_equal(b->station.state, STATION_BUTT_CUT);
    bench_press(b);
    press_to(b, ACTION_PICK);
    bench_held(b);
    assert_int_equal(b->station.state, STATION_LOGGED);
    bench_press(b);
    take(b, ACTION_SIGN_OUT);
    assert_int_equal(b->station.state, STATION_SIGNED_OUT);
    bench_sign_on(b);
    bench_scan(b, TICKET_COMMAND, "OUT");
    assert_int_equal(b->station.state, STATION_SIGNED_OUT);
}

static void the_next_choice_comes_round_again(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_press(b);
    bench_press(b);
    static const int steps[] = {0, 1, -1, 2, -2};
    for (int round = 0; round < 2; round++) {
        for (size_t i = 0; i < 5; i++) {
            bench_press(b);
            assert_int_equal(b->view.ring, ACTION_PICK);
            assert_int_equal(b->view.ring_argument,
                             36 * LENGTH_INCH + 7 * EIGHTH + steps[i] * SIXTEENTH);
        }
        bench_press(b);
        assert_int_equal(b->view.ring, ACTION_HELD);
        bench_press(b);
        assert_int_equal(b->view.ring, ACTION_START_OVER);
    }
}

// Without the setting nothing of it is there.
static void off_it_is_as_before(void **state) {
    struct bench *b = *state;
    shop_one_button = false;
    bench_init(b);
    bench_to_mark(b, "1");
    bench_press(b);
    bench_press(b);
    bench_press(b);
    assert_int_equal(b->view.ring, ACTION_NONE);
    assert_string_equal(b->view.number.error,
                        "Nothing is entered yet. Enter the length, then press.");
}

#define LONE(test) cmocka_unit_test_setup_teardown(test, fresh, over)

int main(void) {
    const struct CMUnitTest tests[] = {
        LONE(a_whole_club),
        LONE(presses_alone_log_nothing),
        LONE(a_touch_takes_nothing),
        LONE(numbers_by_tickets),
        LONE(number_tickets_confirm_nothing),
        LONE(something_is_wrong),
        LONE(cut_past_the_mark),
        LONE(a_restart_and_the_end_of_a_shift),
        LONE(the_next_choice_comes_round_again),
        LONE(off_it_is_as_before),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

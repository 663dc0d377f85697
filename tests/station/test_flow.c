// The working day without a fault: sign on, pair, care, cuts, measure, logged.

#include "bench.h"
#include "cmocka_all.h"

#include <stdio.h>
#include <string.h>

static struct bench bench;

static int fresh(void **state) {
    *state = &bench;
    bench_init(&bench);
    return 0;
}

static void a_whole_club(void **state) {
    struct bench *b = *state;
    assert_int_equal(b->view.body, VIEW_MESSAGE);
    assert_string_equal(b->view.title, "Scan your badge");
    bench_sign_on(b);
    assert_int_equal(b->station.state, STATION_READY);
    assert_string_equal(b->view.title, "Scan a head or a shaft");
    assert_string_equal(b->view.worker, "Ada Birch");
    bench_scan(b, TICKET_SHAFT, "1");
    assert_int_equal(b->view.body, VIEW_PAIR);
    assert_false(b->view.card[0].filled);
    assert_true(b->view.card[1].filled);
    bench_scan(b, TICKET_HEAD, "1");
    assert_int_equal(b->view.body, VIEW_CARE);
    bench_press(b);
    assert_int_equal(b->view.body, VIEW_CUT);
    // Iron at 247 g takes column B: 1 1/2 in, no bore note.
    assert_int_equal(b->view.cut.mark.value, 3 * LENGTH_INCH / 2);
    assert_false(b->view.cut.butt);
    assert_int_equal(b->view.cut.piece, 41 * LENGTH_INCH);
    assert_string_equal(b->view.cut.total.amount, "1 1/2");
    assert_string_equal(b->view.band, "Cut made? Press the button.");
    bench_press(b);
    assert_int_equal(b->view.body, VIEW_CUT);
    assert_true(b->view.cut.butt);
    // 38 - 1 - 1/8 = 36 7/8 kept.
    assert_int_equal(b->view.cut.mark.value, 36 * LENGTH_INCH + 7 * EIGHTH);
    bench_press(b);
    assert_int_equal(b->view.body, VIEW_NUMBER);
    assert_int_equal(b->view.number.pick_count, 5);
    bench_press(b);
    assert_string_equal(b->view.number.error,
                        "Nothing is entered yet. Enter the length, then press.");
    bench_act(b, ACTION_PICK, b->view.number.pick[2].mark.value);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_LOGGED);
    assert_int_equal(b->view.notice.tone, TONE_FINE);
    assert_int_equal(b->shop.club[0].progress.stage, STAGE_DONE);
    assert_int_equal(b->shop.sounds[SOUND_LOGGED], 1);
    bench_wait(b, 8000);
    assert_int_equal(b->station.state, STATION_READY);
}

static void the_next_club_starts_from_logged(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_press(b);
    bench_press(b);
    bench_act(b, ACTION_PICK, 36 * LENGTH_INCH + 7 * EIGHTH);
    bench_press(b);
    bench_scan(b, TICKET_HEAD, "2");
    assert_int_equal(b->view.body, VIEW_PAIR);
    bench_scan(b, TICKET_SHAFT, "2");
    assert_string_equal(b->view.care.title, "Graphite shaft at the cutoff wheel");
    assert_int_equal(shop_count(&b->shop, ENTRY_CARE), 1);
    bench_press(b);
    // 210 g column B 1 1/2, plus the whole bore height 1 1/8: the sketch's sum.
    assert_int_equal(b->view.cut.mark.value, 2 * LENGTH_INCH + 5 * EIGHTH);
    assert_string_equal(b->view.cut.receipt[1].amount, "+1 1/8");
    assert_true(b->view.cut.mark.fraction);
    assert_int_equal(b->view.cut.mark.split.whole, 2);
    assert_string_equal(b->view.cut.mark.inches, "2.625 in");
    assert_string_equal(b->view.cut.mark.millimetres, "66.7 mm");
    assert_string_equal(b->view.cut.mark.rounding, "nearest 1/16 in");
}

static void every_picture_of_length_is_exact(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "2");
    length_nm raw = b->view.cut.piece;
    length_nm tip = b->view.cut.mark.value;
    bench_press(b);
    assert_int_equal(b->view.cut.piece, raw - tip);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_MEASURE);
}

static void nothing_to_cut_goes_to_measure(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "7");
    assert_int_equal(b->station.state, STATION_MEASURE);
    bench_type(b, "41");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_LOGGED);
    assert_string_equal(shop_last(&b->shop, ENTRY_MEASURE)->cause, "no_butt_cut");
}

static void nothing_to_cut_but_too_long_shows_the_mark(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "7");
    bench_type(b, "41 1/8");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_BUTT_CUT);
    assert_int_equal(b->view.cut.mark.value, 41 * LENGTH_INCH);
    bench_press(b);
    bench_type(b, "41");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_LOGGED);
}

static void too_long_is_cut_again(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_press(b);
    bench_press(b);
    bench_type(b, "37");
    assert_string_equal(b->view.number.result, "1/8 in too long.");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_MEASURE);
    assert_string_equal(b->view.number.result,
                        "1/8 in too long: cut to the mark at 36 7/8 in, measure again.");
    bench_type(b, "36 7/8");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_LOGGED);
}

static void too_short_waits_for_a_supervisor(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_press(b);
    bench_press(b);
    bench_type(b, "36 3/4");
    bench_press(b);
    assert_int_equal(b->station.hold.cause, HOLD_BUTT_SHORT);
    assert_string_equal(b->view.notice.line[1], "The playing length becomes 37 7/8 in.");
    assert_int_equal(b->shop.club[0].progress.stage, STAGE_DECISION);
    bench_press(b);
    bench_pair(b, "1");
    assert_int_equal(b->station.hold.cause, HOLD_DECISION);
}

static void a_badge_signs_over_and_care_is_asked_anew(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_act(b, ACTION_START_OVER, 0);
    bench_scan(b, TICKET_WORKER, "15");
    assert_string_equal(b->view.worker, "Ben Rowan");
    assert_int_equal(shop_count(&b->shop, ENTRY_SIGN_OFF), 1);
    bench_scan(b, TICKET_HEAD, "1");
    bench_scan(b, TICKET_SHAFT, "1");
    assert_int_equal(b->view.body, VIEW_CARE);
}

static void idling_signs_off_but_never_with_a_mark(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    assert_int_equal(station_deadline(&b->station), b->shop.now_ms + 10 * 60 * 1000);
    bench_wait(b, 10 * 60 * 1000);
    assert_int_equal(b->station.state, STATION_SIGNED_OUT);
    bench_to_mark(b, "1");
    assert_int_equal(station_deadline(&b->station), -1);
    bench_wait(b, 100 * 60 * 1000);
    assert_int_equal(b->station.state, STATION_TIP_CUT);
}

static void the_button_has_a_dead_time(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_bounce(b);
    assert_int_equal(b->station.state, STATION_TIP_CUT);
    bench_press(b);
    bench_bounce(b);
    b->shop.now_ms += 399;
    bench_bounce(b);
    assert_int_equal(b->station.state, STATION_BUTT_CUT);
    b->shop.now_ms += 1;
    bench_bounce(b);
    assert_int_equal(b->station.state, STATION_MEASURE);
    assert_int_equal(shop_count(&b->shop, ENTRY_TIP_CUT), 1);
    assert_int_equal(shop_count(&b->shop, ENTRY_BUTT_CUT), 1);
}

static void half_cut_shafts_are_named(void **state) {
    struct bench *b = *state;
    char band[VIEW_TEXT_MAX];
    bench_sign_on(b);
    snprintf(band, sizeof band, "Half-cut shafts waiting: %s (butt cut next)",
             shop_ticket(TICKET_SHAFT, "3"));
    assert_string_equal(b->view.band, band);
}

static void commands_carry_a_check_character(void **state) {
    static const char *const bodies[] = {"OUT", "BACK", "FIT", "WRONG", "REVIEW"};
    struct bench *b = *state;
    struct ticket ticket;
    for (size_t i = 0; i < sizeof bodies / sizeof bodies[0]; i++) {
        assert_true(ticket_make(TICKET_COMMAND, bodies[i], &ticket));
    }
    bench_to_mark(b, "1");
    bench_scan(b, TICKET_COMMAND, "FIT");
    assert_int_equal(b->station.hold.cause, HOLD_COMMAND_NOW);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_TIP_CUT);
    bench_scan(b, TICKET_COMMAND, "WRONG");
    assert_int_equal(b->station.hold.cause, HOLD_SOMETHING_WRONG);
    bench_scan(b, TICKET_COMMAND, "BACK");
    assert_int_equal(b->station.state, STATION_READY);
    bench_scan(b, TICKET_COMMAND, "REVIEW");
    assert_int_equal(b->view.body, VIEW_PIN);
    bench_scan(b, TICKET_COMMAND, "OUT");
    assert_int_equal(b->station.state, STATION_SIGNED_OUT);
}

static void resume_asks_before_a_mark_comes_back(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_restart(b);
    bench_to_mark(b, "1");
    assert_int_equal(b->station.state, STATION_RESUME);
    assert_string_equal(b->view.notice.line[1],
                        "Tip not cut it is 41 in long; cut it is 39 1/2 in.");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_RESUME);
    bench_act(b, ACTION_RESUME_CUT, 0);
    assert_string_equal(b->view.band, "Already cut? Press the button.");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_BUTT_CUT);
    bench_restart(b);
    bench_to_mark(b, "1");
    assert_string_equal(b->view.notice.line[1],
                        "Butt not cut it is 39 1/2 in long; cut it is 36 7/8 in.");
    bench_act(b, ACTION_RESUME_OTHER, 0);
    bench_type(b, "38");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_BUTT_CUT);
    bench_press(b);
    bench_restart(b);
    bench_to_mark(b, "1");
    assert_int_equal(b->station.state, STATION_MEASURE);
}

static void resume_cut_somewhere_else(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_restart(b);
    bench_to_mark(b, "1");
    bench_act(b, ACTION_RESUME_OTHER, 0);
    bench_type(b, "1 1/4");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_TIP_CUT);
    assert_int_equal(b->view.cut.mark.value, LENGTH_INCH / 4);
    assert_string_equal(b->view.cut.heading, "Tip end · still to cut off");
    assert_int_equal(shop_count(&b->shop, ENTRY_TIP_PARTIAL), 1);
    bench_press(b);
    assert_int_equal(shop_last(&b->shop, ENTRY_TIP_CUT)->made, 3 * LENGTH_INCH / 2);
    bench_restart(b);
    bench_to_mark(b, "1");
    bench_act(b, ACTION_RESUME_OTHER, 0);
    bench_type(b, "36 7/8");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_MEASURE);
    assert_int_equal(shop_count(&b->shop, ENTRY_BUTT_CUT), 1);
}

static void the_table_of_moves(void **state) {
    (void)state;
    assert_true(station_may_move(STATION_TIP_CUT, STATION_BUTT_CUT));
    assert_false(station_may_move(STATION_READY, STATION_TIP_CUT));
    assert_false(station_may_move(STATION_SIGNED_OUT, STATION_PAIR));
    assert_false(station_may_move(STATION_PIN, STATION_TIP_CUT));
    for (int i = 0; i < STATION_STATE_COUNT; i++) {
        assert_true(strlen(station_state_name((enum station_state)i)) > 2);
        if (i != STATION_HOLD) {
            assert_true(station_may_move((enum station_state)i, STATION_HOLD));
        }
    }
}

static void a_scanner_is_checked_and_nothing_done(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    int64_t entries = b->shop.seq;
    bench_act(b, ACTION_CHECK, 0);
    assert_int_equal(b->view.body, VIEW_CHECK);
    bench_scan(b, TICKET_HEAD, "1");
    bench_scan_text(b, "6291041500213");
    bench_fault(b, "The scanner is set to German.");
    bench_held(b);
    assert_int_equal(b->station.state, STATION_CHECK);
    assert_string_equal(b->station.head, "");
    assert_int_equal(b->shop.seq, entries);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_READY);
    bench_scan(b, TICKET_COMMAND, "YZAQWM");
    assert_int_equal(b->station.state, STATION_CHECK);
    bench_act(b, ACTION_BACK, 0);
    assert_int_equal(b->station.state, STATION_READY);
    bench_scan(b, TICKET_HEAD, "1");
    bench_scan(b, TICKET_COMMAND, "YZAQWM"); // not while a club is in work
    assert_int_equal(b->station.state, STATION_HOLD);
}

static void a_camera_stands_in_the_header(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    assert_int_equal(b->view.status_count, 3);
    b->station.settings.camera = true;
    bench_device(b, DEVICE_CAMERA, false);
    assert_int_equal(b->view.status_count, 4);
    assert_string_equal(b->view.status[2].label, "Camera");
    assert_int_equal(b->view.status[2].health, HEALTH_BAD);
    assert_int_equal(b->station.state, STATION_READY); // scanners go on working
    bench_device(b, DEVICE_CAMERA, true);
    assert_int_equal(b->view.status[2].health, HEALTH_GOOD);
}

static void a_scale_stands_in_the_header(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    b->station.settings.scale = true;
    bench_device(b, DEVICE_SCALE, false);
    assert_int_equal(b->view.status_count, 4);
    assert_string_equal(b->view.status[2].label, "Scale");
    assert_int_equal(b->view.status[2].health, HEALTH_BAD);
    assert_int_equal(b->station.state, STATION_READY);
    bench_device(b, DEVICE_SCALE, true);
    assert_int_equal(b->view.status[2].health, HEALTH_GOOD);
}

// What lies on a scale is nobody's doing: it moves nothing, and keeps nobody signed on.
static void a_weight_does_nothing(void **state) {
    struct bench *b = *state;
    struct event event = {.kind = EVENT_WEIGHT, .weight = 203400, .stable = true};
    bench_to_mark(b, "1");
    struct station before = b->station;
    b->shop.now_ms += 1000;
    assert_false(station_event(&b->station, &event));
    assert_memory_equal(&before, &b->station, sizeof before);
    b->station.saving = SAVING_REFUSED;
    before = b->station;
    assert_false(station_event(&b->station, &event));
    assert_memory_equal(&before, &b->station, sizeof before);
}

#define T(name) cmocka_unit_test_setup(name, fresh)
int main(void) {
    const struct CMUnitTest tests[] = {
        T(a_scale_stands_in_the_header),
        T(a_weight_does_nothing),
        T(a_whole_club),
        T(the_next_club_starts_from_logged),
        T(every_picture_of_length_is_exact),
        T(nothing_to_cut_goes_to_measure),
        T(nothing_to_cut_but_too_long_shows_the_mark),
        T(too_long_is_cut_again),
        T(too_short_waits_for_a_supervisor),
        T(a_badge_signs_over_and_care_is_asked_anew),
        T(idling_signs_off_but_never_with_a_mark),
        T(the_button_has_a_dead_time),
        T(half_cut_shafts_are_named),
        T(commands_carry_a_check_character),
        T(resume_asks_before_a_mark_comes_back),
        T(resume_cut_somewhere_else),
        T(a_scanner_is_checked_and_nothing_done),
        T(a_camera_stands_in_the_header),
        T(the_table_of_moves),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

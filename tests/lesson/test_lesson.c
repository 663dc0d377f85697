// Lessons with no station behind them: every step says something and leads on, whoever goes back is
// met where he stands, and nothing but what a step shows can be had by touching it.

#include "lesson_inner.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#define CAPTION_MAX 190 // bytes that the caption of the narrowest screen holds

static struct lesson lesson;
static struct view view;
static struct lesson_act act;
static const struct lesson_parts parts = {.ticket = {[OFFER_BADGE] = "W-00029",
                                                     [OFFER_HEAD] = "H-0001A",
                                                     [OFFER_SHAFT] = "S-0001S",
                                                     [OFFER_OTHER] = "S-0002Q",
                                                     [OFFER_UNKNOWN] = "H-9999L",
                                                     [OFFER_CUT] = "S-0003O"}};

static int set_up(void **state) {
    (void)state;
    lesson_init(&lesson, false);
    memset(&view, 0, sizeof view);
    return 0;
}

static bool stands(enum station_state state, enum hold_cause cause, enum station_saving saving) {
    const struct lesson_seen seen = {.state = state, .cause = cause, .saving = saving};
    return lesson_look(&lesson, &seen);
}

static enum lesson_wish put_in(enum view_action_id id, int64_t argument) {
    const struct event event = {.kind = EVENT_ACTION, .action = (int)id, .argument = argument};
    return lesson_event(&lesson, &event, &view, &act);
}

// A state of those a step is done at.
static enum station_state one_of(unsigned states) {
    for (int i = 0; i < STATION_STATE_COUNT; i++) {
        if ((states & 1u << i) != 0) {
            return (enum station_state)i;
        }
    }
    fail();
    return STATION_READY;
}

static void every_lesson_can_be_gone_through(void **state) {
    (void)state;
    for (int id = 0; id < LESSON_COUNT; id++) {
        const struct lesson_spec *spec = lesson_spec((enum lesson_id)id);
        lesson_begin(&lesson, (enum lesson_id)id, &parts);
        assert_true(lesson.running);
        for (int i = 0; i < spec->count; i++) {
            const struct lesson_step *step = &spec->step[i];
            if (lesson.step > i) {
                continue; // one state led over several, as a confirmed care list does
            }
            assert_int_equal(lesson.step, i);
            assert_non_null(step->text);
            if (strlen(step->text) > CAPTION_MAX) {
                fail_msg("%s %d: %zu bytes", spec->name, i, strlen(step->text));
            }
            if (step->does == DOES_NOTHING && step->done == 0) {
                put_in(ACTION_LESSON_NEXT, 0);
            } else if (step->refused) {
                assert_false(stands(one_of(step->where), HOLD_NONE, SAVING_NONE) &&
                             lesson.step > i);
                stands(one_of(step->where), HOLD_NONE, SAVING_REFUSED);
            } else {
                stands(one_of(step->done), step->cause, SAVING_NONE);
            }
            assert_true(lesson.step > i);
        }
        assert_true((lesson.done & 1u << id) != 0);
        assert_null(lesson_at(&lesson));
    }
}

static void a_step_waits_for_what_it_is_about(void **state) {
    (void)state;
    lesson_begin(&lesson, LESSON_WRONG_PAIR, &parts);
    stands(STATION_READY, HOLD_NONE, SAVING_NONE);
    stands(STATION_PAIR, HOLD_NONE, SAVING_NONE);
    assert_int_equal(lesson.step, 2);
    stands(STATION_HOLD, HOLD_SAME_KIND, SAVING_NONE); // another stop
    assert_int_equal(lesson.step, 2);
    stands(STATION_HOLD, HOLD_WRONG_PAIR, SAVING_CHECKING);
    assert_int_equal(lesson.step, 2);
    stands(STATION_HOLD, HOLD_WRONG_PAIR, SAVING_NONE);
    assert_int_equal(lesson.step, 3);
}

static void who_goes_back_is_met_there(void **state) {
    (void)state;
    lesson_begin(&lesson, LESSON_TOO_EARLY, &parts);
    stands(STATION_READY, HOLD_NONE, SAVING_NONE);
    stands(STATION_PAIR, HOLD_NONE, SAVING_NONE);
    stands(STATION_CARE, HOLD_NONE, SAVING_NONE);
    assert_int_equal(lesson.step, 3);
    stands(STATION_READY, HOLD_NONE, SAVING_NONE);
    assert_int_equal(lesson.step, 1);
    stands(STATION_SIGNED_OUT, HOLD_NONE, SAVING_NONE);
    assert_int_equal(lesson.step, 0);
    stands(STATION_CHECK, HOLD_NONE, SAVING_NONE); // nothing says a word about that
    assert_int_equal(lesson.step, 1);
    lesson_view(&lesson, &view);
    assert_non_null(strstr(view.lesson.text, "not where the lesson leads"));
}

static bool shown(enum view_action_id id, int64_t argument) {
    for (size_t i = 0; i < view.action_count; i++) {
        if (view.action[i].id == id && view.action[i].argument == argument) {
            return true;
        }
    }
    return false;
}

static void a_touch_scans_what_is_shown_and_nothing_else(void **state) {
    (void)state;
    lesson_begin(&lesson, LESSON_WRONG_PAIR, &parts);
    stands(STATION_READY, HOLD_NONE, SAVING_NONE);
    lesson_view(&lesson, &view);
    assert_true(shown(ACTION_LESSON_SCAN, OFFER_HEAD));
    for (int offer = -1; offer <= OFFER_COUNT; offer++) {
        enum lesson_wish wish = put_in(ACTION_LESSON_SCAN, offer);
        assert_int_equal(wish, offer == OFFER_HEAD ? LESSON_DOES : LESSON_TAKES);
        assert_int_equal(act.count, offer == OFFER_HEAD ? 1 : 0);
    }
    put_in(ACTION_LESSON_SCAN, OFFER_HEAD);
    assert_int_equal(act.event[0].kind, EVENT_SCAN);
    assert_string_equal(act.event[0].text, "H-0001A");
}

static void the_list_takes_every_input_for_itself(void **state) {
    const struct event scan = {.kind = EVENT_SCAN, .text = "H-0001A"};
    const struct event press = {.kind = EVENT_PRESS};
    const struct event tick = {.kind = EVENT_TICK};
    (void)state;
    assert_int_equal(lesson_event(&lesson, &scan, &view, &act), LESSON_TAKES);
    assert_int_equal(lesson_event(&lesson, &press, &view, &act), LESSON_TAKES);
    assert_int_equal(lesson_event(&lesson, &tick, &view, &act), LESSON_PASSES);
    assert_int_equal(put_in(ACTION_TILE, LESSON_COUNT - LESSON_CLUB), LESSON_TAKES);
    assert_int_equal(put_in(ACTION_TILE, -1), LESSON_TAKES);
    assert_int_equal(put_in(ACTION_TILE, 1), LESSON_BEGINS);
    assert_int_equal(act.id, LESSON_WRONG_PAIR);
    assert_int_equal(put_in(ACTION_LESSON_LEAVE, 0), LESSON_ENDS);
    lesson_begin(&lesson, LESSON_CLUB, &parts);
    assert_int_equal(lesson_event(&lesson, &scan, &view, &act), LESSON_PASSES);
    assert_int_equal(lesson_event(&lesson, &press, &view, &act), LESSON_PASSES);
}

static void without_parts_it_stays_in_the_list(void **state) {
    const struct lesson_parts none = {.ticket = {[OFFER_HEAD] = "H-0001A"}};
    (void)state;
    lesson_begin(&lesson, LESSON_CUT_ALREADY, &none);
    assert_true(lesson.list);
    lesson_view(&lesson, &view);
    assert_int_equal(view.body, VIEW_MENU);
    assert_int_equal(view.band_tone, TONE_CAUTION);
}

static void the_disk_refuses_only_within_that_lesson(void **state) {
    (void)state;
    for (int id = 0; id < LESSON_COUNT; id++) {
        bool ever = false;
        lesson_begin(&lesson, (enum lesson_id)id, &parts);
        for (lesson.step = 0; lesson.step < lesson_spec((enum lesson_id)id)->count; lesson.step++) {
            ever = ever || lesson_refuses(&lesson);
        }
        assert_int_equal(ever, id == LESSON_NOT_LOGGED);
        assert_false(lesson_refuses(&lesson)); // at its end
        lesson.step = 4;
        lesson.list = true;
        assert_false(lesson_refuses(&lesson));
    }
}

static void it_is_found_again_after_the_power_was_cut(void **state) {
    char text[LESSON_TEXT_MAX];
    struct lesson again;
    (void)state;
    lesson_begin(&lesson, LESSON_POWER_CUT, &parts);
    lesson.step = 4;
    lesson.done = 5;
    lesson_write(&lesson, text);
    lesson_init(&again, false);
    assert_true(lesson_read(&again, text));
    assert_int_equal(again.id, LESSON_POWER_CUT);
    assert_int_equal(again.step, 4);
    assert_int_equal(again.done, 5);
    assert_string_equal(again.parts.ticket[OFFER_SHAFT], "S-0001S");
    lesson = again;
    stands(STATION_SIGNED_OUT, HOLD_NONE, SAVING_NONE);
    assert_int_equal(lesson.step, 5);
}

static void what_is_no_lesson_is_refused(void **state) {
    static const char *const texts[] = {"",
                                        "8",
                                        "8 4 0",
                                        "9 0 0 H-0001A S-0001S",
                                        "-1 0 0 H-0001A S-0001S",
                                        "8 99 0 H-0001A S-0001S",
                                        "8 4 0 H-0001A S-0001S more",
                                        "8 4 0 S-0001S H-0001A",
                                        "8 4 0 H-0001B S-0001S",
                                        "8 4 0 H-0001AAAAAAAAAAAAAAAAAAAAAA S-0001S"};
    (void)state;
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        struct lesson before = lesson;
        if (lesson_read(&lesson, texts[i])) {
            fail_msg("taken: %s", texts[i]);
        }
        assert_memory_equal(&before, &lesson, sizeof lesson);
    }
}

static void the_tour_begins_with_the_cautions(void **state) {
    const struct event press = {.kind = EVENT_PRESS};
    const struct event scan = {.kind = EVENT_SCAN, .text = "W-00029"};
    (void)state;
    lesson_init(&lesson, true);
    lesson_view(&lesson, &view);
    assert_int_equal(view.body, VIEW_CARE);
    assert_non_null(strstr(view.care.title, "controls no machine"));
    assert_true(view.care.count >= 6);
    assert_int_equal(lesson_event(&lesson, &scan, &view, &act), LESSON_TAKES);
    assert_int_equal(lesson.step, 0);
    assert_int_equal(lesson_event(&lesson, &press, &view, &act), LESSON_TAKES);
    assert_int_equal(lesson.step, 1);
    lesson.step = lesson_spec(LESSON_TOUR)->count - 1;
    assert_int_equal(lesson_event(&lesson, &press, &view, &act), LESSON_ENDS);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(every_lesson_can_be_gone_through, set_up),
        cmocka_unit_test_setup(a_step_waits_for_what_it_is_about, set_up),
        cmocka_unit_test_setup(who_goes_back_is_met_there, set_up),
        cmocka_unit_test_setup(a_touch_scans_what_is_shown_and_nothing_else, set_up),
        cmocka_unit_test_setup(the_list_takes_every_input_for_itself, set_up),
        cmocka_unit_test_setup(without_parts_it_stays_in_the_list, set_up),
        cmocka_unit_test_setup(the_disk_refuses_only_within_that_lesson, set_up),
        cmocka_unit_test_setup(it_is_found_again_after_the_power_was_cut, set_up),
        cmocka_unit_test_setup(what_is_no_lesson_is_refused, set_up),
        cmocka_unit_test_setup(the_tour_begins_with_the_cautions, set_up),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

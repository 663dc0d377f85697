// When the self-check shows by itself, and when it lets nobody on.

#include "bench.h"
#include "cmocka_all.h"

#include <string.h>

static struct bench bench;

static int fresh(void **state) {
    *state = &bench;
    bench_init(&bench);
    bench.shop.facts =
        (struct selfcheck_facts){.disk = {.known = true, .free = INT64_MAX, .files_free = -1},
                                 .settings.wrong = "",
                                 .copies.wanted = true,
                                 .clock.synchronised = 1,
                                 .screen.driver = "x11",
                                 .log.entries = 1};
    bench.shop.facts.copies_disk = bench.shop.facts.disk;
    return 0;
}

static void news(struct bench *b) {
    const struct event event = {.kind = EVENT_SELFCHECK};
    station_event(&b->station, &event);
    station_view(&b->station, &b->view);
}

static void nothing_to_tell(void **state) {
    struct bench *b = *state;
    b->shop.facts.clock.synchronised = 0; // to look at, and no reason to show it by itself
    news(b);
    assert_int_equal(b->station.state, STATION_SIGNED_OUT);
}

static void shows_by_itself(void **state) {
    struct bench *b = *state;
    b->shop.facts.settings.wrong = "line 3";
    news(b);
    assert_int_equal(b->station.state, STATION_SELFCHECK);
    assert_int_equal(b->view.body, VIEW_SELFCHECK);
    assert_string_equal(b->view.selfcheck.line[0].name, "Settings");
    assert_string_equal(b->view.selfcheck.line[0].word, "bad");
    assert_int_equal(b->view.selfcheck.line[0].tone, TONE_STOP);
    assert_string_equal(b->view.subtitle, "Bad: 1. To look at: 0.");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_SIGNED_OUT);
    news(b); // said once
    assert_int_equal(b->station.state, STATION_SIGNED_OUT);
}

static void a_badge_goes_on(void **state) {
    struct bench *b = *state;
    b->shop.facts.settings.wrong = "line 3";
    news(b);
    bench_sign_on(b);
    assert_int_equal(b->station.state, STATION_READY);
}

static void comes_too_late(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    b->shop.facts.settings.wrong = "line 3";
    news(b);
    assert_int_equal(b->station.state, STATION_READY);
}

static void on_demand(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    bench_act(b, ACTION_SELFCHECK, 0);
    assert_int_equal(b->station.state, STATION_SELFCHECK);
    assert_int_equal(b->shop.looks, 1);
    assert_string_equal(b->view.subtitle, "All of it is good.");
    size_t first = b->view.selfcheck.count;
    assert_true(first > 0 && first <= VIEW_LOOKS_MAX);
    bench_act(b, ACTION_OLDER, 0);
    assert_int_equal(first + b->view.selfcheck.count, SELFCHECK_COUNT);
    assert_false(bench_can(b, ACTION_OLDER)); // there is no more
    bench_act(b, ACTION_NEWER, 0);
    assert_int_equal(b->view.selfcheck.count, first);
    assert_true(bench_can(b, ACTION_OLDER));
    assert_false(bench_can(b, ACTION_NEWER));
    bench_act(b, ACTION_SOUNDS, 0);
    assert_int_equal(b->shop.heard, 1);
    bench_act(b, ACTION_LOOK_AGAIN, 0);
    assert_int_equal(b->shop.looks, 2);
    bench_act(b, ACTION_BACK, 0);
    assert_int_equal(b->station.state, STATION_READY);
}

// Every finding stands on some page once, however many have something to do.
static void every_page(void **state) {
    struct bench *b = *state;
    b->shop.facts.disk.read_only = true;
    b->shop.facts.copies.late = true;
    b->shop.facts.settings.wrong = "line 3";
    b->shop.facts.scanner.named = 2;
    b->shop.facts.button.named = 1;
    b->shop.facts.scale.named = 1;
    b->shop.facts.camera.named = 1;
    b->shop.facts.printer = PRINTER_MISSING;
    b->shop.facts.sound = SOUND_MISSING;
    bench_sign_on(b);
    bench_act(b, ACTION_SELFCHECK, 0);
    size_t seen = 0;
    int pages = 0;
    for (int before = -1; before != b->station.looked_page; pages++) {
        before = b->station.looked_page;
        int units = 0;
        for (size_t i = 0; i < b->view.selfcheck.count; i++) {
            units += b->view.selfcheck.line[i].todo[0] == '\0' ? 1 : 3;
        }
        assert_true(units <= 11);
        seen += b->view.selfcheck.count;
        bench_act(b, ACTION_OLDER, 0);
    }
    assert_int_equal(seen, SELFCHECK_COUNT);
    assert_true(pages > 2);
}

static void a_log_that_cannot_be_trusted(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    b->shop.facts.log.whole = CHAIN_BROKEN;
    b->shop.facts.log.problem = "Entry 7: was changed after it was written.";
    news(b);
    assert_int_equal(b->station.state, STATION_SELFCHECK);
    assert_int_equal(b->view.band_tone, TONE_STOP);
    assert_false(bench_can(b, ACTION_PRESS) || bench_can(b, ACTION_BACK));
    bench_press(b);
    bench_held(b);
    bench_scan_text(b, "W-00029");
    bench_act(b, ACTION_BACK, 0);
    bench_wait(b, 3600000);
    assert_int_equal(b->station.state, STATION_SELFCHECK);
    assert_string_equal(b->station.worker.badge, ""); // signed off, idle
    b->shop.facts.log.whole = CHAIN_WHOLE;            // a whole copy was put back
    news(b);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_SIGNED_OUT);
}

// A cut that was begun is ended and logged; the next is not begun.
static void in_the_middle_of_a_cut(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    bench_to_mark(b, "2");
    enum station_state cut = b->station.state;
    b->shop.facts.log.whole = CHAIN_BROKEN;
    b->shop.facts.log.problem = "gone";
    news(b);
    assert_int_equal(b->station.state, cut);
    struct event event;
    int64_t ms;
    while (b->station.state != STATION_LOGGED && bench_next(b, "2", &event, &ms)) {
        b->shop.now_ms += ms;
        station_event(&b->station, &event);
        station_view(&b->station, &b->view);
    }
    assert_int_equal(b->station.state, STATION_LOGGED);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_SELFCHECK);
}

#define ROW(test) cmocka_unit_test_setup(test, fresh)
int main(void) {
    const struct CMUnitTest tests[] = {
        ROW(nothing_to_tell),
        ROW(shows_by_itself),
        ROW(a_badge_goes_on),
        ROW(comes_too_late),
        ROW(on_demand),
        ROW(every_page),
        ROW(a_log_that_cannot_be_trusted),
        ROW(in_the_middle_of_a_cut),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

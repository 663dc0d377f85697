// Long runs: a hundred thousand random events with many faults, and a working day in simulated
// time with a failing disk and a power cut in it. The laws are judged after every event.

#include "bench.h"
#include "cmocka_all.h"
#include "explore.h"

#include <stdio.h>
#include <string.h>

#define EVENTS 100000

static struct bench bench;

static uint64_t random_next(uint64_t *seed) {
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return *seed;
}

static void must_hold(const struct bench *b, const struct laws_before *before,
                      const struct event *event, const char *what) {
    const char *broken = laws_judge(&b->station, &b->shop, before, event, &b->view);
    const char *text = laws_cut_off(&b->view);
    if (broken != NULL) {
        fail_msg("%s: %s", what, broken);
    }
    if (text != NULL) {
        fail_msg("%s: a text is cut off: %s", what, text);
    }
}

static void do_step(struct bench *b, const struct step *step, const char *what) {
    struct laws_before before;
    b->shop.now_ms += step->ms;
    laws_remember(&b->station, &b->shop, &before);
    b->shop.now_ms -= step->ms;
    explore_apply(step, &b->station, &b->shop);
    station_view(&b->station, &b->view);
    must_hold(b, &before, &step->event, what);
}

// Half of what happens is what should happen next.
static bool natural(const struct bench *b, uint64_t dice, struct step *step) {
    const char *club = dice / 64 % 8 < 5 ? "1" : "2";
    memset(step, 0, sizeof *step);
    return dice % 2 == 0 && bench_next(b, club, &step->event, &step->ms);
}

// Keys and rows, which the exploration leaves out.
static bool typed(const struct bench *b, uint64_t dice, struct step *step) {
    memset(step, 0, sizeof *step);
    step->ms = 100;
    if (b->station.state == STATION_PIN && dice % 4 != 0) {
        step->event.kind = EVENT_KEY;
        step->event.key = "4711"[strlen(b->station.pin.digits) % 4];
        return strlen(b->station.pin.digits) < 4;
    }
    if (b->station.state == STATION_REVIEW && dice % 3 == 0 && b->view.log.row_count > 0) {
        step->event.kind = EVENT_ACTION;
        step->event.action = ACTION_ROW;
        step->event.argument = b->view.log.row[dice / 8 % b->view.log.row_count].seq;
        return true;
    }
    if (b->station.state == STATION_SET && dice % 3 == 0 && b->view.set.total > 0) {
        step->event.kind = EVENT_ACTION;
        step->event.action = ACTION_ROW;
        step->event.argument = (int64_t)(dice / 8 % (uint64_t)b->view.set.total);
        return true;
    }
    if (b->view.body == VIEW_NUMBER || b->view.body == VIEW_LOG) {
        step->event.kind = EVENT_KEY;
        step->event.key = "0123456789 /.\bxD"[dice / 8 % 16];
        return dice % 5 == 0;
    }
    return false;
}

// Done, or waiting for a decision that has had its time.
static bool stuck(const struct shop_club *club, int events) {
    return club->progress.stage == STAGE_DONE ||
           (club->progress.stage == STAGE_DECISION && events > 200);
}

static void random_events(void **state) {
    (void)state;
    struct bench *b = &bench;
    uint64_t seed = 20261125;
    int clubs = 0;
    int visits[STATION_STATE_COUNT] = {0};
    int opened = 0;
    int events = 0; // with these parts
    bench_init(b);
    for (int i = 0; i < EVENTS; i++) {
        struct step steps[EXPLORE_EVENTS];
        struct step step;
        uint64_t dice = random_next(&seed);
        char what[64];
        snprintf(what, sizeof what, "event %d", i);
        if (!typed(b, dice, &step) && !natural(b, dice / 16, &step)) {
            bool faults = dice % 16 == 0;
            size_t count = explore_steps(&b->station, &b->view, faults, steps, EXPLORE_EVENTS);
            // Towards the end of the list are what the screen offers and faults.
            size_t at = random_next(&seed) % count;
            step = steps[dice % 3 == 0 ? 0 : at];
            if (faults) {
                step = steps[count - 1 - random_next(&seed) % (count < 8 ? count : 8)];
            }
        }
        do_step(b, &step, what);
        visits[b->station.state]++;
        opened += b->view.body == VIEW_ENTRY ? 1 : 0;
        events++;
        if (stuck(&b->shop.club[0], events) && stuck(&b->shop.club[1], events)) {
            clubs += b->shop.club[0].progress.stage == STAGE_DONE ? 1 : 0;
            clubs += b->shop.club[1].progress.stage == STAGE_DONE ? 1 : 0;
            events = 0;
            bench_init(b); // new parts on the bench
        }
    }
    printf("shift: %d random events, %d clubs done, entries opened %d; visits:", EVENTS, clubs,
           opened);
    for (int i = 0; i < STATION_STATE_COUNT; i++) {
        printf(" %s %d", station_state_name((enum station_state)i), visits[i]);
        // No plan refused among the two clubs, nothing to check itself: those have tests of their
        // own.
        if (i != STATION_CONSENT && i != STATION_SELFCHECK) {
            assert_true(visits[i] > 0);
        }
    }
    printf("\n");
    assert_true(clubs > 10);
    assert_true(opened > 0);
}

// --- a day -----------------------------------------------------------------------------------

static void send(struct bench *b, const struct event *event, int64_t ms) {
    struct laws_before before;
    b->shop.now_ms += ms;
    laws_remember(&b->station, &b->shop, &before);
    station_event(&b->station, event);
    station_view(&b->station, &b->view);
    must_hold(b, &before, event, "the day");
}

static void wait_for_log(struct bench *b) {
    struct event tick = {.kind = EVENT_TICK};
    for (int i = 0; i < 100 && b->station.saving != SAVING_NONE; i++) {
        if (i == 30) {
            b->shop.broken = false; // somebody made room
        }
        send(b, &tick, 1000);
    }
    assert_int_equal(b->station.saving, SAVING_NONE);
}

static void day_scan(struct bench *b, enum ticket_kind kind, const char *body, int64_t ms) {
    struct event event = {.kind = EVENT_SCAN};
    memcpy(event.text, shop_ticket(kind, body), TICKET_TEXT_MAX);
    send(b, &event, ms);
    wait_for_log(b);
}

static void day_press(struct bench *b, int64_t ms) {
    struct event event = {.kind = EVENT_PRESS};
    send(b, &event, ms);
    wait_for_log(b);
}

static void day_pick(struct bench *b) {
    struct event event = {.kind = EVENT_ACTION, .action = ACTION_PICK};
    event.argument = b->view.number.pick[2].mark.value;
    send(b, &event, 3000);
}

static void one_club(struct bench *b, const char *body, int number) {
    size_t at = (size_t)(body[0] - '1');
    memset(&b->shop.club[at].progress, 0, sizeof b->shop.club[at].progress);
    b->shop.club[at].progress = (struct progress){.attempt = 1, .tip_made = LENGTH_UNKNOWN};
    b->shop.club[at].tip_cut = 0;
    b->shop.club[at].butt_cut = 0;
    for (int i = 0; i < 40 && b->shop.club[at].progress.stage != STAGE_DONE; i++) {
        if (number == 7 && i == 4) {
            b->shop.broken = true; // the disk fills in the middle of a club
        }
        if (number == 11 && i == 5) {
            bench_restart(b); // the power goes off
            memset(b->shop.care, 0, sizeof b->shop.care);
            memset(b->shop.worker, 0, sizeof b->shop.worker);
        }
        if (b->station.state == STATION_SIGNED_OUT) {
            day_scan(b, TICKET_WORKER, "14", 4000);
        } else if (b->station.state == STATION_READY || b->station.state == STATION_LOGGED) {
            day_scan(b, TICKET_HEAD, body, 20000);
        } else if (b->station.state == STATION_PAIR) {
            day_scan(b, TICKET_SHAFT, body, 6000);
        } else if (b->station.state == STATION_RESUME) {
            struct event event = {.kind = EVENT_ACTION, .action = ACTION_RESUME_CUT};
            send(b, &event, 20000);
            wait_for_log(b);
        } else if (b->view.body == VIEW_NUMBER && b->view.number.field[0].text[0] == '\0') {
            day_pick(b);
        } else {
            day_press(b, 45000);
        }
    }
    assert_int_equal(b->shop.club[at].progress.stage, STAGE_DONE);
    assert_true(b->shop.club[at].tip_cut != 0 && b->shop.club[at].butt_cut != 0);
}

static void a_day(void **state) {
    (void)state;
    struct bench *b = &bench;
    int clubs = 0;
    bench_init(b);
    int64_t start = b->shop.now_ms;
    while (b->shop.now_ms - start < 8 * 3600 * 1000) {
        one_club(b, clubs % 2 == 0 ? "1" : "2", clubs);
        clubs++;
        if (clubs % 40 == 0) {
            struct event tick = {.kind = EVENT_TICK};
            send(b, &tick, 8000);
            send(b, &tick, 15 * 60 * 1000); // a break
            assert_int_equal(b->station.state, STATION_SIGNED_OUT);
        }
    }
    printf("shift: 8 h of simulated time, %d clubs, %lld entries\n", clubs, (long long)b->shop.seq);
    assert_true(clubs > 80);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(random_events),
        cmocka_unit_test(a_day),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

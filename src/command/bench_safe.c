#include "bench_safe.h"
#include "bench_clock.h"
#include "bench_signals.h"
#include "button.h"
#include "evdev.h"

#include <stdio.h>

#define RETRY_MS 1000

struct waiting {
    const struct bench_safe *safe;
    struct bench_signals signals;
    struct evdev *device; // the button's own, NULL: none
    struct button button;
    struct button band;
};

static int64_t now_us(void) {
    const struct bench_clock clock = {.simulated = false};
    return bench_clock_us(&clock);
}

static void wake(void *ctx) {
    const struct waiting *waiting = ctx;
    screen_wake(waiting->safe->screen);
}

static void show(const struct bench_safe *safe) {
    static struct view view; // large
    const struct bench_starts *starts = safe->starts;
    station_safe(safe->settings->station.bench, starts->count - 1, starts->end, starts->which,
                 &view);
    screen_draw(safe->screen, &view);
}

// Without its device the button is not there, but the band is.
static void open_device(struct waiting *waiting) {
    const struct evdev_options options = {.path = waiting->safe->settings->button,
                                          .retry_ms = RETRY_MS,
                                          .wake = wake,
                                          .ctx = waiting};
    waiting->device = options.path[0] != '\0' ? evdev_init(&options) : NULL;
    if (waiting->device != NULL && !evdev_start(waiting->device)) {
        evdev_destroy(waiting->device);
        waiting->device = NULL;
    }
}

static void close_device(struct waiting *waiting) {
    if (waiting->device != NULL) {
        evdev_stop(waiting->device);
        evdev_join(waiting->device);
        evdev_destroy(waiting->device);
    }
}

static bool device_pressed(struct waiting *waiting) {
    uint16_t code = waiting->safe->settings->button_code;
    struct evdev_event event;
    bool pressed = false;
    while (waiting->device != NULL && evdev_next(waiting->device, &event)) {
        if (event.kind != EVDEV_KEY) {
            button_forget(&waiting->button);
        } else if (code == BENCH_BUTTON_ANY || code == event.key.code) {
            pressed =
                button_key(&waiting->button, event.key.down, event.key.time_us) == BUTTON_PRESS ||
                pressed;
        }
    }
    return pressed;
}

static bool pressed(struct waiting *waiting, const struct screen_input *input) {
    bool touch = input->kind == SCREEN_TOUCH && input->action == ACTION_PRESS;
    bool own = input->kind == SCREEN_BUTTON;
    if (input->kind == SCREEN_SLIPPED) {
        button_forget(&waiting->band);
    }
    return (touch && button_key(&waiting->band, input->down, now_us()) == BUTTON_PRESS) ||
           (own && button_key(&waiting->button, input->down, now_us()) == BUTTON_PRESS) ||
           device_pressed(waiting);
}

static void beat(const struct bench_safe *safe) {
    int64_t began = now_us();
    if (bench_watch_due(safe->watch, began)) {
        show(safe);
        bench_watch_beat(safe->watch, true, began, now_us());
    }
}

static bool wait(struct waiting *waiting) {
    const struct bench_safe *safe = waiting->safe;
    struct screen_input input = {.kind = SCREEN_DIRTY};
    while (input.kind != SCREEN_QUIT && !atomic_load(&waiting->signals.asked)) {
        if (input.kind == SCREEN_DIRTY) {
            show(safe);
        }
        bench_watch_ready(safe->watch);
        beat(safe);
        int64_t patience = bench_watch_patience(safe->watch, now_us());
        screen_wait(safe->screen, patience < 0 ? -1 : (patience + 999) / 1000, &input);
        if (pressed(waiting, &input)) {
            return true;
        }
    }
    return false;
}

bool bench_safe(const struct bench_safe *safe) {
    struct waiting waiting = {.safe = safe};
    button_init(&waiting.button, (int64_t)safe->settings->hold_ms * 1000);
    button_init(&waiting.band, (int64_t)safe->settings->hold_ms * 1000);
    if (!bench_signals_start(&waiting.signals, wake, &waiting)) {
        return false;
    }
    puts("safe");
    fflush(stdout);
    bench_watch_status(safe->watch, "It did not last several times: it waits for a press.");
    open_device(&waiting);
    bool again = wait(&waiting);
    close_device(&waiting);
    bench_signals_stop(&waiting.signals);
    return again;
}

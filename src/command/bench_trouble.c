#include "bench_trouble.h"
#include "bench_clock.h"
#include "bench_signals.h"
#include "station.h"

#include <stdio.h>
#include <string.h>

#define AGAIN_US ((int64_t)5 * 1000000)

static int64_t now_us(void) {
    const struct bench_clock clock = {.simulated = false};
    return bench_clock_us(&clock);
}

static void wake(void *ctx) {
    screen_wake(ctx);
}

static void show(const struct bench_trouble *trouble, const char *message) {
    static struct view view; // large
    station_trouble(trouble->bench, message, &view);
    screen_draw(trouble->screen, &view);
}

static void beat(const struct bench_trouble *trouble, const char *message) {
    int64_t began = now_us();
    if (bench_watch_due(trouble->watch, began)) {
        show(trouble, message);
        bench_watch_beat(trouble->watch, true, began, now_us());
    }
}

// Until it is time to try again, showing the message whenever the window wants it. False: end.
static bool wait(const struct bench_trouble *trouble, const char *message,
                 const struct bench_signals *signals) {
    int64_t due = now_us() + AGAIN_US;
    for (int64_t left = AGAIN_US; left > 0; left = due - now_us()) {
        struct screen_input input;
        int64_t patience = bench_watch_patience(trouble->watch, now_us());
        patience = patience >= 0 && patience < left ? patience : left;
        screen_wait(trouble->screen, (patience + 999) / 1000, &input);
        if (input.kind == SCREEN_QUIT || atomic_load(&signals->asked)) {
            return false;
        }
        if (input.kind == SCREEN_DIRTY) {
            show(trouble, message);
        }
        beat(trouble, message);
    }
    return true;
}

static void say(const struct bench_trouble *trouble, const char *message) {
    char status[600];
    snprintf(status, sizeof status, "The log cannot be opened: %s", message);
    bench_watch_status(trouble->watch, status);
}

static bool again(const struct bench_trouble *trouble, const char *first,
                  struct store **ret_store) {
    struct bench_signals signals;
    char message[512];
    bool going = true;
    bool opened = false;
    snprintf(message, sizeof message, "%s", first);
    if (!bench_signals_start(&signals, wake, trouble->screen)) {
        return false;
    }
    while (going && !opened) {
        show(trouble, message);
        bench_watch_ready(trouble->watch);
        say(trouble, message);
        going = wait(trouble, message, &signals);
        if (going) {
            bench_watch_extend(trouble->watch, BENCH_WATCH_LONG_US);
            opened = store_open(trouble->path, STORE_WRITE, trouble->bench, ret_store, message,
                                sizeof message) == STORE_OK;
        }
    }
    bench_signals_stop(&signals);
    return opened;
}

bool bench_trouble(const struct bench_trouble *trouble, const char *message,
                   struct store **ret_store) {
    char path[512];
    if (!trouble->once) {
        puts("trouble");
        fflush(stdout);
        return again(trouble, message, ret_store);
    }
    show(trouble, message);
    if (trouble->shots != NULL) {
        snprintf(path, sizeof path, "%s/trouble.png", trouble->shots);
        screen_shot(trouble->screen, path);
    }
    return false;
}

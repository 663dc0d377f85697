#include "bench_trouble.h"
#include "bench_signals.h"
#include "station.h"

#include <stdio.h>
#include <string.h>
#include <time.h>

#define AGAIN_MS 5000

static int64_t now_ms(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static void wake(void *ctx) {
    screen_wake(ctx);
}

static void show(const struct bench_trouble *trouble, const char *message) {
    static struct view view; // large
    station_trouble(trouble->bench, message, &view);
    screen_draw(trouble->screen, &view);
}

// Until it is time to try again, showing the message whenever the window wants it. False: end.
static bool wait(const struct bench_trouble *trouble, const char *message,
                 const struct bench_signals *signals) {
    int64_t due = now_ms() + AGAIN_MS;
    for (int64_t left = AGAIN_MS; left > 0; left = due - now_ms()) {
        struct screen_input input;
        screen_wait(trouble->screen, left, &input);
        if (input.kind == SCREEN_QUIT || atomic_load(&signals->asked)) {
            return false;
        }
        if (input.kind == SCREEN_DIRTY) {
            show(trouble, message);
        }
    }
    return true;
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
        going = wait(trouble, message, &signals);
        if (going) {
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

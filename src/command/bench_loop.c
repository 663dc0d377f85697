// The bench live: waits for input, hands it on, draws when something changed, and tidies the
// database when all is quiet.

#include "bench_camera.h"
#include "bench_devices.h"
#include "bench_signals.h"
#include "command.h"

#include <stdio.h>

#define QUIET_US ((int64_t)30 * 1000000)

static void wake(void *ctx) {
    struct bench *bench = ctx;
    screen_wake(bench->screen);
}

// A checkpoint waits for whoever reads a snapshot, and so would the screen.
static bool may_tidy(const struct bench *bench) {
    return bench->checkpoint_due && !bench->check.going && !bench->selfcheck.going &&
           bench->backup.child.pid == 0 && bench->practice.child.pid == 0;
}

// When it will have been quiet, since anybody came or the last try.
static int64_t tidy_us(const struct bench *bench) {
    bool tried = bench->tidied_us > bench->last_input_us;
    return (tried ? bench->tidied_us : bench->last_input_us) + QUIET_US;
}

// Milliseconds to wait for input, rounded up so that what is due then is due.
static int64_t wait_ms(const struct bench *bench) {
    int64_t patience = bench_patience(bench);
    if (may_tidy(bench)) {
        int64_t quiet = tidy_us(bench) - bench_clock_us(&bench->clock);
        quiet = quiet > 0 ? quiet : 0;
        patience = patience < 0 || quiet < patience ? quiet : patience;
    }
    int64_t copy = bench_backup_patience(&bench->backup, bench_clock_us(&bench->clock));
    int64_t labels = bench_labels_patience(bench);
    patience = copy >= 0 && (patience < 0 || copy < patience) ? copy : patience;
    int64_t selfcheck = bench_selfcheck_patience(bench);
    patience = selfcheck >= 0 && (patience < 0 || selfcheck < patience) ? selfcheck : patience;
    patience = labels >= 0 && (patience < 0 || labels < patience) ? labels : patience;
    int64_t watch = bench_watch_patience(&bench->watch, bench_clock_us(&bench->clock));
    patience = watch >= 0 && (patience < 0 || watch < patience) ? watch : patience;
    return patience < 0 ? -1 : (patience + 999) / 1000;
}

void bench_tidy(struct bench *bench) {
    if (!may_tidy(bench) || bench_clock_us(&bench->clock) < tidy_us(bench)) {
        return;
    }
    bench_watch_extend(&bench->watch, BENCH_WATCH_LONG_US);
    // Another program has the lock, or the disk is full: tried again after the next quiet.
    if (store_checkpoint(bench->store) != STORE_OK) {
        fprintf(stderr, "kerfside bench: %s\n", store_message(bench->store));
        bench->tidied_us = bench_clock_us(&bench->clock);
        return;
    }
    bench->checkpoint_due = false;
}

// Hears of the programs beside the bench.
static void hear(struct bench *bench) {
    bool copied = bench_backup_tick(&bench->backup, bench_clock_us(&bench->clock),
                                    bench_clock_wall_ms(&bench->clock));
    bool practised = bench_practice_tick(bench);
    if (bench_labels_tick(bench) || copied || practised) {
        bench->stale = true;
        bench->dirty = true;
    }
    bench_selfcheck_tick(bench);
}

// A sign of life, when one is due: the turn that ends here took input, a frame is on the screen,
// the database answers. An entry that is not logged is tried again by the station, with its number
// on the screen: that is no reason to end the bench.
static void live(struct bench *bench) {
    int64_t began = bench_clock_us(&bench->clock);
    bool saving = bench->station.saving != SAVING_NONE;
    bench_watch_status(&bench->watch, saving ? "NOT LOGGED: the disk does not take an entry."
                                             : "The bench works.");
    if (bench_watch_due(&bench->watch, began)) {
        bench_show(bench);
        bool alive = saving || store_alive(bench->store) == STORE_OK;
        bench_watch_beat(&bench->watch, alive, began, bench_clock_us(&bench->clock));
    }
}

// False: end.
static bool take(struct bench *bench, const struct screen_input *input) {
    switch (input->kind) {
    case SCREEN_QUIT:
        return false;
    case SCREEN_KEY:
        bench_key(bench, &bench->keys, input->key.code, input->key.down, input->key.time_us);
        break;
    case SCREEN_BUTTON:
        bench_button(bench, input->down, input->time_us);
        break;
    case SCREEN_TOUCH:
    case SCREEN_SLIPPED:
        bench_touch(bench, input);
        break;
    case SCREEN_DIRTY:
        bench->dirty = true;
        break;
    case SCREEN_NOTHING:
        break;
    }
    return true;
}

static void run(struct bench *bench, struct bench_devices *devices, struct bench_camera *camera,
                const struct bench_signals *signals) {
    bool ready = false;
    bool going = true;
    while (going && bench->practice.leaves == BENCH_STAYS && !atomic_load(&signals->asked)) {
        struct screen_input input;
        bench_draw(bench);
        if (!ready) {
            puts("ready");
            fflush(stdout);
            bench_watch_ready(&bench->watch);
            ready = true;
        }
        screen_wait(bench->screen, wait_ms(bench), &input);
        while (going && input.kind != SCREEN_NOTHING) {
            going = take(bench, &input);
            screen_wait(bench->screen, 0, &input);
        }
        bench_devices_take(devices);
        bench_camera_take(camera);
        bench_tick(bench);
        bench_tidy(bench);
        hear(bench);
        live(bench);
    }
    if (bench->practice.leaves == BENCH_STAYS) {
        bench_watch_stopping(&bench->watch);
    } else { // the same process begins anew
        bench_watch_extend(&bench->watch, BENCH_WATCH_LONG_US);
    }
}

int bench_loop(struct bench *bench) {
    struct bench_signals signals;
    struct bench_devices devices;
    static struct bench_camera camera; // large
    int status = COMMAND_REFUSED;
    if (!bench_signals_start(&signals, wake, bench)) {
        fputs("kerfside bench: cannot start a thread.\n", stderr);
        return COMMAND_REFUSED;
    }
    if (bench_devices_start(&devices, bench)) {
        if (bench_camera_start(&camera, bench)) {
            bench->camera = &camera;
            bench->devices = &devices;
            run(bench, &devices, &camera, &signals);
            bench_backup_stop(&bench->backup);
            bench_labels_stop(bench);
            bench->camera = NULL;
            bench->devices = NULL;
            bench_camera_stop(&camera);
            status = COMMAND_DONE;
        }
        bench_devices_stop(&devices);
    }
    bench_signals_stop(&signals);
    return status;
}

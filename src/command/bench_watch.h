#ifndef BENCH_WATCH_H
#define BENCH_WATCH_H

// What watches over the bench: a service manager that started it and listens at $NOTIFY_SOCKET
// (sd_notify(3)). With none all of this does nothing, and wakes nobody.
//
// A sign of life is no thread's: it comes from the loop that takes the input and draws, after a
// turn of it, so that a loop that stands still is ended and begun anew.

#include <stdbool.h>
#include <stdint.h>

// Longer than any paper or file takes that is made while the screen waits for it.
#define BENCH_WATCH_LONG_US ((int64_t)300 * 1000000)

struct bench_watch {
    bool supervised;
    int64_t every_us; // a sign of life is due so often, a third of the time allowed; 0: never
    int64_t due_us;   // the next one, CLOCK_MONOTONIC
    bool ready;       // has been said
    char status[160]; // what was said last
};

void bench_watch_init(struct bench_watch *watch, int64_t now_us);

// The first frame is on the screen. Said once.
void bench_watch_ready(struct bench_watch *watch);

// What it is doing, in words for `systemctl status`; said when it is something else than before.
void bench_watch_status(struct bench_watch *watch, const char *words);

// How long no sign of life is due, in microseconds; -1 for ever.
int64_t bench_watch_patience(const struct bench_watch *watch, int64_t now_us);
bool bench_watch_due(const struct bench_watch *watch, int64_t now_us);

// Whoever calls this has, since `began_us`, drawn a frame and heard from the database, unless
// `alive` is false. No sign is given then, nor when that took longer than to the next one; it is
// tried again when that is due.
void bench_watch_beat(struct bench_watch *watch, bool alive, int64_t began_us, int64_t now_us);

// Something is begun that the loop waits for: no sign of life for at most so long.
void bench_watch_extend(const struct bench_watch *watch, int64_t us);

void bench_watch_stopping(const struct bench_watch *watch);

#endif

#ifndef BENCH_SIGNALS_H
#define BENCH_SIGNALS_H

// SIGTERM, SIGINT and SIGHUP end the bench between two events. A thread waits for them, since the
// window system may only be woken from one, not from a signal's handler.

#include <pthread.h>
#include <signal.h>
#include <stdatomic.h>
#include <stdbool.h>

struct bench_signals {
    pthread_t thread;
    sigset_t set;
    atomic_bool asked; // to end
    void (*wake)(void *ctx);
    void *ctx;
};

// Before any other thread is started: they inherit that these signals are not theirs.
bool bench_signals_start(struct bench_signals *signals, void (*wake)(void *ctx), void *ctx);
void bench_signals_stop(struct bench_signals *signals);

#endif

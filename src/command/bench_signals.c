#include "bench_signals.h"

static void *run(void *ctx) {
    struct bench_signals *signals = ctx;
    int which;
    sigwait(&signals->set, &which);
    atomic_store(&signals->asked, true);
    signals->wake(signals->ctx);
    return NULL;
}

bool bench_signals_start(struct bench_signals *signals, void (*wake)(void *ctx), void *ctx) {
    signals->wake = wake;
    signals->ctx = ctx;
    atomic_init(&signals->asked, false);
    sigemptyset(&signals->set);
    sigaddset(&signals->set, SIGTERM);
    sigaddset(&signals->set, SIGINT);
    sigaddset(&signals->set, SIGHUP);
    return pthread_sigmask(SIG_BLOCK, &signals->set, NULL) == 0 &&
           pthread_create(&signals->thread, NULL, run, signals) == 0;
}

void bench_signals_stop(struct bench_signals *signals) {
    pthread_kill(signals->thread, SIGTERM); // ends it if nothing else has
    pthread_join(signals->thread, NULL);
}

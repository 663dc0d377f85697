#include "bench_signing.h"

#include "tongue.h"

#include <signal.h>
#include <stdio.h>
#include <sys/resource.h>
#include <time.h>

#define BEHIND 10 // nice: the screen comes first

static void *run(void *context) {
    struct bench_signing *check = context;
    setpriority(PRIO_PROCESS, 0, BEHIND); // of this thread and those it starts
    check->good =
        signing_check(check->signing, check->reading, check->message, sizeof check->message);
    atomic_store(&check->ended, true);
    return NULL;
}

// Signals are for the thread that waits for them.
static bool start(struct bench_signing *check) {
    sigset_t all;
    sigset_t before;
    sigfillset(&all);
    pthread_sigmask(SIG_SETMASK, &all, &before);
    bool started = pthread_create(&check->thread, NULL, run, check) == 0;
    pthread_sigmask(SIG_SETMASK, &before, NULL);
    return started;
}

bool bench_signing_start(struct bench_signing *check, struct signing *signing, const char *bench,
                         char *message, size_t size) {
    char why[SIGNING_TEXT_MAX];
    check->signing = signing;
    check->message[0] = '\0';
    atomic_store(&check->ended, false);
    atomic_store(&check->watch.steps, 0);
    atomic_store(&check->watch.stop, false);
    if (store_open(store_path(signing->store), STORE_READ, bench, &check->reading, why,
                   sizeof why) != STORE_OK) {
        snprintf(message, size, "%.*s", (int)size - 1, why);
        return false;
    }
    store_watch(check->reading, &check->watch);
    if (!start(check)) {
        store_close(check->reading);
        snprintf(message, size,
                 _("The check could not be started: no memory. Nothing was signed."));
        return false;
    }
    check->going = true;
    return true;
}

int64_t bench_signing_read(const struct bench_signing *check, int64_t all) {
    int64_t entries = atomic_load(&check->watch.steps) / 2;
    return entries < all ? entries : all;
}

static void join(struct bench_signing *check) {
    pthread_join(check->thread, NULL);
    store_close(check->reading);
    check->going = false;
}

bool bench_signing_ended(struct bench_signing *check, bool *ret_good) {
    if (!check->going || !atomic_load(&check->ended)) {
        return false;
    }
    join(check);
    *ret_good = check->good;
    return true;
}

void bench_signing_wait(const struct bench_signing *check) {
    const struct timespec moment = {.tv_nsec = 1000000};
    while (check->going && !atomic_load(&check->ended)) {
        nanosleep(&moment, NULL);
    }
}

void bench_signing_stop(struct bench_signing *check) {
    if (check->going) {
        store_stop(check->reading);
        join(check);
    }
}

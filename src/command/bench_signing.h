#ifndef BENCH_SIGNING_H
#define BENCH_SIGNING_H

// The check before a day is signed at the bench: in a thread with a connection of its own, so that
// the screen answers however large the log is. One at a time.

#include "signing.h"

#include <pthread.h>

struct bench_signing {
    bool going; // these are set, and the thread is to be joined:
    pthread_t thread;
    struct signing *signing;
    struct store *reading;
    struct store_watch watch;
    atomic_bool ended;
    bool good; // as `message`, the thread's until it has ended
    char message[SIGNING_TEXT_MAX];
};

// Begins signing_check of what signing_open opened; both stay the caller's, who leaves them alone
// until it has ended. False: nothing goes on, and `message` says why.
bool bench_signing_start(struct bench_signing *check, struct signing *signing, const char *bench,
                         char *message, size_t size);
// Entries that were read so far, at most `all`.
int64_t bench_signing_read(const struct bench_signing *check, int64_t all);
// True once, when it has ended: well, or check->message says what is wrong.
bool bench_signing_ended(struct bench_signing *check, bool *ret_good);
// Waits until it has ended, if one goes on.
void bench_signing_wait(const struct bench_signing *check);
// Gives it up, if one goes on.
void bench_signing_stop(struct bench_signing *check);

#endif

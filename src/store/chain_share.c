// The hash of an entry needs the stored hash of the one before it and nothing else, so any stretch
// of the chain can be held against its hashes by itself. Two threads take stretches, this one from
// below and a second with a connection of its own from above, until they meet.
//
// The second one's snapshot may be a later one: nothing before the end of ours is different there,
// unless somebody is changing the file right now, and then a hash is wrong.

#include "chain_walk.h"

#include <pthread.h>
#include <signal.h>
#include <string.h>

#define STRETCH 4096
#define STRETCHES 64 // at least, of a short log

struct share {
    const struct store *store;
    int64_t stretch;
    pthread_mutex_t mutex;
    int64_t low;  // entries from here
    int64_t high; // to here are nobody's yet
    bool bad;     // something was not as it should be
};

// The next stretch, `first` being the entry before it. False: none is left, or no use.
static bool claim(struct share *share, bool below, int64_t *ret_first, int64_t *ret_last) {
    pthread_mutex_lock(&share->mutex);
    bool there = !share->bad && share->low < share->high;
    int64_t size =
        share->high - share->low < share->stretch ? share->high - share->low : share->stretch;
    if (there && below) {
        *ret_first = share->low;
        share->low += size;
        *ret_last = share->low;
    } else if (there) {
        *ret_last = share->high;
        share->high -= size;
        *ret_first = share->high;
    }
    pthread_mutex_unlock(&share->mutex);
    return there;
}

static void spoil(struct share *share) {
    pthread_mutex_lock(&share->mutex);
    share->bad = true;
    pthread_mutex_unlock(&share->mutex);
}

static enum store_result begin_at(struct store *store, int64_t seq, struct store_check *ret_check) {
    *ret_check = (struct store_check){.entries = seq};
    if (seq == 0) {
        return STORE_OK;
    }
    struct query query = query_open(store, STATEMENT_LOG_HASH);
    query_bind_number(&query, seq);
    if (query_step(&query)) {
        query_blob(&query, 0, ret_check->head, sizeof ret_check->head);
    }
    return query_end(&query, N_("read an entry's hash"));
}

static void take_stretches(struct share *share, struct store *store, bool below) {
    struct store_check check;
    struct chain_walk walk = {
        .store = store, .digest = digest_open(), .hashing = true, .check = &check};
    int64_t first;
    int64_t last;
    while (claim(share, below, &first, &last)) {
        if (begin_at(store, first, &check) != STORE_OK || chain_walk(&walk, last) != STORE_OK) {
            spoil(share);
        }
    }
    digest_close(walk.digest);
}

// Without a connection it takes nothing, and all is left to the other.
static void *second(void *context) {
    struct share *share = context;
    struct store *store = NULL;
    char message[STORE_MESSAGE_MAX];
    if (connection_open(share->store->path, STORE_READ, share->store->bench, share->store->older,
                        &store, message, sizeof message) == STORE_OK) {
        store->watch = share->store->watch;
        if (connection_read_begin(store) == STORE_OK) {
            take_stretches(share, store, false);
            connection_read_end(store);
        }
        store_close(store);
    }
    return NULL;
}

// Signals are for the thread that waits for them.
static bool start(struct share *share, pthread_t *ret_thread) {
    sigset_t all;
    sigset_t before;
    sigfillset(&all);
    pthread_sigmask(SIG_SETMASK, &all, &before);
    bool started = pthread_create(ret_thread, NULL, second, share) == 0;
    pthread_sigmask(SIG_SETMASK, &before, NULL);
    return started;
}

enum store_result chain_share(struct store *store, const struct chain_end *end,
                              struct witness_compare *compare, struct replay *replay,
                              struct store_check *ret_check) {
    struct store_check check = {0};
    struct chain_walk walk = {
        .store = store, .compare = compare, .replay = replay, .check = &check};
    struct share share = {.store = store,
                          .stretch =
                              end->seq / STRETCHES < STRETCH ? end->seq / STRETCHES + 1 : STRETCH,
                          .mutex = PTHREAD_MUTEX_INITIALIZER,
                          .high = end->seq};
    pthread_t thread;
    bool started = start(&share, &thread);
    // What goes entry by entry comes first here, while the other is hashing.
    bool all = compare != NULL || replay != NULL;
    enum store_result result = chain_walk(&walk, all ? end->seq : 1);
    if (result == STORE_OK) {
        take_stretches(&share, store, true);
    } else {
        spoil(&share);
    }
    if (started) {
        pthread_join(thread, NULL);
    }
    pthread_mutex_destroy(&share.mutex);
    if (result != STORE_OK || share.bad) {
        return result == STORE_OK ? STORE_REFUSED : result;
    }
    check.entries = end->seq;
    memcpy(check.head, end->hash, sizeof check.head);
    *ret_check = check;
    return STORE_OK;
}

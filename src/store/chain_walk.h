#ifndef CHAIN_WALK_H
#define CHAIN_WALK_H

// A stretch of the chain, entry by entry. Private to src/store.

#include "chain.h"
#include "digest.h"

struct chain_walk {
    struct store *store;
    struct digest *digest;
    bool hashing;                    // false: the stored hashes are taken for right
    struct witness_compare *compare; // NULL: none
    struct replay *replay;           // NULL: none
    struct store_check *check;       // how far it got: entries, and the hash of the last
};

// From check->entries, whose hash is check->head, to `last`, INT64_MAX: to the end. STORE_REFUSED:
// check->first_bad and check->problem say which entry is bad.
enum store_result chain_walk(struct chain_walk *walk, int64_t last);

// The whole chain, its hashes taken by two threads. STORE_OK: all is whole. Anything else: somebody
// has to walk it from its beginning and see.
enum store_result chain_share(struct store *store, const struct chain_end *end,
                              struct witness_compare *compare, struct replay *replay,
                              struct store_check *ret_check);

#endif

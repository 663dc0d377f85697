#include "chain_walk.h"
#include "replay.h"
#include "tongue.h"
#include "witness_compare.h"

#include <stdio.h>
#include <string.h>

static enum store_result broken(struct store_check *check, int64_t seq, const char *problem) {
    check->first_bad = seq;
    snprintf(check->problem, sizeof check->problem, _("Entry %lld: %s"), (long long)seq, problem);
    return STORE_REFUSED;
}

// What holds an entry whose hash is right against other things.
static enum store_result hold(const struct chain_walk *walk, const struct entry *entry) {
    enum store_result result =
        walk->compare == NULL ? STORE_OK : witness_compare_entry(walk->compare, entry, walk->check);
    return result == STORE_OK && walk->replay != NULL ? replay_entry(walk->replay, entry) : result;
}

static enum store_result take(const struct chain_walk *walk, struct query *query,
                              struct entry *entry) {
    struct store_check *check = walk->check;
    uint8_t hash[ENTRY_HASH_SIZE];
    uint8_t stored[ENTRY_HASH_SIZE];
    int64_t next = check->entries + 1;
    chain_read_over(query, entry);
    query_blob(query, 22, stored, sizeof stored);
    if (walk->hashing) {
        chain_digest(walk->digest, entry, check->head, hash);
    }
    if (entry->seq != next) {
        return broken(check, next, _("is missing."));
    }
    if (query->odd) {
        return broken(check, next, _("holds a value that no program of ours wrote."));
    }
    if (walk->hashing && memcmp(hash, stored, sizeof hash) != 0) {
        return broken(check, next, _("was changed after it was written."));
    }
    if ((next == 1) != (entry->kind == ENTRY_GENESIS)) {
        return broken(check, next, _("the log does not begin with its one genesis entry."));
    }
    memcpy(check->head, stored, sizeof stored);
    check->entries = next;
    if (next == 1) {
        snprintf(check->incarnation, sizeof check->incarnation, "%.32s", entry->note);
    }
    return hold(walk, entry);
}

static enum store_result seen(const struct chain_walk *walk) {
    struct store_watch *watch = walk->store->watch;
    if (atomic_load_explicit(&watch->stop, memory_order_relaxed)) {
        return connection_say(walk->store, STORE_FAILED, _("The check was given up."));
    }
    bool held = walk->compare != NULL || walk->replay != NULL;
    atomic_fetch_add_explicit(&watch->steps, walk->hashing + held, memory_order_relaxed);
    return STORE_OK;
}

enum store_result chain_walk(struct chain_walk *walk, int64_t last) {
    struct store_check *check = walk->check;
    struct entry entry = {0};
    enum store_result result = STORE_OK;
    struct query query = query_open(walk->store, STATEMENT_LOG_SPAN);
    query_bind_number(&query, check->entries);
    query_bind_number(&query, last);
    while (result == STORE_OK && query_step(&query)) {
        result = take(walk, &query, &entry);
        if (result == STORE_OK && walk->store->watch != NULL) {
            result = seen(walk);
        }
    }
    if (result != STORE_OK) {
        query.odd = false; // said already
    }
    enum store_result read = query_end(&query, N_("read the log"));
    if (read != STORE_OK && read != STORE_NONE) {
        return read;
    }
    if (result == STORE_OK && last != INT64_MAX && check->entries < last) {
        return broken(check, check->entries + 1, _("is missing."));
    }
    return result == STORE_OK && check->entries == 0 ? broken(check, 1, _("the log is empty."))
                                                     : result;
}

// What a look at the database in passing needs: its last entries, when it was signed, its reserve.

#include "chain_walk.h"
#include "schema.h"

#include <stdio.h>
#include <string.h>

static enum store_result begin_behind(struct store *store, int64_t seq, struct store_check *check) {
    check->entries = seq;
    if (seq == 0) {
        return STORE_OK;
    }
    struct query query = query_open(store, STATEMENT_LOG_HASH);
    query_bind_number(&query, seq);
    if (query_step(&query)) {
        query_blob(&query, 0, check->head, sizeof check->head);
    }
    enum store_result result = query_end(&query, N_("read an entry's hash"));
    if (result == STORE_NONE) {
        check->first_bad = seq;
        snprintf(check->problem, sizeof check->problem, _("Entry %lld: %s"), (long long)seq,
                 _("is missing."));
        return STORE_REFUSED;
    }
    return result;
}

static enum store_result tail(struct store *store, int64_t count, struct store_check *check) {
    struct chain_end end;
    struct chain_walk walk = {.store = store, .hashing = true, .check = check};
    enum store_result result = chain_find_end(store, &end);
    if (result == STORE_OK) {
        result = begin_behind(store, end.seq > count ? end.seq - count : 0, check);
    }
    if (result == STORE_OK) {
        walk.digest = digest_open();
        result = chain_walk(&walk, INT64_MAX);
        digest_close(walk.digest);
    }
    return result;
}

enum store_result store_check_tail(struct store *store, int64_t count,
                                   struct store_check *ret_check) {
    struct store_check check = {0};
    enum store_result result = connection_read_begin(store);
    if (result != STORE_OK) {
        return result;
    }
    result = tail(store, count, &check);
    connection_read_end(store);
    if (result == STORE_OK || result == STORE_REFUSED) {
        *ret_check = check;
    }
    return result;
}

enum store_result store_last_signed(struct store *store, int64_t *ret_seq, int64_t *ret_wall_ms) {
    int64_t seq = 0;
    int64_t wall_ms = 0;
    struct query query = query_open(store, STATEMENT_SIGNED_LAST);
    if (query_step(&query)) {
        seq = query_number(&query, 0);
        wall_ms = query_number(&query, 1);
    }
    enum store_result result = query_end(&query, N_("look up the last signing"));
    if (result == STORE_OK) {
        *ret_seq = seq;
        *ret_wall_ms = wall_ms;
    }
    return result;
}

enum store_result store_last(struct store *store, int64_t *ret_seq, int64_t *ret_wall_ms) {
    struct chain_end end;
    struct entry entry;
    enum store_result result = chain_find_end(store, &end);
    if (result == STORE_OK) {
        result = end.seq == 0 ? STORE_NONE : store_entry(store, end.seq, &entry);
    }
    if (result == STORE_OK) {
        *ret_seq = end.seq;
        *ret_wall_ms = entry.wall_ms;
    }
    return result;
}

int store_schema(void) {
    return schema_migrations[schema_migration_count - 1].number;
}

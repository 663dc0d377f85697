#include "chain.h"
#include "append.h"
#include "chain_walk.h"
#include "replay.h"
#include "witness_compare.h"

#include <sodium.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

void chain_random_id(char ret_id[CONFIRM_ID_MAX]) {
    uint8_t bytes[(CONFIRM_ID_MAX - 1) / 2];
    randombytes_buf(bytes, sizeof bytes);
    sodium_bin2hex(ret_id, CONFIRM_ID_MAX, bytes, sizeof bytes);
}

void chain_digest(struct digest *digest, const struct entry *entry,
                  const uint8_t previous[ENTRY_HASH_SIZE], uint8_t ret_hash[ENTRY_HASH_SIZE]) {
    uint8_t bytes[ENTRY_ENCODED_MAX];
    size_t size = entry_encode(entry, previous, bytes);
    digest_run(digest, bytes, size, ret_hash);
}

enum store_result chain_find_end(struct store *store, struct chain_end *ret_end) {
    struct chain_end end = {0};
    struct query query = query_open(store, STATEMENT_LOG_LAST);
    if (query_step(&query)) {
        end.seq = query_number(&query, 0);
        query_blob(&query, 1, end.hash, sizeof end.hash);
    }
    enum store_result result = query_end(&query, N_("read the end of the log"));
    if (result != STORE_OK && result != STORE_NONE) {
        return result;
    }
    *ret_end = end;
    return STORE_OK;
}

enum store_result chain_insert(struct store *store, const struct chain_end *end,
                               const struct entry *entry) {
    uint8_t hash[ENTRY_HASH_SIZE];
    struct query query = query_open(store, STATEMENT_LOG_INSERT);
    chain_digest(NULL, entry, end->hash, hash);
    query_bind_number(&query, entry->seq);
    query_bind_text(&query, entry_kind_text(entry->kind));
    query_bind_number(&query, entry->wall_ms);
    query_bind_number(&query, entry->mono_ms);
    query_bind_text(&query, entry->boot);
    query_bind_text(&query, entry->bench);
    query_bind_text(&query, entry->worker);
    query_bind_id(&query, entry->club_id);
    query_bind_text(&query, entry->build);
    query_bind_text(&query, entry->club);
    query_bind_text(&query, entry->head);
    query_bind_text(&query, entry->shaft);
    query_bind_text(&query, entry->confirm_id);
    query_bind_number(&query, entry->attempt);
    query_bind_id(&query, entry->refers);
    query_bind_length(&query, entry->planned);
    query_bind_length(&query, entry->made);
    query_bind_text(&query, verdict_text(entry->verdict));
    query_bind_text(&query, entry->cause);
    query_bind_text(&query, entry->note);
    query_bind_number(&query, entry->chart_revision);
    query_bind_text(&query, entry->plan);
    query_bind_blob(&query, hash, sizeof hash);
    return query_run(&query, N_("append to the log"));
}

void chain_stamp(const struct store *store, struct entry *entry) {
    struct timespec now;
    clock_gettime(CLOCK_REALTIME, &now);
    store->clock.boot(entry->boot);
    entry->wall_ms = (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
    entry->mono_ms = store->clock.since_boot_ms();
    memcpy(entry->bench, store->bench, sizeof entry->bench);
    chain_random_id(entry->confirm_id);
}

static void genesis(const struct store *store, struct entry *entry) {
    *entry = entry_init(ENTRY_GENESIS);
    chain_stamp(store, entry);
    chain_random_id(entry->note);
}

enum store_result chain_begin(struct store *store) {
    struct chain_end end;
    struct entry entry;
    enum store_result result = chain_find_end(store, &end);
    if (result != STORE_OK || end.seq != 0) {
        return result;
    }
    result = connection_begin(store);
    if (result != STORE_OK) {
        return result;
    }
    result = chain_find_end(store, &end); // another process may have been quicker
    if (result == STORE_OK && end.seq == 0) {
        genesis(store, &entry);
        result = append_entry(store, &entry);
    }
    if (result != STORE_OK) {
        connection_rollback(store);
        return result;
    }
    return connection_commit(store);
}

bool chain_verdict(const char *text, enum verdict *ret_verdict) {
    for (int i = 0; i < VERDICT_COUNT; i++) {
        if (strcmp(verdict_text((enum verdict)i), text) == 0) {
            *ret_verdict = (enum verdict)i;
            return true;
        }
    }
    return false;
}

void chain_read(struct query *query, struct entry *ret_entry) {
    memset(ret_entry, 0, sizeof *ret_entry);
    chain_read_over(query, ret_entry);
}

void chain_read_over(struct query *query, struct entry *entry) {
    char kind[ENTRY_CAUSE_MAX] = "";
    char verdict[8] = "";
    int column = 0;
#define NUMBER(field) entry->field = query_number(query, column++)
#define TEXT(field) query_text_over(query, column++, entry->field, sizeof entry->field)
#define OR_NULL(field, get)                                                                        \
    query->no_null = false;                                                                        \
    entry->field = get(query, column++);                                                           \
    query->no_null = true
    query->no_null = true;
    NUMBER(seq);
    query_text_over(query, column++, kind, sizeof kind);
    NUMBER(wall_ms);
    NUMBER(mono_ms);
    TEXT(boot);
    TEXT(bench);
    TEXT(worker);
    OR_NULL(club_id, query_id);
    TEXT(build);
    TEXT(club);
    TEXT(head);
    TEXT(shaft);
    TEXT(confirm_id);
    entry->attempt = query_int(query, column++);
    OR_NULL(refers, query_id);
    OR_NULL(planned, query_length);
    OR_NULL(made, query_length);
    query_text_over(query, column++, verdict, sizeof verdict);
    TEXT(cause);
    TEXT(note);
    NUMBER(chart_revision);
    TEXT(plan);
#undef NUMBER
#undef TEXT
#undef OR_NULL
    if (!entry_kind_from_text(kind, &entry->kind) || !chain_verdict(verdict, &entry->verdict)) {
        query->odd = true;
    }
}

// One thread, from the beginning: names the first bad entry.
static enum store_result walk_all(struct store *store, struct store_check *check,
                                  struct witness_compare *compare, struct replay *replay) {
    struct chain_walk walk = {.store = store,
                              .digest = digest_open(),
                              .hashing = true,
                              .compare = compare,
                              .replay = replay,
                              .check = check};
    enum store_result result = chain_walk(&walk, INT64_MAX);
    digest_close(walk.digest);
    return result;
}

enum store_result chain_check(struct store *store, struct store_check *check,
                              struct witness_compare *compare, struct replay *replay) {
    struct chain_end end;
    enum store_result result = chain_find_end(store, &end);
    if (result != STORE_OK) {
        return result;
    }
    bool shared = false;
    if (store->reading && end.seq >= store->shared_from) {
        struct witness_compare before = {0};
        before = compare != NULL ? *compare : before;
        shared = chain_share(store, &end, compare, replay, check) == STORE_OK;
        if (!shared && compare != NULL) {
            *compare = before;
        }
        if (!shared && replay != NULL) {
            replay_release(replay);
            *replay = replay_init(store);
        }
    }
    result = shared ? STORE_OK : walk_all(store, check, compare, replay);
    return result == STORE_OK && compare != NULL ? witness_compare_end(compare, check) : result;
}

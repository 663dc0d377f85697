#include "chain.h"
#include "append.h"
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

static void digest(const struct entry *entry, const uint8_t previous[ENTRY_HASH_SIZE],
                   uint8_t ret_hash[ENTRY_HASH_SIZE]) {
    uint8_t bytes[ENTRY_ENCODED_MAX];
    size_t size = entry_encode(entry, previous, bytes);
    crypto_hash_sha256(ret_hash, bytes, size);
}

enum store_result chain_find_end(struct store *store, struct chain_end *ret_end) {
    struct chain_end end = {0};
    struct query query = query_open(store, STATEMENT_LOG_LAST);
    if (query_step(&query)) {
        end.seq = query_number(&query, 0);
        query_blob(&query, 1, end.hash, sizeof end.hash);
    }
    enum store_result result = query_end(&query, "read the end of the log");
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
    digest(entry, end->hash, hash);
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
    return query_run(&query, "append to the log");
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
    struct entry *entry = ret_entry;
    char kind[ENTRY_CAUSE_MAX];
    char verdict[8];
    int column = 0;
    memset(entry, 0, sizeof *entry);
#define NUMBER(field) entry->field = query_number(query, column++)
#define TEXT(field) query_text(query, column++, entry->field, sizeof entry->field)
#define OR_NULL(field, get)                                                                        \
    query->no_null = false;                                                                        \
    entry->field = get(query, column++);                                                           \
    query->no_null = true
    query->no_null = true;
    NUMBER(seq);
    query_text(query, column++, kind, sizeof kind);
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
    query_text(query, column++, verdict, sizeof verdict);
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

static enum store_result broken(struct store_check *check, int64_t seq, const char *problem) {
    check->first_bad = seq;
    snprintf(check->problem, sizeof check->problem, "Entry %lld: %s", (long long)seq, problem);
    return STORE_REFUSED;
}

// What holds an entry whose hash is right against other things.
static enum store_result hold(struct store_check *check, const struct entry *entry,
                              struct witness_compare *compare, struct replay *replay) {
    enum store_result result =
        compare == NULL ? STORE_OK : witness_compare_entry(compare, entry, check);
    return result == STORE_OK && replay != NULL ? replay_entry(replay, entry) : result;
}

enum store_result chain_check(struct store *store, struct store_check *check,
                              struct witness_compare *compare, struct replay *replay) {
    uint8_t hash[ENTRY_HASH_SIZE];
    uint8_t stored[ENTRY_HASH_SIZE];
    struct entry entry;
    enum store_result result = STORE_OK;
    struct query query = query_open(store, STATEMENT_LOG_WALK);
    while (result == STORE_OK && query_step(&query)) {
        int64_t next = check->entries + 1;
        int64_t seq = query_number(&query, 0);
        chain_read(&query, &entry);
        query_blob(&query, 22, stored, sizeof stored);
        digest(&entry, check->head, hash);
        if (seq != next) {
            result = broken(check, next, "is missing.");
        } else if (query.odd) {
            result = broken(check, next, "holds a value that no program of ours wrote.");
        } else if (memcmp(hash, stored, sizeof hash) != 0) {
            result = broken(check, next, "was changed after it was written.");
        } else if ((seq == 1) != (entry.kind == ENTRY_GENESIS)) {
            result = broken(check, next, "the log does not begin with its one genesis entry.");
        } else {
            memcpy(check->head, hash, sizeof hash);
            check->entries = next;
            if (seq == 1) {
                snprintf(check->incarnation, sizeof check->incarnation, "%.32s", entry.note);
            }
            result = hold(check, &entry, compare, replay);
        }
    }
    if (result != STORE_OK) {
        query.odd = false; // said already
    }
    enum store_result read = query_end(&query, "read the log");
    if (read == STORE_NONE) {
        return broken(check, 1, "the log is empty.");
    }
    if (read != STORE_OK || result != STORE_OK || compare == NULL) {
        return read == STORE_OK ? result : read;
    }
    return witness_compare_end(compare, check);
}

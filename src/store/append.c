#include "append.h"
#include "chain.h"
#include "day.h"
#include "room.h"
#include "work.h"

#include <string.h>

#define TERMINATED(array) (memchr(array, '\0', sizeof(array)) != NULL)

// What later code takes for granted of any entry, whoever made it.
static enum store_result well_formed(struct store *store, const struct entry *entry) {
    bool good = entry->kind < ENTRY_KIND_COUNT && entry->verdict < VERDICT_COUNT &&
                TERMINATED(entry->boot) && TERMINATED(entry->bench) && TERMINATED(entry->worker) &&
                TERMINATED(entry->build) && TERMINATED(entry->club) && TERMINATED(entry->head) &&
                TERMINATED(entry->shaft) && TERMINATED(entry->confirm_id) &&
                TERMINATED(entry->cause) && TERMINATED(entry->note) && TERMINATED(entry->plan);
    return good ? STORE_OK : connection_say(store, STORE_REFUSED, "The entry is not well formed.");
}

static enum store_result load(struct store *store, const struct entry *entry,
                              struct work *ret_work) {
    if (entry->club_id == 0) {
        return work_moves(entry->kind) || entry->kind == ENTRY_CONSENT
                   ? connection_say(store, STORE_REFUSED, "A %s entry needs a club.",
                                    entry_kind_text(entry->kind))
                   : STORE_OK;
    }
    enum store_result result = work_load(store, entry->club_id, ret_work);
    return result == STORE_NONE
               ? connection_say(store, STORE_REFUSED, "There is no club %s %s in the orders.",
                                entry->build, entry->club)
               : result;
}

static enum store_result advance(struct store *store, struct progress *progress,
                                 const struct entry *entry) {
    if (stage_advance(progress, entry)) {
        return STORE_OK;
    }
    return connection_say(store, STORE_REFUSED,
                          "Club %s %s stands at %s%s%s: %s is not possible there. Scan both parts "
                          "again.",
                          entry->build, entry->club, stage_text(progress->stage),
                          progress->bench[0] == '\0' ? "" : " of ", progress->bench,
                          entry_kind_text(entry->kind));
}

enum store_result append_entry(struct store *store, struct entry *entry) {
    struct work work = {.progress = {.attempt = 1, .tip_made = LENGTH_UNKNOWN}};
    struct progress after;
    struct chain_end end;
    enum store_result result = well_formed(store, entry);
    if (result == STORE_OK) {
        result = chain_find_end(store, &end);
    }
    if (result == STORE_OK) {
        result = load(store, entry, &work);
    }
    if (result == STORE_OK) {
        result = work_allowed(store, &work, entry);
    }
    if (result != STORE_OK) {
        return result;
    }
    entry->seq = end.seq + 1;
    after = work.progress;
    result = advance(store, &after, entry);
    if (result == STORE_OK) {
        result = chain_insert(store, &end, entry);
    }
    if (result == STORE_OK) {
        result = work_apply(store, &work, &after, entry);
    }
    if (result == STORE_OK) {
        result = day_entry(store, entry, work.progress.stage, after.stage);
    }
    return result;
}

enum store_result store_confirmed(struct store *store, const char *confirm_id, int64_t *ret_seq) {
    int64_t seq = 0;
    struct query query = query_open(store, STATEMENT_LOG_CONFIRMED);
    query_bind_text(&query, confirm_id);
    if (query_step(&query)) {
        seq = query_number(&query, 0);
    }
    enum store_result result = query_end(&query, "look up an entry");
    if (result == STORE_OK) {
        *ret_seq = seq;
    }
    return result;
}

static enum store_result append_once(struct store *store, struct entry *entry) {
    enum store_result result = well_formed(store, entry);
    if (result == STORE_OK) {
        result = connection_begin(store);
    }
    if (result != STORE_OK) {
        return result;
    }
    result = store_confirmed(store, entry->confirm_id, &entry->seq);
    if (result == STORE_NONE) {
        result = append_entry(store, entry);
        if (result == STORE_OK) {
            return connection_commit(store);
        }
    }
    connection_rollback(store); // there already, or refused
    return result;
}

enum store_result store_append(struct store *store, struct entry *entry) {
    struct entry copy = *entry;
    enum store_result result = append_once(store, &copy);
    if (result == STORE_FULL && room_give(store)) {
        copy = *entry;
        result = append_once(store, &copy);
    }
    if (result == STORE_OK) {
        entry->seq = copy.seq;
    }
    return result;
}

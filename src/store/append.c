#include "append.h"
#include "chain.h"
#include "day.h"
#include "room.h"
#include "told.h"
#include "tongue.h"
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
    return good ? STORE_OK
                : connection_say(store, STORE_REFUSED, _("The entry is not well formed."));
}

static enum store_result load(struct store *store, const struct entry *entry,
                              struct work *ret_work) {
    if (entry->club_id == 0) {
        return work_needs_club(entry->kind)
                   ? connection_say(store, STORE_REFUSED, _("A %s entry needs a club."),
                                    entry_kind_text(entry->kind))
                   : STORE_OK;
    }
    enum store_result result = work_load(store, entry->club_id, ret_work);
    return result == STORE_NONE
               ? connection_say(store, STORE_REFUSED, _("There is no club %s %s in the orders."),
                                entry->build, entry->club)
               : result;
}

static enum store_result advance(struct store *store, struct progress *progress,
                                 const struct entry *entry) {
    if (stage_advance(progress, entry)) {
        return STORE_OK;
    }
    return connection_say(
        store, STORE_REFUSED,
        _("Club %s %s stands at %s%s%s: %s is not possible there. Scan both parts "
          "again."),
        entry->build, entry->club, stage_text(progress->stage),
        progress->bench[0] == '\0' ? "" : " of ", progress->bench, entry_kind_text(entry->kind));
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
    if (result == STORE_OK) {
        result = told_name(store, entry);
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
    enum store_result result = query_end(&query, N_("look up an entry"));
    if (result == STORE_OK) {
        *ret_seq = seq;
    }
    return result;
}

// How many of the entries are in the log; those get their number.
static enum store_result find_all(struct store *store, struct entry *entries, size_t count,
                                  size_t *ret_found) {
    size_t found = 0;
    for (size_t i = 0; i < count; i++) {
        enum store_result result = store_confirmed(store, entries[i].confirm_id, &entries[i].seq);
        if (result != STORE_OK && result != STORE_NONE) {
            return result;
        }
        found += result == STORE_OK ? 1 : 0;
    }
    *ret_found = found;
    return STORE_OK;
}

// The caller's entry stays as it is: a second try may find other numbers.
static enum store_result append_at(struct store *store, struct entry *entries, size_t i) {
    struct entry *entry = &entries[i];
    int64_t refers = entry->refers;
    if (refers < -(int64_t)i) {
        return connection_say(store, STORE_REFUSED,
                              _("Entry %zu of these refers to one before the first."), i + 1);
    }
    if (refers < 0) {
        entry->refers = entries[(int64_t)i + refers].seq;
    }
    enum store_result result = append_entry(store, entry);
    entry->refers = refers;
    return result;
}

static enum store_result append_all(struct store *store, struct entry *entries, size_t count) {
    size_t found = 0;
    enum store_result result = find_all(store, entries, count, &found);
    if (result == STORE_OK && found == count) {
        connection_rollback(store); // there already
        return STORE_OK;
    }
    if (result == STORE_OK && found > 0) {
        result = connection_say(store, STORE_REFUSED,
                                _("%zu of these %zu entries are in the log already, the others are "
                                  "not. Begin again."),
                                found, count);
    }
    for (size_t i = 0; result == STORE_OK && i < count; i++) {
        result = append_at(store, entries, i);
    }
    if (result == STORE_OK) {
        return connection_commit(store);
    }
    connection_rollback(store);
    return result;
}

static enum store_result append_once(struct store *store, struct entry *entries, size_t count) {
    enum store_result result = STORE_OK;
    for (size_t i = 0; result == STORE_OK && i < count; i++) {
        result = well_formed(store, &entries[i]);
    }
    if (result == STORE_OK) {
        result = connection_begin(store);
    }
    return result == STORE_OK ? append_all(store, entries, count) : result;
}

enum store_result store_append_all(struct store *store, struct entry *entries, size_t count) {
    int64_t seqs[STORE_APPEND_MAX];
    if (count == 0 || count > STORE_APPEND_MAX) {
        return connection_say(store, STORE_REFUSED,
                              _("1 to %d entries are written at once, not %zu."), STORE_APPEND_MAX,
                              count);
    }
    for (size_t i = 0; i < count; i++) {
        seqs[i] = entries[i].seq;
    }
    enum store_result result = append_once(store, entries, count);
    if (result == STORE_FULL && room_give(store)) {
        result = append_once(store, entries, count);
    }
    for (size_t i = 0; result != STORE_OK && i < count; i++) {
        entries[i].seq = seqs[i];
    }
    return result;
}

enum store_result store_rehearse(struct store *store, struct entry *entries, size_t count,
                                 store_rehearsal *then, void *ctx) {
    enum store_result result = STORE_OK;
    for (size_t i = 0; result == STORE_OK && i < count; i++) {
        result = well_formed(store, &entries[i]);
    }
    if (result == STORE_OK) {
        result = connection_begin(store);
    }
    if (result != STORE_OK) {
        return result;
    }
    for (size_t i = 0; result == STORE_OK && i < count; i++) {
        struct entry entry = entries[i];
        result = append_entry(store, &entry);
    }
    if (result == STORE_OK) {
        result = then(ctx, store);
    }
    connection_rollback(store);
    return result;
}

enum store_result store_append(struct store *store, struct entry *entry) {
    return store_append_all(store, entry, 1);
}

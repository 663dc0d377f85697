#include "witness.h"
#include "append.h"
#include "chain_walk.h"
#include "tongue.h"
#include "witness_compare.h"

#include <stdio.h>
#include <string.h>

// --- signing -----------------------------------------------------------------------------------

static enum store_result origin(struct store *store, struct checkpoint *checkpoint) {
    struct entry genesis;
    enum store_result result = store_entry(store, 1, &genesis);
    if (result == STORE_OK) {
        memcpy(checkpoint->bench, genesis.bench, sizeof checkpoint->bench);
        snprintf(checkpoint->incarnation, sizeof checkpoint->incarnation, "%.32s", genesis.note);
    }
    return result;
}

static enum store_result at_end(struct store *store, struct checkpoint *checkpoint) {
    struct chain_end end;
    enum store_result result = chain_find_end(store, &end);
    if (result == STORE_OK) {
        checkpoint->size = end.seq;
        memcpy(checkpoint->head, end.hash, sizeof checkpoint->head);
    }
    return result;
}

// What was checked is the beginning of what is signed, and what came since is whole too.
static enum store_result goes_on(struct store *store, const struct store_check *checked,
                                 const struct checkpoint *end) {
    struct store_check check = *checked;
    struct chain_walk walk = {
        .store = store, .digest = digest_open(), .hashing = true, .check = &check};
    enum store_result result = chain_walk(&walk, INT64_MAX);
    digest_close(walk.digest);
    if (result == STORE_REFUSED) {
        return connection_say(store, result, _("%s Nothing was signed."), check.problem);
    }
    if (result == STORE_OK &&
        (check.entries != end->size || memcmp(check.head, end->head, sizeof check.head) != 0)) {
        return connection_say(store, STORE_REFUSED,
                              _("The log is not the one that was checked. Nothing was signed."));
    }
    return result;
}

// In the transaction, so that nothing comes between what the note says and the entry.
static enum store_result sign(struct store *store, const struct store_check *checked,
                              struct entry *entry, struct checkpoint *checkpoint) {
    enum store_result result = origin(store, checkpoint);
    if (result == STORE_OK) {
        result = at_end(store, checkpoint);
    }
    if (result == STORE_OK) {
        result = goes_on(store, checked, checkpoint);
    }
    if (result == STORE_OK) {
        checkpoint_short(checkpoint, entry->note);
        result = append_entry(store, entry);
    }
    return result == STORE_OK ? at_end(store, checkpoint) : result;
}

enum store_result store_sign_day(struct store *store, const struct store_check *checked,
                                 struct entry *entry, const char *day,
                                 struct checkpoint *ret_checkpoint) {
    struct checkpoint checkpoint = {0};
    struct entry signing = *entry;
    if (entry->kind != ENTRY_DAY_SIGNED || !checkpoint_is_day(day)) {
        return connection_say(store, STORE_REFUSED,
                              _("A day of the calendar is signed, not \"%s\"."), day);
    }
    if (store->practice) {
        return connection_say(store, STORE_REFUSED,
                              _("%s is for practice: no day of it is signed."), store->path);
    }
    snprintf(checkpoint.day, sizeof checkpoint.day, "%s", day);
    enum store_result result = connection_begin(store);
    if (result != STORE_OK) {
        return result;
    }
    result = sign(store, checked, &signing, &checkpoint);
    if (result != STORE_OK) {
        connection_rollback(store);
        return result;
    }
    result = connection_commit(store);
    if (result == STORE_OK || result == STORE_UNKNOWN) {
        *entry = signing;
        *ret_checkpoint = checkpoint;
    }
    return result;
}

// --- what is signed ----------------------------------------------------------------------------

// A row of LOG_SIGNED.
static enum store_result take(struct query *query, struct day_signature *ret_signature) {
    struct day_signature signature = {0};
    struct store *store = query->store;
    char note[ENTRY_NOTE_MAX];
    if (query_step(query)) {
        signature.checkpoint.size = query_number(query, 0);
        signature.wall_ms = query_number(query, 1);
        query_text(query, 2, signature.worker, sizeof signature.worker);
        query_text(query, 3, note, sizeof note);
        query_blob(query, 4, signature.checkpoint.head, sizeof signature.checkpoint.head);
        snprintf(signature.checkpoint.day, sizeof signature.checkpoint.day, "%.10s", note);
        query->odd |= !checkpoint_is_day(signature.checkpoint.day);
    }
    enum store_result result = query_end(query, N_("look for a signed day"));
    if (result == STORE_OK) {
        result = origin(store, &signature.checkpoint);
    }
    if (result == STORE_OK) {
        *ret_signature = signature;
    }
    return result;
}

enum store_result store_signature(struct store *store, const char *from, const char *to,
                                  struct day_signature *ret_signature) {
    struct query query = query_open(store, STATEMENT_SIGNED_DAY);
    query_bind_text(&query, from != NULL ? from : "");
    query_bind_text(&query, to != NULL ? to : "9999-99-99");
    return take(&query, ret_signature);
}

enum store_result store_signature_over(struct store *store, int64_t seq,
                                       struct day_signature *ret_signature) {
    struct query query = query_open(store, STATEMENT_SIGNED_OVER);
    query_bind_number(&query, seq - 1);
    return take(&query, ret_signature);
}

// --- comparing ---------------------------------------------------------------------------------

static enum store_result compare_origin(const struct witness *witness, const struct entry *genesis,
                                        struct store_check *check) {
    for (size_t i = 0; i < witness->count; i++) {
        const struct checkpoint *note = &witness->mark[i].note.checkpoint;
        if (strcmp(note->incarnation, genesis->note) != 0 ||
            strcmp(note->bench, genesis->bench) != 0) {
            snprintf(
                check->problem, sizeof check->problem,
                _("The note on line %d of the witness is of the log %s %s, this one is %s %.32s: "
                  "the wrong witness, or a log begun anew."),
                witness->mark[i].line, note->bench, note->incarnation, genesis->bench,
                genesis->note);
            return STORE_REFUSED;
        }
    }
    return STORE_OK;
}

#define EXPLAINED_MAX 280

// Anybody who can write to the log can write that it was restored: that explains, and excuses
// nothing.
static void explain(const struct witness_compare *compare, const char *otherwise,
                    char buffer[EXPLAINED_MAX]) {
    if (compare->restored != 0) {
        snprintf(buffer, EXPLAINED_MAX,
                 _("entry %lld says that a copy was put back. If you did that, keep this witness "
                   "and begin a new one."),
                 (long long)compare->restored);
    } else {
        snprintf(buffer, EXPLAINED_MAX, "%s", otherwise);
    }
}

enum store_result witness_compare_entry(struct witness_compare *compare, const struct entry *entry,
                                        struct store_check *check) {
    const struct witness *witness = compare->witness;
    char why[EXPLAINED_MAX];
    if (check->entries == 1 && compare_origin(witness, entry, check) != STORE_OK) {
        return STORE_REFUSED;
    }
    if (entry->kind == ENTRY_RESTORED && compare->restored == 0) {
        compare->restored = entry->seq;
    }
    for (; compare->next < witness->count; compare->next++) {
        const struct witness_mark *mark = &witness->mark[compare->next];
        if (mark->note.checkpoint.size != check->entries) {
            break;
        }
        if (memcmp(mark->note.checkpoint.head, check->head, sizeof check->head) != 0) {
            check->first_bad = compare->finding.covered + 1;
            compare->finding.latest_bad = check->entries;
            explain(compare, _("the log was rewritten, or went on from an older copy."), why);
            snprintf(check->problem, sizeof check->problem,
                     _("Entries %lld to %lld are not those that were signed for %s (line %d of the "
                       "witness): %s"),
                     (long long)check->first_bad, (long long)check->entries,
                     mark->note.checkpoint.day, mark->line, why);
            return STORE_REFUSED;
        }
        compare->finding.covered = check->entries;
        compare->restored = 0;
    }
    return STORE_OK;
}

enum store_result witness_compare_end(const struct witness_compare *compare,
                                      struct store_check *check) {
    const struct witness *witness = compare->witness;
    if (compare->next == witness->count) {
        return STORE_OK;
    }
    char why[EXPLAINED_MAX];
    const struct witness_mark *last = &witness->mark[witness->count - 1];
    check->first_bad = check->entries + 1;
    explain(compare, _("the end of the log was cut off, or this is an older copy."), why);
    snprintf(check->problem, sizeof check->problem,
             _("Entries %lld to %lld are missing, which were there when %s was signed (line %d of "
               "the witness): %s"),
             (long long)check->first_bad, (long long)last->note.checkpoint.size,
             last->note.checkpoint.day, last->line, why);
    return STORE_REFUSED;
}

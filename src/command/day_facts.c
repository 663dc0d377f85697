#include "day_facts.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool make_room(struct day_facts *facts) {
    if (facts->count < facts->room) {
        return true;
    }
    size_t room = facts->room == 0 ? 256 : 2 * facts->room;
    struct day_fact *fact = realloc(facts->fact, room * sizeof *fact);
    if (fact == NULL) {
        facts->no_memory = true;
        return false;
    }
    facts->fact = fact;
    facts->room = room;
    return true;
}

static bool counts(enum entry_kind kind) {
    return kind == ENTRY_TIP_CUT || kind == ENTRY_BUTT_CUT || kind == ENTRY_MEASURE ||
           kind == ENTRY_HOLD || kind == ENTRY_DECIDE || kind == ENTRY_NOTE;
}

static bool keep(void *context, const struct entry *entry) {
    struct day_facts *facts = context;
    facts->entries++;
    facts->last_seq = entry->seq;
    if (!counts(entry->kind)) {
        return true;
    }
    if (!make_room(facts)) {
        return false;
    }
    struct day_fact *fact = &facts->fact[facts->count++];
    *fact = (struct day_fact){.seq = entry->seq,
                              .kind = entry->kind,
                              .wall_ms = entry->wall_ms,
                              .refers = entry->refers,
                              .planned = entry->planned,
                              .made = entry->made,
                              .verdict = entry->verdict};
    memcpy(fact->bench, entry->bench, sizeof fact->bench);
    memcpy(fact->worker, entry->worker, sizeof fact->worker);
    memcpy(fact->build, entry->build, sizeof fact->build);
    memcpy(fact->club, entry->club, sizeof fact->club);
    memcpy(fact->head, entry->head, sizeof fact->head);
    memcpy(fact->shaft, entry->shaft, sizeof fact->shaft);
    memcpy(fact->cause, entry->cause, sizeof fact->cause);
    memcpy(fact->note, entry->note, sizeof fact->note);
    return true;
}

const struct day_fact *day_facts_find(const struct day_facts *facts, int64_t seq) {
    size_t low = 0;
    size_t high = facts->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (facts->fact[middle].seq < seq) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low < facts->count && facts->fact[low].seq == seq ? &facts->fact[low] : NULL;
}

static bool mark(void *context, const struct entry *entry) {
    struct day_facts *facts = context;
    const struct day_fact *found = day_facts_find(facts, entry->refers);
    if (found != NULL) {
        struct day_fact *fact = &facts->fact[found - facts->fact];
        if (entry->kind == ENTRY_WITHDRAW) {
            fact->withdrawn = true;
        } else if (entry->kind == ENTRY_DECIDE) {
            memcpy(fact->decided, entry->cause, sizeof fact->decided);
        }
    }
    return true;
}

enum store_result day_facts_read(struct store *store, int64_t from_ms, int64_t to_ms,
                                 struct day_facts *ret_facts) {
    struct day_facts facts = {.from_ms = from_ms, .to_ms = to_ms};
    struct log_filter filter = {.from_ms = from_ms, .to_ms = to_ms};
    enum store_result result = store_log_each(store, &filter, keep, &facts);
    if (result == STORE_OK && facts.count > 0) {
        result = store_log_about(store, facts.fact[0].seq, facts.fact[facts.count - 1].seq, mark,
                                 &facts);
    }
    if (result != STORE_OK) {
        day_facts_release(&facts);
        return result;
    }
    *ret_facts = facts;
    return STORE_OK;
}

void day_facts_release(struct day_facts *facts) {
    free(facts->fact);
    *facts = (struct day_facts){.fact = NULL};
}

bool day_fact_open(const struct day_fact *fact) {
    return (fact->kind == ENTRY_TIP_CUT || fact->kind == ENTRY_MEASURE) &&
           fact->verdict == VERDICT_SHORT && !fact->withdrawn && fact->decided[0] == '\0';
}

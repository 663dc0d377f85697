#ifndef DAY_FACTS_H
#define DAY_FACTS_H

// What the log holds of some days, each entry with what later entries say about it: read once, for
// the report and the ledger.

#include "store.h"
#include "workday.h"

struct day_fact { // a cut, a measure, a stop, a decision or a note; all else is only counted
    int64_t seq;
    enum entry_kind kind;
    int64_t wall_ms;
    char bench[ENTRY_BENCH_MAX];
    char worker[TICKET_TEXT_MAX];
    char build[PARTS_BUILD_MAX];
    char club[PARTS_SHORT_MAX];
    char head[TICKET_TEXT_MAX];
    char shaft[TICKET_TEXT_MAX];
    int64_t refers;
    length_nm planned;
    length_nm made;
    enum verdict verdict;
    char cause[ENTRY_CAUSE_MAX];
    char note[ENTRY_NOTE_MAX];
    bool withdrawn;
    char decided[ENTRY_CAUSE_MAX]; // use, recut, scrap; empty: nothing
};

struct day_facts {
    int64_t from_ms;
    int64_t to_ms;
    struct day_fact *fact; // in the log's order
    size_t count;
    size_t room;
    int64_t entries; // of any kind
    int64_t last_seq;
    bool no_memory;
};

// Entries of from_ms <= t < to_ms. Anything but STORE_OK: nothing to release; store_message says
// why.
enum store_result day_facts_read(struct store *store, int64_t from_ms, int64_t to_ms,
                                 struct day_facts *ret_facts);
void day_facts_release(struct day_facts *facts);

// A supervisor must still decide on it.
bool day_fact_open(const struct day_fact *fact);

// The fact an entry of these days refers to, or NULL: of another day.
const struct day_fact *day_facts_find(const struct day_facts *facts, int64_t seq);

#endif

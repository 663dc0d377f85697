#ifndef WITNESS_COMPARE_H
#define WITNESS_COMPARE_H

// Holding the chain against a witness while it is walked. Private to src/store.

#include "witness.h"

struct witness_compare {
    const struct witness *witness;
    size_t next;      // note that is next to be met
    int64_t restored; // entry that says the log was restored since the last note that held, 0 none
    struct witness_finding finding;
};

// After entry check->entries, which is *entry, was found whole and check->head is its hash.
// STORE_OK or STORE_REFUSED with check->problem.
enum store_result witness_compare_entry(struct witness_compare *compare, const struct entry *entry,
                                        struct store_check *check);
// After the last one.
enum store_result witness_compare_end(const struct witness_compare *compare,
                                      struct store_check *check);

#endif

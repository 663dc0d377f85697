#ifndef TOLD_H
#define TOLD_H

// Which order a change is about, whether it comes too late, and what a bench must be told of it.
// Private to src/store.

#include "query.h"

// Names the order, club or part an ENTRY_CHANGE is about in the entry itself, so that the life of
// each has it; a part's order is the one it is reserved for. Inside the transaction, before the
// entry is logged.
enum store_result told_name(struct store *store, struct entry *entry);

// Whether a change of a club that is there already still may be made (order_too_late).
// STORE_REFUSED: ret_cell names the cell, `ret_why` says why not.
#define TOLD_WHY_MAX 160
enum store_result told_in_time(struct store *store, const struct change *change,
                               const char **ret_cell, char ret_why[TOLD_WHY_MAX]);

// After the change was carried out: marks its order when a bench must be told.
enum store_result told_mark(struct store *store, const struct entry *entry,
                            const struct change *change);

// An ENTRY_TOLD: the newest change a bench must hear of is the one it refers to.
enum store_result told_allowed(struct store *store, const struct entry *entry);
enum store_result told_clear(struct store *store, const struct entry *entry);

#endif

#ifndef PEOPLE_H
#define PEOPLE_H

// What PINs and people have in common. Private to src/store.

#include "query.h"

// Whether the badge is a supervisor's.
enum store_result people_supervisor(struct store *store, const char *badge, bool *ret_yes);

// STORE_REFUSED, in words, unless `by` is a supervisor and somebody else than `badge`.
enum store_result people_another(struct store *store, const char *badge, const char *by);

// In a transaction: writes into the log, as a PIN's entry, what `worker` did or had done to them.
// Badges only, never a name.
enum store_result people_log(struct store *store, const char *worker, const char *cause,
                             const char *note, int64_t *ret_seq);

// Commits when `result` is STORE_OK, else rolls back; what came of it.
enum store_result people_commit(struct store *store, enum store_result result);

#endif

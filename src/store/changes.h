#ifndef CHANGES_H
#define CHANGES_H

// Which entries changed what. Private to src/store; lists.h has what others ask.

#include "change.h"
#include "query.h"

// Notes that the entry `seq`, which is being appended, carried `change` out.
enum store_result changes_add(struct store *store, int64_t seq, const struct change *change);

#endif

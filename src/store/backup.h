#ifndef BACKUP_H
#define BACKUP_H

// The copy that is kept of a database before its schema changes. Private to src/store.

#include "connection.h"

// Under the write lock: a complete, checked, synced copy at "<database>.before-<number>". If
// another file stands there, ".1" to ".9" behind that; none is ever replaced. The same copy is kept
// once.
enum store_result backup_before(struct store *store, int number);

#endif

#ifndef MIGRATE_H
#define MIGRATE_H

// Brings a database up to a list of migrations, each with its user_version in one transaction.
// Private to src/store.

#include "connection.h"
#include "schema.h"

// An older database is copied first (backup.h), whole and checked; without the copy it stays as it
// is.
//
// STORE_REFUSED: not ours, or newer than the last of the list; nothing was touched. In STORE_READ
// an older schema is refused too, and an empty file in STORE_READ and STORE_WRITE.
enum store_result migrate_examine(struct store *store, size_t count);
enum store_result migrate_run(struct store *store, const struct migration *migrations,
                              size_t count);

#endif

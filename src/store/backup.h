#ifndef BACKUP_H
#define BACKUP_H

// Copies on their way to becoming something. Private to src/store.

#include "connection.h"

// A complete, checked copy at `temporary`, not synced, in place of whatever is there; or nothing.
enum store_result backup_copy(struct store *store, const char *temporary);

// Whether another program, or another connection of this one, has the database open.
bool backup_in_use(const char *path);

// Brings a file, or with O_DIRECTORY in `flags` the names in a folder, to the disk. False and
// errno.
bool backup_sync(const char *path, int flags);

// Gives a copy its name, both on the disk. False and errno; EEXIST: another file has it.
bool backup_publish(const char *temporary, const char *path);

// Under the write lock: a complete, checked, synced copy at "<database>.before-<number>". If
// another file stands there, ".1" to ".9" behind that; none is ever replaced. The same copy is kept
// once.
enum store_result backup_before(struct store *store, int number);

#endif

#ifndef SETTINGS_H
#define SETTINGS_H

// The settings of a connection. Private to src/store.

#include "connection.h"

// Options, limits and pragmas that change nothing in the file.
enum store_result settings_apply(struct store *store);

// WAL, which changes the file: only once it is known to be ours. STORE_READ: query_only.
enum store_result settings_journal(struct store *store);

// From here on no statement changes the schema, a setting, or an entry of the log.
enum store_result settings_guard(struct store *store);

#endif

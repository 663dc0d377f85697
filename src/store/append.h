#ifndef APPEND_H
#define APPEND_H

// One entry into the log, and with it what it does to its club, parts and counts.
// Private to src/store.

#include "connection.h"

// Inside a write transaction: gives *entry its number and writes it. STORE_REFUSED: a rule said no.
// On anything but STORE_OK the caller rolls back.
enum store_result append_entry(struct store *store, struct entry *entry);

#endif

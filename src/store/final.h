#ifndef FINAL_H
#define FINAL_H

// What was measured on assembled clubs. Private to src/store.

#include "connection.h"

bool final_kind(enum entry_kind kind);

// Of an entry of such a kind: whether a club can have that value.
bool final_plausible(const struct entry *entry);

// Whether the entry, of any kind, is what was measured last on its club as that stands.
enum store_result final_newest(struct store *store, const struct entry *entry, bool *ret_newest);

#endif

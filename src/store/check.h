#ifndef CHECK_H
#define CHECK_H

// Private to src/store.

#include "store.h"

// The part of store_check that a copy must pass: the file, its references and the chain. Not
// whether the log explains every row, since a copy of what it does not explain is wanted too.
enum store_result check_file(struct store *store, struct store_check *ret_check);

#endif

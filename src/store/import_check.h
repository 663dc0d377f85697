#ifndef IMPORT_CHECK_H
#define IMPORT_CHECK_H

// What rows say to each other and to the store. Private to src/store.

#include "import_set.h"
#include "store.h"

// Within the set, sorted: keys given twice, parts reserved twice, charts that cannot be read.
// False: no memory.
bool import_check_set(const struct import_set *set, struct import_say *say);

// Every model, head and shaft a row names is in the set or in the store.
enum store_result import_check_references(struct store *store, const struct import_set *set,
                                          struct import_say *say);

#endif

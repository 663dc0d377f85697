#ifndef KIT_BEFORE_H
#define KIT_BEFORE_H

// What a kit list is worth: how far the clubs would spread had each simply got the next shaft in
// the order of the stock that it can be planned with.

#include "kit.h"
#include "store.h"

// In the unit of kit->spread. False: not known, for some club of the list would have none.
bool kit_before(struct store *store, const struct kit *kit, const struct bench_rules *rules,
                const struct assembly *assembly, double *ret_spread);

#endif

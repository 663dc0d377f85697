#ifndef BUILDS_H
#define BUILDS_H

// A build out of the store as the core computes with it: as a set, or as a kit list from stock.

#include "kit.h"
#include "store.h"

// STORE_NONE: there is no such build. More than SET_CLUBS_MAX clubs: the first ones.
enum store_result builds_set(struct store *store, const char *build,
                             const struct bench_rules *rules, const struct assembly *assembly,
                             struct set *ret_set);

// For the clubs of the build that wait for a shaft. STORE_NONE: none does.
enum store_result builds_kit(struct store *store, const char *build, enum match_by by,
                             const struct bench_rules *rules, const struct assembly *assembly,
                             struct kit *ret_kit);

#endif

#ifndef BUILDS_H
#define BUILDS_H

// A build out of the store as the core computes with it: as a set, or as a kit list from stock.

#include "kit.h"
#include "store.h"
#include "text.h"

// STORE_NONE: there is no such build. More than SET_CLUBS_MAX clubs: the first ones. `tolerance`
// NULL: what was measured is not held against anything.
enum store_result builds_set(struct store *store, const char *build,
                             const struct bench_rules *rules, const struct assembly *assembly,
                             const struct assembly_tolerance *tolerance, struct set *ret_set);

// For the clubs of the build that wait for a shaft. STORE_NONE: none does.
enum store_result builds_kit(struct store *store, const char *build, enum match_by by,
                             const struct bench_rules *rules, const struct assembly *assembly,
                             struct kit *ret_kit);

// How far a build is from being done: every club that is not cancelled is cut, and every value that
// is wanted of it is measured and within its tolerance, or accepted by a supervisor.
struct builds_done {
    size_t clubs;
    size_t done;       // of them
    char missing[400]; // `club 3: not cut; club 5: no swingweight, loft out`; empty: done
};
// STORE_NONE: there is no such build.
enum store_result builds_done(struct store *store, const char *build,
                              const struct bench_rules *rules, const struct assembly *assembly,
                              const struct assembly_tolerance *tolerance,
                              struct builds_done *ret_done);
// The same of one club; what is missing is added to `text`. True: it is done.
bool builds_club_done(const struct club *club, const struct final_values *values,
                      const struct bench_rules *rules, const struct assembly *assembly,
                      const struct assembly_tolerance *tolerance, struct text *text);

#endif

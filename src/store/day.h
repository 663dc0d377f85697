#ifndef DAY_H
#define DAY_H

// Counts by quarter of an hour, kept with every entry so that a day needs no search. Quarters,
// because every time zone's midnight falls on one. Private to src/store.

#include "query.h"

// Counts *entry, which is in the log now; `before` and `after`: its club's stage.
enum store_result day_entry(struct store *store, const struct entry *entry, enum stage before,
                            enum stage after);

// Quarter that holds a time.
int64_t day_quarter(int64_t wall_ms);

// What an entry adds to the counts of its own quarter. A decision or withdrawal changes the counts
// of the time it is about too: a club is done when it was measured.
struct day_change {
    int64_t quarter;
    int done, cuts, off, holds;
};
struct day_change day_own(const struct entry *entry, enum stage before, enum stage after);
bool day_is_about(const struct entry *entry, enum stage before, enum stage after);
struct day_change day_of_about(const struct entry *entry, const struct entry *about,
                               enum stage before, enum stage after);

#endif

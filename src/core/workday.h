#ifndef WORKDAY_H
#define WORKDAY_H

// What some days came to: sums over their entries, each with what later entries say about it. What
// was withdrawn does not count, and a club is done when the measure was taken that stands. Pure.

#include "cut_stats.h"

struct workday {
    int64_t done; // clubs
    int64_t cuts;
    int64_t out;          // tips cut past the mark, clubs measured short
    int64_t open;         // of those, to be decided
    struct cut_stats cut; // holds by cause, cuts by hour, points for the charts
    size_t scrap_count;
    struct cut_cause scrap[CUT_STATS_CAUSES]; // shafts gone, by why and what became of the club
};

// What stands in the log about one entry.
struct workday_later {
    bool withdrawn;
    bool open;           // a supervisor must still decide
    const char *decided; // use, recut or scrap; empty: nothing
    int hour;            // local, of the entry itself
};

// In the log's order. `about`: the entry that a decision refers to, else NULL.
void workday_add(struct workday *day, const struct entry *entry, const struct entry *about,
                 const struct workday_later *later);

// Causes of stops and of scrap, most counted first.
void workday_sort(struct workday *day);

#endif

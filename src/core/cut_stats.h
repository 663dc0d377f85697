#ifndef CUT_STATS_H
#define CUT_STATS_H

// How well a bench cuts: measured less planned length of the newest clubs, with control limits,
// capability and run rules, and what stopped it how often. Pure; facts are added in the log's
// order.

#include "entry.h"
#include "runs.h"
#include "statistics.h"

struct cut_fact {
    enum entry_kind kind;
    length_nm planned;
    length_nm made;
    const char *cause; // of holds and decisions
    int hour;          // local, 0 to 23
    bool withdrawn;    // a later entry took it back: looked at, and counts nowhere
};

#define CUT_STATS_POINTS 60
#define CUT_STATS_CAUSES 10
struct cut_cause {
    char word[ENTRY_CAUSE_MAX];
    int64_t count;
};
// Counts a word; when there is no room for another, as `other`. Most counted first.
void cut_cause_add(struct cut_cause *causes, size_t *count, const char *word);
void cut_cause_sort(struct cut_cause *causes, size_t count);

struct cut_stats {
    size_t count;                 // points kept: the newest
    double off[CUT_STATS_POINTS]; // measured less planned, thousandths of an inch
    int64_t measured;             // all of them
    int64_t left_out_before_ms;   // older facts were left out: time of the oldest kept; 0: none
    int64_t facts;                // that were looked at
    int64_t cuts;
    int64_t holds;
    int64_t scrapped; // scrap and recut: a shaft is gone
    int64_t by_hour[24];
    size_t cause_count;
    struct cut_cause
        cause[CUT_STATS_CAUSES]; // of holds, in the order they came up; the last takes what is left
};

void cut_stats_add(struct cut_stats *stats, const struct cut_fact *fact);

// What the points say. Unknown figures leave their `known` false.
struct cut_sum {
    bool limits_known;
    struct statistics_limits limits;
    bool capability_known;
    struct statistics_capability capability; // against the tolerance, both ways
    enum run_rule rule;                      // that the newest signal completes
    size_t rule_at;
};
void cut_stats_sum(const struct cut_stats *stats, length_nm tolerance, struct cut_sum *ret_sum);

// Most counted first.
void cut_stats_sort(struct cut_stats *stats);

#define CUT_STATS_THOU(length) ((double)(length) / 25400.0)

#endif

#ifndef MATCH_SAMPLE_H
#define MATCH_SAMPLE_H

// A small build and its stock for tests to bend: the sample club of sample.h, several times over.

#include "match.h"
#include "sample.h"

#define SAMPLE_CLUBS 5
#define SAMPLE_SHAFTS 7

struct match_sample {
    struct club club[SAMPLE_CLUBS];
    struct shaft shaft[SAMPLE_SHAFTS];
    struct shaft_model model;
    struct chart chart;
    struct profile profile[SAMPLE_SHAFTS]; // all known, 12 N m2 at the tip to 60 at the butt
    struct match_shaft stock[SAMPLE_SHAFTS];
    struct bench_rules rules;
    struct assembly assembly;
    struct match_request request;
};

// Clubs "1", "2" and so on at positions from 1, every one as in sample.h with no wish; shafts
// S-1, S-2 and so on, every one alike. By swingweight.
void match_sample_make(struct match_sample *sample, size_t clubs, size_t shafts);

struct match_result match_sample_build(const struct match_sample *sample);

#endif

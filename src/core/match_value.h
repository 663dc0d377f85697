#ifndef MATCH_VALUE_H
#define MATCH_VALUE_H

// What one club is worth with one shaft, and what it should be. For match.c and match_text.c.

#include "match.h"

// Swingweight points and cpm are counted in these.
#define MATCH_HUNDREDTHS 100.0

// The request's club with this shaft of the stock.
void match_value_club(const struct match_request *request, size_t club, size_t shaft,
                      struct club *ret_club);

enum match_value_kind {
    MATCH_VALUE_KNOWN,
    MATCH_VALUE_OTHER,
    MATCH_VALUE_REFUSED,
    MATCH_VALUE_GAP
};
struct match_value {
    enum match_value_kind kind;
    double value;           // in oz or cpm
    enum plan_code refusal; // REFUSED
    enum estimate_gap gap;  // GAP
};
struct match_value match_value_make(const struct match_request *request, const struct club *club);

// Sets aim, wish_assumed and outcome (MATCH_NO_HEAD, MATCH_BAD_WISH) of every club, and `aimed`.
// When nothing is aimed at, aims are distances the clubs should have from each other.
void match_value_aims(const struct match_request *request, struct match_result *result);

// What a difference of 1 counts in the unit of `value`: in oz a swingweight point, or 1 cpm.
double match_value_unit(enum match_by by);

#endif

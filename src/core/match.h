#ifndef MATCH_H
#define MATCH_H

// Stock match: which shaft of the stock goes to which head of a build, so that the clubs come out
// alike. The choice is the best there is (assign.h), for the estimates of estimate.h rounded to a
// hundredth of a swingweight point or of a cycle a minute, which is finer than a shop can measure:
//   1. every club that can have a shaft gets one, the first in the build first;
//   2. the spread of the values, largest less smallest, is least;
//   3. the sum of their squares is least;
//   4. the first club has the shaft that comes first in the stock, then the second club.
//
// A club's value by swingweight is its distance from the wished one. A club that wishes none takes
// the wish that most of the others share, of two as common the one that comes first. When none
// wishes any, only likeness counts: values are then distances from the middle between the highest
// and the lowest.
// By flex it is the distance from a straight line by the club's position in the build. The slope
// is given; the height is given by one club of it, or free: then the middle of the chosen clubs
// makes it, as above. A slope fitted to the choice itself would be no assignment problem.

#include "assign.h"
#include "estimate.h"

#define MATCH_CLUBS_MAX ASSIGN_ROWS_MAX
#define MATCH_SHAFTS_MAX ASSIGN_COLUMNS_MAX
#define MATCH_NO_SHAFT ASSIGN_NO_COLUMN

// One raw shaft that nothing is reserved for.
struct match_shaft {
    const struct shaft *shaft;
    const struct shaft_model *model;
    const struct chart *chart[CHART_KIND_COUNT]; // of its model and flex; NULL: the maker has none
    const struct profile *profile;               // NULL: not known
};

// 4 cpm a club, each half an inch shorter than the one before (common practice, no source).
#define MATCH_SLOPE_DEFAULT 4.0

struct match_line {
    double slope; // cpm a club
    bool anchored;
    int position; // the club at this position is to have
    double cpm;   // this frequency
};

enum match_by { MATCH_BY_SWINGWEIGHT, MATCH_BY_FLEX };

struct match_request {
    enum match_by by;
    struct match_line line;   // by flex only
    const struct club *clubs; // one build; of their shafts nothing is read
    size_t club_count;
    const struct match_shaft *stock;
    size_t shaft_count;
    const struct bench_rules *rules;
    const struct assembly *assembly;
};

enum match_outcome {
    MATCH_CHOSEN,
    MATCH_NO_HEAD,     // no head is reserved for the club
    MATCH_BAD_WISH,    // the wished swingweight cannot be read
    MATCH_NONE_USABLE, // no shaft has a valid plan and a known value; the counts say why
    MATCH_TOO_FEW      // the clubs of short_of have one usable shaft too few between them
};

// How many shafts, and the first of them.
struct match_count {
    size_t shafts;
    size_t first;
};

// Sets of clubs are masks of 1u << index in the request.
struct match_club {
    enum match_outcome outcome;
    int shaft;         // index in the stock, or MATCH_NO_SHAFT
    double value;      // in oz or cpm of the club with it, an estimate
    double aim;        // what it should have been, in the same unit
    bool wish_assumed; // the wish is that of the others
    uint32_t short_of;
    uint32_t swaps; // clubs that could trade shafts with this one: just as good
    bool open;      // some choice just as good gives this club another shaft
    size_t usable;
    struct match_count other;                    // not the model or flex that the order wishes
    struct match_count refused[PLAN_CODE_COUNT]; // no valid plan, by the refusal
    struct match_count unknown[ESTIMATE_GAP_COUNT];
};

struct match_result {
    size_t count;
    size_t chosen;
    double spread; // swingweight points or cpm
    bool aimed;    // at wishes or an anchored line; false: for likeness alone
    struct match_club club[MATCH_CLUBS_MAX];
};

// About 0.5 MB, kept by the caller; holds nothing between calls.
struct match_work {
    int32_t value[ASSIGN_CELLS_MAX];
    struct assign_work assign;
};

// False, and *ret_result untouched, when there are more clubs or shafts than the limits.
// order.uniform_reference of a club that asks for uniform flex is worked out here while it is not
// known, over the clubs that wish the same model.
bool match_build(const struct match_request *request, struct match_work *work,
                 struct match_result *ret_result);

// The club's match in a sentence or two for a person: which shafts it could have just as well, or
// why it has none and what to do.
#define MATCH_TEXT_MAX 600
void match_text(const struct match_request *request, const struct match_result *result, size_t club,
                char *buffer, size_t size);

#endif

#ifndef SET_H
#define SET_H

// A build as one set: planned and measured length, weight, swingweight and frequency of every club
// against a straight line by club, and the club that stands out before it is cut.

#include "estimate.h"

#define SET_CLUBS_MAX 30

enum set_value { SET_LENGTH, SET_WEIGHT, SET_SWINGWEIGHT, SET_FREQUENCY, SET_VALUE_COUNT };
const char *set_value_words(enum set_value value); // "length", "weight", "swingweight", "frequency"
// "in", "g", "in oz", "cpm": the unit of every double below.
const char *set_value_unit(enum set_value value);

// Measured after assembly; false: not measured.
struct set_measured {
    bool known[SET_VALUE_COUNT];
    bool out[SET_VALUE_COUNT]; // of its tolerance
    double value[SET_VALUE_COUNT];
};

struct set_point {
    enum estimate_gap gap; // of the planned value; NONE: known
    double planned;
    bool measured_known;
    bool measured_out;
    double measured;
    double off; // planned less the line, 0 when either is not known
};

struct set_club {
    int64_t club_id;
    char club[PARTS_SHORT_MAX];
    char head[TICKET_TEXT_MAX];
    char shaft[TICKET_TEXT_MAX];
    enum stage stage;
    bool planned;           // a valid plan
    enum plan_code refusal; // else why not
    struct set_point point[SET_VALUE_COUNT];
    char swingweight[8]; // wished, empty: none
};

// Least squares by position in the build, over planned values without the odd club.
struct set_line {
    bool known; // at least 3 planned values
    double at_first;
    double slope; // a club
    int odd;      // index of the club that stands out, -1 none
};

struct set {
    char build[PARTS_BUILD_MAX];
    size_t count;
    struct set_club club[SET_CLUBS_MAX];
    struct set_line line[SET_VALUE_COUNT];
};

// Clubs in the order of the build; more than SET_CLUBS_MAX: the first ones. A club stands out when
// leaving it out brings the rest closest to a line, it lies further from that line than
// set_odd_beyond, and the rest does not: where the rest makes no line, nobody stands out. Always
// fills *ret_set.
void set_make(const struct club *clubs, const struct set_measured *measured, size_t count,
              const struct bench_rules *rules, const struct assembly *assembly,
              struct set *ret_set);

// How far off the line is worth a word: common practice, no source.
double set_odd_beyond(enum set_value value);

// `Club 5: frequency about 3.1 cpm above the line of the others` of the odd club; false: none.
#define SET_TEXT_MAX 120
bool set_odd_text(const struct set *set, enum set_value value, char *buffer, size_t size);

#endif

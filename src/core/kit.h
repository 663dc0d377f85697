#ifndef KIT_H
#define KIT_H

// The kit list that a stock match proposes: which shaft for which club of a build, in words and
// numbers for a person who accepts it.

#include "match.h"
#include "set.h"

struct kit_club {
    int64_t club_id;
    char club[PARTS_SHORT_MAX];
    char head[TICKET_TEXT_MAX];
    char shaft[TICKET_TEXT_MAX]; // empty: none was found
    char rack[PARTS_RACK_MAX];
    mass_mg shaft_weight;
    length_nm raw_length;
    double value; // in oz or cpm, an estimate; 0 without a shaft
    double aim;
    char words[MATCH_TEXT_MAX];
};

struct kit {
    char build[PARTS_BUILD_MAX];
    enum match_by by;
    size_t stock;  // shafts that were looked at
    size_t count;  // clubs that a shaft was looked for
    size_t chosen; // of them
    double spread; // largest less smallest distance from the aim: swingweight points or cpm
    bool aimed;
    struct kit_club club[SET_CLUBS_MAX];
};

// Clubs of a build that wait for a shaft: a shaft is wished and none is reserved.
bool kit_waits(const struct club *club);

// Fills *ret_kit from a match. At most SET_CLUBS_MAX clubs.
void kit_make(const struct match_request *request, const struct match_result *result,
              struct kit *ret_kit);

// A value as it is read: `D1.8`, `261.5 cpm`; a spread: `0.4 points`, `1.2 cpm`.
#define KIT_TEXT_MAX 64
void kit_value_text(enum match_by by, double value, char buffer[KIT_TEXT_MAX]);
void kit_spread_text(enum match_by by, double spread, char buffer[KIT_TEXT_MAX]);

#endif

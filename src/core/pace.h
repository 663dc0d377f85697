#ifndef PACE_H
#define PACE_H

// How long this bench takes for a club, from the log's own times. Pure.
//
// The pace is the median of the times between one club finished and the next at one bench. Only
// times within one sitting count: both clubs since the same start of the machine, and no more than
// PACE_GAP_MS apart; a break, a lunch or a night says nothing about the work. The median, so that a
// club with a stop or a recut in it does not move it. Of fewer than PACE_LEAST such times nobody
// should conclude anything: then it is not known.

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define PACE_CLUBS_MAX 60 // the newest that are looked at
#define PACE_GAP_MS (30 * 60 * 1000)
#define PACE_LEAST 5

struct pace_club {
    int64_t mono_ms; // when it was finished, since the machine started
    uint32_t boot;   // tells starts of the machine apart
};

// `clubs`: the newest first, at most PACE_CLUBS_MAX. False, *ret_ms untouched: not known.
bool pace_median(const struct pace_club *clubs, size_t count, int64_t *ret_ms);

// `about 1 h 20 min`, rounded to 5 minutes, from an hour on to 10, at least `about 5 min`.
#define PACE_TEXT_MAX 96
void pace_text(int64_t ms, char buffer[PACE_TEXT_MAX]);

#endif

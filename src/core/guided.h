#ifndef GUIDED_H
#define GUIDED_H

// What the workshop works out of what was measured on a club from elsewhere, that no maker's sheet
// is at hand for: hosel bore, insertion depth, bore height, playing length, flex. Pure functions;
// each gives its value, or says what is wrong with what was measured.

#include "estimate.h"

// What is wrong, and what to do about it.
#define GUIDED_PROBLEMS(X)                                                                         \
    X(NONE, "")                                                                                    \
    X(NOT_MEASURED, "A length is missing. Measure it.")                                            \
    X(PINS, "The pin that goes must be thinner than the one that does not. Try the pins again.")   \
    X(PINS_COARSE, "More than one trade size lies between these pins. Try pins between them.")     \
    X(PINS_ODD, "No trade size lies between these pins. Measure the bore, enter what it has.")     \
    X(INSERTION,                                                                                   \
      "A hosel takes 1/2 to 3 in of shaft. Mark the rod at the hosel's top and measure "           \
      "it again.")                                                                                 \
    X(BORE_HEIGHT, "The bore height must lie between 0 and 2 in. Sole the head, measure again.")   \
    X(PLAYING, "A club is 10 to 70 in long. Measure the pieces again.")
enum guided_problem {
#define X(name, text) GUIDED_##name,
    GUIDED_PROBLEMS(X)
#undef X
        GUIDED_PROBLEM_COUNT
};
const char *guided_problem_text(enum guided_problem problem);

// The trade size of a hosel bore, from the largest gauge pin that goes in and the smallest that
// does not: goes <= bore < stops. A bore is drilled for a tip of 0.335, 0.350, 0.355 (taper) or
// 0.370 in and is that wide or up to 0.005 in wider, which the epoxy fills (sizes and clearance:
// common practice, no source). So the answer is the one size for which such a bore lies between the
// pins.
enum guided_problem guided_bore(length_nm goes, length_nm stops, length_nm *ret_bore);

// How deep the shaft goes: a rod's whole length less what stands out of the hosel when it is pushed
// home. 1/2 to 3 in (common practice, no source).
enum guided_problem guided_insertion(length_nm rod, length_nm outside, length_nm *ret_insertion);

// Bore height by dry fit (R11): overall length less the length of the shaft used.
enum guided_problem guided_bore_by_fit(length_nm overall, length_nm raw, length_nm *ret_height);

// The same by geometry, with no shaft at hand: along the hosel's axis, from its top down to the
// ground with the head soled, less the insertion depth.
enum guided_problem guided_bore_by_hosel(length_nm top_to_ground, length_nm insertion,
                                         length_nm *ret_height);

// The playing length of a club that broke: its pieces, each measured along the shaft to the middle
// of the break, the first with the grip from the end of its cap, the last with the head to the
// ground, and what is missing between them (0: nothing).
#define GUIDED_PIECES_MAX 6
enum guided_problem guided_playing(const length_nm *pieces, size_t count, length_nm missing,
                                   length_nm *ret_playing);

// A shaft that might stand in for one whose flex is known by its frequency alone.
struct guided_candidate {
    const struct shaft *shaft;
    const struct shaft_model *model;
    const struct chart *chart;     // for the club's kind of head; NULL: none
    const struct profile *profile; // NULL: not known
};
struct guided_flex {
    size_t candidate;                // index
    enum plan_code refusal;          // PLAN_NONE: it can be cut for this club
    struct estimate_value frequency; // of the club with it; gap PLAN: it cannot be cut
    double off;                      // frequency less the wished one, cpm; 0 when not known
};
// Puts `count` candidates in order: nearest to `cpm` first, two as near as they were given, then
// those of which the frequency is not known. `club` has its head and order; what it has of a shaft
// does not matter. Always an estimate.
void guided_flex_rank(const struct club *club, double cpm,
                      const struct guided_candidate *candidates, size_t count,
                      const struct bench_rules *rules, const struct assembly *assembly,
                      struct guided_flex *ret_ranked);

#endif

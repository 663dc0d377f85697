#ifndef ESTIMATE_H
#define ESTIMATE_H

// What the cut club will weigh, balance and flex like: balance.h and flex.h applied to one club and
// its plan. Always an estimate. What is not known is said, never made up.

#include "balance.h"
#include "club.h"

// What assembly adds to every club of the shop (settings).
struct assembly {
    mass_mg ferrule;        // at the end of the shaft
    mass_mg epoxy;          // in the bore
    length_nm grip_balance; // of the grip, from its butt end
};

#define ASSEMBLY_DEFAULT                                                                           \
    { .ferrule = 2 * MASS_GRAM, .epoxy = 3 * MASS_GRAM, .grip_balance = 4 * LENGTH_INCH }

// Why a value is not known, in the order they are looked at.
#define ESTIMATE_GAPS(X)                                                                           \
    X(NONE, "")                                                                                    \
    X(PLAN, "no valid plan")                                                                       \
    X(HEAD_WEIGHT, "head weight not known")                                                        \
    X(SHAFT_WEIGHT, "shaft weight not known")                                                      \
    X(GRIP_WEIGHT, "grip weight not known")                                                        \
    X(STIFFNESS, "stiffness of the shaft not known")                                               \
    X(IMPLAUSIBLE, "figures that no club has")
enum estimate_gap {
#define X(name, text) ESTIMATE_GAP_##name,
    ESTIMATE_GAPS(X)
#undef X
        ESTIMATE_GAP_COUNT
};
const char *estimate_gap_text(enum estimate_gap gap);

struct estimate_value {
    enum estimate_gap gap; // NONE: known
    double value;          // 0 when not known
};

struct estimate {
    struct estimate_value weight;      // of the whole club, g
    struct estimate_value swingweight; // moment about 14 in from the butt, in oz
    struct estimate_value inertia;     // about the butt, kg cm2
    struct estimate_value frequency;   // clamped over the last 5 in, without grip, cpm
    bool balance_assumed;              // the shaft's balance point is not known: taken as even
    bool reach_assumed;                // see estimate_reach
};

// How far the head's centre of gravity lies beyond the shaft's end, along its axis: as measured,
// else the head's bore height, else 0. True: assumed. The bore height puts the centre where the
// axis meets the ground, so that the head counts at playing length. There it lies within a few
// millimetres: about 37 mm out from that point and 20 mm up, at a lie of 60 to 62 degrees, is
// 37 cos - 20 sin = 1.2 to -0.3 mm along the axis (geometry; the figures are common practice, no
// source).
bool estimate_reach(const struct head *head, length_nm *ret_beyond);

// Always fills *ret_estimate. Weights are those measured on this head and this shaft: a catalogue
// weight is no more than a hint, here as in the plan.
void estimate_make(const struct club *club, const struct plan *plan,
                   const struct assembly *assembly, struct estimate *ret_estimate);

// The club's parts on the line of balance.h: for swingweight alone, in a fraction of the time, and
// for what it takes to reach a wished one (balance_head_change, balance_length_change). Returns
// the gap; nothing is set then.
enum estimate_gap estimate_balance(const struct club *club, const struct plan *plan,
                                   const struct assembly *assembly, struct balance_club *ret_club,
                                   bool *ret_assumed);

// What cutting `tip_trim` off the tip instead of what `plan` says does to the frequency, the
// finished length staying as planned: positive is stiffer, in cpm. So minus the change for
// (tip_mark - correction) is what a correction buys. Ferrule and epoxy count as ASSEMBLY_DEFAULT.
// Gap PLAN when the shaft is too short for that.
struct estimate_value estimate_flex_change(const struct club *club, const struct plan *plan,
                                           length_nm tip_trim);

#endif

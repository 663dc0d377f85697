#ifndef BALANCE_H
#define BALANCE_H

// Static balance of a club on a straight line: every part is a point or a rod along the shaft's
// axis, measured from the butt end of the club, which is the outer face of the grip cap.
//
//   0 ........ grip cap ......................... grip cap + finished ....... + cg beyond
//   butt end   shaft's butt end                  shaft's end, ferrule, epoxy  head
//
// The grip counts at its balance point and the head at its centre of gravity. Pure functions in SI
// units unless a name says otherwise.

#include "length.h"

// Swingweight is the moment about a point 14 in from the butt end: the trade's definition.
#define BALANCE_FULCRUM (14 * LENGTH_INCH)

// 1 in oz of moment in kg m: 0.0254 m times the avoirdupois ounce, 0.028349523125 kg, both exact.
// 1 in oz is also 72.0077887375 g cm.
#define BALANCE_INCH_OUNCE 7.20077887375e-4
#define BALANCE_GRAM_CM 72.0077887375

// Mass per length of an uncut shaft, changing evenly from tip to butt.
struct balance_density {
    double tip;   // kg/m at the tip end
    double slope; // kg/m for each metre towards the butt
};

// The one straight line that has the shaft's weight and its balance point, `balance` from the tip
// end; even when that is not known (0 or LENGTH_UNKNOWN). False when length or weight is not known,
// or when the line would fall below zero somewhere: the balance point of a straight line lies
// within the middle third.
bool balance_spread(mass_mg weight, length_nm length, length_nm balance,
                    struct balance_density *ret_density);

struct balance_club {
    mass_mg head;
    mass_mg grip;
    mass_mg ferrule;
    mass_mg epoxy;
    length_nm cg_beyond;    // head's centre of gravity beyond the shaft's end: estimate_reach
    int64_t head_inertia;   // about its own centre of gravity, g cm2; 0 or unknown: left out
    length_nm grip_cap;     // thickness
    length_nm grip_balance; // from the butt end
    length_nm raw_length;   // of the uncut shaft
    length_nm tip_trim;     // what is cut off its tip
    length_nm finished;     // what is left of it, tip_trim + finished <= raw_length
    struct balance_density shaft;
};

struct balance_sum {
    double mass;    // kg
    double moment;  // mass times distance, about the butt end, kg m
    double inertia; // about the butt end, kg m2
};

// Sums up the club. Weights must be known.
struct balance_sum balance_add(const struct balance_club *club);

// Moment about the fulcrum in in oz.
double balance_swingweight(const struct balance_sum *sum);

// What the head must gain, in grams, for the club to have the wished swingweight (in oz). Exact
// under the model. False when the head would have nothing left, or lies within the 14 in.
bool balance_head_change(const struct balance_club *club, double wished, double *ret_grams);

// What the finished shaft must gain at its butt, in inches, head and tip staying as they are.
// Exact under the model. False when the shaft is too short for it, or less than 14 in would be
// left.
bool balance_length_change(const struct balance_club *club, double wished, double *ret_inches);

// The swingweight scale: ten points a letter, 1.75 in oz a point, D0 = 213.5 in oz, so A0 = 161
// and G9.9 = 283.325 (common practice, value from memory).
#define BALANCE_POINT 1.75
#define BALANCE_A0 161.0
#define BALANCE_SCALE_TEXT_MAX 8

enum balance_scale_error {
    BALANCE_SCALE_OK,
    BALANCE_SCALE_EMPTY,
    BALANCE_SCALE_LETTER,  // does not begin with A to G
    BALANCE_SCALE_POINTS,  // no digit after the letter, or ten points and more
    BALANCE_SCALE_DECIMALS // more than one decimal, or something after the points
};

// Reads `D2`, `d1.4`, blanks around; *ret_inch_ounces untouched on failure.
enum balance_scale_error balance_scale_parse(const char *text, double *ret_inch_ounces);
const char *balance_scale_error_text(enum balance_scale_error error);

// `D1.4`, `D2.0`, rounded to a tenth of a point; false and an empty text when off the scale.
bool balance_scale_text(double inch_ounces, char buffer[BALANCE_SCALE_TEXT_MAX]);

#endif

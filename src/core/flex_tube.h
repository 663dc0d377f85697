#ifndef FLEX_TUBE_H
#define FLEX_TUBE_H

// A steel shaft as a round tube: outer diameter constant over the parallel tip, then rising evenly
// to the butt; wall changing evenly from end to end. Steps are smoothed out. SI units.

#include <stdbool.h>

// Young's modulus of steel (common practice, value from memory).
#define FLEX_STEEL_MODULUS 200e9

struct flex_tube {
    double length;
    double parallel; // of the tip, 0 to below length
    double tip_diameter;
    double butt_diameter;
    double tip_wall;
    double butt_wall;
};

double flex_tube_diameter(const struct flex_tube *tube, double from_tip);
double flex_tube_area(const struct flex_tube *tube, double from_tip);

// Second moment of area, pi (D^4 - d^4) / 64.
double flex_tube_second_moment(const struct flex_tube *tube, double from_tip);

// Distance of the centre of gravity from the tip end.
double flex_tube_balance(const struct flex_tube *tube);

#endif

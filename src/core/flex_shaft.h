#ifndef FLEX_SHAFT_H
#define FLEX_SHAFT_H

// Bending stiffness EI(x) and mass m(x) of an uncut shaft, and the frequency of what is left of it
// after the cuts, clamped over the last 5 in of its butt, without grip.
//
// The stiffness comes from the first of these that is known:
//   1. the profile's points, straight between them;
//   2. steel with both diameters and both walls: a tube with E = 200 GPa;
//   3. both diameters and a measured raw frequency: EI in proportion to mass per length times
//      diameter squared, which is a thin wall of one material (area goes with the mass, radius of
//      gyration with the diameter; an assumption, good for graphite whose wall is not known).
// A measured raw frequency then scales it so that the uncut shaft computes to just that.
//
// The free beam runs to the shaft's end. The part glued into the hosel bends nearly nothing anyway:
// bending moment there is almost zero, and making 1 1/4 in of it rigid moves the frequency by less
// than 0.1 %. Shear is left out (see flex.h).

#include "balance.h"
#include "flex.h"
#include "flex_tube.h"
#include "parts.h"

#define FLEX_CLAMP (5 * LENGTH_INCH)

enum flex_shape { FLEX_SHAPE_POINTS, FLEX_SHAPE_TUBE, FLEX_SHAPE_EVEN_WALL };

// SI units; distances from the tip end of the uncut shaft.
struct flex_shaft {
    enum flex_shape shape;
    length_nm length;
    struct balance_density density;
    struct flex_tube tube; // EVEN_WALL uses its diameters only
    size_t count;          // POINTS
    struct flex_section_point {
        double at;
        double stiffness;
    } point[PROFILE_POINTS_MAX];
    double scale;
};

enum flex_known { FLEX_KNOWN, FLEX_NOT_KNOWN, FLEX_IMPLAUSIBLE };

// The best known balance point of the uncut shaft, from its tip end: measured; or the model's,
// moved in proportion to the measured length; or, of a steel tube, that of its dimensions.
// LENGTH_UNKNOWN when none is.
length_nm flex_shaft_balance(const struct shaft *shaft, const struct shaft_model *model);

// NOT_KNOWN when length, weight or stiffness is not known. IMPLAUSIBLE when the balance point is
// (balance_spread), when EI falls outside 1 to 500 N m2 somewhere, or a wall outside its tube.
enum flex_known flex_shaft_make(const struct shaft *shaft, const struct shaft_model *model,
                                const struct profile *profile, struct flex_shaft *ret_shaft);

struct flex_section flex_shaft_section(const struct flex_shaft *shaft, double from_tip);

// Cuts `tip_trim` off the tip and keeps `finished`, with `tip` at the new end. False when that is
// not within the shaft, or 5 in or less are left.
bool flex_shaft_frequency(const struct flex_shaft *shaft, length_nm tip_trim, length_nm finished,
                          const struct flex_tip *tip, double *ret_cpm);

#endif

#ifndef FLEX_H
#define FLEX_H

// Lowest frequency of a cantilever: an Euler-Bernoulli beam whose bending stiffness and mass vary
// along it, with a rigid body at its free end.
//
// Cubic Hermite elements with consistent mass (Cook, Malkus, Plesha, Witt, Concepts and
// Applications of Finite Element Analysis, ch. 11; value from memory); four Gauss points, so that
// stiffness up to the fourth power of a linear taper and mass up to a linear one are integrated
// exactly. Inverse iteration on the banded matrix finds the lowest mode, the only one it can
// converge to. The error falls with the fourth power of the element length. Shear and the rotary
// inertia of the beam itself are left out: for a shaft they are below 0.1 %. No allocation, same
// result every time, any thread. SI units.

#include <stdbool.h>
#include <stddef.h>

// Within 1e-5 of what 128 give on any shaft that tests know; 3e-4 (0.1 cpm) where the stiffness
// doubles between neighbouring points of a profile.
#define FLEX_ELEMENTS 24
#define FLEX_ELEMENTS_MAX 128
#define FLEX_BREAKS_MAX 32

struct flex_section {
    double stiffness; // EI, N m2, above 0
    double mass;      // kg/m, 0 and more
};

// What hangs at the free end.
struct flex_tip {
    double point;   // kg, right at the end
    double mass;    // kg, of the body
    double beyond;  // m, its centre of gravity beyond the end, along the axis
    double inertia; // kg m2, about that centre, across the plane of bending
};

struct flex_beam {
    double length; // m, from the clamp to the free end
    struct flex_section (*section)(const void *of, double from_clamp);
    const void *of;
    struct flex_tip tip;
    size_t break_count; // where the section changes abruptly or bends: elements end there
    double breaks[FLEX_BREAKS_MAX]; // m from the clamp, rising
};

// `elements` from 1 to FLEX_ELEMENTS_MAX, spread evenly; breaks add at most one each. The result
// is in cycles a minute. False when the beam has no length, no mass or no stiffness somewhere;
// *ret_cpm untouched then.
bool flex_frequency(const struct flex_beam *beam, int elements, double *ret_cpm);

#endif

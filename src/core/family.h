#ifndef FAMILY_H
#define FAMILY_H

// Whether a part that comes in is like the others of its model. What is further off than this is
// asked about before it is taken in: a slip of the scale or the tape, a wrong model on the box, or
// a part that is really so. Common practice, no source. Pure functions.

#include "length.h"

#define FAMILY_HEAD (6 * MASS_GRAM)     // this much or more off the catalogue's weight
#define FAMILY_LENGTH (LENGTH_INCH / 2) // this much or more off the catalogue's raw length
#define FAMILY_SHAFT_PERCENT 5          // more than this off the catalogue's weight

// Each is false when a figure is not known.
bool family_head_off(mass_mg weight, mass_mg catalogue);
bool family_length_off(length_nm length, length_nm catalogue);
bool family_shaft_off(mass_mg weight, mass_mg catalogue);

#endif

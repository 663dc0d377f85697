#ifndef TICKET_WRAP_H
#define TICKET_WRAP_H

// Labels that wrap a shaft. The code runs along the shaft, so the widths of bars and quiet zones
// are not foreshortened; only the bars' height bends around the tube.
//
// A point of the tube that lies at an angle A from the line of sight is foreshortened to cos A, and
// is lit the worse the larger A is. Up to 50 degrees both ways 0.64 of height and light are left;
// beyond, bars fade and end behind the edge. That arc is 2 x A x radius = 0.8727 x diameter:
// 0.292 in (7.4 mm) at 0.335 in, 0.524 in (13.3 mm) at 0.600 in. (Plain geometry; 50 degrees is our
// choice.) A QR code beside the bars is no higher than that either; but it bends, and around
// the thinnest shafts decoders miss it now and then: there the bars are what counts.

#include "length.h"

#define TICKET_WRAP_LEAST ((length_nm)8509000)      // 0.335 in, the thinnest tip
#define TICKET_WRAP_MOST (LENGTH_INCH * 600 / 1000) // thickest butt

// Most height of a code on a tube. A diameter that is not known, or thinner, counts as the
// thinnest; a thicker one as the thickest.
length_nm ticket_wrap_height(length_nm diameter);

// Once around the same tube: what is printed beyond it lies under the label's own end.
length_nm ticket_wrap_round(length_nm diameter);

#endif

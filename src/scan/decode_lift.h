#ifndef DECODE_LIFT_H
#define DECODE_LIFT_H

// A square cut out of a picture, turned upright, enlarged, made crisper, and unrolled as if it had
// been wound around a tube.

#include "frame.h"

#define DECODE_LIFT_MAX 640 // pixels a side of the result

struct decode_lift {
    double x; // its middle
    double y;
    double angle; // of its rows, radians
    double half;  // half its side, pixels of the picture
    int side;     // pixels of the result, at most DECODE_LIFT_MAX
    double crisp; // how much more is given back of what a blur would take away
    int reach;    // of that blur, pixels of the result
    // A point that is m halves away from the middle is seen m - lean * m * m - bend * m * m * m
    // halves away: around a tube of radius R, seen at an angle a, that is about m * cos(a) -
    // m * m * sin(a) / 2R - m * m * m / 6RR.
    double lean_x;
    double bend_x;
    double lean_y;
    double bend_y;
};

// The angle of the edges in a box of the picture, within 45 degrees of upright.
double decode_grain(const uint8_t *from, int width, int left, int top, int across, int down);

void decode_lift(const uint8_t *from, int width, int height, const struct decode_lift *lift,
                 uint8_t *to);

// Where a point of the result is seen in the picture.
void decode_lift_point(const struct decode_lift *lift, double column, double row, double *ret_x,
                       double *ret_y);

#endif

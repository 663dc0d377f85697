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

// Running sums over columns and rows of a square of at most DECODE_LIFT_MAX pixels a side, and of
// them the sum over the pixels up to `reach` each way of one, with how many those are.
#define DECODE_SUMS_MAX ((DECODE_LIFT_MAX + 1) * (DECODE_LIFT_MAX + 1))
void decode_sums(const uint8_t *pixels, int side, uint32_t *sums);
static inline uint32_t decode_sum_around(const uint32_t *sums, int side, int x, int y, int reach,
                                         uint32_t *ret_area) {
    int pitch = side + 1;
    int top = y - reach < 0 ? 0 : y - reach;
    int bottom = y + reach + 1 > side ? side : y + reach + 1;
    int left = x - reach < 0 ? 0 : x - reach;
    int right = x + reach + 1 > side ? side : x + reach + 1;
    *ret_area = (uint32_t)((bottom - top) * (right - left));
    return sums[bottom * pitch + right] - sums[bottom * pitch + left] - sums[top * pitch + right] +
           sums[top * pitch + left];
}

#endif

#ifndef DECODE_PREPARE_H
#define DECODE_PREPARE_H

// What is done to a picture before ZBar sees it. Sizes in pixels, rows packed.

#include "decode_find.h"

// [1 2 1] both ways: sensor noise in a quiet zone makes edges that are not there, this takes them
// away.
void decode_blur(const uint8_t *from, int width, int height, uint8_t *to);

// Half the size, odd last rows and columns left out: means of 2 x 2.
void decode_halve(const uint8_t *from, int width, int height, uint8_t *to);

// How bars are laid straight. A band is the mean of `height` lines of the picture along the bars;
// each row of the result is the median of `bands` of them. No line is in two rows: rows that agree
// are witnesses of their own.
struct decode_bands {
    int height;   // pixels
    int bands;    // 1 to DECODE_MEDIAN_MAX
    double crisp; // how much more is given back of what a blur would take away
    double reach; // of that blur, pixels
};
#define DECODE_MEDIAN_MAX 5
#define DECODE_ROWS_MAX 32
#define DECODE_ROW_MAX 2600 // columns
struct decode_straight {
    int rows;
    int width;
    double from; // of the first column, pixels along the line from the place's middle
    double step; // from column to column
    uint8_t pixels[DECODE_ROWS_MAX * DECODE_ROW_MAX];
};
void decode_straighten(const uint8_t *from, int width, int height, const struct decode_place *place,
                       const struct decode_bands *bands, struct decode_straight *ret_straight);

#endif

#ifndef DECODE_FIND_H
#define DECODE_FIND_H

// Where in a picture codes may be. Cells of 8 x 8 pixels tell how much the grey changes and in
// which direction (the structure tensor; Bigun and Granlund 1987); neighbours that change along
// one line, all the same, may be bars, neighbours that change in every direction a QR symbol.

#include "frame.h"

#define DECODE_CELL 8

struct decode_place {
    bool bars;
    double weight; // dearer first
    // Bars: their middle, the unit vector a line across them follows, the unit vector along them,
    // and how far they go each way from the middle.
    double x;
    double y;
    double line_x;
    double line_y;
    double bar_x;
    double bar_y;
    double line_from;
    double line_to;
    double bar_from;
    double bar_to;
    // Squares: the box around it, pixels, inside the picture.
    int left;
    int top;
    int width;
    int height;
};

#define DECODE_PLACES_MAX 12 // of each kind

struct decode_cell;
struct decode_find {
    struct decode_cell *cell;
    int *stack;
    size_t room; // cells both of them hold
    int across;
    int down;
    double floor; // what the sensor's noise alone makes of a cell
    size_t count;
    struct decode_place
        place[2 * DECODE_PLACES_MAX]; // best first of each kind, bars before squares
};

void decode_find_init(struct decode_find *find);
void decode_find_release(struct decode_find *find);

// Looks for places in a picture that is blurred a little. False on no memory.
bool decode_find_run(struct decode_find *find, const uint8_t *pixels, int width, int height);

#endif

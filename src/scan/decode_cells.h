#ifndef DECODE_CELLS_H
#define DECODE_CELLS_H

// What each cell of a picture looks like; private to decode_find.

#include "decode_find.h"

enum decode_cell_kind { DECODE_CELL_PLAIN, DECODE_CELL_BARS, DECODE_CELL_SQUARE };

struct decode_cell {
    int32_t xx; // sums over its pixels of what the grey changes across and down, multiplied
    int32_t yy;
    int32_t xy;
    enum decode_cell_kind kind;
    bool taken;
    float weight; // how strong it is
    float cos2;   // of twice the angle of the change, for bars
    float sin2;
};

// Fills find->cell and find->floor. False on no memory.
bool decode_cells_measure(struct decode_find *find, const uint8_t *pixels, int width, int height);

#endif

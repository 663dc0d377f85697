#ifndef DECODE_FINDER_H
#define DECODE_FINDER_H

// The finder patterns of QR symbols (ISO/IEC 18004, 6.3.3: dark, light, dark, light, dark in the
// proportion 1:1:3:1:1 across the middle, whichever way) in an upright picture.

#include "frame.h"

#include <stddef.h>

struct decode_finder {
    double x;
    double y;
    double module; // pixels
    int lines;     // that cross it so
};
#define DECODE_FINDERS_MAX 16

// Looks in a square picture of at most DECODE_LIFT_MAX pixels a side; returns how many.
size_t decode_finders(const uint8_t *pixels, int side, struct decode_finder *ret_finders);

// The symbol that three of them are the corners of.
struct decode_symbol {
    double x; // its middle
    double y;
    double angle; // of its rows, radians
    double module;
    double size; // modules a side
};
bool decode_symbol_of(const struct decode_finder *finders, size_t count,
                      struct decode_symbol *ret_symbol);

#endif

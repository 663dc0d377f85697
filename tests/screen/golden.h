#ifndef GOLDEN_H
#define GOLDEN_H

// Pictures kept in tests/golden. A channel may be off by a little (another version of the font
// library), a few pixels by much; beyond that the drawing has changed. Then NAME-now.png and
// NAME-diff.png (what differs in red over a pale copy) are left in the current folder.

#include "screen.h"

extern bool golden_update; // write the pictures instead of comparing

bool golden_same(struct screen *screen, const char *name);

#endif

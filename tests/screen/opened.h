#ifndef OPENED_H
#define OPENED_H

#include "screen.h"

// A window that nobody sees, with the fonts of the source tree; the test fails when it cannot be.
struct screen *opened_screen(struct screen_options options);

#endif

#ifndef BENCH_SCREEN_H
#define BENCH_SCREEN_H

// From the bench's settings to the window's.

#include "bench_settings.h"

// Without assets, size and sounds.
struct screen_options bench_screen_options(const struct bench_settings *settings);

// Says on `to` when the screen is too small for the distance it is read from. Width and height in
// pixels: only their shape matters.
void bench_screen_far(const struct bench_settings *settings, int width, int height, FILE *to);

#endif

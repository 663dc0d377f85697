#ifndef BENCH_SCALE_H
#define BENCH_SCALE_H

// The scale, if the settings name one: a thread that wakes the screen.

#include "bench.h"
#include "scale_device.h"

struct bench_scale {
    struct bench *bench;
    struct scale_device *device; // NULL: none
};

// False when its thread cannot be started.
bool bench_scale_start(struct bench_scale *scale, struct bench *bench);
void bench_scale_stop(struct bench_scale *scale);

// All that has come in.
void bench_scale_take(struct bench_scale *scale);

// A reading: kept as the newest of the bench, told to the station when the weight is another, and
// shown while scanners are checked.
void bench_scale_reading(struct bench *bench, const struct scale_reading *reading);

#endif

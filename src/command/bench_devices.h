#ifndef BENCH_DEVICES_H
#define BENCH_DEVICES_H

// The scanner's and the button's own devices, if the settings name them, and the signals that end
// the program. Each is a thread that wakes the screen.

#include "bench.h"
#include "evdev.h"

struct bench_devices {
    struct bench *bench;
    struct evdev *scanner;
    struct evdev *button;
};

// False and a complaint on stderr when a thread cannot be started.
bool bench_devices_start(struct bench_devices *devices, struct bench *bench);
void bench_devices_stop(struct bench_devices *devices);

// All that has come in.
void bench_devices_take(struct bench_devices *devices);

#endif

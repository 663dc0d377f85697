#ifndef BENCH_DEVICES_H
#define BENCH_DEVICES_H

// The scanners, the button and the scale that have devices of their own, if the settings name them.
// Each is a thread that wakes the screen. The station's scanner is gone when none of those named is
// there.

#include "bench_scale.h"
#include "evdev.h"
#include "serial.h"

struct bench_devices {
    struct bench *bench;
    struct evdev *scanner[BENCH_SCANNERS_MAX];
    struct serial *serial[BENCH_SERIALS_MAX];
    struct evdev *button;
    struct bench_scale scale;
    bool there[BENCH_SCANNERS_MAX + BENCH_SERIALS_MAX]; // scanners, then serial ones
    bool any;                                           // what the station has been told
};

// False and a complaint on stderr when a thread cannot be started.
bool bench_devices_start(struct bench_devices *devices, struct bench *bench);
void bench_devices_stop(struct bench_devices *devices);

// All that has come in.
void bench_devices_take(struct bench_devices *devices);

#endif

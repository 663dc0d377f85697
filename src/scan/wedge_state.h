#ifndef WEDGE_STATE_H
#define WEDGE_STATE_H

// Private to wedge.c; complete so that it can live on the stack.

#include "wedge_trace.h"

struct wedge {
    struct wedge_settings settings;
    unsigned held;          // modifier keys that are down, a bit each
    struct strokes pending; // not yet known to be a burst, or a burst going on
    bool burst;             // pending is a burst
    int64_t first_us;       // of the oldest stroke in pending
    int64_t last_us;        // of the newest one, or ALT code
    struct strokes line;    // typed by hand since the last Enter
    size_t line_run;        // strokes of it before the last silence
    int64_t line_us;        // of its newest stroke
    char typed[WEDGE_TEXT_MAX];
    int alt_digits; // keypad digits since Alt went down
    int alt_codes;  // characters sent as Alt and a number, since the last silence
    struct wedge_recorder recorder;
};

#endif

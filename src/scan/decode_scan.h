#ifndef DECODE_SCAN_H
#define DECODE_SCAN_H

// ZBar, and nothing but ZBar: one grey picture to the symbols it sees. The only file that knows it.

#include "frame.h"

enum decode_scan_kind {
    DECODE_SCAN_BARS,    // Code 128 and EAN-13, along rows only
    DECODE_SCAN_SQUARES, // QR
    DECODE_SCAN_ALL,     // all of them, along rows and columns
    DECODE_SCAN_KIND_COUNT
};

struct decode_scan {
    void *scanner[DECODE_SCAN_KIND_COUNT];
    int used[DECODE_SCAN_KIND_COUNT];
};

// What one picture shows; corners in that picture, for bars as far as ZBar knows them: the box
// around the ends of the lines that were read.
struct decode_found {
    size_t count;
    struct code code[FRAME_CODES_MAX];
};

bool decode_scan_init(struct decode_scan *scan); // false on no memory
void decode_scan_release(struct decode_scan *scan);
void decode_scan_run(struct decode_scan *scan, enum decode_scan_kind kind, const uint8_t *pixels,
                     int width, int height, struct decode_found *ret_found);

#endif

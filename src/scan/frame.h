#ifndef FRAME_H
#define FRAME_H

// One grey picture of a camera or a file, and the codes found in it.

#include "wedge.h"

// Pictures larger than this are refused, whoever sends them.
#define FRAME_SIDE_MAX 4096

struct frame {
    int width;       // 1 to FRAME_SIDE_MAX
    int height;      // 1 to FRAME_SIDE_MAX
    uint8_t *pixels; // width * height, row after row, 0 black to 255 white; the owner frees
    int64_t time_us; // CLOCK_MONOTONIC when it was taken
};

// The symbologies in use: tickets are Code 128 or QR, suppliers' codes EAN-13 (UPC-A as 13 digits).
enum code_symbology { CODE_128, CODE_QR, CODE_EAN13, CODE_SYMBOLOGY_COUNT };
const char *code_symbology_text(enum code_symbology symbology); // "Code 128", "QR", "EAN-13"

struct code_point {
    int x;
    int y;
};

struct code {
    enum code_symbology symbology;
    int quality;                 // scan lines that agree, at least 1
    struct code_point corner[4]; // around it, in the frame
    char text[WEDGE_TEXT_MAX];   // printable ASCII
};

#define FRAME_CODES_MAX 8

#endif

#ifndef BENCH_PREVIEW_H
#define BENCH_PREVIEW_H

// What the camera sees, small enough for a corner of the screen, and where in it a code was found.

#include "frame.h"
#include "view.h"

#define BENCH_PREVIEW_WIDTH 320
#define BENCH_PREVIEW_HEIGHT 240

struct bench_preview {
    int width; // 0: nothing to show
    int height;
    int shrunk; // dots of the frame to one of these, each way
    uint8_t pixels[BENCH_PREVIEW_WIDTH * BENCH_PREVIEW_HEIGHT];
    bool found;
    struct code_point corner[4];
};

// Each dot is the mean of a square of the frame; what is left over at the edges is cut off.
void bench_preview_frame(struct bench_preview *preview, const struct frame *frame);
// Outlines a code found in a frame of the same size, until bench_preview_lost.
void bench_preview_found(struct bench_preview *preview, const struct code *code);
void bench_preview_lost(struct bench_preview *preview);
// For the screen, which borrows the pixels.
void bench_preview_show(const struct bench_preview *preview, struct view_preview *ret_view);

#endif

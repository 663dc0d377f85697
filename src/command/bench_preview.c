#include "bench_preview.h"

static int smaller(int a, int b) {
    return a < b ? a : b;
}

static int larger(int a, int b) {
    return a > b ? a : b;
}

static uint8_t mean(const struct frame *frame, int left, int top, int side) {
    int right = smaller(left + side, frame->width);
    int bottom = smaller(top + side, frame->height);
    unsigned sum = 0;
    for (int y = top; y < bottom; y++) {
        for (int x = left; x < right; x++) {
            sum += frame->pixels[(size_t)y * (size_t)frame->width + (size_t)x];
        }
    }
    return (uint8_t)(sum / (unsigned)((right - left) * (bottom - top)));
}

void bench_preview_frame(struct bench_preview *preview, const struct frame *frame) {
    int across = (frame->width + BENCH_PREVIEW_WIDTH - 1) / BENCH_PREVIEW_WIDTH;
    int down = (frame->height + BENCH_PREVIEW_HEIGHT - 1) / BENCH_PREVIEW_HEIGHT;
    int side = larger(across, down);
    preview->shrunk = side;
    preview->width = larger(frame->width / side, 1);
    preview->height = larger(frame->height / side, 1);
    for (int y = 0; y < preview->height; y++) {
        for (int x = 0; x < preview->width; x++) {
            preview->pixels[y * preview->width + x] = mean(frame, x * side, y * side, side);
        }
    }
}

void bench_preview_found(struct bench_preview *preview, const struct code *code) {
    for (int i = 0; i < 4 && preview->width > 0; i++) {
        preview->corner[i] = (struct code_point){
            .x = larger(0, smaller(code->corner[i].x / preview->shrunk, preview->width - 1)),
            .y = larger(0, smaller(code->corner[i].y / preview->shrunk, preview->height - 1))};
    }
    preview->found = preview->width > 0;
}

void bench_preview_lost(struct bench_preview *preview) {
    preview->found = false;
}

void bench_preview_show(const struct bench_preview *preview, struct view_preview *ret_view) {
    *ret_view = (struct view_preview){.width = preview->width,
                                      .height = preview->height,
                                      .pixels = preview->pixels,
                                      .found = preview->found};
    for (int i = 0; i < 4; i++) {
        ret_view->corner[i].x = preview->corner[i].x;
        ret_view->corner[i].y = preview->corner[i].y;
    }
}

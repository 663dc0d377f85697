#include "decode_prepare.h"

#include <string.h>

// Columns in the middle of one row, `up` and `down` its neighbours.
static void blur_row(const uint8_t *up, const uint8_t *row, const uint8_t *down, int width,
                     uint8_t *to) {
    static _Thread_local uint16_t sum[FRAME_SIDE_MAX];
    for (int x = 0; x < width; x++) {
        sum[x] = (uint16_t)(up[x] + 2 * row[x] + down[x]);
    }
    for (int x = 1; x < width - 1; x++) {
        to[x] = (uint8_t)((sum[x - 1] + 2 * sum[x] + sum[x + 1] + 8) >> 4);
    }
    int last = width - 1;
    to[0] = (uint8_t)((3 * sum[0] + sum[last > 0 ? 1 : 0] + 8) >> 4);
    to[last] = (uint8_t)((3 * sum[last] + sum[last > 0 ? last - 1 : 0] + 8) >> 4);
}

void decode_blur(const uint8_t *from, int width, int height, uint8_t *to) {
    for (int y = 0; y < height; y++) {
        const uint8_t *row = from + (size_t)y * (size_t)width;
        blur_row(y > 0 ? row - width : row, row, y + 1 < height ? row + width : row, width,
                 to + (size_t)y * (size_t)width);
    }
}

void decode_halve(const uint8_t *from, int width, int height, uint8_t *to) {
    for (int y = 0; y < height / 2; y++) {
        const uint8_t *row = from + (size_t)(2 * y) * (size_t)width;
        const uint8_t *next = row + width;
        for (int x = 0; x < width / 2; x++) {
            *to++ =
                (uint8_t)((row[2 * x] + row[2 * x + 1] + next[2 * x] + next[2 * x + 1] + 2) >> 2);
        }
    }
}

void decode_cut(const uint8_t *from, int width, const struct decode_box *box, uint8_t *to) {
    for (int y = 0; y < box->height; y++) {
        memcpy(to + (size_t)y * (size_t)box->width,
               from + (size_t)(box->top + y) * (size_t)width + box->left, (size_t)box->width);
    }
}

static void grey_range(const uint8_t *from, int width, const struct decode_box *box, int *ret_low,
                       int *ret_high) {
    int low = 255;
    int high = 0;
    for (int y = 0; y < box->height; y++) {
        const uint8_t *row = from + (size_t)(box->top + y) * (size_t)width + box->left;
        for (int x = 0; x < box->width; x++) {
            low = row[x] < low ? row[x] : low;
            high = row[x] > high ? row[x] : high;
        }
    }
    *ret_low = low;
    *ret_high = high > low ? high : low + 1;
}

static int inside(int at, int count) {
    return at < 0 ? 0 : at >= count ? count - 1 : at;
}

// One output pixel: bilinear at quarter positions, plus three times what it differs by from the
// mean of the eight pixels around, two away.
void decode_enlarge(const uint8_t *from, int width, const struct decode_box *box, uint8_t *to) {
    int low;
    int high;
    const uint8_t *corner = from + (size_t)box->top * (size_t)width + box->left;
    grey_range(from, width, box, &low, &high);
    for (int y = 0; y < 2 * box->height; y++) {
        const uint8_t *rows[4]; // two away, the nearer, the farther, two away
        int near = y / 2;
        int far = inside(near + (y % 2 == 1 ? 1 : -1), box->height);
        rows[0] = corner + (ptrdiff_t)inside(near - 2, box->height) * width;
        rows[1] = corner + (ptrdiff_t)near * width;
        rows[2] = corner + (ptrdiff_t)far * width;
        rows[3] = corner + (ptrdiff_t)inside(near + 2, box->height) * width;
        for (int x = 0; x < 2 * box->width; x++) {
            int here = x / 2;
            int beside = inside(here + (x % 2 == 1 ? 1 : -1), box->width);
            int before = inside(here - 2, box->width);
            int behind = inside(here + 2, box->width);
            int value = 9 * rows[1][here] + 3 * rows[1][beside] + 3 * rows[2][here] +
                        rows[2][beside]; // of 16
            int around = rows[0][before] + rows[0][here] + rows[0][behind] + rows[1][before] +
                         rows[1][behind] + rows[3][before] + rows[3][here] + rows[3][behind];
            int crisp = 4 * value - 6 * around; // of 16
            int grey = (crisp - 16 * low) * 255 / (16 * (high - low));
            *to++ = (uint8_t)(grey < 0 ? 0 : grey > 255 ? 255 : grey);
        }
    }
}

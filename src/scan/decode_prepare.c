#include "decode_prepare.h"

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

#include "decode_lift.h"

#include <math.h>
#include <string.h>

#define ONE 65536 // of a pixel

// Edges of a square at four times their angle all point the same way.
double decode_grain(const uint8_t *from, int width, int left, int top, int across, int down) {
    double cos4 = 0;
    double sin4 = 0;
    for (int y = top + 1; y < top + down - 1; y++) {
        const uint8_t *row = from + (size_t)y * (size_t)width;
        for (int x = left + 1; x < left + across - 1; x++) {
            float gx = (float)(row[x + 1] - row[x - 1]);
            float gy = (float)(row[x + width] - row[x - width]);
            float both = gx * gx + gy * gy;
            if (both > 0) {
                float cos2 = gx * gx - gy * gy;
                float sin2 = 2 * gx * gy;
                cos4 += (double)((cos2 * cos2 - sin2 * sin2) / both);
                sin4 += (double)(2 * cos2 * sin2 / both);
            }
        }
    }
    return atan2(sin4, cos4) / 4;
}

static int32_t within(int32_t at, int count) {
    int32_t most = (count - 1) * ONE - 1;
    return at < 0 ? 0 : at > most ? most : at;
}

// Sums of two of them fit.
static int32_t fixed(double value) {
    return (int32_t)lrint(fmax(-8192, fmin(8192, value)) * ONE);
}

// Where a column, or row, is seen, pixels of the picture from the middle.
static double seen(const struct decode_lift *lift, double at, double lean, double bend) {
    double m = (2 * at + 1) / lift->side - 1;
    return lift->half * (m - lean * m * m - bend * m * m * m);
}

void decode_lift_point(const struct decode_lift *lift, double column, double row, double *ret_x,
                       double *ret_y) {
    double across = seen(lift, column, lift->lean_x, lift->bend_x);
    double down = seen(lift, row, lift->lean_y, lift->bend_y);
    *ret_x = lift->x + cos(lift->angle) * across - sin(lift->angle) * down;
    *ret_y = lift->y + sin(lift->angle) * across + cos(lift->angle) * down;
}

static void sample(const uint8_t *from, int width, int height, const struct decode_lift *lift,
                   uint8_t *to) {
    static _Thread_local int32_t across_x[DECODE_LIFT_MAX];
    static _Thread_local int32_t across_y[DECODE_LIFT_MAX];
    double c = cos(lift->angle);
    double s = sin(lift->angle);
    for (int column = 0; column < lift->side; column++) {
        double across = seen(lift, column, lift->lean_x, lift->bend_x);
        across_x[column] = fixed(c * across);
        across_y[column] = fixed(s * across);
    }
    for (int row = 0; row < lift->side; row++) {
        double down = seen(lift, row, lift->lean_y, lift->bend_y);
        int32_t down_x = fixed(lift->x - s * down);
        int32_t down_y = fixed(lift->y + c * down);
        for (int column = 0; column < lift->side; column++) {
            int32_t x = within(across_x[column] + down_x, width);
            int32_t y = within(across_y[column] + down_y, height);
            const uint8_t *p = from + (ptrdiff_t)(y >> 16) * width + (x >> 16);
            int32_t fx = (x & (ONE - 1)) >> 8;
            int32_t fy = (y & (ONE - 1)) >> 8;
            int32_t top = p[0] * (256 - fx) + p[1] * fx;
            int32_t bottom = p[width] * (256 - fx) + p[width + 1] * fx;
            *to++ = (uint8_t)((top * (256 - fy) + bottom * fy) >> 16);
        }
    }
}

void decode_sums(const uint8_t *pixels, int side, uint32_t *sums) {
    int pitch = side + 1;
    memset(sums, 0, (size_t)pitch * sizeof sums[0]);
    for (int y = 0; y < side; y++) {
        uint32_t sum = 0;
        sums[(y + 1) * pitch] = 0;
        for (int x = 0; x < side; x++) {
            sum += pixels[y * side + x];
            sums[(y + 1) * pitch + x + 1] = sums[y * pitch + x + 1] + sum;
        }
    }
}

static void make_crisp(uint8_t *pixels, int side, int reach, double crisp) {
    static _Thread_local uint32_t sums[DECODE_SUMS_MAX];
    decode_sums(pixels, side, sums);
    for (int y = 0; y < side; y++) {
        for (int x = 0; x < side; x++) {
            uint32_t area;
            uint32_t sum = decode_sum_around(sums, side, x, y, reach, &area);
            double grey = pixels[y * side + x];
            grey += crisp * (grey - (double)sum / area);
            pixels[y * side + x] = (uint8_t)(grey < 0 ? 0 : grey > 255 ? 255 : grey + 0.5);
        }
    }
}

void decode_lift(const uint8_t *from, int width, int height, const struct decode_lift *lift,
                 uint8_t *to) {
    sample(from, width, height, lift, to);
    if (lift->crisp > 0) {
        make_crisp(to, lift->side, lift->reach, lift->crisp);
    }
}

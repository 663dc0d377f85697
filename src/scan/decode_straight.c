#include "decode_prepare.h"

#include <math.h>
#include <string.h>

#define ONE 65536 // of a pixel

struct ray {
    int32_t x; // in ONE
    int32_t y;
    int32_t step_x;
    int32_t step_y;
};

static int32_t fixed(double value) {
    return (int32_t)lrint(value * ONE);
}

static int32_t within(int32_t at, int count) {
    int32_t most = (count - 1) * ONE - 1;
    return at < 0 ? 0 : at > most ? most : at;
}

struct picture_part {
    const uint8_t *pixels;
    int width;
    int height;
};

// Adds one line of the picture to the sums; beyond the picture its edge goes on.
static void add_line(const uint8_t *from, int width, int height, struct ray ray, float *sum,
                     int count) {
    for (int i = 0; i < count; i++, ray.x += ray.step_x, ray.y += ray.step_y) {
        int32_t x = within(ray.x, width);
        int32_t y = within(ray.y, height);
        const uint8_t *p = from + (ptrdiff_t)(y >> 16) * width + (x >> 16);
        int32_t fx = (x & (ONE - 1)) >> 8;
        int32_t fy = (y & (ONE - 1)) >> 8;
        int32_t top = p[0] * (256 - fx) + p[1] * fx;
        int32_t bottom = p[width] * (256 - fx) + p[width + 1] * fx;
        sum[i] += (float)(top * (256 - fy) + bottom * fy);
    }
}

// Gives back doubly what a running mean over 2 * reach + 1 columns takes away.
static void make_crisp(float *row, int count, int reach, float crisp) {
    static _Thread_local float mean[DECODE_ROW_MAX];
    float sum = 0;
    for (int i = -reach; i <= reach; i++) {
        sum += row[i < 0 ? 0 : i < count ? i : count - 1];
    }
    for (int i = 0; i < count; i++) {
        int out = i - reach < 0 ? 0 : i - reach;
        int in = i + reach + 1 < count ? i + reach + 1 : count - 1;
        mean[i] = sum / (float)(2 * reach + 1);
        sum += row[in] - row[out];
    }
    for (int i = 0; i < count; i++) {
        row[i] += crisp * (row[i] - mean[i]);
    }
}

// To the whole range of grey; what crispness drove beyond what was there is cut off.
static void stretch(const float *row, int count, float low, float high, uint8_t *to) {
    float scale = high > low ? 255 / (high - low) : 0;
    for (int i = 0; i < count; i++) {
        float grey = (row[i] - low) * scale;
        to[i] = (uint8_t)(grey < 0 ? 0 : grey > 255 ? 255 : grey + 0.5f);
    }
}

static void finish_row(float *row, int count, const struct decode_bands *bands, double step,
                       uint8_t *to) {
    float low = row[0];
    float high = row[0];
    for (int i = 1; i < count; i++) {
        low = row[i] < low ? row[i] : low;
        high = row[i] > high ? row[i] : high;
    }
    if (bands->crisp > 0) {
        make_crisp(row, count, (int)lrint(bands->reach / step), (float)bands->crisp);
    }
    stretch(row, count, low, high, to);
}

// The mean of the lines from `bar` on, each a pixel further along the bars.
static void mean_of(const struct picture_part *part, const struct decode_place *place,
                    const struct decode_straight *straight, double bar, int lines, float *band) {
    memset(band, 0, (size_t)straight->width * sizeof band[0]);
    for (int i = 0; i < lines; i++) {
        double at = bar + i;
        struct ray ray = {fixed(place->x + straight->from * place->line_x + at * place->bar_x),
                          fixed(place->y + straight->from * place->line_y + at * place->bar_y),
                          fixed(straight->step * place->line_x),
                          fixed(straight->step * place->line_y)};
        add_line(part->pixels, part->width, part->height, ray, band, straight->width);
    }
}

// The median of each column over `count` bands goes to the first.
static void median_of(float bands[][DECODE_ROW_MAX], int count, int width) {
    for (int x = 0; x < width && count > 1; x++) {
        float sorted[DECODE_MEDIAN_MAX] = {0};
        for (int i = 0; i < count; i++) {
            int at = i;
            for (; at > 0 && sorted[at - 1] > bands[i][x]; at--) {
                sorted[at] = sorted[at - 1];
            }
            sorted[at] = bands[i][x];
        }
        bands[0][x] = sorted[count / 2];
    }
}

void decode_straighten(const uint8_t *from, int width, int height, const struct decode_place *place,
                       const struct decode_bands *way, struct decode_straight *ret) {
    static _Thread_local float bands[DECODE_MEDIAN_MAX][DECODE_ROW_MAX];
    const struct picture_part part = {from, width, height};
    double length = place->line_to - place->line_from;
    double quiet = 16 + 0.1 * length; // ten modules of a short ticket's hundred
    double tall = place->bar_to - place->bar_from;
    int rows = (int)(tall / (way->height * way->bands));
    double pitch;
    rows = rows < 1 ? 1 : rows > DECODE_ROWS_MAX ? DECODE_ROWS_MAX : rows;
    pitch = tall / (rows * way->bands);
    ret->step = fmax(0.5, (length + 2 * quiet) / (DECODE_ROW_MAX - 1));
    ret->from = place->line_from - quiet;
    ret->rows = rows;
    ret->width = (int)((length + 2 * quiet) / ret->step);
    for (int row = 0; row < rows; row++) {
        for (int i = 0; i < way->bands; i++) {
            double middle = place->bar_from + pitch * (row * way->bands + i + 0.5);
            mean_of(&part, place, ret, middle - (way->height - 1) / 2.0, way->height, bands[i]);
        }
        median_of(bands, way->bands, ret->width);
        finish_row(bands[0], ret->width, way, ret->step,
                   ret->pixels + (size_t)row * (size_t)ret->width);
    }
}

#include "decode_inner.h"

#include <math.h>
#include <stdlib.h>

// The shortest ticket's bars have 44 edges; a code out of focus shows but some of them. Grain and
// rulers show many, always as far from one dark edge to the next.
#define EDGES_LEAST 24
#define EDGES_MAX 1024
#define SWING 24       // grey levels either side of the middle that make an edge
#define ALIKE_MOST 0.7 // share of the steps within a tenth of the usual one

// Longer ones are wide enough to be read in half the frame, at a quarter of the cost.
#define LONGEST 1100

#define WAYS_ALWAYS 2  // of laying a place straight, whatever the budget
#define WAYS_SMALLER 2 // of them in a smaller picture

static struct code_point lay(const struct decode_place *place, double line, double bar, int scale) {
    return (struct code_point){
        .x = (int)lrint(scale * (place->x + line * place->line_x + bar * place->bar_x)),
        .y = (int)lrint(scale * (place->y + line * place->line_y + bar * place->bar_y))};
}

// ZBar tells where the lines it read end: those of the rows it went to the right on the right, the
// others on the left. Where there are such rows, the bars are.
static void lay_bars(const struct decoder *d, const struct decode_place *place, int scale,
                     struct code *code) {
    double from = d->straight.from + d->straight.step * code->corner[0].x;
    double to = d->straight.from + d->straight.step * code->corner[2].x;
    double row = (place->bar_to - place->bar_from) / d->straight.rows;
    double top = place->bar_from + row * code->corner[0].y;
    double bottom = place->bar_from + row * (code->corner[2].y + 1);
    if (to - from < (place->line_to - place->line_from) / 4) { // one row, or all the same way
        from = place->line_from;
        to = place->line_to;
    }
    code->corner[0] = lay(place, from, top, scale);
    code->corner[1] = lay(place, to, top, scale);
    code->corner[2] = lay(place, to, bottom, scale);
    code->corner[3] = lay(place, from, bottom, scale);
}

static int by_size(const void *a, const void *b) {
    return *(const int *)a - *(const int *)b;
}

// Steps from each edge of a row to the next but one; returns how many.
static int measure_steps(const uint8_t *row, int width, int *steps) {
    bool dark = row[0] < 128;
    int last[2] = {-1, -1};
    int count = 0;
    for (int x = 0; x < width && count < EDGES_MAX; x++) {
        if (dark ? row[x] > 128 + SWING : row[x] < 128 - SWING) {
            dark = !dark;
            if (last[0] >= 0) {
                steps[count++] = x - last[0];
            }
            last[0] = last[1];
            last[1] = x;
        }
    }
    return count;
}

static bool row_may_be_bars(const uint8_t *row, int width) {
    int steps[EDGES_MAX];
    int count = measure_steps(row, width, steps);
    int alike = 0;
    if (count < EDGES_LEAST) {
        return false;
    }
    qsort(steps, (size_t)count, sizeof steps[0], by_size);
    for (int i = 0; i < count; i++) {
        alike += 10 * abs(steps[i] - steps[count / 2]) <= steps[count / 2];
    }
    return alike <= ALIKE_MOST * count;
}

static bool may_be_bars(const struct decode_straight *straight) {
    for (int i = 0; i < straight->rows; i++) {
        if (row_may_be_bars(straight->pixels + (size_t)i * (size_t)straight->width,
                            straight->width)) {
            return true;
        }
    }
    return false;
}

// Reads what was laid straight. True when a code is sure.
static bool read_straight(struct decoder *d, const struct decode_level *level,
                          const struct decode_place *place) {
    struct decode_found found;
    bool sure = false;
    decode_scan_run(&d->scan, DECODE_SCAN_BARS, d->straight.pixels, d->straight.width,
                    d->straight.rows, &found);
    for (size_t i = 0; i < found.count; i++) {
        sure = sure || found.code[i].quality >= DECODE_SURE_ROWS;
        lay_bars(d, place, level->scale, &found.code[i]);
        decode_keep(d, &found.code[i]);
    }
    return sure;
}

void decode_bars(struct decoder *d, const struct decode_level *level,
                 const struct decode_place *place) {
    double tall = place->bar_to - place->bar_from;
    int height = tall < 16 ? 2 : tall < 64 ? (int)(tall / 8) : 8;
    int half = height > 4 ? height / 2 : 2;
    const struct decode_bands ways[] = {
        {.height = height, .bands = 1, .crisp = 2, .reach = 2},
        {.height = height, .bands = 1},
        {.height = height, .bands = 1, .crisp = 4, .reach = 3},
        {.height = 2, .bands = 1},
        {.height = half, .bands = 3},
        {.height = half, .bands = 5},
    };
    // What the frame itself does not show well is large and at its best in the first ways.
    size_t most = level->scale == 1 ? sizeof ways / sizeof ways[0] : WAYS_SMALLER;
    if (level->scale == 1 && place->line_to - place->line_from > LONGEST) {
        return;
    }
    for (size_t i = 0; i < most; i++) {
        if (i >= WAYS_ALWAYS && !decode_in_time(d, 0)) {
            return;
        }
        decode_straighten(level->soft, level->width, level->height, place, &ways[i], &d->straight);
        if ((i == 0 && !may_be_bars(&d->straight)) || read_straight(d, level, place)) {
            return;
        }
    }
}

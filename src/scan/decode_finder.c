#include "decode_finder.h"

#include "decode_lift.h"

#include <math.h>
#include <string.h>

#define LINE_STEP 2
#define WINDOW 24  // pixels each way whose mean parts dark from light
#define CONTRAST 4 // grey levels below that mean a pixel is dark
#define OFF 0.65   // modules a bar may be wider or narrower
#define LINES_LEAST 2

struct dark {
    const uint8_t *pixels; // 1: dark
    int side;
};

static void part(const uint8_t *pixels, int side, uint8_t *dark) {
    static _Thread_local uint32_t sums[DECODE_SUMS_MAX];
    decode_sums(pixels, side, sums);
    for (int y = 0; y < side; y++) {
        for (int x = 0; x < side; x++) {
            uint32_t area;
            uint32_t sum = decode_sum_around(sums, side, x, y, WINDOW, &area);
            dark[y * side + x] = (pixels[y * side + x] + CONTRAST) * area < sum;
        }
    }
}

static bool proportions(const int *run, double *ret_module) {
    static const int modules[] = {1, 1, 3, 1, 1};
    double module = (run[0] + run[1] + run[2] + run[3] + run[4]) / 7.0;
    for (int i = 0; i < 5; i++) {
        if (fabs(run[i] - modules[i] * module) > OFF * module) {
            return false;
        }
    }
    *ret_module = module;
    return module >= 2;
}

// How far from (x, y) up or down the column is as at its beginning; 0 outside the picture.
static int run_on(const struct dark *d, int x, int y, int step, bool dark) {
    int length = 0;
    while (y >= 0 && y < d->side && (d->pixels[y * d->side + x] != 0) == dark) {
        length++;
        y += step;
    }
    return length;
}

// The five runs along a column, (x, y) in the middle one. Its middle goes to *ret_y.
static bool column_fits(const struct dark *d, int x, int y, double across, double *ret_y) {
    int run[5];
    int up = run_on(d, x, y, -1, true);
    int down = run_on(d, x, y + 1, 1, true);
    double module;
    run[2] = up + down;
    run[1] = run_on(d, x, y - up, -1, false);
    run[0] = run_on(d, x, y - up - run[1], -1, true);
    run[3] = run_on(d, x, y + 1 + down, 1, false);
    run[4] = run_on(d, x, y + 1 + down + run[3], 1, true);
    if (!proportions(run, &module) || module > 1.7 * across || across > 1.7 * module) {
        return false;
    }
    *ret_y = y + 0.5 + (down - up + 1) / 2.0;
    return true;
}

struct list {
    struct decode_finder *finder;
    size_t count;
};

static void add(struct list *list, double x, double y, double module) {
    for (size_t i = 0; i < list->count; i++) {
        struct decode_finder *f = &list->finder[i];
        if (hypot(f->x - x, f->y - y) < 3 * module) {
            f->x += (x - f->x) / (f->lines + 1);
            f->y += (y - f->y) / (f->lines + 1);
            f->module += (module - f->module) / (f->lines + 1);
            f->lines++;
            return;
        }
    }
    if (list->count < DECODE_FINDERS_MAX) {
        list->finder[list->count++] = (struct decode_finder){x, y, module, 1};
    }
}

static void look_along(const struct dark *d, int y, struct list *list) {
    const uint8_t *row = d->pixels + (size_t)y * (size_t)d->side;
    int run[5] = {0};
    for (int x = 0, start = 0; x < d->side; start = x) {
        double module;
        double middle;
        while (x < d->side && row[x] == row[start]) {
            x++;
        }
        memmove(run, run + 1, 4 * sizeof run[0]);
        run[4] = x - start;
        if (row[start] != 0 && run[0] > 0 && proportions(run, &module)) {
            double across = x - run[4] - run[3] - run[2] / 2.0;
            if (column_fits(d, (int)across, y, module, &middle)) {
                add(list, across, middle, module);
            }
        }
    }
}

size_t decode_finders(const uint8_t *pixels, int side, struct decode_finder *ret_finders) {
    static _Thread_local uint8_t dark[DECODE_LIFT_MAX * DECODE_LIFT_MAX];
    const struct dark d = {dark, side};
    struct list list = {.finder = ret_finders};
    size_t kept = 0;
    part(pixels, side, dark);
    for (int y = 0; y < side; y += LINE_STEP) {
        look_along(&d, y, &list);
    }
    for (size_t i = 0; i < list.count; i++) {
        if (ret_finders[i].lines >= LINES_LEAST) {
            ret_finders[kept++] = ret_finders[i];
        }
    }
    return kept;
}

// How far three finders are from the corners of a symbol, `corner` at its right angle; 0 is right.
static double misfit(const struct decode_finder *corner, const struct decode_finder *a,
                     const struct decode_finder *b) {
    double ax = a->x - corner->x;
    double ay = a->y - corner->y;
    double bx = b->x - corner->x;
    double by = b->y - corner->y;
    double along = hypot(ax, ay);
    double down = hypot(bx, by);
    double module = (corner->module + a->module + b->module) / 3;
    double sizes = fmax(fmax(corner->module, a->module), b->module) /
                   fmin(fmin(corner->module, a->module), b->module);
    if (along < 10 * module || down < 10 * module || sizes > 1.6) {
        return INFINITY;
    }
    return fabs(log(along / down)) + fabs(ax * bx + ay * by) / (along * down) + log(sizes);
}

bool decode_symbol_of(const struct decode_finder *f, size_t count,
                      struct decode_symbol *ret_symbol) {
    double best = 0.8;
    bool found = false;
    for (size_t i = 0; i < count; i++) {
        for (size_t j = 0; j < count; j++) {
            for (size_t k = j + 1; k < count; k++) {
                double fit = i == j || i == k ? INFINITY : misfit(&f[i], &f[j], &f[k]);
                if (fit < best) {
                    double module = (f[i].module + f[j].module + f[k].module) / 3;
                    double far = hypot(f[j].x - f[k].x, f[j].y - f[k].y) / sqrt(2);
                    best = fit;
                    found = true;
                    *ret_symbol =
                        (struct decode_symbol){.x = (f[j].x + f[k].x) / 2,
                                               .y = (f[j].y + f[k].y) / 2,
                                               .angle = atan2(f[j].y - f[i].y, f[j].x - f[i].x),
                                               .module = module,
                                               .size = far / module + 7};
                }
            }
        }
    }
    return found;
}

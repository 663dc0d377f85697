#include "raster.h"
#include "check.h"
#include "sample.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

void raster_page(struct raster *raster, const char *pdf, int page, double per_inch) {
    char command[700];
    int most;
    snprintf(command, sizeof command, "pdftoppm -gray -r %.4f -f %d -l %d -singlefile '%s'",
             per_inch, page, page, pdf);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    assert_int_equal(fscanf(pipe, "P5 %d %d %d", &raster->width, &raster->height, &most), 3);
    assert_int_equal(most, 255);
    assert_int_equal(fgetc(pipe), '\n');
    size_t size = (size_t)raster->width * (size_t)raster->height;
    raster->grey = malloc(size);
    assert_non_null(raster->grey);
    assert_int_equal(fread(raster->grey, 1, size, pipe), size);
    assert_int_equal(pclose(pipe), 0);
}

void raster_release(struct raster *raster) {
    free(raster->grey);
    raster->grey = NULL;
}

void raster_write(const struct raster *raster, const char *path) {
    FILE *file = fopen(path, "we");
    size_t size = (size_t)raster->width * (size_t)raster->height;
    assert_non_null(file);
    fprintf(file, "P5\n%d %d\n255\n", raster->width, raster->height);
    assert_int_equal(fwrite(raster->grey, 1, size, file), size);
    assert_int_equal(fclose(file), 0);
}

// The sum of four even numbers is bell-shaped enough.
static double next(uint64_t *state) {
    double sum = 0;
    for (int i = 0; i < 4; i++) {
        sum += (double)(sample_random(state) >> 11) / 9007199254740992.0 - 0.5;
    }
    return sum * sqrt(3); // deviation 1
}

void raster_noise(struct raster *raster, double deviation, uint64_t seed) {
    size_t size = (size_t)raster->width * (size_t)raster->height;
    for (size_t i = 0; i < size; i++) {
        double grey = raster->grey[i] + deviation * next(&seed);
        raster->grey[i] = (unsigned char)fmin(fmax(grey, 0), 255);
    }
}

static void blur_along(unsigned char *grey, size_t count, size_t step) {
    int before = grey[0];
    for (size_t i = 0; i + 1 < count; i++) {
        int here = grey[i * step];
        grey[i * step] = (unsigned char)((before + 2 * here + grey[(i + 1) * step] + 2) / 4);
        before = here;
    }
}

void raster_blur(struct raster *raster) {
    size_t width = (size_t)raster->width;
    size_t height = (size_t)raster->height;
    for (size_t y = 0; y < height; y++) {
        blur_along(raster->grey + y * width, width, 1);
    }
    for (size_t x = 0; x < width; x++) {
        blur_along(raster->grey + x, height, width);
    }
}

void raster_cut(const struct raster *raster, double x, double y, double width, double height,
                struct raster *ret) {
    int left = (int)fmax(x, 0);
    int top = (int)fmax(y, 0);
    ret->width = (int)fmin(width, raster->width - left);
    ret->height = (int)fmin(height, raster->height - top);
    ret->grey = malloc((size_t)ret->width * (size_t)ret->height);
    assert_non_null(ret->grey);
    for (int row = 0; row < ret->height; row++) {
        memcpy(ret->grey + (size_t)row * (size_t)ret->width,
               raster->grey + (size_t)(top + row) * (size_t)raster->width + left,
               (size_t)ret->width);
    }
}

void raster_around(const struct raster *raster, double radius, double centre, struct raster *ret) {
    int margin = 20;
    ret->width = raster->width;
    ret->height = 2 * (int)radius + 2 * margin;
    ret->grey = calloc((size_t)ret->width, (size_t)ret->height); // a dark bench
    assert_non_null(ret->grey);
    for (int y = 0; y < ret->height; y++) {
        double across = (y + 0.5 - ret->height / 2.0) / radius;
        if (fabs(across) >= 1) {
            continue;
        }
        double row = centre + radius * asin(across) - 0.5;
        int above = (int)floor(row);
        double part = row - above;
        for (int x = 0; x < ret->width && above >= 0 && above + 1 < raster->height; x++) {
            const unsigned char *at = raster->grey + (size_t)above * (size_t)raster->width + x;
            double grey = at[0] * (1 - part) + at[raster->width] * part;
            ret->grey[(size_t)y * (size_t)ret->width + (size_t)x] =
                (unsigned char)(grey * sqrt(1 - across * across));
        }
    }
}

bool raster_dark(const struct raster *raster, int x, int y) {
    assert_true(x >= 0 && x < raster->width && y >= 0 && y < raster->height);
    return raster->grey[(size_t)y * (size_t)raster->width + (size_t)x] < 128;
}

#include "golden.h"

#include "screen_inner.h"

#include <png.h>
#include <stdio.h>
#include <stdlib.h>

#define CHANNEL_SLACK 24
#define PIXELS_SLACK 2000 // one pixel in so many may be off by more

bool golden_update;

struct picture {
    int width;
    int height;
    png_bytep pixels; // RGB
};

static bool picture_read(const char *path, struct picture *ret) {
    png_image image = {.version = PNG_IMAGE_VERSION};
    if (png_image_begin_read_from_file(&image, path) == 0) {
        return false;
    }
    image.format = PNG_FORMAT_RGB;
    ret->width = (int)image.width;
    ret->height = (int)image.height;
    ret->pixels = malloc(PNG_IMAGE_SIZE(image));
    if (ret->pixels != NULL && png_image_finish_read(&image, NULL, ret->pixels, 0, NULL) != 0) {
        return true;
    }
    free(ret->pixels);
    return false;
}

static bool off(const png_byte *a, const png_byte *b) {
    for (int c = 0; c < 3; c++) {
        if (abs(a[c] - b[c]) > CHANNEL_SLACK) {
            return true;
        }
    }
    return false;
}

// Marks what differs in `now` itself: red where it does, pale elsewhere.
static size_t mark_differences(struct picture *now, const struct picture *kept) {
    size_t pixels = (size_t)now->width * (size_t)now->height;
    size_t count = 0;
    for (size_t i = 0; i < pixels; i++) {
        png_bytep at = now->pixels + 3 * i;
        if (off(at, kept->pixels + 3 * i)) {
            count++;
            at[0] = 220;
            at[1] = at[2] = 0;
        } else {
            for (int c = 0; c < 3; c++) {
                at[c] = (png_byte)(180 + at[c] * 75 / 255);
            }
        }
    }
    return count;
}

bool golden_same(struct screen *screen, const char *name) {
    char kept_path[512];
    char now_path[512];
    char diff_path[512];
    struct picture kept = {0};
    struct picture now = {0};
    bool same = false;
    snprintf(kept_path, sizeof kept_path, "%s/tests/golden/%s.png", KERFSIDE_SOURCE_DIR, name);
    snprintf(now_path, sizeof now_path, "%s-now.png", name);
    snprintf(diff_path, sizeof diff_path, "%s-diff.png", name);
    if (!screen_shot(screen, golden_update ? kept_path : now_path)) {
        fprintf(stderr, "cannot write %s\n", golden_update ? kept_path : now_path);
        return false;
    }
    if (golden_update) {
        return true;
    }
    if (!picture_read(kept_path, &kept)) {
        fprintf(stderr, "no picture %s: run this test with --update and look at it\n", kept_path);
    } else if (picture_read(now_path, &now) && now.width == kept.width &&
               now.height == kept.height) {
        size_t different = mark_differences(&now, &kept);
        same = different * PIXELS_SLACK <= (size_t)now.width * (size_t)now.height;
        if (!same) {
            png_write(diff_path, now.pixels, now.width, now.height, now.width * 3);
            fprintf(stderr, "%s: %zu pixels differ; see %s and %s\n", name, different, now_path,
                    diff_path);
        }
    }
    if (same) {
        remove(now_path);
    }
    free(kept.pixels);
    free(now.pixels);
    return same;
}

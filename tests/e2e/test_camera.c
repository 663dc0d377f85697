// The small picture of what the camera sees.

#include "bench_preview.h"
#include "check.h"

#include <stdlib.h>

static struct frame frame_of(int width, int height) {
    struct frame frame = {.width = width, .height = height};
    frame.pixels = calloc((size_t)width * (size_t)height, 1);
    return frame;
}

static void test_sizes(void **state) {
    (void)state;
    static const struct {
        int width;
        int height;
        int small_width;
        int small_height;
    } rows[] = {
        {1280, 720, 320, 180}, {1920, 1080, 320, 180}, {640, 480, 320, 240},
        {320, 240, 320, 240},  {321, 240, 160, 120},   {320, 241, 160, 120},
        {160, 120, 160, 120},  {1, 1, 1, 1},           {4096, 1, 315, 1},
        {1, 4096, 1, 227},     {4096, 4096, 227, 227}, {1281, 720, 256, 144},
    };
    static struct bench_preview preview;
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct frame frame = frame_of(rows[i].width, rows[i].height);
        bench_preview_frame(&preview, &frame);
        assert_int_equal(preview.width, rows[i].small_width);
        assert_int_equal(preview.height, rows[i].small_height);
        free(frame.pixels);
    }
}

// Every dot is the mean of its square, and nothing of its neighbours.
static void test_means(void **state) {
    (void)state;
    static struct bench_preview preview;
    struct frame frame = frame_of(960, 540); // 3 to 1
    for (int y = 0; y < 540; y++) {
        for (int x = 0; x < 960; x++) {
            int middle = x % 3 == 1 && y % 3 == 1;
            frame.pixels[y * 960 + x] = (uint8_t)((x / 3 + y / 3) % 20 * 10 + (middle ? 9 : 0));
        }
    }
    bench_preview_frame(&preview, &frame);
    for (int y = 0; y < 180; y++) {
        for (int x = 0; x < 320; x++) {
            assert_int_equal(preview.pixels[y * 320 + x], (x + y) % 20 * 10 + 1);
        }
    }
    memset(frame.pixels, 255, 960 * 540);
    bench_preview_frame(&preview, &frame);
    assert_int_equal(preview.pixels[0], 255);
    free(frame.pixels);
}

static void test_outline(void **state) {
    (void)state;
    static struct bench_preview preview;
    struct view_preview view;
    struct frame frame = frame_of(1280, 720);
    struct code code = {.corner = {{400, 200}, {803, 204}, {1279, 719}, {-50, 99999}}};
    bench_preview_found(&preview, &code); // before any picture
    assert_false(preview.found);
    bench_preview_frame(&preview, &frame);
    bench_preview_found(&preview, &code);
    bench_preview_show(&preview, &view);
    assert_true(view.found);
    assert_int_equal(view.width, 320);
    assert_int_equal(view.height, 180);
    assert_ptr_equal(view.pixels, preview.pixels);
    assert_true(view.corner[0].x == 100 && view.corner[0].y == 50);
    assert_true(view.corner[1].x == 200 && view.corner[1].y == 51);
    assert_true(view.corner[2].x == 319 && view.corner[2].y == 179);
    assert_true(view.corner[3].x == 0 && view.corner[3].y == 179); // never outside
    bench_preview_lost(&preview);
    bench_preview_show(&preview, &view);
    assert_false(view.found);
    free(frame.pixels);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_sizes),
        cmocka_unit_test(test_means),
        cmocka_unit_test(test_outline),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

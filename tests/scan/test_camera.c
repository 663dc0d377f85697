// Pictures of a device, dot by dot, and what it is told. Formats as in
// https://docs.kernel.org/userspace-api/media/v4l/pixfmt.html; no device here is real.

#include "check.h"
#include "fake_v4l2.h"
#include "viewer.h"

#include <stdlib.h>
#include <turbojpeg.h>

#define WIDTH 48
#define HEIGHT 32
#define STRIDE 128

static struct fake_v4l2 *fake;
static struct viewer viewer;

static int set_up(void **state) {
    (void)state;
    fake = fake_init();
    viewer_init(&viewer, fake->path);
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    viewer_destroy(&viewer);
    fake_destroy();
    return 0;
}

static void grants(uint32_t fourcc, uint32_t width, uint32_t height, uint32_t rate) {
    fake_grants(
        &(struct fake_format){.fourcc = fourcc, .width = width, .height = height, .rate = rate});
}

// A shade for every dot that differs from its neighbours on all sides.
static uint8_t shade(size_t x, size_t y) {
    return (uint8_t)(7 * x + 31 * y + 3);
}

// Shows one picture of this layout; `step` bytes from dot to dot, rows `stride` apart. What is not
// brightness is 0xEE.
static void show(uint32_t fourcc, size_t step, size_t stride, size_t size) {
    uint8_t bytes[STRIDE * HEIGHT * 2];
    struct frame frame;
    fake_grants(&(struct fake_format){
        .fourcc = fourcc, .width = WIDTH, .height = HEIGHT, .stride = (uint32_t)stride});
    memset(bytes, 0xEE, sizeof bytes);
    for (size_t y = 0; y < HEIGHT; y++) {
        for (size_t x = 0; x < WIDTH; x++) {
            bytes[y * (stride > 0 ? stride : step * WIDTH) + step * x] = shade(x, y);
        }
    }
    fake_plug();
    viewer_start(&viewer);
    fake_send(bytes, size, (uint32_t)size, 0);
    frame = viewer_frame(&viewer);
    assert_int_equal(frame.width, WIDTH);
    assert_int_equal(frame.height, HEIGHT);
    assert_true(frame.time_us / 1000 <= viewer_now_ms());
    assert_true(frame.time_us / 1000 > viewer_now_ms() - VIEWER_WAIT_MS);
    for (size_t y = 0; y < HEIGHT; y++) {
        for (size_t x = 0; x < WIDTH; x++) {
            assert_int_equal(frame.pixels[y * WIDTH + x], shade(x, y));
        }
    }
    free(frame.pixels);
    viewer_stop(&viewer);
    assert_true(fake_closed());
    assert_int_equal(fake->maps, 4);
    assert_int_equal(fake->asked_width, 1280);
    assert_int_equal(fake->asked_height, 720);
}

static void test_grey(void **state) {
    (void)state;
    show(V4L2_PIX_FMT_GREY, 1, 0, WIDTH * HEIGHT);
}

// The last row need not be filled up to its stride.
static void test_grey_with_stride(void **state) {
    (void)state;
    show(V4L2_PIX_FMT_GREY, 1, 64, 64 * (HEIGHT - 1) + WIDTH);
}

static void test_yuyv(void **state) {
    (void)state;
    show(V4L2_PIX_FMT_YUYV, 2, 0, 2 * WIDTH * HEIGHT);
}

static void test_yuyv_with_stride(void **state) {
    (void)state;
    show(V4L2_PIX_FMT_YUYV, 2, STRIDE, STRIDE * (HEIGHT - 1) + 2 * WIDTH);
}

static void test_planar(void **state) {
    (void)state;
    show(V4L2_PIX_FMT_NV12, 1, 64, 64 * HEIGHT * 3 / 2);
}

static void test_planar_of_three(void **state) {
    (void)state;
    show(V4L2_PIX_FMT_YUV420, 1, 0, WIDTH * HEIGHT * 3 / 2);
}

// --- JPEG ----------------------------------------------------------------------------------------

// A soft slope, which JPEG keeps to a few shades at quality 95; coloured, as cameras send it.
static uint8_t slope(size_t x, size_t y) {
    return (uint8_t)(40 + 2 * x + 3 * y);
}

static unsigned long jpeg_of(int width, int height, uint8_t **ret_jpeg) {
    uint8_t *rgb = calloc((size_t)width * (size_t)height, 3);
    unsigned long size = 0;
    tjhandle handle = tjInitCompress();
    for (int y = 0; y < height; y++) {
        for (int x = 0; x < width; x++) {
            memset(&rgb[3 * (y * width + x)], slope((size_t)x, (size_t)y), 3);
        }
    }
    *ret_jpeg = NULL;
    assert_int_equal(
        tjCompress2(handle, rgb, width, 0, height, TJPF_RGB, ret_jpeg, &size, TJSAMP_422, 95, 0),
        0);
    tjDestroy(handle);
    free(rgb);
    return size;
}

static void expect_slope(void) {
    struct frame frame = viewer_frame(&viewer);
    for (size_t y = 0; y < HEIGHT; y++) {
        for (size_t x = 0; x < WIDTH; x++) {
            assert_in_range(frame.pixels[y * WIDTH + x], slope(x, y) - 4, slope(x, y) + 4);
        }
    }
    free(frame.pixels);
}

static void send(const uint8_t *bytes, unsigned long size) {
    fake_send(bytes, size, (uint32_t)size, 0);
}

static void test_jpeg(void **state) {
    (void)state;
    uint8_t *jpeg;
    unsigned long size = jpeg_of(WIDTH, HEIGHT, &jpeg);
    uint8_t filled[1 << 15] = {0};
    grants(V4L2_PIX_FMT_MJPEG, WIDTH, HEIGHT, 30);
    fake_plug();
    viewer_start(&viewer);
    send(jpeg, size);
    expect_slope();
    memcpy(filled, jpeg, size); // zeros after the end, as of a driver that sends whole buffers
    send(filled, sizeof filled);
    expect_slope();
    memset(filled + size - 2, 0, 10); // and before the end mark
    filled[size + 8] = 0xFF;
    filled[size + 9] = 0xD9;
    send(filled, size + 10);
    expect_slope();
    assert_int_equal(camera_counts(viewer.camera).broken, 0);
    tjFree(jpeg);
}

static void test_broken_jpeg(void **state) {
    (void)state;
    static const uint8_t noise[] = "\xFF\xD8\xFF\xE0 this is no picture";
    uint8_t *jpeg;
    uint8_t *other;
    uint8_t damaged[1 << 15];
    uint64_t broken = 0;
    unsigned long size = jpeg_of(WIDTH, HEIGHT, &jpeg);
    unsigned long other_size = jpeg_of(WIDTH, HEIGHT + 8, &other);
    grants(V4L2_PIX_FMT_MJPEG, WIDTH, HEIGHT, 30);
    fake_plug();
    viewer_start(&viewer);
    for (unsigned long cut = 0; cut < size; cut += size / 8) { // short, at every part of it
        send(jpeg, cut);
        viewer_wait_broken(&viewer, ++broken);
    }
    send(jpeg, size - 2);
    viewer_wait_broken(&viewer, ++broken);
    send(noise, sizeof noise);
    viewer_wait_broken(&viewer, ++broken);
    send(other, other_size); // of a size that was never granted
    viewer_wait_broken(&viewer, ++broken);
    memcpy(damaged, jpeg, size);
    memset(damaged + size - 60, 0x11, 40);
    send(damaged, size);
    viewer_wait_broken(&viewer, ++broken);
    memcpy(damaged, jpeg, 20); // filled up where nothing may be, behind the first segment
    memset(damaged + 20, 0, 10);
    memcpy(damaged + 30, jpeg + 20, size - 20);
    send(damaged, size + 10);
    viewer_wait_broken(&viewer, ++broken);
    send(jpeg, size);
    expect_slope();
    assert_int_equal(camera_counts(viewer.camera).broken, broken);
    assert_int_equal(camera_counts(viewer.camera).frames, 1);
    tjFree(jpeg);
    tjFree(other);
}

// --- what is asked for, what is granted ----------------------------------------------------------

static void expect_choice(uint32_t fourcc) {
    int64_t start = viewer_now_ms();
    fake_plug();
    viewer_start(&viewer);
    do {
        viewer_sleep_ms(2);
        assert_true(viewer_now_ms() - start < VIEWER_WAIT_MS);
    } while (!fake_streaming());
    viewer_stop(&viewer);
    assert_int_equal(fake->set_fourcc, fourcc);
}

static void test_cheapest_first(void **state) {
    (void)state;
    grants(V4L2_PIX_FMT_MJPEG, 1280, 720, 30);
    grants(V4L2_PIX_FMT_YUYV, 1280, 720, 10);
    grants(V4L2_PIX_FMT_GREY, 1280, 720, 0);
    fake->length = 1280 * 720 * 2;
    expect_choice(V4L2_PIX_FMT_GREY);
}

static void test_too_slow(void **state) {
    (void)state;
    grants(V4L2_PIX_FMT_MJPEG, 1280, 720, 30);
    grants(V4L2_PIX_FMT_YUYV, 1280, 720, 5);
    fake->length = 1280 * 720 * 2;
    expect_choice(V4L2_PIX_FMT_MJPEG);
}

static void test_too_small(void **state) {
    (void)state;
    grants(V4L2_PIX_FMT_GREY, 960, 720, 30);
    grants(V4L2_PIX_FMT_YUYV, 1280, 480, 30);
    grants(V4L2_PIX_FMT_MJPEG, 1920, 1080, 30);
    expect_choice(V4L2_PIX_FMT_MJPEG);
}

// None as wanted: the largest, and slow is better than small.
static void test_least_bad(void **state) {
    (void)state;
    grants(V4L2_PIX_FMT_GREY, 320, 240, 30);
    grants(V4L2_PIX_FMT_YUYV, 1280, 720, 5);
    grants(V4L2_PIX_FMT_MJPEG, 640, 480, 30);
    fake->length = 1280 * 720 * 2;
    expect_choice(V4L2_PIX_FMT_YUYV);
}

static void expect_refusal(const char *words) {
    fake_plug();
    viewer_start(&viewer);
    viewer_expect(&viewer, CAMERA_GONE, words);
    viewer_stop(&viewer);
    assert_true(fake_closed());
}

static void test_no_format(void **state) {
    (void)state;
    grants(V4L2_PIX_FMT_BGR24, 640, 480, 30);
    expect_refusal("video-index5: sends pictures in no format known here (GREY, YUYV,");
}

// A driver may answer with a format of its own instead of an error.
static void test_another_format(void **state) {
    (void)state;
    fake_grants(&(struct fake_format){
        .fourcc = V4L2_PIX_FMT_GREY, .granted = V4L2_PIX_FMT_BGR24, .width = 640, .height = 480});
    expect_refusal("in no format known here");
}

static void test_sizes_out_of_reason(void **state) {
    (void)state;
    grants(V4L2_PIX_FMT_GREY, FRAME_SIDE_MAX + 1, 480, 30);
    grants(V4L2_PIX_FMT_YUYV, 640, FRAME_SIDE_MAX + 1, 30);
    grants(V4L2_PIX_FMT_NV12, 0, 480, 30);
    grants(V4L2_PIX_FMT_YUV420, 640, 0, 30);
    expect_refusal("in no format known here");
}

// --- which node ----------------------------------------------------------------------------------

static void test_no_camera(void **state) {
    (void)state;
    fake->device_caps = V4L2_CAP_META_CAPTURE | V4L2_CAP_STREAMING;
    grants(V4L2_PIX_FMT_GREY, WIDTH, HEIGHT, 30);
    expect_refusal("video-index5: not a camera"); // what the whole device can is not asked
}

static void test_no_streaming(void **state) {
    (void)state;
    fake->device_caps = V4L2_CAP_VIDEO_CAPTURE;
    grants(V4L2_PIX_FMT_GREY, WIDTH, HEIGHT, 30);
    expect_refusal("not a camera");
}

static void test_old_driver(void **state) {
    (void)state;
    uint8_t grey[WIDTH * HEIGHT];
    fake->capabilities = V4L2_CAP_VIDEO_CAPTURE | V4L2_CAP_STREAMING; // and no caps of the node
    fake->device_caps = 0;
    grants(V4L2_PIX_FMT_GREY, WIDTH, HEIGHT, 30);
    fake_plug();
    viewer_start(&viewer);
    memset(grey, 99, sizeof grey);
    fake_send(grey, sizeof grey, sizeof grey, 0);
    viewer_expect_shade(&viewer, 99, 0);
}

static void test_metadata_node_is_passed_over(void **state) {
    (void)state;
    uint8_t grey[WIDTH * HEIGHT];
    grants(V4L2_PIX_FMT_GREY, WIDTH, HEIGHT, 30);
    fake_node("video-index1");
    fake_node("video-index9");
    viewer.options.path = fake->folder;
    viewer_start(&viewer);
    viewer_expect(&viewer, CAMERA_GONE, "not a camera");
    fake_plug();
    memset(grey, 55, sizeof grey);
    fake_send(grey, sizeof grey, sizeof grey, 0);
    viewer_expect_shade(&viewer, 55, 0);
    viewer_expect(&viewer, CAMERA_BACK, "");
}

static void test_empty_folder(void **state) {
    (void)state;
    viewer.options.path = fake->folder;
    viewer_start(&viewer);
    viewer_expect(&viewer, CAMERA_GONE, "no camera in /tmp/kerfside-camera-");
}

int main(void) {
#define T(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        T(test_grey),
        T(test_grey_with_stride),
        T(test_yuyv),
        T(test_yuyv_with_stride),
        T(test_planar),
        T(test_planar_of_three),
        T(test_jpeg),
        T(test_broken_jpeg),
        T(test_cheapest_first),
        T(test_too_slow),
        T(test_too_small),
        T(test_least_bad),
        T(test_no_format),
        T(test_another_format),
        T(test_sizes_out_of_reason),
        T(test_no_camera),
        T(test_no_streaming),
        T(test_old_driver),
        T(test_metadata_node_is_passed_over),
        T(test_empty_folder),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// What becomes of a camera that is pulled out, hangs, or has a driver that goes wrong.

#include "check.h"
#include "fake_v4l2.h"
#include "viewer.h"

#include <errno.h>
#include <stdlib.h>
#include <sys/resource.h>

#define SIDE 16
#define AREA (SIDE * SIDE)

static struct fake_v4l2 *fake;
static struct viewer viewer;

static int set_up(void **state) {
    (void)state;
    fake = fake_init();
    fake_grants(&(struct fake_format){.fourcc = V4L2_PIX_FMT_GREY, .width = SIDE, .height = SIDE});
    viewer_init(&viewer, fake->path);
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    viewer_destroy(&viewer);
    fake_destroy();
    return 0;
}

static void show(int shade) {
    uint8_t grey[AREA];
    memset(grey, shade, sizeof grey);
    fake_send(grey, sizeof grey, sizeof grey, 0);
}

static void plugged(void) {
    fake_plug();
    viewer_start(&viewer);
    show(10);
    viewer_expect_shade(&viewer, 10, 0);
}

static int64_t cpu_ms(void) {
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    return (int64_t)(usage.ru_utime.tv_sec + usage.ru_stime.tv_sec) * 1000 +
           (usage.ru_utime.tv_usec + usage.ru_stime.tv_usec) / 1000;
}

static void test_there_from_the_start(void **state) {
    (void)state;
    struct camera_event event;
    plugged();
    assert_false(camera_next(viewer.camera, &event));
}

static void test_unplug_and_replug(void **state) {
    (void)state;
    plugged();
    for (int i = 0; i < 5; i++) {
        fake_unplug();
        viewer_expect(&viewer, CAMERA_GONE, "video-index5: unplugged");
        assert_true(fake_closed());
        fake_plug();
        show(20 + i);
        viewer_expect_shade(&viewer, 20 + i, 0);
        viewer_expect(&viewer, CAMERA_BACK, "");
    }
    viewer_stop(&viewer);
    assert_int_equal(fake->opens, 6);
    assert_true(fake_closed());
}

static void test_missing_from_the_start(void **state) {
    (void)state;
    viewer_start(&viewer);
    viewer_expect(&viewer, CAMERA_GONE, "video-index5: not there");
    fake_plug();
    show(30);
    viewer_expect(&viewer, CAMERA_BACK, "");
    viewer_expect_shade(&viewer, 30, 0);
}

// A frame of before is no picture of now.
static void test_old_frame_goes_with_the_camera(void **state) {
    (void)state;
    struct frame frame;
    plugged();
    show(11);
    viewer_wait_frames(&viewer, 2);
    fake_unplug();
    viewer_expect(&viewer, CAMERA_GONE, "unplugged");
    assert_false(camera_take(viewer.camera, &frame));
    assert_int_equal(camera_counts(viewer.camera).dropped, 1);
}

static void test_poll_error(void **state) {
    (void)state;
    plugged();
    fake_fail();
    viewer_expect(&viewer, CAMERA_GONE, "the device fails");
    show(40);
    viewer_expect(&viewer, CAMERA_BACK, "");
    viewer_expect_shade(&viewer, 40, 0);
    viewer_stop(&viewer);
    assert_int_equal(fake->opens, 2);
}

static void test_hang(void **state) {
    (void)state;
    int64_t start;
    viewer.options.silence_ms = 1000;
    plugged();
    start = viewer_now_ms();
    viewer_expect(&viewer, CAMERA_GONE, "video-index5: no picture for 1 s");
    assert_in_range(viewer_now_ms() - start, 900, 4000);
    show(50);
    viewer_expect(&viewer, CAMERA_BACK, "");
    viewer_expect_shade(&viewer, 50, 0);
    viewer_stop(&viewer);
    assert_true(fake->opens >= 2);
}

static void test_nothing_but_broken(void **state) {
    (void)state;
    uint8_t grey[AREA] = {0};
    struct camera_event event;
    viewer.options.silence_ms = 1000;
    plugged();
    while (!camera_next(viewer.camera, &event)) {
        fake_send(grey, AREA, AREA, V4L2_BUF_FLAG_ERROR);
        viewer_sleep_ms(20);
    }
    assert_int_equal(event.kind, CAMERA_GONE);
    assert_non_null(strstr(event.text, "nothing but broken pictures for 1 s"));
    assert_int_equal(camera_counts(viewer.camera).frames, 1);
}

static void test_marked_short_and_overlong(void **state) {
    (void)state;
    uint8_t grey[AREA] = {0};
    plugged();
    fake_send(grey, AREA, AREA, V4L2_BUF_FLAG_ERROR);
    viewer_wait_broken(&viewer, 1);
    fake_send(grey, AREA, AREA - 1, 0);
    viewer_wait_broken(&viewer, 2);
    fake_send(grey, AREA, 0, 0);
    viewer_wait_broken(&viewer, 3);
    fake_send(grey, AREA, fake->length + 1, 0);
    viewer_wait_broken(&viewer, 4);
    show(60);
    viewer_expect_shade(&viewer, 60, 0);
    for (int i = 0; i < 20; i++) { // every buffer went back
        show(61 + i);
        viewer_expect_shade(&viewer, 61 + i, 0);
    }
    assert_int_equal(camera_counts(viewer.camera).broken, 4);
}

// Taken one by one, or found all at once: the newest.
static void test_latest_wins(void **state) {
    (void)state;
    plugged();
    for (int i = 0; i < 3; i++) {
        show(70 + i);
        viewer_wait_frames(&viewer, (uint64_t)(2 + i));
    }
    viewer_expect_shade(&viewer, 72, 0);
    assert_int_equal(camera_counts(viewer.camera).dropped, 2);
    for (int round = 0; round < 3; round++) { // all go back to the driver
        fake_hold(true);
        for (int i = 0; i < 4; i++) {
            show(80 + 4 * round + i);
        }
        fake_hold(false);
        viewer_expect_shade(&viewer, 83 + 4 * round, 0);
    }
    show(99);
    viewer_expect_shade(&viewer, 99, 0);
}

static void test_few_buffers(void **state) {
    (void)state;
    fake->buffers = 1;
    plugged();
    show(91);
    viewer_expect_shade(&viewer, 91, 0);
}

static void test_no_buffers(void **state) {
    (void)state;
    fake->buffers = 0;
    fake_plug();
    viewer_start(&viewer);
    viewer_expect(&viewer, CAMERA_GONE, "gives no buffers");
}

static void test_a_buffer_that_was_never_given(void **state) {
    (void)state;
    fake->forge_index = true;
    fake_plug();
    viewer_start(&viewer);
    show(1);
    viewer_expect(&viewer, CAMERA_GONE, "Protocol error");
}

// A driver that says for ever that there is something, and gives nothing.
static void test_mad_driver_costs_little(void **state) {
    (void)state;
    int64_t cpu;
    int before;
    plugged();
    before = fake->dequeues;
    cpu = cpu_ms();
    fake_mad();
    viewer_sleep_ms(500);
    cpu = cpu_ms() - cpu;
    viewer_stop(&viewer);
    assert_in_range(fake->dequeues - before, 2, 110);
    assert_true(cpu < 250);
}

// Opens well and fails at once, for ever.
static void test_failing_at_once_costs_little(void **state) {
    (void)state;
    fake->fail_always = VIDIOC_STREAMON;
    fake->fail_errno = EIO;
    fake_plug();
    viewer_start(&viewer);
    viewer_expect(&viewer, CAMERA_GONE, "Input/output error");
    viewer_sleep_ms(300);
    viewer_stop(&viewer);
    assert_in_range(fake->opens, 2, 20);
    assert_true(fake_closed());
}

static void test_in_use(void **state) {
    (void)state;
    fake->fail_always = VIDIOC_S_FMT;
    fake->fail_errno = EBUSY;
    fake_plug();
    viewer_start(&viewer);
    viewer_expect(&viewer, CAMERA_GONE, "in use by another program");
}

static void expect_any_picture(void) {
    int64_t start = viewer_now_ms();
    struct frame frame;
    do {
        assert_true(viewer_now_ms() - start < VIEWER_WAIT_MS);
        show(100);
        viewer_sleep_ms(2);
    } while (!camera_take(viewer.camera, &frame));
    assert_int_equal(frame.pixels[AREA - 1], 100);
    free(frame.pixels);
}

// Every call to the device fails once: said in words, all given back, and a picture the next time.
static void test_every_call_fails_once(void **state) {
    (void)state;
    int calls;
    plugged();
    viewer_stop(&viewer);
    calls = fake->ioctls;
    assert_true(calls > 12);
    for (int i = 0; i < calls - 1; i++) { // the last is STREAMOFF
        struct camera_event event;
        tear_down(NULL);
        set_up(NULL);
        fake->fail_at = i;
        fake->fail_errno = EIO;
        fake_plug();
        viewer_start(&viewer);
        expect_any_picture();
        if (camera_next(viewer.camera, &event) && event.kind == CAMERA_GONE) {
            assert_true(strlen(event.text) > strlen(fake->path) + 5);
        }
        viewer_stop(&viewer);
        assert_true(fake->opens <= 2);
        assert_true(fake_closed());
    }
}

static void test_stops_at_once(void **state) {
    (void)state;
    viewer.options.retry_ms = VIEWER_NEVER_MS;
    viewer_start(&viewer);
    viewer_expect(&viewer, CAMERA_GONE, "not there");
    viewer_stop(&viewer); // while it waits to look again
    plugged();
    viewer_stop(&viewer); // while it waits for a picture
    viewer_start(&viewer);
    viewer_stop(&viewer);
    assert_true(fake_closed());
}

int main(void) {
#define T(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        T(test_there_from_the_start),
        T(test_unplug_and_replug),
        T(test_missing_from_the_start),
        T(test_old_frame_goes_with_the_camera),
        T(test_poll_error),
        T(test_hang),
        T(test_nothing_but_broken),
        T(test_marked_short_and_overlong),
        T(test_latest_wins),
        T(test_few_buffers),
        T(test_no_buffers),
        T(test_a_buffer_that_was_never_given),
        T(test_mad_driver_costs_little),
        T(test_failing_at_once_costs_little),
        T(test_in_use),
        T(test_every_call_fails_once),
        T(test_stops_at_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

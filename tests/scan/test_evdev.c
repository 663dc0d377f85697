// Devices are FIFOs here; grabbing one and the kernel's own times need a real /dev/input.

#include "check.h"
#include "plug.h"

#include <linux/input.h>
#include <stdio.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#define NEVER_MS 600000

static struct plug plug;

static int set_up(void **state) {
    (void)state;
    plug_init(&plug);
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    plug_destroy(&plug);
    return 0;
}

static void plugged(void) {
    plug_in(&plug);
    plug_start(&plug, 20);
    plug_open(&plug);
}

static void expect_key(struct plug *from, uint16_t code, bool down) {
    struct evdev_event event = plug_next(from);
    assert_int_equal(event.kind, EVDEV_KEY);
    assert_int_equal(event.key.code, code);
    assert_int_equal(event.key.down, down);
}

static void keep(void *ctx, const struct wedge_output *output) {
    *(struct wedge_output *)ctx = *output;
}

// Reads events into a scanner's wedge until a code comes out.
static void expect_code(struct plug *from, const char *text) {
    struct wedge_settings settings = WEDGE_SETTINGS_DEFAULT;
    struct wedge_output output = {.kind = WEDGE_NOTHING};
    struct wedge wedge;
    settings.dedicated = true;
    wedge_init(&wedge, &settings);
    while (output.kind == WEDGE_NOTHING) {
        struct evdev_event event = plug_next(from);
        assert_int_equal(event.kind, EVDEV_KEY);
        wedge_feed(&wedge, &event.key, keep, &output);
    }
    assert_int_equal(output.kind, WEDGE_CODE);
    assert_string_equal(output.text, text);
}

static void expect_kind(enum evdev_kind kind) {
    assert_int_equal(plug_next(&plug).kind, kind);
}

static void test_burst(void **state) {
    (void)state;
    plugged();
    for (int i = 0; i < 20; i++) {
        plug_ticket(&plug);
        expect_code(&plug, "h-0001a");
    }
}

static int64_t monotonic_us(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000000 + now.tv_nsec / 1000;
}

static void test_times_and_repeats(void **state) {
    (void)state;
    int64_t before = monotonic_us();
    struct evdev_event event;
    plugged();
    plug_event(&plug, EV_MSC, MSC_SCAN, 7);
    plug_event(&plug, EV_KEY, KEY_F13, 1);
    plug_event(&plug, EV_KEY, KEY_F13, 2);
    plug_event(&plug, EV_KEY, KEY_F13, 2);
    plug_event(&plug, EV_LED, LED_CAPSL, 1);
    plug_event(&plug, EV_KEY, KEY_F13, 0);
    event = plug_next(&plug);
    assert_true(event.key.down && event.key.code == KEY_F13);
    assert_true(event.key.time_us >= before && event.key.time_us <= monotonic_us());
    expect_key(&plug, KEY_F13, false);
    assert_false(evdev_next(plug.evdev, &event));
}

// Events cut anywhere: byte by byte, then one and a bit at a time.
static void test_events_in_pieces(void **state) {
    (void)state;
    static const size_t pieces[] = {1, 31};
    struct input_event events[] = {{.type = EV_KEY, .code = KEY_Q, .value = 1},
                                   {.type = EV_KEY, .code = KEY_Q, .value = 0},
                                   {.type = EV_KEY, .code = KEY_W, .value = 1}};
    const char *bytes = (const char *)events;
    plugged();
    for (size_t i = 0; i < COUNT(pieces); i++) {
        for (size_t at = 0; at < sizeof events; at += pieces[i]) {
            size_t left = sizeof events - at;
            size_t size = left < pieces[i] ? left : pieces[i];
            struct timespec little = {.tv_nsec = 500000};
            assert_int_equal(write(plug.writer, bytes + at, size), size);
            nanosleep(&little, NULL);
        }
        expect_key(&plug, KEY_Q, true);
        expect_key(&plug, KEY_Q, false);
        expect_key(&plug, KEY_W, true);
    }
}

static void test_unplug_and_replug(void **state) {
    (void)state;
    plugged();
    for (int i = 0; i < 3; i++) {
        plug_key(&plug, KEY_H); // half a code
        plug_out(&plug);
        expect_key(&plug, KEY_H, true);
        expect_key(&plug, KEY_H, false);
        expect_kind(EVDEV_LOST);
        expect_kind(EVDEV_GONE);
        plug_in(&plug);
        expect_kind(EVDEV_BACK);
        plug_open(&plug);
        plug_ticket(&plug);
        expect_code(&plug, "h-0001a");
        expect_key(&plug, KEY_ENTER, false);
    }
}

// Found by the watch alone: the next look is ten minutes off.
static void test_watched_for(void **state) {
    (void)state;
    plug_start(&plug, NEVER_MS);
    expect_kind(EVDEV_GONE);
    plug_in(&plug);
    expect_kind(EVDEV_BACK);
    plug_open(&plug);
    plug_ticket(&plug);
    expect_code(&plug, "h-0001a");
}

// The folder itself comes later: nothing can be watched, so it is looked for now and then.
static void test_looked_for(void **state) {
    (void)state;
    struct evdev_event event;
    rmdir(plug.folder);
    plug_start(&plug, 20);
    expect_kind(EVDEV_GONE);
    assert_false(evdev_next(plug.evdev, &event));
    assert_int_equal(mkdir(plug.folder, 0700), 0);
    plug_in(&plug);
    expect_kind(EVDEV_BACK);
}

// linux/input documentation: after SYN_DROPPED everything up to the next SYN_REPORT is void.
static void test_syn_dropped(void **state) {
    (void)state;
    plugged();
    plug_event(&plug, EV_KEY, KEY_1, 1);
    plug_event(&plug, EV_SYN, SYN_REPORT, 0);
    expect_key(&plug, KEY_1, true);
    plug_event(&plug, EV_SYN, SYN_DROPPED, 0);
    expect_kind(EVDEV_FLOOD);
    plug_event(&plug, EV_KEY, KEY_2, 1);
    plug_event(&plug, EV_SYN, SYN_REPORT, 0);
    plug_event(&plug, EV_KEY, KEY_3, 1);
    expect_key(&plug, KEY_3, true);
}

static void test_two_devices(void **state) {
    (void)state;
    struct plug other;
    plugged();
    plug_init(&other);
    plug_in(&other);
    plug_start(&other, 20);
    plug_open(&other);
    plug_key(&other, KEY_F13);
    plug_ticket(&plug);
    plug_out(&other);
    expect_key(&other, KEY_F13, true);
    expect_key(&other, KEY_F13, false);
    assert_int_equal(plug_next(&other).kind, EVDEV_LOST);
    assert_int_equal(plug_next(&other).kind, EVDEV_GONE);
    expect_code(&plug, "h-0001a");
    plug_destroy(&other);
}

// A megabyte of keys nobody takes: bounded, and the loss is told.
static void test_nobody_takes(void **state) {
    (void)state;
    struct evdev_event event = {.kind = EVDEV_KEY};
    int keys = 0;
    plugged();
    for (int i = 0; i < 44000; i++) { // 24 bytes each
        plug_event(&plug, EV_KEY, KEY_A, i % 2 == 0);
    }
    while (event.kind == EVDEV_KEY) {
        event = plug_next(&plug);
        keys += event.kind == EVDEV_KEY;
    }
    assert_int_equal(event.kind, EVDEV_FLOOD);
    assert_int_equal(keys, EVDEV_QUEUE_MAX);
}

// What can be opened but never read must not be opened over and over.
static void test_a_plain_file_is_no_device(void **state) {
    (void)state;
    FILE *file = fopen(plug.path, "w");
    struct evdev_event event;
    struct timespec while_waiting = {.tv_nsec = 100000000};
    int woken = 0;
    assert_non_null(file);
    fclose(file);
    plug_start(&plug, NEVER_MS);
    expect_kind(EVDEV_LOST);
    expect_kind(EVDEV_GONE);
    nanosleep(&while_waiting, NULL);
    while (sem_trywait(&plug.woken) == 0) {
        woken++;
    }
    assert_true(woken <= 2);
    assert_false(evdev_next(plug.evdev, &event));
}

static void test_stop_any_time(void **state) {
    (void)state;
    for (int i = 0; i < 50; i++) {
        struct plug other;
        plug_init(&other);
        if (i % 2 == 0) {
            plug_in(&other);
        }
        plug_start(&other, i % 3 == 0 ? 1 : NEVER_MS);
        plug_destroy(&other);
    }
    evdev_destroy(NULL);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_burst, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_times_and_repeats, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_events_in_pieces, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_unplug_and_replug, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_watched_for, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_looked_for, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_syn_dropped, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_two_devices, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_nobody_takes, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_a_plain_file_is_no_device, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_stop_any_time, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

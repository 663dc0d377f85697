// The exclusive grab, which no FIFO has: the linker hands the reader's ioctl to a kernel of our own
// (-Wl,--wrap=ioctl). What a real one does: linux/input.h, and drivers/input/evdev.c, which gives
// EBUSY to whoever asks for what another has.

#include "check.h"
#include "plug.h"

#include <errno.h>
#include <linux/input.h>
#include <stdatomic.h>
#include <sys/ioctl.h>
#include <time.h>

int __wrap_ioctl(int fd, unsigned long request, void *argument);

static struct plug plug;
static atomic_int key_down;  // a key is held while the device is opened
static atomic_int refusals;  // how often the grab is still refused
static atomic_int asked;     // EVIOCGRAB with 1
static atomic_int granted;   // since the last open
static atomic_int monotonic; // EVIOCSCLOCKID with CLOCK_MONOTONIC

int __wrap_ioctl(int fd, unsigned long request, void *argument) {
    (void)fd;
    if (request == EVIOCGRAB && argument == (void *)1) {
        asked++;
        if (refusals > 0) {
            refusals--;
            errno = EBUSY;
            return -1;
        }
        granted++;
        return 0;
    }
    if (request == EVIOCSCLOCKID) {
        granted = 0;
        monotonic += *(int *)argument == CLOCK_MONOTONIC;
        return 0;
    }
    if (_IOC_TYPE(request) == 'E' && _IOC_NR(request) == _IOC_NR(EVIOCGKEY(0))) {
        unsigned char *keys = argument;
        memset(keys, 0, _IOC_SIZE(request));
        keys[KEY_ENTER / 8] = key_down ? 1u << KEY_ENTER % 8 : 0;
        return (int)_IOC_SIZE(request);
    }
    errno = ENOTTY;
    return -1;
}

static int set_up(void **state) {
    (void)state;
    key_down = refusals = asked = granted = monotonic = 0;
    plug_init(&plug);
    plug_in(&plug);
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    plug_destroy(&plug);
    return 0;
}

static void until(atomic_int *what, int value) {
    struct timespec little = {.tv_nsec = 1000000};
    for (int i = 0; i < PLUG_WAIT_MS && *what < value; i++) {
        nanosleep(&little, NULL);
    }
    assert_true(*what >= value);
}

static void expect_kind(enum evdev_kind kind) {
    assert_int_equal(plug_next(&plug).kind, kind);
}

static void test_asked_for_once(void **state) {
    (void)state;
    struct evdev_event event;
    plug_start(&plug, 5);
    plug_open(&plug);
    until(&granted, 1);
    plug_event(&plug, EV_KEY, KEY_H, 1);
    event = plug_next(&plug);
    assert_int_equal(event.kind, EVDEV_KEY);
    assert_int_equal(event.key.time_us, 0); // the event's own time, not ours
    plug_event(&plug, EV_KEY, KEY_H, 0);
    expect_kind(EVDEV_KEY);
    assert_int_equal(asked, 1);
    assert_int_equal(monotonic, 1);
}

// A key that is down when the device is opened must be let go first: others would see it stuck.
static void test_not_with_a_key_down(void **state) {
    (void)state;
    struct timespec moment = {.tv_nsec = 30000000};
    key_down = 1;
    plug_start(&plug, 5);
    plug_open(&plug);
    nanosleep(&moment, NULL);
    assert_int_equal(asked, 0);
    key_down = 0;
    until(&granted, 1);
    assert_int_equal(asked, 1);
}

static void test_refused_is_told_once_and_asked_again(void **state) {
    (void)state;
    struct evdev_event event;
    refusals = 3;
    plug_start(&plug, 5);
    plug_open(&plug);
    expect_kind(EVDEV_TAKEN);
    until(&granted, 1);
    assert_int_equal(asked, 4);
    assert_false(evdev_next(plug.evdev, &event));
}

static void test_grabbed_again_when_it_is_back(void **state) {
    (void)state;
    plug_start(&plug, 5);
    plug_open(&plug);
    until(&granted, 1);
    plug_out(&plug);
    expect_kind(EVDEV_LOST);
    expect_kind(EVDEV_GONE);
    plug_in(&plug);
    expect_kind(EVDEV_BACK);
    until(&asked, 2);
    assert_int_equal(granted, 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_asked_for_once, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_not_with_a_key_down, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_refused_is_told_once_and_asked_again, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_grabbed_again_when_it_is_back, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// Two scanners of keys, a serial one, a button and a scale: FIFOs and a pseudo terminal read by the
// real threads. What the bench does with it is faked here, so the linker does not take the real
// functions.

#include "bench_devices.h"
#include "check.h"
#include "evdev.h"

#include <fcntl.h>
#include <linux/input.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#define WAIT_MS 5000
#define SAID_MAX 8

static struct bench_settings settings;
static struct bench bench;
static struct bench_devices devices;
static char folder[64];
static int master;
static int writer[3]; // two scanners, the button

static size_t said;
static struct event event[SAID_MAX]; // what reached the station
static bool deaf;                    // to what comes and goes
static int presses;
static struct scan_report report;

void screen_wake(struct screen *screen) {
    (void)screen;
}
void bench_event(struct bench *b, const struct event *e) {
    assert_ptr_equal(b, &bench);
    assert_true(said < SAID_MAX);
    event[said++] = *e;
}
void bench_device(struct bench *b, enum station_device device, bool present) {
    struct event e = {.kind = EVENT_DEVICE, .device = device, .present = present};
    if (!deaf) {
        bench_event(b, &e);
    }
}
void bench_button(struct bench *b, bool down, int64_t time_us) {
    (void)b;
    (void)time_us;
    presses += down;
}
void bench_report(struct bench *b, const struct scan_report *r) {
    assert_ptr_equal(b, &bench);
    report = *r;
}
static void take(void *ctx, const struct wedge_output *output) {
    struct event e = {.kind = output->kind == WEDGE_CODE ? EVENT_SCAN : EVENT_FAULT};
    memcpy(e.text, output->text, sizeof e.text);
    bench_event(ctx, &e);
}
void bench_key(struct bench *b, struct wedge *wedge, uint16_t code, bool down, int64_t time_us) {
    struct wedge_key key = {.code = code, .down = down, .time_us = time_us};
    wedge_feed(wedge, &key, take, b);
}

static void pause_ms(int ms) {
    struct timespec time = {.tv_nsec = ms * 1000000L};
    nanosleep(&time, NULL);
}

static void until(size_t count) {
    for (int i = 0; i < WAIT_MS && said < count; i++) {
        bench_devices_take(&devices);
        pause_ms(1);
    }
    assert_int_equal(said, count);
}

// Nothing but what is said already.
static void quiet(size_t count) {
    for (int i = 0; i < 30; i++) {
        bench_devices_take(&devices);
        pause_ms(1);
    }
    assert_int_equal(said, count);
}

static void expect_device(size_t which, bool present) {
    assert_int_equal(event[which].kind, EVENT_DEVICE);
    assert_int_equal(event[which].device, DEVICE_SCANNER);
    assert_int_equal(event[which].present, present);
}

static void path_of(char *path, const char *name) {
    snprintf(path, BENCH_PATH_MAX, "%s/%s", folder, name);
}

static void plug_keys(int which, const char *path) {
    assert_int_equal(mkfifo(path, 0600), 0);
    for (int i = 0; i < WAIT_MS && writer[which] < 0; i++) {
        writer[which] = open(path, O_WRONLY | O_NONBLOCK | O_CLOEXEC);
        pause_ms(1);
    }
    assert_true(writer[which] >= 0);
}

static void unplug_keys(int which, const char *path) {
    unlink(path);
    close(writer[which]);
    writer[which] = -1;
}

static void plug_terminal(const char *path) {
    char slave[64];
    master = posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC);
    assert_true(master >= 0 && grantpt(master) == 0 && unlockpt(master) == 0);
    assert_int_equal(ptsname_r(master, slave, sizeof slave), 0);
    assert_int_equal(symlink(slave, path), 0);
}

static void unplug_terminal(const char *path) {
    unlink(path);
    close(master);
    master = -1;
}

static void key(int which, uint16_t code) {
    struct input_event events[2] = {{.type = EV_KEY, .code = code, .value = 1},
                                    {.type = EV_KEY, .code = code, .value = 0}};
    assert_int_equal(write(writer[which], events, sizeof events), sizeof events);
}

static void keys(int which, const uint16_t *codes, size_t count) {
    for (size_t i = 0; i < count; i++) {
        key(which, codes[i]);
    }
}

static int set_up(void **state) {
    (void)state;
    settings = bench_settings_default();
    bench = (struct bench){.settings = &settings};
    strcpy(folder, "/tmp/kerfside-devices-XXXXXX");
    assert_non_null(mkdtemp(folder));
    path_of(settings.scanner[0], "scan1");
    path_of(settings.scanner[2], "scan3"); // a gap between the two
    path_of(settings.serial[1], "serial2");
    path_of(settings.button, "button");
    settings.button_code = BENCH_BUTTON_ANY;
    for (size_t i = 0; i < BENCH_SCANNERS_MAX; i++) {
        struct wedge_settings wedge = settings.wedge;
        wedge.dedicated = true;
        wedge_init(&bench.scanner[i], &wedge);
    }
    writer[0] = writer[1] = writer[2] = -1;
    master = -1;
    said = 0;
    deaf = false;
    presses = 0;
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    const char *paths[] = {settings.scanner[0], settings.scanner[2], settings.button};
    bench_devices_stop(&devices);
    for (int i = 0; i < 3; i++) {
        if (writer[i] >= 0) {
            unplug_keys(i, paths[i]);
        }
    }
    if (master >= 0) {
        unplug_terminal(settings.serial[1]);
    }
    rmdir(folder);
    return 0;
}

static const uint16_t half[] = {KEY_H, KEY_MINUS, KEY_0, KEY_0};
static const uint16_t rest[] = {KEY_0, KEY_1, KEY_A, KEY_ENTER};
static const uint16_t other[] = {KEY_S, KEY_MINUS, KEY_0, KEY_0, KEY_0, KEY_1, KEY_S, KEY_ENTER};

// Two people who scan at the same time: no key of one gets into the code of the other.
static void test_two_at_once(void **state) {
    (void)state;
    deaf = true; // each is missed at first, perhaps
    assert_true(bench_devices_start(&devices, &bench));
    plug_keys(0, settings.scanner[0]);
    plug_keys(1, settings.scanner[2]);
    plug_keys(2, settings.button);
    keys(0, half, COUNT(half));
    keys(1, other, COUNT(other));
    keys(0, rest, COUNT(rest));
    key(2, KEY_F13);
    for (int i = 0; i < WAIT_MS && (said < 2 || presses < 1); i++) {
        bench_devices_take(&devices);
        pause_ms(1);
    }
    assert_int_equal(said, 2);
    bool first = strcmp(event[0].text, "h-0001a") == 0;
    assert_string_equal(event[first ? 0 : 1].text, "h-0001a");
    assert_string_equal(event[first ? 1 : 0].text, "s-0001s");
    assert_int_equal(presses, 1);
}

// Gone is the scanner only when the last one is.
static void test_the_last_one_counts(void **state) {
    (void)state;
    assert_true(bench_devices_start(&devices, &bench));
    until(2); // none is there: the button's own absence and the scanners', in any order
    said = 0;
    plug_keys(1, settings.scanner[2]);
    until(1);
    expect_device(0, true);
    plug_terminal(settings.serial[1]);
    for (int i = 0; i < WAIT_MS && !devices.there[BENCH_SCANNERS_MAX + 1]; i++) {
        quiet(1);
    }
    unplug_keys(1, settings.scanner[2]);
    quiet(1); // the serial one is there
    assert_int_equal(write(master, "]Q1H-0001A\r", 11), 11);
    until(2);
    assert_int_equal(event[1].kind, EVENT_SCAN);
    assert_string_equal(event[1].text, "H-0001A");
    assert_string_equal(report.source, "Serial scanner 2");
    assert_string_equal(report.aim, "]Q1, QR");
    assert_int_equal(write(master, "]C1H-0001A\r", 11), 11);
    until(3);
    assert_int_equal(event[2].kind, EVENT_FAULT);
    assert_non_null(strstr(event[2].text, "GS1-128"));
    unplug_terminal(settings.serial[1]);
    until(4);
    expect_device(3, false);
    plug_terminal(settings.serial[1]);
    until(5);
    expect_device(4, true);
}

// More than anybody takes: said once, and the half code before it is forgotten.
static void test_a_flood_is_said(void **state) {
    (void)state;
    deaf = true;
    assert_true(bench_devices_start(&devices, &bench));
    plug_keys(0, settings.scanner[0]);
    assert_int_equal(fcntl(writer[0], F_SETFL, 0), 0); // waits for room
    keys(0, half, COUNT(half));
    for (int i = 0; i < 2 * EVDEV_QUEUE_MAX; i++) {
        key(0, KEY_LEFTSHIFT);
    }
    pause_ms(50);
    until(1);
    assert_int_equal(event[0].kind, EVENT_FAULT);
    assert_non_null(strstr(event[0].text, "more at once than"));
    keys(0, rest, COUNT(rest));
    keys(0, other, COUNT(other));
    until(3);
    assert_string_equal(event[1].text, "01a"); // no ticket, and so it is told
    assert_string_equal(event[2].text, "s-0001s");
}

static void expect_weight(size_t which, mass_mg mass, bool stable) {
    assert_int_equal(event[which].kind, EVENT_WEIGHT);
    assert_int_equal(event[which].weight, mass);
    assert_int_equal(event[which].stable, stable);
    assert_int_equal(bench.weight, mass);
    assert_int_equal(bench.weight_stable, stable);
}

static void scale_sends(const char *line) {
    assert_int_equal(write(master, line, strlen(line)), (ssize_t)strlen(line));
}

// A weight is told when it is another, and is not known any more when the scale is gone.
static void test_a_scale(void **state) {
    (void)state;
    settings.scanner[0][0] = settings.scanner[2][0] = settings.button[0] = '\0';
    memcpy(settings.scale, settings.serial[1], sizeof settings.scale);
    settings.serial[1][0] = '\0';
    bench.weight = MASS_UNKNOWN;
    assert_true(bench_devices_start(&devices, &bench));
    until(1);
    assert_int_equal(event[0].device, DEVICE_SCALE);
    assert_false(event[0].present);
    plug_terminal(settings.scale);
    until(2);
    assert_true(event[1].present);
    scale_sends("\rST,GS,+  203.4 g\r");
    until(3);
    expect_weight(2, 203400, true);
    assert_string_equal(report.source, REPORT_SCALE);
    scale_sends("ST,GS,+ 0203.4 g\rhello\r");
    quiet(3);
    assert_string_equal(report.text, "hello"); // shown, and the weight is still known
    assert_int_equal(bench.weight, 203400);
    scale_sends("OL\r");
    until(4);
    expect_weight(3, MASS_UNKNOWN, false);
    bench.reported = true; // a scan is looked at
    bench.last_input_us = bench_clock_us(&bench.clock);
    strcpy(bench.report.source, "Keyboard");
    scale_sends("US,-5 g\r");
    until(5);
    expect_weight(4, -5000, false);
    assert_string_equal(report.text, "OL");
    unplug_terminal(settings.scale);
    until(7);
    expect_weight(5, MASS_UNKNOWN, false);
    assert_int_equal(event[6].device, DEVICE_SCALE);
    assert_false(event[6].present);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_two_at_once, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_the_last_one_counts, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_a_scale, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_a_flood_is_said, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

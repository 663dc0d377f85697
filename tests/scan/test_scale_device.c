// A real scale, and what becomes of parity at a real line, need real hardware.

#include "check.h"
#include "scale_device.h"
#include "terminal.h"

#include <errno.h>
#include <semaphore.h>
#include <stdio.h>
#include <time.h>
#include <unistd.h>

#define NEVER_MS 600000
#define QUIET_MS 150 // longer than SCALE_PAUSE_US

static struct terminal terminal;
static struct scale_device *scale;
static sem_t woken;

static void wake(void *ctx) {
    (void)ctx;
    sem_post(&woken);
}

static void start(int retry_ms, enum scale_format format) {
    struct scale_options options = {.path = terminal.path,
                                    .baud = 9600,
                                    .format = format,
                                    .unit = SCALE_GRAM,
                                    .retry_ms = retry_ms,
                                    .wake = wake};
    scale = scale_device_init(&options);
    assert_non_null(scale);
    assert_true(scale_device_start(scale));
}

static void stop(void) {
    scale_device_stop(scale);
    scale_device_join(scale);
    scale_device_destroy(scale);
    scale = NULL;
}

static int set_up(void **state) {
    (void)state;
    terminal_init(&terminal);
    sem_init(&woken, 0, 0);
    scale = NULL;
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    if (scale != NULL) {
        stop();
    }
    terminal_destroy(&terminal);
    sem_destroy(&woken);
    return 0;
}

static void plugged(enum scale_format format) {
    terminal_plug_in(&terminal);
    start(20, format);
    terminal_wait_raw(&terminal);
    wait_ms(QUIET_MS);
}

static void send(const char *text) {
    terminal_send(&terminal, text, strlen(text));
}

static bool no_more(void) {
    struct scale_event event;
    return !scale_device_next(scale, &event);
}

static struct scale_event next(void) {
    struct scale_event event;
    struct timespec until;
    clock_gettime(CLOCK_REALTIME, &until);
    until.tv_sec += TERMINAL_WAIT_MS / 1000;
    while (!scale_device_next(scale, &event)) {
        if (sem_timedwait(&woken, &until) != 0 && errno == ETIMEDOUT) {
            fail_msg("nothing came within %d ms", TERMINAL_WAIT_MS);
        }
    }
    return event;
}

static void expect_kind(enum scale_event_kind kind) {
    assert_int_equal(next().kind, kind);
}

static void expect(enum scale_kind kind, mass_mg mass, bool stable) {
    struct scale_event event = next();
    assert_int_equal(event.kind, SCALE_READING);
    assert_int_equal(event.reading.kind, kind);
    assert_int_equal(event.reading.mass, mass);
    assert_int_equal(event.reading.stable, stable);
}

static void test_readings(void **state) {
    (void)state;
    plugged(SCALE_8N1);
    send("US,GS,+  100.1 g\r\n");
    expect(SCALE_WEIGHT, 100100, false);
    send("ST,GS,+  203.4 g\r\n");
    expect(SCALE_WEIGHT, 203400, true);
    send("ST,GS,-  203.4 g\r\n");
    expect(SCALE_WEIGHT, -203400, true);
    send("OL,GS,+9999999 g\r\n");
    expect(SCALE_OVER, MASS_UNKNOWN, false);
    send("hello\r\n");
    expect(SCALE_REFUSED, MASS_UNKNOWN, false);
    send("203.4 g\r203.4 g\r203.4 g\r"); // only half a second makes it stable
    expect(SCALE_WEIGHT, 203400, false);
    assert_true(no_more());
}

static void test_rest_by_time(void **state) {
    (void)state;
    plugged(SCALE_8N1);
    for (int i = 0; i < 8; i++) {
        send("  203.4\r\n");
        wait_ms(100);
    }
    struct scale_event event = next();
    while (event.kind == SCALE_READING && !event.reading.stable) {
        event = next();
    }
    assert_int_equal(event.reading.mass, 203400);
    assert_true(event.reading.stable);
}

// The same again and again is no news: nobody is woken for it.
static void test_no_news(void **state) {
    (void)state;
    int wakes = 0;
    plugged(SCALE_8N1);
    send("ST,203.4 g\r\n");
    expect(SCALE_WEIGHT, 203400, true);
    while (sem_trywait(&woken) == 0) {
        continue;
    }
    for (int i = 0; i < 20; i++) {
        send("ST,203.4 g\r\n");
        wait_ms(5);
    }
    assert_true(no_more());
    while (sem_trywait(&woken) == 0) {
        wakes++;
    }
    assert_int_equal(wakes, 0);
}

static void test_7e1(void **state) {
    (void)state;
    // `203.4 g`: 2, 3, 4 and g have an odd number of ones (ITU-T V.4).
    static const char sent[] = "\xb2\x30\x33\x2e\xb4\xa0\xe7\x8d";
    plugged(SCALE_7E1);
    send(sent);
    expect(SCALE_WEIGHT, 203400, false);
    send("203.5 g\r");
    expect(SCALE_REFUSED, MASS_UNKNOWN, false);
}

static void test_silent(void **state) {
    (void)state;
    plugged(SCALE_8N1);
    send("ST,203.4 g\r\n");
    expect(SCALE_WEIGHT, 203400, true);
    expect_kind(SCALE_UNKNOWN); // after SCALE_SILENT_US
    assert_true(no_more());
    send("ST,203.4 g\r\n");
    expect(SCALE_WEIGHT, 203400, true);
}

static void test_unplug_and_return(void **state) {
    (void)state;
    plugged(SCALE_8N1);
    for (int i = 0; i < 3; i++) {
        send("ST,203.4 g\r\nST,20"); // and a half
        expect(SCALE_WEIGHT, 203400, true);
        terminal_plug_out(&terminal);
        expect_kind(SCALE_UNKNOWN);
        expect_kind(SCALE_GONE);
        terminal_plug_in(&terminal);
        expect_kind(SCALE_BACK);
        send("3.4 g\r\n"); // comes in the middle of a line
        send("ST,204.4 g\r\n");
        expect(SCALE_WEIGHT, 204400, true);
        assert_true(no_more());
    }
}

static void test_watched_for_and_idle_meanwhile(void **state) {
    (void)state;
    int64_t used;
    start(NEVER_MS, SCALE_8N1);
    expect_kind(SCALE_GONE);
    used = processor_us();
    wait_ms(200);
    assert_true(processor_us() - used < 50000);
    terminal_plug_in(&terminal);
    expect_kind(SCALE_BACK);
    wait_ms(QUIET_MS);
    send("203.4 g S\r");
    expect(SCALE_WEIGHT, 203400, true);
}

// 10 MB of different weights nobody takes: the newest is what is known.
static void test_ten_megabytes(void **state) {
    (void)state;
    static char block[8192];
    struct scale_event event;
    for (size_t i = 0; i < sizeof block; i += 16) {
        memcpy(block + i, i % 32 == 0 ? "ST,+  203.4 g \r\n" : "US,-  107.5 g \r\n", 16);
    }
    plugged(SCALE_8N1);
    for (int i = 0; i < 1280; i++) {
        terminal_send(&terminal, block, sizeof block);
    }
    send("ST,1.5 g\r");
    wait_ms(100);
    assert_true(scale_device_next(scale, &event));
    assert_int_equal(event.reading.mass, 1500);
    assert_true(no_more());
}

static void test_garbage(void **state) {
    (void)state;
    static char block[4096];
    uint32_t seed = 12345;
    struct scale_event event;
    plugged(SCALE_8N1);
    for (int i = 0; i < 250; i++) {
        for (size_t at = 0; at < sizeof block; at++) {
            seed = seed * 1664525 + 1013904223; // Numerical Recipes' constants; any would do
            block[at] = (char)(seed >> 24 | 0x80);
        }
        terminal_send(&terminal, block, sizeof block);
        while (scale_device_next(scale, &event)) {
            assert_int_equal(event.reading.kind, SCALE_REFUSED);
        }
    }
    wait_ms(2 * QUIET_MS);
    while (scale_device_next(scale, &event)) {
        continue;
    }
    send("\rST,1.5 g\r");
    expect(SCALE_WEIGHT, 1500, true);
}

static void test_stop_any_time(void **state) {
    (void)state;
    for (int i = 0; i < 30; i++) {
        if (i % 2 == 0) {
            terminal_plug_in(&terminal);
        }
        start(i % 3 == 0 ? 1 : NEVER_MS, SCALE_8N1);
        stop();
        if (terminal.master >= 0) {
            terminal_plug_out(&terminal);
        }
    }
    scale_device_destroy(NULL);
}

#define EACH(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void) {
    const struct CMUnitTest tests[] = {
        EACH(test_readings),
        EACH(test_rest_by_time),
        EACH(test_no_news),
        EACH(test_7e1),
        EACH(test_silent),
        EACH(test_unplug_and_return),
        EACH(test_watched_for_and_idle_meanwhile),
        EACH(test_ten_megabytes),
        EACH(test_garbage),
        EACH(test_stop_any_time),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

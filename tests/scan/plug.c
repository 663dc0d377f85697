#include "plug.h"

#include "check.h"

#include <errno.h>
#include <fcntl.h>
#include <linux/input.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

static void woken(void *ctx) {
    struct plug *plug = ctx;
    sem_post(&plug->woken);
}

void plug_init(struct plug *plug) {
    *plug = (struct plug){.folder = "/tmp/kerfside-plug-XXXXXX", .writer = -1};
    assert_non_null(mkdtemp(plug->folder));
    snprintf(plug->path, sizeof plug->path, "%s/event-kbd", plug->folder);
    sem_init(&plug->woken, 0, 0);
}

void plug_in(struct plug *plug) {
    assert_int_equal(mkfifo(plug->path, 0600), 0);
}

static void wait_a_little(void) {
    struct timespec little = {.tv_nsec = 1000000};
    nanosleep(&little, NULL);
}

void plug_open(struct plug *plug) {
    for (int i = 0; i < PLUG_WAIT_MS && plug->writer < 0; i++) {
        plug->writer = open(plug->path, O_WRONLY | O_NONBLOCK | O_CLOEXEC);
        if (plug->writer < 0) {
            assert_true(errno == ENXIO); // no reader yet
            wait_a_little();
        }
    }
    assert_true(plug->writer >= 0);
}

void plug_out(struct plug *plug) {
    unlink(plug->path);
    if (plug->writer >= 0) {
        close(plug->writer);
        plug->writer = -1;
    }
}

void plug_start(struct plug *plug, int retry_ms) {
    struct evdev_options options = {
        .path = plug->path, .retry_ms = retry_ms, .wake = woken, .ctx = plug};
    plug->evdev = evdev_init(&options);
    assert_non_null(plug->evdev);
    assert_true(evdev_start(plug->evdev));
}

void plug_destroy(struct plug *plug) {
    if (plug->evdev != NULL) {
        evdev_stop(plug->evdev);
        evdev_join(plug->evdev);
        evdev_destroy(plug->evdev);
    }
    plug_out(plug);
    rmdir(plug->folder);
    sem_destroy(&plug->woken);
}

static void write_all(struct plug *plug, const void *bytes, size_t size) {
    while (write(plug->writer, bytes, size) != (ssize_t)size) {
        assert_true(errno == EAGAIN); // the pipe is full
        wait_a_little();
    }
}

void plug_event(struct plug *plug, uint16_t type, uint16_t code, int32_t value) {
    struct input_event event = {.type = type, .code = code, .value = value};
    write_all(plug, &event, sizeof event);
}

void plug_key(struct plug *plug, uint16_t code) {
    plug_event(plug, EV_KEY, code, 1);
    plug_event(plug, EV_SYN, SYN_REPORT, 0);
    plug_event(plug, EV_KEY, code, 0);
    plug_event(plug, EV_SYN, SYN_REPORT, 0);
}

void plug_ticket(struct plug *plug) {
    static const uint16_t keys[] = {KEY_H, KEY_MINUS, KEY_0, KEY_0, KEY_0, KEY_1, KEY_A, KEY_ENTER};
    for (size_t i = 0; i < COUNT(keys); i++) {
        plug_key(plug, keys[i]);
    }
}

struct evdev_event plug_next(struct plug *plug) {
    struct evdev_event event;
    struct timespec until;
    clock_gettime(CLOCK_REALTIME, &until);
    until.tv_sec += PLUG_WAIT_MS / 1000;
    while (!evdev_next(plug->evdev, &event)) {
        if (sem_timedwait(&plug->woken, &until) != 0 && errno == ETIMEDOUT) {
            fail_msg("nothing came within %d ms", PLUG_WAIT_MS);
        }
    }
    return event;
}

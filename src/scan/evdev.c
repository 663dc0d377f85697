#include "evdev.h"

#include "device.h"
#include "device_queue.h"

#include <errno.h>
#include <fcntl.h>
#include <linux/input.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <time.h>
#include <unistd.h>

#define READ_MAX 64 // events at a time

struct evdev {
    struct evdev_options options;
    struct device device;
    struct device_queue queue;
    // The rest belongs to the thread.
    bool kernel_time; // events carry CLOCK_MONOTONIC
    bool grabbing;    // not grabbed yet, may still be
    bool taken;       // by another program, and told
    bool dropping;    // behind a SYN_DROPPED, until the next SYN_REPORT
    size_t used;
    union {
        char bytes[READ_MAX * sizeof(struct input_event)];
        struct input_event event[READ_MAX];
    } in;
};

static int64_t now_us(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000000 + now.tv_nsec / 1000;
}

static void put(struct evdev *e, enum evdev_kind kind, const struct wedge_key *key) {
    struct evdev_event event = {.kind = kind};
    if (key != NULL) {
        event.key = *key;
    }
    device_queue_add(&e->queue, &event);
}

// Only with every key up: whoever read the device before would see a key that is never let go.
static void grab(struct evdev *e, int fd) {
    unsigned char keys[KEY_MAX / 8 + 1] = {0};
    if (ioctl(fd, EVIOCGKEY(sizeof keys), keys) < 0) {
        e->grabbing = false; // a FIFO
        return;
    }
    for (size_t i = 0; i < sizeof keys; i++) {
        if (keys[i] != 0) {
            return;
        }
    }
    if (ioctl(fd, EVIOCGRAB, 1) == 0) {
        e->grabbing = false;
    } else if (!e->taken) {
        e->taken = true;
        put(e, EVDEV_TAKEN, NULL);
        e->options.wake(e->options.ctx);
    }
}

static int idle(void *ctx, int fd) {
    struct evdev *e = ctx;
    if (e->grabbing) {
        grab(e, fd);
    }
    return e->grabbing ? e->options.retry_ms : -1;
}

static bool ready(void *ctx, int fd) {
    struct evdev *e = ctx;
    int clock = CLOCK_MONOTONIC;
    e->kernel_time = ioctl(fd, EVIOCSCLOCKID, &clock) == 0;
    e->grabbing = true;
    e->taken = false;
    e->dropping = false;
    e->used = 0;
    return true;
}

static void take_event(struct evdev *e, const struct input_event *event) {
    struct wedge_key key;
    if (event->type == EV_SYN && event->code == SYN_DROPPED) {
        e->dropping = true;
        device_queue_flood(&e->queue);
    } else if (event->type == EV_SYN && event->code == SYN_REPORT) {
        e->dropping = false;
    } else if (event->type == EV_KEY && event->value != 2 && !e->dropping) { // 2: repeat
        key = (struct wedge_key){.code = event->code, .down = event->value == 1};
        key.time_us = e->kernel_time
                          ? (int64_t)event->input_event_sec * 1000000 + event->input_event_usec
                          : now_us();
        put(e, EVDEV_KEY, &key);
    }
}

static bool read_events(void *ctx, int fd) {
    struct evdev *e = ctx;
    ssize_t size = read(fd, e->in.bytes + e->used, sizeof e->in.bytes - e->used);
    size_t whole;
    if (size <= 0) {
        bool there = size < 0 && (errno == EAGAIN || errno == EINTR);
        if (!there) {
            device_queue_lost(&e->queue);
        }
        return there;
    }
    e->used += (size_t)size;
    whole = e->used / sizeof e->in.event[0];
    for (size_t i = 0; i < whole; i++) {
        take_event(e, &e->in.event[i]);
    }
    e->used -= whole * sizeof e->in.event[0];
    memmove(e->in.bytes, &e->in.event[whole], e->used);
    e->options.wake(e->options.ctx);
    return true;
}

static void present(void *ctx, bool there) {
    struct evdev *e = ctx;
    if (device_queue_present(&e->queue, there)) {
        e->options.wake(e->options.ctx);
    }
}

static const struct device_calls calls = {
    .flags = O_RDONLY, .ready = ready, .read = read_events, .idle = idle, .present = present};

struct evdev *evdev_init(const struct evdev_options *options) {
    struct evdev *e = calloc(1, sizeof *e);
    if (e == NULL) {
        return NULL;
    }
    e->options = *options;
    e->options.path = NULL; // the caller's
    if (!device_queue_init(&e->queue, EVDEV_QUEUE_MAX, sizeof(struct evdev_event))) {
        free(e);
        return NULL;
    }
    if (!device_init(&e->device, options->path, options->retry_ms, &calls, e)) {
        device_queue_destroy(&e->queue);
        free(e);
        return NULL;
    }
    return e;
}

bool evdev_start(struct evdev *e) {
    return device_start(&e->device);
}

void evdev_stop(struct evdev *e) {
    device_stop(&e->device);
}

void evdev_join(struct evdev *e) {
    device_join(&e->device);
}

void evdev_destroy(struct evdev *e) {
    if (e == NULL) {
        return;
    }
    device_queue_destroy(&e->queue);
    device_destroy(&e->device);
    free(e);
}

bool evdev_next(struct evdev *e, struct evdev_event *ret_event) {
    switch (device_queue_take(&e->queue, ret_event)) {
    case DEVICE_ITEM:
        return true;
    case DEVICE_FLOOD:
        *ret_event = (struct evdev_event){.kind = EVDEV_FLOOD};
        return true;
    case DEVICE_LOST:
        *ret_event = (struct evdev_event){.kind = EVDEV_LOST};
        return true;
    case DEVICE_GONE:
        *ret_event = (struct evdev_event){.kind = EVDEV_GONE};
        return true;
    case DEVICE_BACK:
        *ret_event = (struct evdev_event){.kind = EVDEV_BACK};
        return true;
    case DEVICE_NOTHING:
        break;
    }
    return false;
}

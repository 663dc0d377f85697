#include "serial.h"

#include "device.h"
#include "device_queue.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <time.h>
#include <unistd.h>

#define READ_MAX 4096

struct serial {
    struct serial_options options;
    struct device device;
    struct device_queue queue;
    // The rest belongs to the thread.
    struct serial_parser parser;
    bool gave; // something since the last wake
};

static int64_t now_us(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000000 + now.tv_nsec / 1000;
}

static void take(void *ctx, const struct serial_record *record) {
    struct serial *s = ctx;
    struct serial_event event = {
        .kind = SERIAL_RECORD, .time_us = record->trace.end_us, .record = *record};
    device_queue_add(&s->queue, &event);
    s->gave = true;
}

// Once for all that came together.
static void wake(struct serial *s) {
    if (s->gave) {
        s->gave = false;
        s->options.wake(s->options.ctx);
    }
}

static bool ready(void *ctx, int fd) {
    struct serial *s = ctx;
    serial_parser_forget(&s->parser);
    return serial_line_open(fd, s->options.baud);
}

// Called when poll says so, so that no bytes mean an end (termios(3): VMIN and VTIME 0).
static bool read_bytes(void *ctx, int fd) {
    struct serial *s = ctx;
    char bytes[READ_MAX];
    ssize_t size = read(fd, bytes, sizeof bytes);
    if (size > 0) {
        serial_parser_feed(&s->parser, bytes, (size_t)size, now_us(), take, s);
        wake(s);
        return true;
    }
    if (size < 0 && (errno == EAGAIN || errno == EINTR)) {
        return true;
    }
    device_queue_lost(&s->queue);
    return false;
}

static int idle(void *ctx, int fd) {
    struct serial *s = ctx;
    int64_t now = now_us();
    int64_t due;
    (void)fd;
    serial_parser_tick(&s->parser, now, take, s);
    wake(s);
    due = serial_parser_deadline(&s->parser);
    return due < 0 ? -1 : (int)((due - now + 999) / 1000);
}

static void present(void *ctx, bool there) {
    struct serial *s = ctx;
    if (device_queue_present(&s->queue, there)) {
        s->options.wake(s->options.ctx);
    }
}

static const struct device_calls calls = {.flags = O_RDWR | O_NOCTTY,
                                          .ready = ready,
                                          .read = read_bytes,
                                          .idle = idle,
                                          .present = present};

struct serial *serial_init(const struct serial_options *options) {
    struct serial *s = calloc(1, sizeof *s);
    if (s == NULL) {
        return NULL;
    }
    s->options = *options;
    serial_parser_init(&s->parser, options->prefix);
    s->options.path = NULL; // the caller's, as is the prefix
    s->options.prefix = NULL;
    if (!device_queue_init(&s->queue, SERIAL_QUEUE_MAX, sizeof(struct serial_event))) {
        free(s);
        return NULL;
    }
    if (!device_init(&s->device, options->path, options->retry_ms, &calls, s)) {
        device_queue_destroy(&s->queue);
        free(s);
        return NULL;
    }
    return s;
}

bool serial_start(struct serial *s) {
    return device_start(&s->device);
}

void serial_stop(struct serial *s) {
    device_stop(&s->device);
}

void serial_join(struct serial *s) {
    device_join(&s->device);
}

void serial_destroy(struct serial *s) {
    if (s == NULL) {
        return;
    }
    device_queue_destroy(&s->queue);
    device_destroy(&s->device);
    free(s);
}

bool serial_next(struct serial *s, struct serial_event *ret_event) {
    static const enum serial_kind kinds[] = {[DEVICE_FLOOD] = SERIAL_FLOOD,
                                             [DEVICE_LOST] = SERIAL_LOST,
                                             [DEVICE_GONE] = SERIAL_GONE,
                                             [DEVICE_BACK] = SERIAL_BACK};
    enum device_note note = device_queue_take(&s->queue, ret_event);
    if (note != DEVICE_NOTHING && note != DEVICE_ITEM) {
        *ret_event = (struct serial_event){.kind = kinds[note], .time_us = now_us()};
    }
    return note != DEVICE_NOTHING;
}

#include "scale_device.h"

#include "device.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <time.h>
#include <unistd.h>

#define READ_MAX 4096

struct scale_device {
    struct scale_options options;
    struct device device;
    struct scale_parser parser; // the thread's
    pthread_mutex_t mutex;      // of all below
    struct scale_reading newest;
    bool known; // newest is
    bool fresh; // and nobody has taken it
    bool present;
    bool told_known;
    bool told_present;
};

static int64_t now_us(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000000 + now.tv_nsec / 1000;
}

static bool same(const struct scale_reading *a, const struct scale_reading *b) {
    return a->kind == b->kind && a->mass == b->mass && a->stable == b->stable &&
           a->load == b->load && a->why == b->why && strcmp(a->line, b->line) == 0;
}

static void take(void *ctx, const struct scale_reading *reading) {
    struct scale_device *s = ctx;
    pthread_mutex_lock(&s->mutex);
    s->fresh = s->fresh || !s->known || !same(&s->newest, reading);
    s->newest = *reading;
    s->known = true;
    pthread_mutex_unlock(&s->mutex);
}

static void forget(struct scale_device *s) {
    pthread_mutex_lock(&s->mutex);
    s->known = false;
    s->fresh = false;
    pthread_mutex_unlock(&s->mutex);
}

// Once for all that came together.
static void wake(struct scale_device *s) {
    bool news;
    pthread_mutex_lock(&s->mutex);
    news = s->fresh || s->known != s->told_known || s->present != s->told_present;
    pthread_mutex_unlock(&s->mutex);
    if (news) {
        s->options.wake(s->options.ctx);
    }
}

static bool ready(void *ctx, int fd) {
    struct scale_device *s = ctx;
    bool open = serial_line_open(fd, s->options.baud);
    scale_parser_forget(&s->parser, now_us());
    return open;
}

// Called when poll says so, so that no bytes mean an end (termios(3): VMIN and VTIME 0).
static bool read_bytes(void *ctx, int fd) {
    struct scale_device *s = ctx;
    char bytes[READ_MAX];
    ssize_t size = read(fd, bytes, sizeof bytes);
    if (size > 0) {
        scale_parser_feed(&s->parser, bytes, (size_t)size, now_us(), take, s);
        wake(s);
        return true;
    }
    if (size < 0 && (errno == EAGAIN || errno == EINTR)) {
        return true;
    }
    forget(s);
    return false;
}

static int idle(void *ctx, int fd) {
    struct scale_device *s = ctx;
    int64_t now = now_us();
    int64_t due;
    int waiting = 0;
    // This thread may have slept while bytes came: that is no pause of the scale.
    bool late = ioctl(fd, FIONREAD, &waiting) == 0 && waiting > 0;
    if (!late && scale_parser_tick(&s->parser, now, take, s)) {
        forget(s);
    }
    wake(s);
    due = scale_parser_deadline(&s->parser);
    return due < 0 ? -1 : due < now ? 0 : (int)((due - now + 999) / 1000);
}

static void present(void *ctx, bool there) {
    struct scale_device *s = ctx;
    pthread_mutex_lock(&s->mutex);
    s->present = there;
    pthread_mutex_unlock(&s->mutex);
    wake(s);
}

static const struct device_calls calls = {.flags = O_RDWR | O_NOCTTY,
                                          .ready = ready,
                                          .read = read_bytes,
                                          .idle = idle,
                                          .present = present};

struct scale_device *scale_device_init(const struct scale_options *options) {
    struct scale_device *s = calloc(1, sizeof *s);
    if (s == NULL) {
        return NULL;
    }
    s->options = *options;
    s->options.path = NULL; // the caller's
    s->present = true;
    s->told_present = true;
    scale_parser_init(&s->parser, options->unit, options->format, now_us());
    if (pthread_mutex_init(&s->mutex, NULL) != 0) {
        free(s);
        return NULL;
    }
    if (!device_init(&s->device, options->path, options->retry_ms, &calls, s)) {
        pthread_mutex_destroy(&s->mutex);
        free(s);
        return NULL;
    }
    return s;
}

bool scale_device_start(struct scale_device *s) {
    return device_start(&s->device);
}

void scale_device_stop(struct scale_device *s) {
    device_stop(&s->device);
}

void scale_device_join(struct scale_device *s) {
    device_join(&s->device);
}

void scale_device_destroy(struct scale_device *s) {
    if (s == NULL) {
        return;
    }
    device_destroy(&s->device);
    pthread_mutex_destroy(&s->mutex);
    free(s);
}

bool scale_device_next(struct scale_device *s, struct scale_event *ret_event) {
    bool any = true;
    pthread_mutex_lock(&s->mutex);
    if (s->fresh) {
        *ret_event = (struct scale_event){.kind = SCALE_READING, .reading = s->newest};
        s->fresh = false;
        s->told_known = true;
    } else if (s->told_known && !s->known) {
        *ret_event = (struct scale_event){.kind = SCALE_UNKNOWN};
        s->told_known = false;
    } else if (s->present != s->told_present) {
        *ret_event = (struct scale_event){.kind = s->present ? SCALE_BACK : SCALE_GONE};
        s->told_present = s->present;
    } else {
        any = false;
    }
    pthread_mutex_unlock(&s->mutex);
    return any;
}

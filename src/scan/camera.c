#include "camera.h"

#include "camera_slot.h"
#include "camera_source.h"

#include <dirent.h>
#include <errno.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/eventfd.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

struct camera {
    struct camera_options options;
    char *path;
    pthread_t thread;
    int stop; // eventfd
    struct camera_slot slot;
};

int64_t camera_now_us(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000000 + now.tv_nsec / 1000;
}

static void tell_gone(struct camera *c, const char *text) {
    if (camera_slot_gone(&c->slot, text)) {
        c->options.wake(c->options.ctx);
    }
}

static int by_name(const struct dirent **a, const struct dirent **b) {
    return strcmp((*a)->d_name, (*b)->d_name);
}

static int visible(const struct dirent *entry) {
    return entry->d_name[0] != '.';
}

// A device has a node for its pictures and others for what goes with them: the first that is a
// camera.
static bool open_first(struct camera *c, struct camera_source **ret_source,
                       char fault[CAMERA_TEXT_MAX]) {
    struct dirent **entry;
    int count = scandir(c->path, &entry, visible, by_name);
    bool found = false;
    snprintf(fault, CAMERA_TEXT_MAX, "no camera in %.100s", c->path);
    for (int i = 0; i < count; i++) {
        char *path = NULL;
        if (!found && asprintf(&path, "%s/%s", c->path, entry[i]->d_name) >= 0) {
            found = camera_v4l2_open(&c->options, path, ret_source, fault);
            free(path);
        }
        free(entry[i]);
    }
    if (count >= 0) {
        free(entry);
    }
    return found;
}

static bool open_source(struct camera *c, struct camera_source **ret_source,
                        char fault[CAMERA_TEXT_MAX]) {
    struct stat about;
    if (stat(c->path, &about) != 0) {
        snprintf(fault, CAMERA_TEXT_MAX, "%.100s: %s", c->path,
                 errno == ENOENT ? "not there" : strerrordesc_np(errno));
        return false;
    }
    if (S_ISDIR(about.st_mode)) {
        return open_first(c, ret_source, fault);
    }
    if (S_ISREG(about.st_mode) || S_ISFIFO(about.st_mode)) {
        return camera_y4m_open(&c->options, c->path, S_ISFIFO(about.st_mode), ret_source, fault);
    }
    return camera_v4l2_open(&c->options, c->path, ret_source, fault);
}

// Waits for `fd` to become readable, or until `until_us`; -1: no end. False: stop.
static bool wait_for(struct camera *c, int fd, int64_t until_us, short *ret_events) {
    struct pollfd fds[] = {{.fd = c->stop, .events = POLLIN}, {.fd = fd, .events = POLLIN}};
    int64_t left_us = until_us < 0 ? -1 : until_us - camera_now_us();
    int left_ms = until_us < 0 ? -1 : left_us < 0 ? 0 : (int)((left_us + 999) / 1000);
    if (poll(fds, 2, left_ms) < 0) {
        return errno == EINTR;
    }
    *ret_events = fds[1].revents;
    return fds[0].revents == 0;
}

// Waits until there may be something to take: *ret_events is 0 if there is not. False: stop.
static bool wait_for_source(struct camera *c, const struct camera_source *source, int64_t quiet_us,
                            short *ret_events) {
    int64_t now = camera_now_us();
    bool going;
    if (now < source->due_us) {
        return wait_for(c, -1, source->due_us, ret_events);
    }
    if (source->ready) {
        going = wait_for(c, -1, now, ret_events);
        *ret_events = POLLIN;
        return going;
    }
    return wait_for(c, source->fd, source->steady ? quiet_us : -1, ret_events);
}

static void take_frame(struct camera *c, struct frame *frame) {
    frame->time_us = camera_now_us();
    camera_slot_put(&c->slot, frame);
    camera_slot_back(&c->slot);
    c->options.wake(c->options.ctx);
}

enum outcome { OUTCOME_STOP, OUTCOME_LOST, OUTCOME_END };

// Reads until the source is lost or at its end, and says why, or until the order to stop.
static enum outcome read_on(struct camera *c, struct camera_source *source,
                            char fault[CAMERA_TEXT_MAX]) {
    int64_t silence_us = (int64_t)c->options.silence_ms * 1000;
    int64_t quiet_us = camera_now_us() + silence_us; // a device that shows nothing until then
    bool broken = false;
    for (;;) {
        struct frame frame;
        short events = 0;
        enum camera_step step;
        if (!wait_for_source(c, source, quiet_us, &events)) {
            return OUTCOME_STOP;
        }
        step = events == 0 ? CAMERA_NOTHING : source->take(source, &frame);
        switch (step) {
        case CAMERA_NOTHING:
            if ((events & POLLERR) != 0) {
                snprintf(fault, CAMERA_TEXT_MAX, "%.100s: the device fails", c->path);
                return OUTCOME_LOST;
            }
            break;
        case CAMERA_FRAME:
            take_frame(c, &frame);
            quiet_us = camera_now_us() + silence_us;
            broken = false;
            break;
        case CAMERA_BROKEN:
            camera_slot_broken(&c->slot);
            broken = true;
            break;
        case CAMERA_LOST:
        case CAMERA_END:
            snprintf(fault, CAMERA_TEXT_MAX, "%s", source->fault);
            return step == CAMERA_END ? OUTCOME_END : OUTCOME_LOST;
        }
        if (source->steady && camera_now_us() >= quiet_us) {
            snprintf(fault, CAMERA_TEXT_MAX, "%.100s: %s for %d s", c->path,
                     broken ? "nothing but broken pictures" : "no picture",
                     c->options.silence_ms / 1000);
            return OUTCOME_LOST;
        }
    }
}

static void *run(void *ctx) {
    struct camera *c = ctx;
    enum outcome outcome = OUTCOME_LOST;
    while (outcome == OUTCOME_LOST) {
        struct camera_source *source;
        char fault[CAMERA_TEXT_MAX];
        int64_t retry_us;
        short events;
        if (open_source(c, &source, fault)) {
            if (source->waiting) {
                tell_gone(c, source->fault);
            }
            outcome = read_on(c, source, fault);
            source->close(source);
        }
        if (outcome == OUTCOME_STOP) {
            break;
        }
        tell_gone(c, fault);
        // What opens at once and fails at once must not keep a core busy; after the end of a file
        // there is only the order to stop to wait for.
        retry_us = camera_now_us() + (int64_t)c->options.retry_ms * 1000;
        if (!wait_for(c, -1, outcome == OUTCOME_END ? -1 : retry_us, &events)) {
            break;
        }
    }
    return NULL;
}

struct camera *camera_init(const struct camera_options *options) {
    struct camera *c = calloc(1, sizeof *c);
    if (c == NULL) {
        return NULL;
    }
    c->options = *options;
    c->path = strdup(options->path);
    c->stop = eventfd(0, EFD_CLOEXEC);
    if (c->path == NULL || c->stop < 0 || !camera_slot_init(&c->slot)) {
        free(c->path);
        if (c->stop >= 0) {
            close(c->stop);
        }
        free(c);
        return NULL;
    }
    return c;
}

bool camera_start(struct camera *c) {
    sigset_t all;
    sigset_t before;
    int error;
    sigfillset(&all);
    pthread_sigmask(SIG_SETMASK, &all, &before); // signals are the main thread's
    error = pthread_create(&c->thread, NULL, run, c);
    pthread_sigmask(SIG_SETMASK, &before, NULL);
    return error == 0;
}

void camera_stop(struct camera *c) {
    eventfd_write(c->stop, 1);
}

void camera_join(struct camera *c) {
    pthread_join(c->thread, NULL);
}

void camera_destroy(struct camera *c) {
    if (c == NULL) {
        return;
    }
    camera_slot_destroy(&c->slot);
    close(c->stop);
    free(c->path);
    free(c);
}

bool camera_next(struct camera *c, struct camera_event *ret_event) {
    return camera_slot_next(&c->slot, ret_event);
}

bool camera_take(struct camera *c, struct frame *ret_frame) {
    return camera_slot_take(&c->slot, ret_frame);
}

struct camera_counts camera_counts(struct camera *c) {
    return camera_slot_counts(&c->slot);
}

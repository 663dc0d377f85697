#include "evdev.h"

#include "evdev_queue.h"

#include <errno.h>
#include <fcntl.h>
#include <linux/input.h>
#include <poll.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/eventfd.h>
#include <sys/inotify.h>
#include <sys/ioctl.h>
#include <time.h>
#include <unistd.h>

#define READ_MAX 64 // events at a time

struct evdev {
    struct evdev_options options;
    char *path;
    char *folder;
    pthread_t thread;
    int stop; // eventfd
    struct evdev_queue queue;
    // The rest belongs to the thread.
    int fd;
    bool kernel_time; // events carry CLOCK_MONOTONIC
    bool grabbing;    // not grabbed yet, may still be
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

// Only with every key up: whoever read the device before would see a key that is never let go.
static void grab(struct evdev *e) {
    unsigned char keys[KEY_MAX / 8 + 1] = {0};
    if (!e->grabbing) {
        return;
    }
    if (ioctl(e->fd, EVIOCGKEY(sizeof keys), keys) < 0) {
        e->grabbing = false; // a FIFO
        return;
    }
    for (size_t i = 0; i < sizeof keys; i++) {
        if (keys[i] != 0) {
            return;
        }
    }
    ioctl(e->fd, EVIOCGRAB, 1); // refused: somebody else has it; read along then
    e->grabbing = false;
}

static bool open_device(struct evdev *e) {
    int clock = CLOCK_MONOTONIC;
    e->fd = open(e->path, O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    if (e->fd < 0) {
        return false;
    }
    e->kernel_time = ioctl(e->fd, EVIOCSCLOCKID, &clock) == 0;
    e->grabbing = true;
    e->dropping = false;
    e->used = 0;
    grab(e);
    return true;
}

static void tell_present(struct evdev *e, bool present) {
    if (evdev_queue_present(&e->queue, present)) {
        e->options.wake(e->options.ctx);
    }
}

static void close_device(struct evdev *e) {
    close(e->fd);
    e->fd = -1;
    evdev_queue_lost(&e->queue);
    tell_present(e, false);
}

static void take_event(struct evdev *e, const struct input_event *event) {
    struct wedge_key key;
    if (event->type == EV_SYN && event->code == SYN_DROPPED) {
        e->dropping = true;
        evdev_queue_lost(&e->queue);
    } else if (event->type == EV_SYN && event->code == SYN_REPORT) {
        e->dropping = false;
    } else if (event->type == EV_KEY && event->value != 2 && !e->dropping) { // 2: repeat
        key = (struct wedge_key){.code = event->code, .down = event->value == 1};
        key.time_us = e->kernel_time
                          ? (int64_t)event->input_event_sec * 1000000 + event->input_event_usec
                          : now_us();
        evdev_queue_key(&e->queue, &key);
    }
}

// Reads all there is. False when the device is gone.
static bool read_device(struct evdev *e) {
    for (;;) {
        ssize_t size = read(e->fd, e->in.bytes + e->used, sizeof e->in.bytes - e->used);
        size_t whole;
        if (size < 0 && errno == EINTR) {
            continue;
        }
        if (size <= 0) {
            return size < 0 && errno == EAGAIN;
        }
        e->used += (size_t)size;
        whole = e->used / sizeof e->in.event[0];
        for (size_t i = 0; i < whole; i++) {
            take_event(e, &e->in.event[i]);
        }
        e->used -= whole * sizeof e->in.event[0];
        memmove(e->in.bytes, &e->in.event[whole], e->used);
        e->options.wake(e->options.ctx);
    }
}

// Waits until there may be something to read, or the device may be back. False: stop.
static bool wait_for(struct evdev *e, int watch, bool *ret_readable) {
    struct pollfd fds[] = {
        {.fd = e->stop, .events = POLLIN},
        {.fd = e->fd, .events = POLLIN},
        {.fd = e->fd < 0 ? watch : -1, .events = POLLIN},
    };
    char notes[1024];
    *ret_readable = poll(fds, 3, e->fd < 0 ? e->options.retry_ms : -1) > 0 && fds[1].revents != 0;
    if (fds[2].revents != 0 && read(watch, notes, sizeof notes) < 0) {
        return fds[0].revents == 0; // somebody else's note, already gone
    }
    return fds[0].revents == 0;
}

// The folder may come and go with the device: watched anew each time something is looked for.
static int watch_folder(const struct evdev *e) {
    int watch = inotify_init1(IN_NONBLOCK | IN_CLOEXEC);
    if (watch >= 0) {
        inotify_add_watch(watch, e->folder, IN_CREATE | IN_MOVED_TO | IN_ATTRIB);
    }
    return watch;
}

// Looks for the device until it is there. False: stop.
static bool find_device(struct evdev *e) {
    bool going = true;
    while (going) {
        int watch = watch_folder(e); // before looking, so that nothing slips between
        bool readable;
        if (open_device(e)) {
            close(watch);
            tell_present(e, true);
            return true;
        }
        tell_present(e, false);
        going = wait_for(e, watch, &readable);
        close(watch);
    }
    return false;
}

// Reads until the device goes. False: stop.
static bool read_on(struct evdev *e) {
    bool readable;
    while (wait_for(e, -1, &readable)) {
        if (readable && !read_device(e)) {
            close_device(e);
            return true;
        }
        grab(e);
    }
    close(e->fd);
    return false;
}

static void *run(void *ctx) {
    struct evdev *e = ctx;
    bool readable;
    while (find_device(e) && read_on(e)) {
        // What can be opened at once and is gone again at once must not keep a core busy.
        if (!wait_for(e, -1, &readable)) {
            break;
        }
    }
    return NULL;
}

static char *folder_of(const char *path) {
    const char *end = strrchr(path, '/');
    return end == NULL ? strdup(".") : strndup(path, (size_t)(end - path) + 1);
}

struct evdev *evdev_init(const struct evdev_options *options) {
    struct evdev *e = calloc(1, sizeof *e);
    if (e == NULL) {
        return NULL;
    }
    e->options = *options;
    e->fd = -1;
    e->stop = eventfd(0, EFD_CLOEXEC);
    e->path = strdup(options->path);
    e->folder = folder_of(options->path);
    if (e->stop < 0 || e->path == NULL || e->folder == NULL || !evdev_queue_init(&e->queue)) {
        free(e->path);
        free(e->folder);
        if (e->stop >= 0) {
            close(e->stop);
        }
        free(e);
        return NULL;
    }
    return e;
}

bool evdev_start(struct evdev *e) {
    sigset_t all;
    sigset_t before;
    int error;
    sigfillset(&all);
    pthread_sigmask(SIG_SETMASK, &all, &before); // signals are the main thread's
    error = pthread_create(&e->thread, NULL, run, e);
    pthread_sigmask(SIG_SETMASK, &before, NULL);
    return error == 0;
}

void evdev_stop(struct evdev *e) {
    eventfd_write(e->stop, 1);
}

void evdev_join(struct evdev *e) {
    pthread_join(e->thread, NULL);
}

void evdev_destroy(struct evdev *e) {
    if (e == NULL) {
        return;
    }
    evdev_queue_destroy(&e->queue);
    close(e->stop);
    free(e->path);
    free(e->folder);
    free(e);
}

bool evdev_next(struct evdev *e, struct evdev_event *ret_event) {
    return evdev_queue_take(&e->queue, ret_event);
}

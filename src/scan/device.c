#include "device.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/eventfd.h>
#include <sys/inotify.h>
#include <unistd.h>

// Waits until there may be something to read, the device may be back, or so much time has passed;
// -1: for ever. False: stop.
static bool wait_for(const struct device *d, int watch, int patience_ms, bool *ret_readable) {
    struct pollfd fds[] = {
        {.fd = d->stop, .events = POLLIN},
        {.fd = d->fd, .events = POLLIN},
        {.fd = watch, .events = POLLIN},
    };
    char notes[1024];
    *ret_readable = poll(fds, 3, patience_ms) > 0 && fds[1].revents != 0;
    if (fds[2].revents != 0 && read(watch, notes, sizeof notes) < 0) {
        return fds[0].revents == 0; // somebody else's note, already gone
    }
    return fds[0].revents == 0;
}

static bool open_device(struct device *d) {
    d->fd = open(d->path, d->calls->flags | O_NONBLOCK | O_CLOEXEC);
    if (d->fd >= 0 && !d->calls->ready(d->ctx, d->fd)) {
        close(d->fd);
        d->fd = -1;
    }
    return d->fd >= 0;
}

// The folder may come and go with the device: watched anew each time something is looked for.
static int watch_folder(const struct device *d) {
    int watch = inotify_init1(IN_NONBLOCK | IN_CLOEXEC);
    if (watch >= 0) {
        inotify_add_watch(watch, d->folder, IN_CREATE | IN_MOVED_TO | IN_ATTRIB);
    }
    return watch;
}

// Looks for the device until it is there. False: stop.
static bool find_device(struct device *d) {
    bool going = true;
    while (going) {
        int watch = watch_folder(d); // before looking, so that nothing slips between
        bool readable;
        if (open_device(d)) {
            close(watch);
            d->calls->present(d->ctx, true);
            return true;
        }
        d->calls->present(d->ctx, false);
        going = wait_for(d, watch, d->retry_ms, &readable);
        close(watch);
    }
    return false;
}

static void close_device(struct device *d) {
    close(d->fd);
    d->fd = -1;
}

// Reads until the device goes. One read a turn, so that an endless stream is no reason not to stop.
// False: stop.
static bool read_on(struct device *d) {
    bool readable;
    while (wait_for(d, -1, d->calls->idle(d->ctx, d->fd), &readable)) {
        if (readable && !d->calls->read(d->ctx, d->fd)) {
            close_device(d);
            d->calls->present(d->ctx, false);
            return true;
        }
    }
    close_device(d);
    return false;
}

static void *run(void *ctx) {
    struct device *d = ctx;
    bool readable;
    while (find_device(d) && read_on(d)) {
        // What can be opened at once and is gone again at once must not keep a core busy.
        if (!wait_for(d, -1, d->retry_ms, &readable)) {
            break;
        }
    }
    return NULL;
}

static char *folder_of(const char *path) {
    const char *end = strrchr(path, '/');
    return end == NULL ? strdup(".") : strndup(path, (size_t)(end - path) + 1);
}

bool device_init(struct device *d, const char *path, int retry_ms, const struct device_calls *calls,
                 void *ctx) {
    *d = (struct device){.calls = calls, .ctx = ctx, .retry_ms = retry_ms, .fd = -1};
    d->stop = eventfd(0, EFD_CLOEXEC);
    d->path = strdup(path);
    d->folder = folder_of(path);
    if (d->stop < 0 || d->path == NULL || d->folder == NULL) {
        device_destroy(d);
        return false;
    }
    return true;
}

bool device_start(struct device *d) {
    sigset_t all;
    sigset_t before;
    int error;
    sigfillset(&all);
    pthread_sigmask(SIG_SETMASK, &all, &before); // signals are the main thread's
    error = pthread_create(&d->thread, NULL, run, d);
    pthread_sigmask(SIG_SETMASK, &before, NULL);
    return error == 0;
}

void device_stop(struct device *d) {
    eventfd_write(d->stop, 1);
}

void device_join(struct device *d) {
    pthread_join(d->thread, NULL);
}

void device_destroy(struct device *d) {
    if (d->stop >= 0) {
        close(d->stop);
    }
    free(d->path);
    free(d->folder);
}

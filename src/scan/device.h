#ifndef DEVICE_H
#define DEVICE_H

// A device at a path, read by a thread of its own: looked for until it is there, read until it
// goes, closed at once (an open descriptor keeps its number taken), and looked for again. Whoever
// knows what the bytes mean gives the calls; all of them are made on the thread.

#include <pthread.h>
#include <stdbool.h>

struct device_calls {
    int flags; // of open(2), beside O_NONBLOCK | O_CLOEXEC
    // Makes an open device ready. False: it is not of this kind, and counts as not there.
    bool (*ready)(void *ctx, int fd);
    // One read. False: gone.
    bool (*read)(void *ctx, int fd);
    // Called after each read and when its time has come. Returns milliseconds until it wants to be
    // called again, -1: not before the next read.
    int (*idle)(void *ctx, int fd);
    void (*present)(void *ctx, bool present); // after each look and when it goes
};

struct device {
    const struct device_calls *calls;
    void *ctx;
    char *path;
    char *folder;
    int retry_ms; // how often a missing device is looked for; it is also watched for
    int stop;     // eventfd
    int fd;
    pthread_t thread;
};

// False on no memory or no descriptors. The path is copied.
bool device_init(struct device *device, const char *path, int retry_ms,
                 const struct device_calls *calls, void *ctx);
bool device_start(struct device *device);
void device_stop(struct device *device); // asks the thread to end
void device_join(struct device *device);
void device_destroy(struct device *device); // after device_join, or never started

#endif

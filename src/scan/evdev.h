#ifndef EVDEV_H
#define EVDEV_H

// One input device read by a thread of its own: a scanner or the button, apart from every other
// keyboard (the window system cannot tell two keyboards apart). The path names a device node, best
// one of /dev/input/by-id, or a FIFO of struct input_event.
//
// The device is grabbed for this program alone where the system allows it. When it goes, it is
// closed at once and looked for until it is back. The thread owns the device and hands over events
// by a bounded queue; wake is called from the thread, everything else is for one other thread.

#include "wedge.h"

#define EVDEV_QUEUE_MAX 1024 // keys nobody has taken yet; more are lost

struct evdev; // opaque

enum evdev_kind {
    EVDEV_KEY,   // key, with its time on CLOCK_MONOTONIC
    EVDEV_LOST,  // keys are missing here: forget what is half read, take all keys for up
    EVDEV_FLOOD, // the same, since more came at once than could be taken
    EVDEV_GONE,  // after one of these
    EVDEV_BACK,
    EVDEV_TAKEN // another program has it for itself and gets its keys; asked for again and again
};
struct evdev_event {
    enum evdev_kind kind;
    struct wedge_key key;
};

struct evdev_options {
    const char *path;        // copied
    int retry_ms;            // how often to look for a missing device; it is also watched for
    void (*wake)(void *ctx); // there is something for evdev_next
    void *ctx;
};

// Present is taken for granted until the thread finds otherwise.
// NULL on no memory or no descriptors.
struct evdev *evdev_init(const struct evdev_options *options);
bool evdev_start(struct evdev *evdev);
void evdev_stop(struct evdev *evdev); // asks the thread to end
void evdev_join(struct evdev *evdev);
void evdev_destroy(struct evdev *evdev); // takes NULL; after evdev_join, or never started

// The next event in order; false when there is none.
bool evdev_next(struct evdev *evdev, struct evdev_event *ret_event);

#endif

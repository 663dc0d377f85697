#ifndef SCALE_DEVICE_H
#define SCALE_DEVICE_H

// A scale at a serial line, or one that shows itself as one (CDC-ACM), read by a thread of its own.
// The path is best one of /dev/serial/by-id. Nothing is ever sent to it. The line is as
// serial_line_open makes it; what the bytes mean is in scale.h.
//
// Like serial.h: wake is called from the thread, everything else is for one other thread. Only the
// newest reading is kept, so a scale that floods loses nothing anybody wants to see.

#include "scale.h"
#include "serial_line.h"

struct scale_device; // opaque

enum scale_event_kind {
    SCALE_READING, // reading
    SCALE_UNKNOWN, // nothing is known of the weight any more: the scale is silent, or gone
    SCALE_GONE,    // after SCALE_UNKNOWN
    SCALE_BACK
};
struct scale_event {
    enum scale_event_kind kind;
    struct scale_reading reading;
};

struct scale_options {
    const char *path; // copied
    int baud;         // one that serial_baud_known
    enum scale_format format;
    enum scale_unit unit;    // of lines without one
    int retry_ms;            // how often to look for a missing device; it is also watched for
    void (*wake)(void *ctx); // there is something for scale_device_next
    void *ctx;
};

// Present is taken for granted until the thread finds otherwise.
// NULL on no memory or no descriptors.
struct scale_device *scale_device_init(const struct scale_options *options);
bool scale_device_start(struct scale_device *scale);
void scale_device_stop(struct scale_device *scale); // asks the thread to end
void scale_device_join(struct scale_device *scale);
void scale_device_destroy(struct scale_device *scale); // takes NULL; after join, or never started

// What is new, in the order above; false when nothing is. A reading that is the same as the newest
// one taken, to its last letter, is not new.
bool scale_device_next(struct scale_device *scale, struct scale_event *ret_event);

#endif

#ifndef SERIAL_H
#define SERIAL_H

// A scanner at a serial line, or one that shows itself as one (CDC-ACM), read by a thread of its
// own. The path is best one of /dev/serial/by-id, which stays the same when the device comes back
// under another number. The line is as serial_line_open makes it.
//
// Like evdev.h: wake is called from the thread, everything else is for one other thread. The queue
// is bounded; records nobody takes are dropped, and that is told.

#include "serial_line.h"
#include "serial_record.h"

#define SERIAL_QUEUE_MAX 32

struct serial; // opaque

enum serial_kind {
    SERIAL_RECORD, // record, with its time
    SERIAL_LOST,   // records are missing here
    SERIAL_FLOOD,  // the same, since more came at once than could be taken
    SERIAL_GONE,   // after one of these
    SERIAL_BACK
};
struct serial_event {
    enum serial_kind kind;
    int64_t time_us; // CLOCK_MONOTONIC
    struct serial_record record;
};

struct serial_options {
    const char *path;        // copied
    const char *prefix;      // copied; as in struct wedge_settings
    int baud;                // one that serial_baud_known
    int retry_ms;            // how often to look for a missing device; it is also watched for
    void (*wake)(void *ctx); // there is something for serial_next
    void *ctx;
};

// Present is taken for granted until the thread finds otherwise.
// NULL on no memory or no descriptors.
struct serial *serial_init(const struct serial_options *options);
bool serial_start(struct serial *serial);
void serial_stop(struct serial *serial); // asks the thread to end
void serial_join(struct serial *serial);
void serial_destroy(struct serial *serial); // takes NULL; after serial_join, or never started

// The next event in order; false when there is none.
bool serial_next(struct serial *serial, struct serial_event *ret_event);

#endif

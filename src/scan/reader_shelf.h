#ifndef READER_SHELF_H
#define READER_SHELF_H

// Where frames wait for the decoder: shared memory of two places. The one the child reads is never
// written to; the other takes the newest frame. Any thread.

#include "reader.h"
#include "reader_wire.h"

#include <pthread.h>

struct reader_shelf {
    pthread_mutex_t mutex;
    int memory; // descriptor
    uint8_t *bytes;
    int place;    // for the next frame
    bool waiting; // a frame is in it
    struct frame frame;
    struct reader_counts counts; // frames and dropped
};

bool reader_shelf_init(struct reader_shelf *shelf);
void reader_shelf_destroy(struct reader_shelf *shelf);
void reader_shelf_put(struct reader_shelf *shelf, const struct frame *frame);
// The waiting frame, for the child, which has no other in hand; the place is not touched until the
// next is taken. pixels is NULL. False when none waits.
bool reader_shelf_take(struct reader_shelf *shelf, struct frame *ret_frame, int *ret_place);

#endif

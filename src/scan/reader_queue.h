#ifndef READER_QUEUE_H
#define READER_QUEUE_H

// What the reader's thread has to say and nobody has taken yet. Bounded: the oldest codes are
// dropped; that the decoder went or came is never lost.

#include "reader.h"

#include <pthread.h>

struct reader_queue {
    pthread_mutex_t mutex;
    size_t first;
    size_t count;
    struct reader_event event[READER_EVENTS_MAX];
    bool present;
    bool told_present; // what reader_queue_take has said last
    bool seen;         // sight was not taken yet
    struct reader_sight sight;
};

bool reader_queue_init(struct reader_queue *queue);
void reader_queue_destroy(struct reader_queue *queue);
void reader_queue_event(struct reader_queue *queue, const struct reader_event *event);
void reader_queue_sight(struct reader_queue *queue, const struct reader_sight *sight);
bool reader_queue_present(struct reader_queue *queue, bool present); // true: it was otherwise
bool reader_queue_take(struct reader_queue *queue, struct reader_event *ret_event);
bool reader_queue_take_sight(struct reader_queue *queue, struct reader_sight *ret_sight);

#endif

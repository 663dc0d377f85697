#ifndef EVDEV_QUEUE_H
#define EVDEV_QUEUE_H

// What the thread has read and nobody has taken yet. Bounded: keys that do not fit are dropped,
// with all that follow until the loss is taken note of; that a device went or came is never lost.

#include "evdev.h"

#include <pthread.h>

#define EVDEV_QUEUE_MAX 1024

struct evdev_queue {
    pthread_mutex_t mutex;
    size_t first;
    size_t count;
    struct wedge_key key[EVDEV_QUEUE_MAX];
    bool lost;
    bool present;
    bool told_present; // what evdev_queue_take has said last
};

bool evdev_queue_init(struct evdev_queue *queue);
void evdev_queue_destroy(struct evdev_queue *queue);
void evdev_queue_key(struct evdev_queue *queue, const struct wedge_key *key);
void evdev_queue_lost(struct evdev_queue *queue);
bool evdev_queue_present(struct evdev_queue *queue, bool present); // true: it was otherwise
bool evdev_queue_take(struct evdev_queue *queue, struct evdev_event *ret_event);

#endif

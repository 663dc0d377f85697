#ifndef DEVICE_QUEUE_H
#define DEVICE_QUEUE_H

// What a device's thread has read and nobody has taken yet. Bounded: items that do not fit are
// dropped, with all that follow until the loss is taken note of; that a device went or came is
// never lost.

#include <pthread.h>
#include <stdbool.h>
#include <stddef.h>

enum device_note {
    DEVICE_NOTHING,
    DEVICE_ITEM,
    DEVICE_FLOOD, // items are missing here: more came than could be taken
    DEVICE_LOST,  // they are missing here because the device went
    DEVICE_GONE,
    DEVICE_BACK
};

struct device_queue {
    pthread_mutex_t mutex;
    size_t first;
    size_t count;
    size_t max;
    size_t size; // of an item
    char *items;
    bool lost;
    bool flood; // lost by too many items
    bool present;
    bool told_present; // what device_queue_take has said last
};

// A device counts as present until told otherwise. False on no memory.
bool device_queue_init(struct device_queue *queue, size_t max, size_t size);
void device_queue_destroy(struct device_queue *queue);
void device_queue_add(struct device_queue *queue, const void *item);
void device_queue_lost(struct device_queue *queue);
void device_queue_flood(struct device_queue *queue);
bool device_queue_present(struct device_queue *queue, bool present); // true: it was otherwise
// DEVICE_ITEM: *ret_item is filled. DEVICE_GONE comes after DEVICE_LOST or DEVICE_FLOOD.
enum device_note device_queue_take(struct device_queue *queue, void *ret_item);

#endif

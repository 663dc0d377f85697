#include "device_queue.h"

#include <stdlib.h>
#include <string.h>

bool device_queue_init(struct device_queue *queue, size_t max, size_t size) {
    *queue = (struct device_queue){.max = max, .size = size, .present = true, .told_present = true};
    queue->items = calloc(max, size);
    if (queue->items == NULL || pthread_mutex_init(&queue->mutex, NULL) != 0) {
        free(queue->items);
        return false;
    }
    return true;
}

void device_queue_destroy(struct device_queue *queue) {
    pthread_mutex_destroy(&queue->mutex);
    free(queue->items);
}

static char *item_at(struct device_queue *queue, size_t index) {
    return queue->items + (queue->first + index) % queue->max * queue->size;
}

void device_queue_add(struct device_queue *queue, const void *item) {
    pthread_mutex_lock(&queue->mutex);
    if (queue->count == queue->max) {
        queue->lost = true;
        queue->flood = true;
    }
    if (!queue->lost) {
        memcpy(item_at(queue, queue->count), item, queue->size);
        queue->count++;
    }
    pthread_mutex_unlock(&queue->mutex);
}

void device_queue_lost(struct device_queue *queue) {
    pthread_mutex_lock(&queue->mutex);
    queue->lost = true;
    pthread_mutex_unlock(&queue->mutex);
}

void device_queue_flood(struct device_queue *queue) {
    pthread_mutex_lock(&queue->mutex);
    queue->lost = true;
    queue->flood = true;
    pthread_mutex_unlock(&queue->mutex);
}

bool device_queue_present(struct device_queue *queue, bool present) {
    bool changed;
    pthread_mutex_lock(&queue->mutex);
    changed = queue->present != present;
    queue->present = present;
    pthread_mutex_unlock(&queue->mutex);
    return changed;
}

enum device_note device_queue_take(struct device_queue *queue, void *ret_item) {
    enum device_note note = DEVICE_NOTHING;
    pthread_mutex_lock(&queue->mutex);
    if (queue->count > 0) {
        memcpy(ret_item, item_at(queue, 0), queue->size);
        queue->first = (queue->first + 1) % queue->max;
        queue->count--;
        note = DEVICE_ITEM;
    } else if (queue->lost) {
        note = queue->flood ? DEVICE_FLOOD : DEVICE_LOST;
        queue->lost = false;
        queue->flood = false;
    } else if (queue->present != queue->told_present) {
        queue->told_present = queue->present;
        note = queue->present ? DEVICE_BACK : DEVICE_GONE;
    }
    pthread_mutex_unlock(&queue->mutex);
    return note;
}

#include "evdev_queue.h"

bool evdev_queue_init(struct evdev_queue *queue) {
    *queue = (struct evdev_queue){.present = true, .told_present = true};
    return pthread_mutex_init(&queue->mutex, NULL) == 0;
}

void evdev_queue_destroy(struct evdev_queue *queue) {
    pthread_mutex_destroy(&queue->mutex);
}

void evdev_queue_key(struct evdev_queue *queue, const struct wedge_key *key) {
    pthread_mutex_lock(&queue->mutex);
    if (queue->count == EVDEV_QUEUE_MAX) {
        queue->lost = true;
    }
    if (!queue->lost) {
        queue->key[(queue->first + queue->count) % EVDEV_QUEUE_MAX] = *key;
        queue->count++;
    }
    pthread_mutex_unlock(&queue->mutex);
}

void evdev_queue_lost(struct evdev_queue *queue) {
    pthread_mutex_lock(&queue->mutex);
    queue->lost = true;
    pthread_mutex_unlock(&queue->mutex);
}

bool evdev_queue_present(struct evdev_queue *queue, bool present) {
    bool changed;
    pthread_mutex_lock(&queue->mutex);
    changed = queue->present != present;
    queue->present = present;
    pthread_mutex_unlock(&queue->mutex);
    return changed;
}

bool evdev_queue_take(struct evdev_queue *queue, struct evdev_event *ret_event) {
    bool found = true;
    pthread_mutex_lock(&queue->mutex);
    if (queue->count > 0) {
        *ret_event = (struct evdev_event){.kind = EVDEV_KEY, .key = queue->key[queue->first]};
        queue->first = (queue->first + 1) % EVDEV_QUEUE_MAX;
        queue->count--;
    } else if (queue->lost) {
        *ret_event = (struct evdev_event){.kind = EVDEV_LOST};
        queue->lost = false;
    } else if (queue->present != queue->told_present) {
        queue->told_present = queue->present;
        *ret_event = (struct evdev_event){.kind = queue->present ? EVDEV_BACK : EVDEV_GONE};
    } else {
        found = false;
    }
    pthread_mutex_unlock(&queue->mutex);
    return found;
}

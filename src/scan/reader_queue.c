#include "reader_queue.h"

bool reader_queue_init(struct reader_queue *queue) {
    *queue = (struct reader_queue){.present = true, .told_present = true};
    return pthread_mutex_init(&queue->mutex, NULL) == 0;
}

void reader_queue_destroy(struct reader_queue *queue) {
    pthread_mutex_destroy(&queue->mutex);
}

void reader_queue_event(struct reader_queue *queue, const struct reader_event *event) {
    pthread_mutex_lock(&queue->mutex);
    if (queue->count == READER_EVENTS_MAX) {
        queue->first = (queue->first + 1) % READER_EVENTS_MAX;
        queue->count--;
    }
    queue->event[(queue->first + queue->count) % READER_EVENTS_MAX] = *event;
    queue->count++;
    pthread_mutex_unlock(&queue->mutex);
}

void reader_queue_sight(struct reader_queue *queue, const struct reader_sight *sight) {
    pthread_mutex_lock(&queue->mutex);
    queue->sight = *sight;
    queue->seen = true;
    pthread_mutex_unlock(&queue->mutex);
}

bool reader_queue_present(struct reader_queue *queue, bool present) {
    bool changed;
    pthread_mutex_lock(&queue->mutex);
    changed = queue->present != present;
    queue->present = present;
    pthread_mutex_unlock(&queue->mutex);
    return changed;
}

bool reader_queue_take(struct reader_queue *queue, struct reader_event *ret_event) {
    bool found = true;
    pthread_mutex_lock(&queue->mutex);
    if (queue->count > 0) {
        *ret_event = queue->event[queue->first];
        queue->first = (queue->first + 1) % READER_EVENTS_MAX;
        queue->count--;
    } else if (queue->present != queue->told_present) {
        queue->told_present = queue->present;
        *ret_event = (struct reader_event){.kind = queue->present ? READER_BACK : READER_GONE};
    } else {
        found = false;
    }
    pthread_mutex_unlock(&queue->mutex);
    return found;
}

bool reader_queue_take_sight(struct reader_queue *queue, struct reader_sight *ret_sight) {
    bool seen;
    pthread_mutex_lock(&queue->mutex);
    seen = queue->seen;
    if (seen) {
        *ret_sight = queue->sight;
        queue->seen = false;
    }
    pthread_mutex_unlock(&queue->mutex);
    return seen;
}

#include "camera_slot.h"

#include <stdio.h>
#include <stdlib.h>

bool camera_slot_init(struct camera_slot *slot) {
    *slot = (struct camera_slot){.present = true, .told_present = true};
    return pthread_mutex_init(&slot->mutex, NULL) == 0;
}

void camera_slot_destroy(struct camera_slot *slot) {
    free(slot->frame.pixels);
    pthread_mutex_destroy(&slot->mutex);
}

void camera_slot_put(struct camera_slot *slot, const struct frame *frame) {
    uint8_t *old;
    pthread_mutex_lock(&slot->mutex);
    old = slot->frame.pixels;
    slot->frame = *frame;
    slot->counts.frames++;
    slot->counts.dropped += old != NULL;
    pthread_mutex_unlock(&slot->mutex);
    free(old);
}

void camera_slot_broken(struct camera_slot *slot) {
    pthread_mutex_lock(&slot->mutex);
    slot->counts.broken++;
    pthread_mutex_unlock(&slot->mutex);
}

bool camera_slot_gone(struct camera_slot *slot, const char *text) {
    bool changed;
    uint8_t *old;
    pthread_mutex_lock(&slot->mutex);
    changed = slot->present;
    slot->present = false;
    if (changed) {
        snprintf(slot->text, sizeof slot->text, "%s", text);
    }
    old = slot->frame.pixels;
    slot->frame.pixels = NULL;
    slot->counts.dropped += old != NULL;
    pthread_mutex_unlock(&slot->mutex);
    free(old);
    return changed;
}

bool camera_slot_back(struct camera_slot *slot) {
    bool changed;
    pthread_mutex_lock(&slot->mutex);
    changed = !slot->present;
    slot->present = true;
    pthread_mutex_unlock(&slot->mutex);
    return changed;
}

bool camera_slot_next(struct camera_slot *slot, struct camera_event *ret_event) {
    bool changed;
    pthread_mutex_lock(&slot->mutex);
    changed = slot->present != slot->told_present;
    slot->told_present = slot->present;
    if (changed) {
        *ret_event = (struct camera_event){.kind = slot->present ? CAMERA_BACK : CAMERA_GONE};
    }
    if (changed && !slot->present) {
        snprintf(ret_event->text, sizeof ret_event->text, "%s", slot->text);
    }
    pthread_mutex_unlock(&slot->mutex);
    return changed;
}

bool camera_slot_take(struct camera_slot *slot, struct frame *ret_frame) {
    bool found;
    pthread_mutex_lock(&slot->mutex);
    found = slot->frame.pixels != NULL;
    if (found) {
        *ret_frame = slot->frame;
        slot->frame.pixels = NULL;
    }
    pthread_mutex_unlock(&slot->mutex);
    return found;
}

struct camera_counts camera_slot_counts(struct camera_slot *slot) {
    struct camera_counts counts;
    pthread_mutex_lock(&slot->mutex);
    counts = slot->counts;
    pthread_mutex_unlock(&slot->mutex);
    return counts;
}

#ifndef CAMERA_SLOT_H
#define CAMERA_SLOT_H

// What the thread has to hand over: the newest frame, and whether the camera is there. That it
// went or came is never lost.

#include "camera.h"

#include <pthread.h>

struct camera_slot {
    pthread_mutex_t mutex;
    struct frame frame; // pixels NULL: none
    struct camera_counts counts;
    bool present;
    bool told_present; // what camera_slot_next has said last
    char text[CAMERA_TEXT_MAX];
};

bool camera_slot_init(struct camera_slot *slot);
void camera_slot_destroy(struct camera_slot *slot);
void camera_slot_put(struct camera_slot *slot, const struct frame *frame); // takes the pixels
void camera_slot_broken(struct camera_slot *slot);
// Both true if it was otherwise. A camera that is gone takes its frame with it.
bool camera_slot_gone(struct camera_slot *slot, const char *text);
bool camera_slot_back(struct camera_slot *slot);
bool camera_slot_next(struct camera_slot *slot, struct camera_event *ret_event);
bool camera_slot_take(struct camera_slot *slot, struct frame *ret_frame);
struct camera_counts camera_slot_counts(struct camera_slot *slot);

#endif

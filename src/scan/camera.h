#ifndef CAMERA_H
#define CAMERA_H

// A camera read by a thread of its own. The path names a V4L2 node, best one of /dev/v4l/by-id; a
// folder of such nodes, of which the first camera is used; or a Y4M file or FIFO, which stands in
// for a camera.
//
// Only the newest frame is kept. When the camera goes, shows nothing for a while or sends only
// broken pictures, all of it is closed and looked for anew until it is back. The thread owns the
// camera; wake is called from the thread, everything else is for one other thread.

#include "frame.h"

struct camera; // opaque

#define CAMERA_TEXT_MAX 160

enum camera_kind { CAMERA_GONE, CAMERA_BACK };
struct camera_event {
    enum camera_kind kind;
    char text[CAMERA_TEXT_MAX]; // why it is gone, a sentence without its full stop
};

struct camera_counts {
    uint64_t frames;  // whole ones
    uint64_t dropped; // of these, replaced by a newer one before they were taken
    uint64_t broken;  // short, damaged, or marked as such by the driver
};

struct camera_options {
    const char *path; // copied
    int width;        // asked for; the device may grant another size
    int height;
    int retry_ms;            // how often to look for a missing camera
    int silence_ms;          // a device that shows nothing for so long is gone
    bool once;               // a file ends; otherwise it starts again
    void (*wake)(void *ctx); // there is something for camera_next or camera_take
    void *ctx;
};
#define CAMERA_WIDTH 1280
#define CAMERA_HEIGHT 720
#define CAMERA_RETRY_MS 1000
#define CAMERA_SILENCE_MS 2000

// Present is taken for granted until the thread finds otherwise.
// NULL on no memory or no descriptors.
struct camera *camera_init(const struct camera_options *options);
bool camera_start(struct camera *camera);
void camera_stop(struct camera *camera); // asks the thread to end
void camera_join(struct camera *camera);
void camera_destroy(struct camera *camera); // takes NULL; after camera_join, or never started

// Whether the camera went or came; false when nothing changed.
bool camera_next(struct camera *camera, struct camera_event *ret_event);
// The newest frame, if none of it was taken yet; the caller frees its pixels.
bool camera_take(struct camera *camera, struct frame *ret_frame);
struct camera_counts camera_counts(struct camera *camera);

#endif

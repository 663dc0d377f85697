#ifndef CAMERA_SOURCE_H
#define CAMERA_SOURCE_H

// Where the camera's thread has its frames from: a device, or what stands in for one.

#include "camera.h"

enum camera_step {
    CAMERA_NOTHING, // yet
    CAMERA_FRAME,
    CAMERA_BROKEN, // a picture that cannot be used
    CAMERA_LOST,   // close it; fault says why
    CAMERA_END     // of a file that is not to start again; fault says so
};

struct camera_source {
    int fd;         // to be polled for input
    int64_t due_us; // but not before this
    bool ready;     // there is something to take whatever the fd says
    bool steady;    // sends on its own, so that silence is a fault
    bool waiting;   // is open, but nobody sends yet
    char fault[CAMERA_TEXT_MAX];
    // Called when there may be something to read. The frame's pixels go to the caller.
    enum camera_step (*take)(struct camera_source *source, struct frame *ret_frame);
    void (*close)(struct camera_source *source);
};

// Both set *ret_source only when they succeed, and else say why not in `fault`.
bool camera_v4l2_open(const struct camera_options *options, const char *path,
                      struct camera_source **ret_source, char fault[CAMERA_TEXT_MAX]);
bool camera_y4m_open(const struct camera_options *options, const char *path, bool fifo,
                     struct camera_source **ret_source, char fault[CAMERA_TEXT_MAX]);

int64_t camera_now_us(void); // CLOCK_MONOTONIC

#endif

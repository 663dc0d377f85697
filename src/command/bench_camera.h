#ifndef BENCH_CAMERA_H
#define BENCH_CAMERA_H

// The camera, if the settings name one: its frames go to the reader and, small, to the screen; a
// ticket it reads is a scan like any other. To the station camera and reader are one device.

#include "bench.h"
#include "bench_preview.h"
#include "camera.h"
#include "reader.h"

struct bench_camera {
    struct bench *bench;
    struct camera *camera; // NULL: none
    struct reader *reader;
    bool camera_gone;
    bool reader_gone;
    struct bench_preview preview;
    int64_t preview_us; // when the frame in it was taken
    int64_t found_us;   // and that of the code outlined in it
};

// False and a complaint on stderr when a thread cannot be started.
bool bench_camera_start(struct bench_camera *camera, struct bench *bench);
void bench_camera_stop(struct bench_camera *camera);

// All that has come in.
void bench_camera_take(struct bench_camera *camera);

// Pictures have come within the last seconds.
bool bench_camera_sees(const struct bench_camera *camera);

// For the view's preview, which borrows the pixels. False: there is nothing to see.
bool bench_camera_preview(const struct bench_camera *camera, struct view_preview *ret_preview);

#endif

#ifndef VIEWER_H
#define VIEWER_H

// Whoever looks at a camera, in tests. Waits are bounded: a test that would wait for ever fails.

#include "camera.h"

#include <semaphore.h>

#define VIEWER_WAIT_MS 5000
#define VIEWER_NEVER_MS 600000

struct viewer {
    struct camera_options options; // path, size and times may be set before viewer_start
    struct camera *camera;         // NULL: not started
    sem_t woken;
};

void viewer_init(struct viewer *viewer, const char *path);
void viewer_start(struct viewer *viewer);
void viewer_stop(struct viewer *viewer); // and asserts that it took less than 200 ms
void viewer_destroy(struct viewer *viewer);

// The next frame or event, waited for.
struct frame viewer_frame(struct viewer *viewer);
struct camera_event viewer_event(struct viewer *viewer);
// That the next event is this one, with these words in its text.
void viewer_expect(struct viewer *viewer, enum camera_kind kind, const char *words);
// The next frame, and that all of it is `shade`, give or take `off`.
void viewer_expect_shade(struct viewer *viewer, int shade, int off);
// Waits until so many were counted.
void viewer_wait_broken(struct viewer *viewer, uint64_t broken);
void viewer_wait_frames(struct viewer *viewer, uint64_t frames);

int64_t viewer_now_ms(void);
void viewer_sleep_ms(int ms);

#endif

#include "viewer.h"

#include "check.h"

#include <errno.h>
#include <stdlib.h>
#include <time.h>

int64_t viewer_now_ms(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

void viewer_sleep_ms(int ms) {
    struct timespec little = {.tv_sec = ms / 1000, .tv_nsec = (long)(ms % 1000) * 1000000};
    nanosleep(&little, NULL);
}

static void woken(void *ctx) {
    struct viewer *viewer = ctx;
    sem_post(&viewer->woken);
}

void viewer_init(struct viewer *viewer, const char *path) {
    *viewer = (struct viewer){.options = {.path = path,
                                          .width = CAMERA_WIDTH,
                                          .height = CAMERA_HEIGHT,
                                          .retry_ms = 20,
                                          .silence_ms = VIEWER_NEVER_MS,
                                          .wake = woken}};
    sem_init(&viewer->woken, 0, 0);
}

void viewer_start(struct viewer *viewer) {
    viewer->options.ctx = viewer;
    viewer->camera = camera_init(&viewer->options);
    assert_non_null(viewer->camera);
    assert_true(camera_start(viewer->camera));
}

void viewer_stop(struct viewer *viewer) {
    int64_t before = viewer_now_ms();
    camera_stop(viewer->camera);
    camera_join(viewer->camera);
    assert_true(viewer_now_ms() - before < 200);
    camera_destroy(viewer->camera);
    viewer->camera = NULL;
}

void viewer_destroy(struct viewer *viewer) {
    if (viewer->camera != NULL) {
        camera_stop(viewer->camera);
        camera_join(viewer->camera);
        camera_destroy(viewer->camera);
    }
    sem_destroy(&viewer->woken);
}

static void wait_for_wake(struct viewer *viewer, int64_t start_ms) {
    struct timespec until;
    clock_gettime(CLOCK_REALTIME, &until);
    until.tv_sec++;
    if (sem_timedwait(&viewer->woken, &until) != 0 && viewer_now_ms() - start_ms > VIEWER_WAIT_MS) {
        fail_msg("nothing came within %d ms", VIEWER_WAIT_MS);
    }
}

struct frame viewer_frame(struct viewer *viewer) {
    int64_t start = viewer_now_ms();
    struct frame frame;
    while (!camera_take(viewer->camera, &frame)) {
        wait_for_wake(viewer, start);
    }
    return frame;
}

struct camera_event viewer_event(struct viewer *viewer) {
    int64_t start = viewer_now_ms();
    struct camera_event event;
    while (!camera_next(viewer->camera, &event)) {
        wait_for_wake(viewer, start);
    }
    return event;
}

void viewer_expect(struct viewer *viewer, enum camera_kind kind, const char *words) {
    struct camera_event event = viewer_event(viewer);
    assert_int_equal(event.kind, kind);
    if (strstr(event.text, words) == NULL) {
        fail_msg("'%s' lacks '%s'", event.text, words);
    }
}

void viewer_expect_shade(struct viewer *viewer, int shade, int off) {
    struct frame frame = viewer_frame(viewer);
    for (size_t i = 0; i < (size_t)frame.width * (size_t)frame.height; i++) {
        assert_in_range(frame.pixels[i], shade < off ? 0 : shade - off, shade + off);
    }
    free(frame.pixels);
}

void viewer_wait_broken(struct viewer *viewer, uint64_t broken) {
    int64_t start = viewer_now_ms();
    while (camera_counts(viewer->camera).broken < broken) {
        assert_true(viewer_now_ms() - start < VIEWER_WAIT_MS);
        viewer_sleep_ms(1);
    }
}

void viewer_wait_frames(struct viewer *viewer, uint64_t frames) {
    int64_t start = viewer_now_ms();
    while (camera_counts(viewer->camera).frames < frames) {
        assert_true(viewer_now_ms() - start < VIEWER_WAIT_MS);
        viewer_sleep_ms(1);
    }
}

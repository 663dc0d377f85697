#include "bench_camera.h"

#include "tongue.h"

#include <stdio.h>
#include <stdlib.h>

#define SEES_US ((int64_t)3 * 1000000)
#define PREVIEW_US 100000 // from one picture on the screen to the next
#define FOUND_US 700000   // how long a code stays outlined

static void wake(void *ctx) {
    struct bench *bench = ctx;
    screen_wake(bench->screen);
}

static bool start_reader(struct bench_camera *c) {
    struct reader_options options = {
        .limit_ms = READER_LIMIT_MS, .budget_us = READER_BUDGET_US, .wake = wake, .ctx = c->bench};
    struct reader *reader = reader_init(&options);
    if (reader == NULL || !reader_start(reader)) {
        reader_destroy(reader);
        return false;
    }
    c->reader = reader;
    return true;
}

static bool start_camera(struct bench_camera *c) {
    const struct bench_settings *settings = c->bench->settings;
    struct camera_options options = {.path = settings->camera,
                                     .width = settings->camera_width,
                                     .height = settings->camera_height,
                                     .retry_ms = CAMERA_RETRY_MS,
                                     .silence_ms = CAMERA_SILENCE_MS,
                                     .wake = wake,
                                     .ctx = c->bench};
    struct camera *camera = camera_init(&options);
    if (camera == NULL || !camera_start(camera)) {
        camera_destroy(camera);
        return false;
    }
    c->camera = camera;
    return true;
}

bool bench_camera_start(struct bench_camera *c, struct bench *bench) {
    *c = (struct bench_camera){.bench = bench};
    if (bench->settings->camera[0] == '\0') {
        return true;
    }
    if (!start_reader(c) || !start_camera(c)) {
        bench_camera_stop(c);
        fputs(_("kerfside bench: cannot start the camera: out of memory or threads.\n"), stderr);
        return false;
    }
    return true;
}

void bench_camera_stop(struct bench_camera *c) {
    if (c->camera != NULL) {
        camera_stop(c->camera);
    }
    if (c->reader != NULL) {
        reader_stop(c->reader);
    }
    if (c->camera != NULL) {
        camera_join(c->camera);
    }
    if (c->reader != NULL) {
        reader_join(c->reader);
    }
    camera_destroy(c->camera);
    reader_destroy(c->reader);
    c->camera = NULL;
    c->reader = NULL;
}

static void tell_present(struct bench_camera *c, bool *gone, bool now_gone) {
    bool before = c->camera_gone || c->reader_gone;
    bool after;
    *gone = now_gone;
    after = c->camera_gone || c->reader_gone;
    if (before != after) {
        bench_device(c->bench, DEVICE_CAMERA, !after);
    }
}

static void take_event(struct bench_camera *c, const struct camera_event *event) {
    if (event->kind == CAMERA_GONE) {
        fprintf(stderr, "kerfside bench: camera: %s.\n", event->text);
        c->preview.width = 0;
        c->bench->dirty = true;
    }
    tell_present(c, &c->camera_gone, event->kind == CAMERA_GONE);
}

// Where tickets are shown to the bench.
static bool expected(const struct bench_camera *c) {
    enum station_state state = c->bench->station.state;
    return state == STATION_READY || state == STATION_PAIR;
}

// Where the screen shows what the camera sees, a new picture is a reason to draw.
static void show(struct bench_camera *c, const struct frame *frame) {
    if (frame->time_us - c->preview_us < PREVIEW_US) {
        return;
    }
    c->preview_us = frame->time_us;
    bench_preview_frame(&c->preview, frame);
    if (frame->time_us - c->found_us > FOUND_US) {
        bench_preview_lost(&c->preview);
    }
    if (expected(c)) {
        c->bench->dirty = true;
    }
}

static void scan(struct bench_camera *c, const char *text) {
    struct event event = {.kind = EVENT_SCAN};
    snprintf(event.text, sizeof event.text, "%s", text);
    bench_event(c->bench, &event);
}

static void report(struct bench_camera *c, const struct reader_event *event) {
    struct scan_report report;
    report_camera(event, &report);
    bench_report(c->bench, &report);
}

// What is no ticket is worth a word when somebody shows tickets; at other times it is a box that
// lies about. It never passes for a part, whatever its text.
static void take_read(struct bench_camera *c, const struct reader_event *event) {
    struct ticket ticket;
    bool checks = c->bench->station.state == STATION_CHECK; // shows it, and does nothing with it
    switch (event->kind) {
    case READER_CODE:
        if (event->verdict == ACCEPT_TICKET || expected(c) || checks) {
            scan(c, event->code.text);
        }
        report(c, event);
        break;
    case READER_UNREADABLE:
        if (checks || (expected(c) && ticket_parse(event->code.text, &ticket) != TICKET_OK)) {
            scan(c, event->code.text);
        }
        report(c, event);
        break;
    case READER_GONE:
    case READER_BACK:
        tell_present(c, &c->reader_gone, event->kind == READER_GONE);
        break;
    }
}

static void outline(struct bench_camera *c, const struct reader_sight *sight) {
    if (sight->count > 0) {
        c->found_us = sight->time_us;
        bench_preview_found(&c->preview, &sight->code[0]);
    }
}

void bench_camera_take(struct bench_camera *c) {
    struct camera_event event;
    struct reader_event read;
    struct reader_sight sight;
    struct frame frame;
    if (c->camera == NULL) {
        return;
    }
    while (camera_next(c->camera, &event)) {
        take_event(c, &event);
    }
    if (camera_take(c->camera, &frame)) {
        reader_offer(c->reader, &frame);
        show(c, &frame);
        free(frame.pixels);
    }
    if (reader_sight(c->reader, &sight)) {
        outline(c, &sight);
    }
    while (reader_next(c->reader, &read)) {
        take_read(c, &read);
    }
}

bool bench_camera_preview(const struct bench_camera *c, struct view_preview *ret_preview) {
    if (c->preview.width == 0) {
        return false;
    }
    bench_preview_show(&c->preview, ret_preview);
    return true;
}

bool bench_camera_sees(const struct bench_camera *camera) {
    return camera->preview_us > 0 &&
           bench_clock_us(&camera->bench->clock) - camera->preview_us < SEES_US;
}

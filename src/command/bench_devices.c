#include "bench_devices.h"

#include <stdio.h>

#define RETRY_MS 1000

static void wake(void *ctx) {
    struct bench *bench = ctx;
    screen_wake(bench->screen);
}

static bool start(struct bench *bench, const char *path, struct evdev **ret_evdev) {
    struct evdev_options options = {.path = path, .retry_ms = RETRY_MS, .wake = wake, .ctx = bench};
    struct evdev *evdev;
    if (path[0] == '\0') {
        return true;
    }
    evdev = evdev_init(&options);
    if (evdev == NULL || !evdev_start(evdev)) {
        evdev_destroy(evdev);
        fprintf(stderr, "kerfside bench: cannot start reading %s: out of memory or threads.\n",
                path);
        return false;
    }
    *ret_evdev = evdev;
    return true;
}

static void stop(struct evdev *evdev) {
    if (evdev != NULL) {
        evdev_stop(evdev);
        evdev_join(evdev);
        evdev_destroy(evdev);
    }
}

bool bench_devices_start(struct bench_devices *devices, struct bench *bench) {
    *devices = (struct bench_devices){.bench = bench};
    if (!start(bench, bench->settings->scanner, &devices->scanner)) {
        return false;
    }
    if (!start(bench, bench->settings->button, &devices->button)) {
        bench_devices_stop(devices);
        return false;
    }
    return true;
}

void bench_devices_stop(struct bench_devices *devices) {
    stop(devices->scanner);
    stop(devices->button);
    *devices = (struct bench_devices){.bench = devices->bench};
}

static void taken(struct bench *bench, const char *what) {
    struct event event = {.kind = EVENT_FAULT};
    snprintf(event.text, sizeof event.text,
             "Another program has the %s for itself and gets what it sends. End that program.",
             what);
    bench_event(bench, &event);
}

static void take_scanner(struct bench *bench, const struct evdev_event *event) {
    switch (event->kind) {
    case EVDEV_KEY:
        bench_key(bench, &bench->scanner, event->key.code, event->key.down, event->key.time_us);
        break;
    case EVDEV_LOST: {
        struct wedge_settings settings = bench->scanner.settings;
        wedge_init(&bench->scanner, &settings);
        break;
    }
    case EVDEV_GONE:
    case EVDEV_BACK:
        bench_device(bench, DEVICE_SCANNER, event->kind == EVDEV_BACK);
        break;
    case EVDEV_TAKEN:
        taken(bench, "scanner");
        break;
    }
}

static void take_button(struct bench *bench, const struct evdev_event *event) {
    uint16_t code = bench->settings->button_code;
    switch (event->kind) {
    case EVDEV_KEY:
        if (code == BENCH_BUTTON_ANY || code == event->key.code) {
            bench_button(bench, event->key.down, event->key.time_us);
        }
        break;
    case EVDEV_LOST:
        button_forget(&bench->button);
        break;
    case EVDEV_GONE:
    case EVDEV_BACK:
        bench_device(bench, DEVICE_BUTTON, event->kind == EVDEV_BACK);
        break;
    case EVDEV_TAKEN:
        taken(bench, "button");
        break;
    }
}

void bench_devices_take(struct bench_devices *devices) {
    struct evdev_event event;
    while (devices->scanner != NULL && evdev_next(devices->scanner, &event)) {
        take_scanner(devices->bench, &event);
    }
    while (devices->button != NULL && evdev_next(devices->button, &event)) {
        take_button(devices->bench, &event);
    }
}

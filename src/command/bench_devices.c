#include "bench_devices.h"

#include "tongue.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define RETRY_MS 1000

static void wake(void *ctx) {
    struct bench *bench = ctx;
    screen_wake(bench->screen);
}

static bool start_keys(struct bench *bench, const char *path, struct evdev **ret_evdev) {
    struct evdev_options options = {.path = path, .retry_ms = RETRY_MS, .wake = wake, .ctx = bench};
    struct evdev *evdev;
    if (path[0] == '\0') {
        return true;
    }
    evdev = evdev_init(&options);
    if (evdev == NULL || !evdev_start(evdev)) {
        evdev_destroy(evdev);
        return false;
    }
    *ret_evdev = evdev;
    return true;
}

static bool start_serial(struct bench *bench, const char *path, struct serial **ret_serial) {
    struct serial_options options = {.path = path,
                                     .prefix = bench->settings->wedge.prefix,
                                     .baud = bench->settings->baud,
                                     .retry_ms = RETRY_MS,
                                     .wake = wake,
                                     .ctx = bench};
    struct serial *serial;
    if (path[0] == '\0') {
        return true;
    }
    serial = serial_init(&options);
    if (serial == NULL || !serial_start(serial)) {
        serial_destroy(serial);
        return false;
    }
    *ret_serial = serial;
    return true;
}

static void stop_keys(struct evdev *evdev) {
    if (evdev != NULL) {
        evdev_stop(evdev);
        evdev_join(evdev);
        evdev_destroy(evdev);
    }
}

static void stop_serial(struct serial *serial) {
    if (serial != NULL) {
        serial_stop(serial);
        serial_join(serial);
        serial_destroy(serial);
    }
}

static bool start_all(struct bench_devices *devices) {
    struct bench *bench = devices->bench;
    const struct bench_settings *settings = bench->settings;
    bool started = start_keys(bench, settings->button, &devices->button) &&
                   bench_scale_start(&devices->scale, bench);
    for (size_t i = 0; i < BENCH_SCANNERS_MAX; i++) {
        started = started && start_keys(bench, settings->scanner[i], &devices->scanner[i]);
        devices->there[i] = devices->scanner[i] != NULL;
    }
    for (size_t i = 0; i < BENCH_SERIALS_MAX; i++) {
        started = started && start_serial(bench, settings->serial[i], &devices->serial[i]);
        devices->there[BENCH_SCANNERS_MAX + i] = devices->serial[i] != NULL;
    }
    return started;
}

bool bench_devices_start(struct bench_devices *devices, struct bench *bench) {
    *devices = (struct bench_devices){.bench = bench, .any = true};
    if (!start_all(devices)) {
        bench_devices_stop(devices);
        fputs(_("kerfside bench: cannot start reading its devices: out of memory or threads.\n"),
              stderr);
        return false;
    }
    return true;
}

void bench_devices_stop(struct bench_devices *devices) {
    for (size_t i = 0; i < BENCH_SCANNERS_MAX; i++) {
        stop_keys(devices->scanner[i]);
    }
    for (size_t i = 0; i < BENCH_SERIALS_MAX; i++) {
        stop_serial(devices->serial[i]);
    }
    stop_keys(devices->button);
    bench_scale_stop(&devices->scale);
    *devices = (struct bench_devices){.bench = devices->bench};
}

static void present(struct bench_devices *devices, size_t which, const char *path, bool there) {
    bool any = false;
    devices->there[which] = there;
    for (size_t i = 0; i < sizeof devices->there / sizeof devices->there[0]; i++) {
        any = any || devices->there[i];
    }
    if (!there && access(path, R_OK) != 0 && errno != ENOENT) {
        fprintf(stderr, _("kerfside bench: cannot read %s: %s.\n"), path, strerror(errno));
    }
    if (any != devices->any) {
        devices->any = any;
        bench_device(devices->bench, DEVICE_SCANNER, any);
    }
}

static void text_event(struct bench *bench, enum event_kind kind, const char *text) {
    struct event event = {.kind = kind};
    snprintf(event.text, sizeof event.text, "%s", text);
    bench_event(bench, &event);
}

// Half a code of a flood must not be taken for one.
static void flood(struct bench *bench) {
    text_event(
        bench, EVENT_FAULT,
        _("A scanner sent more at once than anybody could take; what is missing was not read."));
}

static void forget(struct wedge *wedge) {
    struct wedge_settings settings = wedge->settings;
    wedge_init(wedge, &settings);
}

static void take_scanner(struct bench_devices *devices, size_t which,
                         const struct evdev_event *event) {
    struct bench *bench = devices->bench;
    struct wedge *wedge = &bench->scanner[which];
    switch (event->kind) {
    case EVDEV_KEY:
        bench_key(bench, wedge, event->key.code, event->key.down, event->key.time_us);
        break;
    case EVDEV_FLOOD:
        forget(wedge);
        flood(bench);
        break;
    case EVDEV_LOST:
        forget(wedge);
        break;
    case EVDEV_GONE:
    case EVDEV_BACK:
        present(devices, which, bench->settings->scanner[which], event->kind == EVDEV_BACK);
        break;
    case EVDEV_TAKEN:
        text_event(bench, EVENT_FAULT,
                   _("Another program has the scanner for itself and gets its codes. End that "
                     "program."));
        break;
    }
}

static void take_serial(struct bench_devices *devices, size_t which,
                        const struct serial_event *event) {
    struct bench *bench = devices->bench;
    const struct wedge_output *output = &event->record.output;
    struct scan_report report;
    switch (event->kind) {
    case SERIAL_RECORD:
        text_event(bench, output->kind == WEDGE_CODE ? EVENT_SCAN : EVENT_FAULT, output->text);
        report_serial(&event->record.trace, bench->settings->wedge.prefix, (int)which + 1, &report);
        bench_report(bench, &report);
        break;
    case SERIAL_FLOOD:
        flood(bench);
        break;
    case SERIAL_LOST: // whole records, which nobody waits for
        break;
    case SERIAL_GONE:
    case SERIAL_BACK:
        present(devices, BENCH_SCANNERS_MAX + which, bench->settings->serial[which],
                event->kind == SERIAL_BACK);
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
    case EVDEV_FLOOD:
    case EVDEV_LOST:
        button_forget(&bench->button);
        break;
    case EVDEV_GONE:
    case EVDEV_BACK:
        bench_device(bench, DEVICE_BUTTON, event->kind == EVDEV_BACK);
        break;
    case EVDEV_TAKEN:
        text_event(bench, EVENT_FAULT,
                   _("Another program has the button for itself and gets its presses. End that "
                     "program."));
        break;
    }
}

void bench_devices_take(struct bench_devices *devices) {
    struct evdev_event event;
    struct serial_event record;
    for (size_t i = 0; i < BENCH_SCANNERS_MAX; i++) {
        while (devices->scanner[i] != NULL && evdev_next(devices->scanner[i], &event)) {
            take_scanner(devices, i, &event);
        }
    }
    for (size_t i = 0; i < BENCH_SERIALS_MAX; i++) {
        while (devices->serial[i] != NULL && serial_next(devices->serial[i], &record)) {
            take_serial(devices, i, &record);
        }
    }
    while (devices->button != NULL && evdev_next(devices->button, &event)) {
        take_button(devices->bench, &event);
    }
    bench_scale_take(&devices->scale);
}

#include "bench_scale.h"

#include "tongue.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define RETRY_MS 1000
#define LOOK_US ((int64_t)5 * 1000000) // a scan is looked at so long

static void wake(void *ctx) {
    struct bench *bench = ctx;
    screen_wake(bench->screen);
}

bool bench_scale_start(struct bench_scale *scale, struct bench *bench) {
    const struct bench_settings *settings = bench->settings;
    struct scale_options options = {.path = settings->scale,
                                    .baud = settings->scale_baud,
                                    .format = settings->scale_format,
                                    .unit = settings->scale_unit,
                                    .retry_ms = RETRY_MS,
                                    .wake = wake,
                                    .ctx = bench};
    *scale = (struct bench_scale){.bench = bench};
    if (settings->scale[0] == '\0') {
        return true;
    }
    struct scale_device *device = scale_device_init(&options);
    if (device == NULL || !scale_device_start(device)) {
        scale_device_destroy(device);
        return false;
    }
    scale->device = device;
    return true;
}

void bench_scale_stop(struct bench_scale *scale) {
    if (scale->device != NULL) {
        scale_device_stop(scale->device);
        scale_device_join(scale->device);
        scale_device_destroy(scale->device);
        scale->device = NULL;
    }
}

static void weigh(struct bench *bench, mass_mg mass, bool stable) {
    struct event event = {.kind = EVENT_WEIGHT, .weight = mass, .stable = stable};
    if (bench->weight != mass || bench->weight_stable != stable) {
        bench->weight = mass;
        bench->weight_stable = stable;
        bench_event(bench, &event);
    }
}

void bench_scale_reading(struct bench *bench, const struct scale_reading *reading) {
    struct scan_report report;
    bool scan = bench->reported && strcmp(bench->report.source, REPORT_SCALE) != 0;
    if (reading->kind != SCALE_REFUSED) {
        weigh(bench, reading->mass, reading->stable);
    }
    if (!scan || bench_clock_us(&bench->clock) - bench->last_input_us >= LOOK_US) {
        report_scale(reading, &report);
        bench_report(bench, &report);
    }
}

static void present(const struct bench_scale *scale, bool there) {
    const char *path = scale->bench->settings->scale;
    if (!there && access(path, R_OK) != 0 && errno != ENOENT) {
        fprintf(stderr, _("kerfside bench: cannot read %s: %s.\n"), path, strerror(errno));
    }
    bench_device(scale->bench, DEVICE_SCALE, there);
}

void bench_scale_take(struct bench_scale *scale) {
    struct scale_event event;
    while (scale->device != NULL && scale_device_next(scale->device, &event)) {
        switch (event.kind) {
        case SCALE_READING:
            bench_scale_reading(scale->bench, &event.reading);
            break;
        case SCALE_UNKNOWN:
            weigh(scale->bench, MASS_UNKNOWN, false);
            break;
        case SCALE_GONE:
        case SCALE_BACK:
            present(scale, event.kind == SCALE_BACK);
            break;
        }
    }
}

// A dark screen while nobody is there. Whatever comes in makes it light; a scan or a typed ticket
// is taken as ever, a press or a touch was only meant for the light.

#include "bench.h"

#define MINUTE_US ((int64_t)60 * 1000000)

static bool may(const struct bench *bench) {
    return bench->settings->blank_minutes > 0 && bench->station.state == STATION_SIGNED_OUT &&
           bench->station.saving == SAVING_NONE;
}

int64_t bench_blank_patience(const struct bench *bench) {
    if (bench->blank || !may(bench)) {
        return -1;
    }
    int64_t now = bench_clock_us(&bench->clock);
    int64_t due = bench->last_input_us + bench->settings->blank_minutes * MINUTE_US;
    return due > now ? due - now : 0;
}

void bench_blank_tick(struct bench *bench) {
    if (bench_blank_patience(bench) == 0) {
        bench->blank = true;
        bench->dirty = true;
    } else if (bench->blank && !may(bench)) {
        bench_blank_wake(bench);
    }
}

void bench_blank_wake(struct bench *bench) {
    bench->last_input_us = bench_clock_us(&bench->clock);
    if (bench->blank) {
        bench->blank = false;
        bench->dirty = true;
    }
}

bool bench_blank_takes(struct bench *bench, bool down) {
    bool takes = bench->blank_button || (down && bench->blank);
    bench->blank_button = takes && down;
    if (takes) {
        bench_blank_wake(bench);
    }
    return takes;
}

#include "bench_watch.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <systemd/sd-daemon.h>

void bench_watch_init(struct bench_watch *watch, int64_t now_us) {
    uint64_t allowed = 0;
    *watch = (struct bench_watch){.supervised = getenv("NOTIFY_SOCKET") != NULL};
    if (watch->supervised && sd_watchdog_enabled(0, &allowed) > 0 && allowed < INT64_MAX) {
        watch->every_us = (int64_t)(allowed / 3);
        watch->due_us = now_us;
    }
}

void bench_watch_ready(struct bench_watch *watch) {
    if (watch->supervised && !watch->ready) {
        sd_notify(0, "READY=1");
        watch->ready = true;
    }
}

void bench_watch_status(struct bench_watch *watch, const char *words) {
    char status[sizeof watch->status];
    snprintf(status, sizeof status, "%s", words);
    if (watch->supervised && strcmp(status, watch->status) != 0) {
        strcpy(watch->status, status);
        sd_notifyf(0, "STATUS=%s", status);
    }
}

int64_t bench_watch_patience(const struct bench_watch *watch, int64_t now_us) {
    if (watch->every_us == 0) {
        return -1;
    }
    return watch->due_us > now_us ? watch->due_us - now_us : 0;
}

bool bench_watch_due(const struct bench_watch *watch, int64_t now_us) {
    return watch->every_us != 0 && now_us >= watch->due_us;
}

void bench_watch_beat(struct bench_watch *watch, bool alive, int64_t began_us, int64_t now_us) {
    if (alive && now_us - began_us < watch->every_us) {
        sd_notify(0, "WATCHDOG=1");
    }
    watch->due_us = now_us + watch->every_us;
}

void bench_watch_extend(const struct bench_watch *watch, int64_t us) {
    if (watch->supervised) {
        sd_notifyf(0, "EXTEND_TIMEOUT_USEC=%lld", (long long)us);
    }
}

void bench_watch_stopping(const struct bench_watch *watch) {
    if (watch->supervised) {
        sd_notify(0, "STOPPING=1");
    }
}

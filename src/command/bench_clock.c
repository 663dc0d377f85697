#include "bench_clock.h"

#include "day_text.h"

#include <stdio.h>
#include <string.h>
#include <time.h>

static int64_t now_us(clockid_t id) {
    struct timespec now;
    clock_gettime(id, &now);
    return (int64_t)now.tv_sec * 1000000 + now.tv_nsec / 1000;
}

int64_t bench_clock_us(const struct bench_clock *clock) {
    return clock->simulated ? clock->mono_us : now_us(CLOCK_MONOTONIC);
}

int64_t bench_clock_boot_ms(const struct bench_clock *clock) {
    return (clock->simulated ? clock->mono_us : now_us(CLOCK_BOOTTIME)) / 1000;
}

int64_t bench_clock_wall_ms(const struct bench_clock *clock) {
    return clock->simulated ? clock->wall_ms + clock->mono_us / 1000
                            : now_us(CLOCK_REALTIME) / 1000;
}

struct bench_clock bench_clock_simulated(void) {
    struct bench_clock clock = {.simulated = true, .mono_us = now_us(CLOCK_BOOTTIME)};
    clock.wall_ms = (now_us(CLOCK_REALTIME) - clock.mono_us) / 1000;
    return clock;
}

void bench_clock_pass(struct bench_clock *clock, int64_t us) {
    clock->mono_us += us;
}

bool bench_clock_set(struct bench_clock *clock, const char *text) {
    struct tm date = {.tm_isdst = -1};
    struct tm made;
    int end = 0;
    time_t seconds;
    int count = sscanf(text, "%4d-%2d-%2dT%2d:%2d%n:%2d%n", &date.tm_year, &date.tm_mon,
                       &date.tm_mday, &date.tm_hour, &date.tm_min, &end, &date.tm_sec, &end);
    if (count < 5 || text[end] != '\0') {
        return false;
    }
    date.tm_year -= 1900;
    date.tm_mon--;
    made = date;
    seconds = mktime(&made);
    if (seconds == -1 || made.tm_mday != date.tm_mday || made.tm_mon != date.tm_mon ||
        made.tm_min != date.tm_min || made.tm_sec != date.tm_sec) {
        return false;
    }
    clock->wall_ms = (int64_t)seconds * 1000 - clock->mono_us / 1000;
    return true;
}

static struct tm local(int64_t wall_ms) {
    time_t seconds = (time_t)(wall_ms / 1000);
    struct tm date = {0};
    localtime_r(&seconds, &date);
    return date;
}

int64_t bench_clock_day_start(int64_t wall_ms) {
    struct tm date = local(wall_ms);
    date.tm_hour = 0;
    date.tm_min = 0;
    date.tm_sec = 0;
    date.tm_isdst = -1; // summer time may begin or end that day
    return (int64_t)mktime(&date) * 1000;
}

void bench_clock_text(int64_t wall_ms, bool date, char *buffer, size_t size) {
    struct tm at = local(wall_ms);
    if (date) {
        day_text_short(&(struct day){at.tm_year + 1900, at.tm_mon + 1, at.tm_mday}, buffer, size);
    } else {
        snprintf(buffer, size, "%02d:%02d", at.tm_hour, at.tm_min);
    }
}

int bench_clock_hour(int64_t wall_ms) {
    return local(wall_ms).tm_hour;
}

int64_t bench_clock_day(const char *date) {
    struct bench_clock noon = {.simulated = true};
    char text[24];
    if (strlen(date) != 10) {
        return -1;
    }
    snprintf(text, sizeof text, "%sT12:00", date);
    return bench_clock_set(&noon, text) ? bench_clock_day_start(noon.wall_ms) : -1;
}

void bench_clock_date(int64_t wall_ms, char *buffer, size_t size) {
    struct tm at = local(wall_ms);
    strftime(buffer, size, "%Y-%m-%d", &at);
}

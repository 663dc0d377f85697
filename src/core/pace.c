#include "pace.h"

#include "tongue.h"

#include <stdio.h>

#define MINUTE_MS 60000

// Into its place among the `count` sorted before it.
static void put(int64_t *sorted, size_t count, int64_t value) {
    size_t at = count;
    for (; at > 0 && sorted[at - 1] > value; at--) {
        sorted[at] = sorted[at - 1];
    }
    sorted[at] = value;
}

bool pace_median(const struct pace_club *clubs, size_t count, int64_t *ret_ms) {
    int64_t times[PACE_CLUBS_MAX];
    size_t known = 0;
    for (size_t i = 1; i < count && i < PACE_CLUBS_MAX; i++) {
        int64_t time = clubs[i - 1].mono_ms - clubs[i].mono_ms;
        if (clubs[i - 1].boot == clubs[i].boot && time > 0 && time <= PACE_GAP_MS) {
            put(times, known++, time);
        }
    }
    if (known < PACE_LEAST) {
        return false;
    }
    *ret_ms = (times[(known - 1) / 2] + times[known / 2]) / 2;
    return true;
}

void pace_text(int64_t ms, char buffer[PACE_TEXT_MAX]) {
    int64_t minutes = ms / MINUTE_MS;
    int64_t step = minutes < 60 ? 5 : 10;
    minutes = (minutes + step / 2) / step * step;
    minutes = minutes < 5 ? 5 : minutes;
    if (minutes < 60) {
        snprintf(buffer, PACE_TEXT_MAX, _("about %lld min"), (long long)minutes);
    } else if (minutes % 60 == 0) {
        snprintf(buffer, PACE_TEXT_MAX, _("about %lld h"), (long long)(minutes / 60));
    } else {
        snprintf(buffer, PACE_TEXT_MAX, _("about %lld h %lld min"), (long long)(minutes / 60),
                 (long long)(minutes % 60));
    }
}

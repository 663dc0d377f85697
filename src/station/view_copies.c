// How old the newest copy of the log is, and what keeps the bench from making another.

#include "station_inner.h"

#define MINUTE_MS ((int64_t)60 * 1000)
#define HOUR_MS (60 * MINUTE_MS)
#define DAY_HOURS 24

static struct station_copies ask(const struct station *s) {
    struct station_copies copies = {0};
    s->ops->copies(s->ops->ctx, &copies);
    return copies;
}

bool copies_health(const struct station *s, enum view_health *ret_health) {
    struct station_copies copies = ask(s);
    if (copies.wanted) {
        *ret_health = copies.late ? HEALTH_BAD : copies.failing ? HEALTH_WARN : HEALTH_GOOD;
    }
    return copies.wanted;
}

bool copies_late(const struct station *s) {
    struct station_copies copies = ask(s);
    return copies.wanted && copies.late;
}

void copies_words(const struct station *s, char *buffer, size_t size) {
    struct station_copies copies = ask(s);
    char number[LENGTH_TEXT_MAX];
    int64_t hours = (s->ops->wall_ms(s->ops->ctx) - copies.last_ms) / HOUR_MS;
    say_number(hours < 2 * DAY_HOURS ? hours : hours / DAY_HOURS, number);
    words_fill(buffer, size,
               !copies.wanted          ? WORD_COPIES_UNSET
               : copies.last_ms == 0   ? WORD_COPIES_NONE
               : hours < 1             ? WORD_COPIES_NOW
               : hours < 2             ? WORD_COPIES_HOUR
               : hours < 2 * DAY_HOURS ? WORD_COPIES_HOURS
                                       : WORD_COPIES_DAYS,
               number, NULL, NULL);
}

bool copies_failing(const struct station *s, char *buffer, size_t size) {
    struct station_copies copies = ask(s);
    if (copies.wanted && copies.failing) {
        words_fill(buffer, size, WORD_COPIES_FAIL, copies.why, NULL, NULL);
    }
    return copies.wanted && copies.failing;
}

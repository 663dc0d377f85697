// What passing time does: saving again, looking how a check goes, ending what nobody goes on with.

#include "station_inner.h"

#define LOGGED_MS 8000
#define CHECK_LOOK_MS 250 // how far the check of a log is
#define SUPERVISOR_IDLE_MS (5 * 60 * 1000)

// When idling ends what is going on, or -1.
static int64_t idle_end(const struct station *s) {
    bool may_sign_off =
        station_signed_on(s) &&
        (s->state == STATION_READY || s->state == STATION_PAIR || s->state == STATION_LOGGED ||
         s->state == STATION_CHECK || s->state == STATION_DESK || s->state == STATION_SELFCHECK);
    if (s->supervisor.badge[0] != '\0' || s->state == STATION_PIN) {
        return s->last_input_ms + SUPERVISOR_IDLE_MS;
    }
    if (may_sign_off && s->settings.idle_sign_off_ms > 0) {
        return s->last_input_ms + s->settings.idle_sign_off_ms;
    }
    return -1;
}

bool idle_tick(struct station *s) {
    int64_t now = station_now(s);
    int64_t idle = idle_end(s);
    if (s->saving != SAVING_NONE) {
        bool due = now >= s->retry_ms;
        save_tick(s);
        return due;
    }
    if (day_checks(s)) {
        return day_tick(s);
    }
    if (idle >= 0 && now >= idle) {
        s->last_input_ms = now;
        if (s->supervisor.badge[0] != '\0' || s->state == STATION_PIN) {
            station_home(s);
        } else {
            station_sign_off(s, "idle");
        }
        return true;
    }
    if (s->state == STATION_LOGGED && now - s->entered_ms >= LOGGED_MS) {
        station_home(s);
        return true;
    }
    return false;
}

int64_t station_deadline(const struct station *s) {
    int64_t due = idle_end(s);
    if (s->saving != SAVING_NONE) {
        return s->retry_ms;
    }
    if (day_checks(s)) {
        return station_now(s) + CHECK_LOOK_MS;
    }
    if (s->state == STATION_LOGGED && (due < 0 || s->entered_ms + LOGGED_MS < due)) {
        due = s->entered_ms + LOGGED_MS;
    }
    return due;
}

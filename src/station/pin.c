// A supervisor's badge and PIN. The digits come from keys, never from a scan.

#include "station_inner.h"

#include <string.h>

void pin_open(struct station *s, enum pin_purpose purpose, const struct worker *supervisor) {
    memset(&s->pin, 0, sizeof s->pin);
    s->pin.purpose = purpose;
    memset(&s->supervisor, 0, sizeof s->supervisor);
    if (supervisor != NULL) {
        s->supervisor = *supervisor;
    }
    station_move(s, STATION_PIN);
}

void pin_badge(struct station *s, const char *badge) {
    struct worker worker;
    memset(&worker, 0, sizeof worker);
    struct pin asked = s->pin;
    if (s->supervisor.badge[0] != '\0') {
        SAY(s->pin.message, PIN_SCAN, NULL, NULL, NULL);
        station_sound(s, SOUND_HOLD);
        return;
    }
    if (strcmp(badge, asked.unlock) == 0) {
        SAY(s->pin.message, PIN_UNLOCK_OWN, NULL, NULL, NULL);
        station_sound(s, SOUND_HOLD);
        return;
    }
    switch (s->ops->worker(s->ops->ctx, badge, &worker)) {
    case STATION_ABSENT:
        SAY(s->pin.message, PIN_UNKNOWN, NULL, NULL, NULL);
        break;
    case STATION_LOOKUP_FAILED:
        SAY(s->pin.message, PIN_FAILED, NULL, NULL, NULL);
        break;
    case STATION_FOUND:
        if (worker.role == ROLE_SUPERVISOR) {
            pin_open(s, asked.purpose, &worker);
            memcpy(s->pin.unlock, asked.unlock, sizeof s->pin.unlock);
            station_sound(s, SOUND_ACCEPTED);
            return;
        }
        SAY(s->pin.message, PIN_NO_SUPERVISOR, worker.name, NULL, NULL);
        break;
    }
    station_sound(s, SOUND_HOLD);
}

void pin_key(struct station *s, int64_t key) {
    size_t size = strlen(s->pin.digits);
    if (s->supervisor.badge[0] == '\0') {
        return;
    }
    if (key == '\b' && size > 0) {
        s->pin.digits[size - 1] = '\0';
    } else if (key >= '0' && key <= '9' && size < PIN_MAX) {
        s->pin.digits[size] = (char)key;
    }
    memset(s->pin.message, 0, sizeof s->pin.message);
}

static void log_try(struct station *s, const char *cause) {
    struct entry entry = save_entry(s, ENTRY_PIN);
    SET(entry.worker, s->supervisor.badge);
    SET(entry.cause, cause);
    save_aside(s, &entry);
}

void pin_unlock(struct station *s) {
    char badge[TICKET_TEXT_MAX];
    memcpy(badge, s->supervisor.badge, sizeof badge);
    pin_open(s, s->pin.purpose, NULL);
    memcpy(s->pin.unlock, badge, sizeof s->pin.unlock);
    SAY(s->pin.message, PIN_UNLOCK, badge, NULL, NULL);
}

// Back to the PIN that was locked, if it is no more.
static void unlock(struct station *s) {
    struct worker worker;
    memset(&worker, 0, sizeof worker);
    memset(&s->pin.digits, 0, sizeof s->pin.digits);
    struct pin asked = s->pin;
    enum station_save result = s->ops->unlock(s->ops->ctx, asked.unlock, s->supervisor.badge);
    if ((result != STATION_SAVED && result != STATION_SAVE_REFUSED) ||
        s->ops->worker(s->ops->ctx, asked.unlock, &worker) != STATION_FOUND) {
        SAY(s->pin.message, PIN_FAILED, NULL, NULL, NULL);
        station_sound(s, SOUND_HOLD);
        return;
    }
    pin_open(s, asked.purpose, &worker);
    SAY(s->pin.message, PIN_UNLOCKED, NULL, NULL, NULL);
    station_sound(s, SOUND_ACCEPTED);
}

static void let_in(struct station *s) {
    log_try(s, "accepted");
    if (s->pin.unlock[0] != '\0') {
        unlock(s);
        return;
    }
    memset(&s->pin.digits, 0, sizeof s->pin.digits);
    station_sound(s, SOUND_ACCEPTED);
    if (s->pin.purpose == PIN_FOR_REVIEW) {
        review_open(s);
    } else {
        s->pin.purpose == PIN_FOR_DESK ? station_move(s, STATION_DESK) : consent_open(s);
    }
}

void pin_press(struct station *s) {
    int wait_s = 0;
    if (s->supervisor.badge[0] == '\0') {
        return;
    }
    if (s->pin.digits[0] == '\0') {
        SAY(s->pin.message, PIN_EMPTY, NULL, NULL, NULL);
        return;
    }
    switch (s->ops->pin(s->ops->ctx, s->supervisor.badge, s->pin.digits, &wait_s)) {
    case STATION_PIN_RIGHT:
        let_in(s);
        return;
    case STATION_PIN_WRONG:
        log_try(s, "refused");
        SAY(s->pin.message, PIN_WRONG, NULL, NULL, NULL);
        break;
    case STATION_PIN_WAIT:
        log_try(s, "waiting");
        words_count(s->pin.message, sizeof s->pin.message, WORDS_PIN_WAIT, wait_s, NULL);
        break;
    case STATION_PIN_LOCKED:
        log_try(s, "waiting");
        s->pin.locked = true;
        SAY(s->pin.message, PIN_LOCKED, NULL, NULL, NULL);
        break;
    case STATION_PIN_NO_PEPPER:
        SAY(s->pin.message, PIN_NO_PEPPER, NULL, NULL, NULL);
        break;
    case STATION_PIN_NOT_SET:
        SAY(s->pin.message, PIN_NOT_SET, s->supervisor.name, NULL, NULL);
        break;
    case STATION_PIN_FAILED:
        SAY(s->pin.message, PIN_FAILED, NULL, NULL, NULL);
        break;
    }
    memset(&s->pin.digits, 0, sizeof s->pin.digits);
    station_sound(s, SOUND_HOLD);
}

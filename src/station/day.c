// A day in the review: its report and ledger, and the supervisor's signature, which is asked for
// twice and said to be there only when it is.

#include "station_inner.h"

#include <string.h>

#define LONGEST_DAY_MS ((int64_t)26 * 3600 * 1000)

bool day_shown(const struct station *s) {
    const struct review_filter *filter = &s->review.filter;
    return filter->from_ms > 0 && filter->to_ms - filter->from_ms <= LONGEST_DAY_MS;
}

static void say(struct station *s, enum word which, enum station_sound sound) {
    words_fill(s->review.message, sizeof s->review.message, which, NULL, NULL, NULL);
    station_sound(s, sound);
}

static void wrote(struct station *s, bool done, const char *path) {
    if (!done) {
        say(s, WORD_DAY_NO_PAPER, SOUND_HOLD);
        return;
    }
    struct entry entry = save_entry(s, ENTRY_EXPORT);
    SET(entry.worker, s->supervisor.badge);
    SET(entry.note, path);
    save_aside(s, &entry);
    SAY(s->review.message, REVIEW_EXPORTED, path, NULL, NULL);
    station_sound(s, SOUND_ACCEPTED);
}

static void papers(struct station *s, enum view_action_id id) {
    const struct station_ops *ops = s->ops;
    const struct review_filter *filter = &s->review.filter;
    char path[VIEW_TEXT_MAX] = "";
    bool done = id == ACTION_REPORT
                    ? ops->report(ops->ctx, filter->from_ms, filter->to_ms, path, sizeof path)
                    : ops->ledger(ops->ctx, filter->from_ms, filter->to_ms, path, sizeof path);
    wrote(s, done, path);
}

// The tickets of the build that is looked at.
static void tickets(struct station *s) {
    char build[PARTS_BUILD_MAX];
    char path[VIEW_TEXT_MAX] = "";
    if (review_build(s, build) && s->ops->tickets(s->ops->ctx, build, path, sizeof path)) {
        SAY(s->review.message, REVIEW_EXPORTED, path, NULL, NULL);
        station_sound(s, SOUND_ACCEPTED);
    } else {
        say(s, WORD_REVIEW_NOT_EXPORTED, SOUND_HOLD);
    }
}

// --- signing -------------------------------------------------------------------------------------

static void told(struct station *s, enum view_tone tone, const char *message) {
    s->day.tone = tone;
    SET(s->day.message, message);
}

// Everything that can be known before is known before it is asked for.
static void ask(struct station *s) {
    char message[VIEW_LONG_MAX] = "";
    memset(&s->day, 0, sizeof s->day);
    if (s->ops->sign_ready(s->ops->ctx, message, sizeof message)) {
        s->review.mode = REVIEW_SIGN;
    } else {
        told(s, TONE_STOP, message);
        say(s, WORD_DAY_REFUSED, SOUND_HOLD);
    }
}

bool day_checks(const struct station *s) {
    return s->state == STATION_REVIEW && s->review.mode == REVIEW_CHECK;
}

void day_stop(struct station *s) {
    if (s->review.mode == REVIEW_CHECK) {
        s->ops->check_stop(s->ops->ctx);
        s->review.mode = REVIEW_DAY;
        SET(s->review.message, word(WORD_DAY_STOPPED));
    }
}

static void check(struct station *s) {
    char message[VIEW_LONG_MAX] = "";
    if (s->ops->check_start(s->ops->ctx, message, sizeof message)) {
        s->review.mode = REVIEW_CHECK;
        station_dead_time(s); // a second touch does not stop it
    } else {
        s->review.mode = REVIEW_DAY;
        told(s, TONE_STOP, message);
        say(s, WORD_DAY_REFUSED, SOUND_HOLD);
    }
}

static void sign(struct station *s) {
    struct entry entry = save_entry(s, ENTRY_DAY_SIGNED);
    char message[VIEW_LONG_MAX] = "";
    char note[VIEW_NOTE_MAX] = "";
    SET(entry.worker, s->supervisor.badge);
    s->review.mode = REVIEW_DAY;
    switch (s->ops->sign(s->ops->ctx, &entry, s->review.filter.from_ms, note, message,
                         sizeof message)) {
    case STATION_SIGNED:
        told(s, TONE_FINE, "");
        SET(s->day.note, note);
        say(s, WORD_DAY_KEPT, SOUND_LOGGED);
        break;
    case STATION_SIGNED_UNKEPT:
        told(s, TONE_CAUTION, message);
        SET(s->day.note, note);
        say(s, WORD_DAY_UNKEPT, SOUND_HOLD);
        break;
    case STATION_SIGN_UNKNOWN:
        told(s, TONE_STOP, message);
        say(s, WORD_DAY_UNKNOWN, SOUND_HOLD);
        break;
    case STATION_NOT_SIGNED:
        told(s, TONE_STOP, message);
        say(s, WORD_DAY_REFUSED, SOUND_HOLD);
        break;
    }
}

bool day_tick(struct station *s) {
    struct station_checked checked = {.entries = 0};
    char message[VIEW_LONG_MAX] = "";
    bool changed = true;
    switch (s->ops->check_step(s->ops->ctx, &checked, message, sizeof message)) {
    case STATION_CHECK_GOES_ON:
        changed = checked.entries != s->day.checked || checked.all != s->day.all;
        s->day.checked = checked.entries;
        s->day.all = checked.all;
        break;
    case STATION_CHECK_GOOD:
        sign(s);
        break;
    case STATION_CHECK_BAD:
        s->review.mode = REVIEW_DAY;
        told(s, TONE_STOP, message);
        say(s, WORD_DAY_REFUSED, SOUND_HOLD);
        break;
    }
    s->last_input_ms = station_now(s); // whoever waits for it is not idle
    return changed;
}

void day_action(struct station *s, enum view_action_id id) {
    memset(s->review.message, 0, sizeof s->review.message);
    if (id == ACTION_DAY) {
        memset(&s->day, 0, sizeof s->day); // it may be another
        s->review.mode = REVIEW_DAY;
    } else if (id == ACTION_REPORT || id == ACTION_LEDGER) {
        papers(s, id);
    } else if (id == ACTION_TICKETS) {
        tickets(s);
    } else if (id == ACTION_SIGN) {
        ask(s);
    } else if (id == ACTION_SIGN_CONFIRM) {
        check(s);
    }
}

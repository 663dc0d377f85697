// One open entry at a time. It stays open, with its confirm id, until the store has said that it
// is on disk or that a rule forbids it.

#include "station_inner.h"

#include <string.h>

#define RETRY_MS 2000
#define LOOK_MS 1000

struct entry save_entry(const struct station *s, enum entry_kind kind) {
    const struct station_ops *ops = s->ops;
    struct entry entry;
    memset(&entry, 0, sizeof entry);
    entry = entry_init(kind);
    entry.wall_ms = ops->wall_ms(ops->ctx);
    entry.mono_ms = ops->mono_ms(ops->ctx);
    ops->random_id(ops->ctx, entry.confirm_id);
    SET(entry.bench, s->settings.bench);
    SET(entry.worker, s->worker.badge);
    SET(entry.head, s->head);
    SET(entry.shaft, s->shaft);
    if (s->club.id != 0) {
        entry.club_id = s->club.id;
        SET(entry.build, s->club.order.build);
        SET(entry.club, s->club.order.club);
        SET(entry.head, s->club.head.ticket);
        SET(entry.shaft, s->club.shaft.ticket);
    }
    return entry;
}

static void closed(struct station *s) {
    s->saving = SAVING_NONE;
    memset(&s->pending, 0, sizeof s->pending);
}

static void done(struct station *s) {
    struct entry saved = s->pending;
    enum save_then then = s->then;
    closed(s);
    s->then = THEN_NOTHING;
    if (saved.club_id != 0 && saved.club_id == s->club.id &&
        !stage_advance(&s->club.progress, &saved) && !cutting_reload(s)) {
        return;
    }
    after_save(s, then, &saved);
}

static void refused(struct station *s) {
    closed(s);
    enum save_then then = s->then;
    if (then == THEN_READY) {
        memset(&s->worker, 0, sizeof s->worker);
    }
    s->then = THEN_NOTHING;
    if (s->state == STATION_REVIEW) {
        SET(s->review.message, word(then == THEN_NOTED ? WORD_REVIEW_NOT_NOTED : WORD_REVIEW_GONE));
        station_sound(s, SOUND_HOLD);
        return;
    }
    if (s->state == STATION_FINAL) {
        station_move(s, STATION_SET);
        SAY(s->set.message, FINAL_REFUSED, NULL, NULL, NULL);
        station_sound(s, SOUND_HOLD);
        return;
    }
    if (ordering_refused(s)) {
        return;
    }
    struct hold hold = hold_make(s, HOLD_ALREADY_LOGGED);
    hold.start_over = true;
    hold_line(&hold, WORD_HOLD_REFUSED, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_MEASURE_FIRST, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_SCAN_BOTH, NULL, NULL, NULL);
    hold_show(s, &hold);
}

static void wait(struct station *s, enum station_saving saving, int64_t ms) {
    s->saving = saving;
    s->retry_ms = station_now(s) + ms;
}

static enum station_save try_once(struct station *s) {
    enum station_save result = s->ops->save(s->ops->ctx, &s->pending);
    switch (result) {
    case STATION_SAVED:
        done(s);
        break;
    case STATION_SAVE_REFUSED:
        refused(s);
        break;
    case STATION_SAVE_FAILED:
        wait(s, SAVING_REFUSED, RETRY_MS);
        break;
    case STATION_SAVE_UNKNOWN:
        wait(s, SAVING_CHECKING, LOOK_MS);
        break;
    }
    return result;
}

// What became of the open entry; one that is not there is tried again under the same id.
static void look(struct station *s) {
    int64_t seq;
    switch (s->ops->saved(s->ops->ctx, s->pending.confirm_id, &seq)) {
    case STATION_FOUND:
        s->pending.seq = seq;
        done(s);
        break;
    case STATION_ABSENT:
        try_once(s);
        break;
    case STATION_LOOKUP_FAILED:
        wait(s, SAVING_CHECKING, LOOK_MS);
        break;
    }
}

void save_begin(struct station *s, const struct entry *entry, enum save_then then) {
    s->pending = *entry;
    s->then = then;
    if (try_once(s) == STATION_SAVE_UNKNOWN) {
        look(s);
    }
    if (s->saving != SAVING_NONE) {
        station_sound(s, SOUND_HOLD);
    }
}

void save_tick(struct station *s) {
    if (s->saving == SAVING_NONE || station_now(s) < s->retry_ms) {
        return;
    }
    if (s->saving == SAVING_CHECKING) {
        look(s);
    } else if (try_once(s) == STATION_SAVE_UNKNOWN) {
        look(s);
    }
}

bool save_aside(const struct station *s, struct entry *entry) {
    int64_t seq;
    enum station_save result = s->ops->save(s->ops->ctx, entry);
    if (result == STATION_SAVE_UNKNOWN) {
        return s->ops->saved(s->ops->ctx, entry->confirm_id, &seq) == STATION_FOUND;
    }
    return result == STATION_SAVED;
}

// A kit list that the supervisor accepts: one entry a club, all of them logged or none.

#include "station_inner.h"

#include <string.h>

static void message(struct station *s, enum word which, enum station_sound sound) {
    words_fill(s->set.message, sizeof s->set.message, which, NULL, NULL, NULL);
    station_sound(s, sound);
}

static struct entry kit_entry(const struct station *s, const struct kit *kit,
                              const struct kit_club *club) {
    struct entry entry = save_entry(s, ENTRY_KIT);
    SET(entry.worker, s->supervisor.badge);
    entry.club_id = club->club_id;
    SET(entry.build, kit->build);
    SET(entry.club, club->club);
    SET(entry.head, club->head);
    SET(entry.shaft, club->shaft);
    SET(entry.cause, kit->by == MATCH_BY_FLEX ? "flex" : "swingweight");
    return entry;
}

// Whether a list whose commit failed is on the disk: one entry tells for all.
static bool is_there(const struct station *s, const struct entry *first) {
    int64_t seq;
    return s->ops->saved(s->ops->ctx, first->confirm_id, &seq) == STATION_FOUND;
}

static enum station_lookup match(const struct station *s, struct kit *ret_kit) {
    memset(ret_kit, 0, sizeof *ret_kit);
    return s->ops->kit(s->ops->ctx, s->set.build, s->set.by, ret_kit);
}

void kits_lay(struct station *s) {
    if (match(s, &s->set.kit) != STATION_FOUND) {
        s->set.kit.count = 0;
    }
}

// Alike in all that a row shows.
static bool same_row(const struct kit_club *a, const struct kit_club *b) {
    return a->club_id == b->club_id && strcmp(a->club, b->club) == 0 &&
           strcmp(a->head, b->head) == 0 && strcmp(a->shaft, b->shaft) == 0 &&
           strcmp(a->rack, b->rack) == 0 && a->shaft_weight == b->shaft_weight &&
           a->raw_length == b->raw_length && a->value == b->value;
}

static bool same(const struct kit *a, const struct kit *b) {
    bool alike = a->count == b->count;
    for (size_t i = 0; i < a->count && alike; i++) {
        alike = same_row(&a->club[i], &b->club[i]);
    }
    return alike;
}

// What is shown still holds; else what holds is shown, and nothing is accepted yet.
static bool still_so(struct station *s) {
    struct kit now;
    enum station_lookup found = match(s, &now);
    if (found == STATION_LOOKUP_FAILED) {
        message(s, WORD_REVIEW_FAILED, SOUND_HOLD);
        return false;
    }
    if (found == STATION_ABSENT) {
        now.count = 0;
    }
    if (!same(&s->set.kit, &now)) {
        s->set.kit = now;
        message(s, WORD_KIT_CHANGED, SOUND_HOLD);
        return false;
    }
    return true;
}

void kits_accept(struct station *s) {
    struct entry entries[SET_CLUBS_MAX];
    const struct kit *kit = &s->set.kit;
    size_t count = 0;
    if (!still_so(s)) {
        return;
    }
    for (size_t i = 0; i < kit->count; i++) {
        if (kit->club[i].shaft[0] != '\0') {
            entries[count++] = kit_entry(s, kit, &kit->club[i]);
        }
    }
    if (count == 0) {
        message(s, WORD_KIT_NONE, SOUND_HOLD);
        return;
    }
    enum station_save saved = s->ops->save_all(s->ops->ctx, entries, count);
    if (saved == STATION_SAVED || (saved == STATION_SAVE_UNKNOWN && is_there(s, &entries[0]))) {
        s->set.mode = SET_PLOTS;
        message(s, WORD_KIT_ACCEPTED, SOUND_LOGGED);
    } else {
        kits_lay(s); // refused: what holds now is to be looked at
        message(s, saved == STATION_SAVE_REFUSED ? WORD_KIT_REFUSED : WORD_KIT_NOT_SAVED,
                SOUND_HOLD);
    }
}

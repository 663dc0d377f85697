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

void kits_accept(struct station *s) {
    struct entry entries[SET_CLUBS_MAX];
    struct kit kit;
    size_t count = 0;
    if (s->ops->kit(s->ops->ctx, s->set.build, s->set.by, &kit) != STATION_FOUND) {
        message(s, WORD_REVIEW_FAILED, SOUND_HOLD);
        return;
    }
    for (size_t i = 0; i < kit.count; i++) {
        if (kit.club[i].shaft[0] != '\0') {
            entries[count++] = kit_entry(s, &kit, &kit.club[i]);
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
        message(s, saved == STATION_SAVE_REFUSED ? WORD_KIT_REFUSED : WORD_KIT_NOT_SAVED,
                SOUND_HOLD);
    }
}

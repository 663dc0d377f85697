// A build as a set, for the supervisor: which build, which club of it, and what can be done with
// it. What is on the screen is asked from the store anew each time, all but a kit list: what is
// accepted is what was shown.

#include "station_inner.h"

#include <string.h>

static void message(struct station *s, enum word which, const char *a, enum station_sound sound) {
    words_fill(s->set.message, sizeof s->set.message, which, a, NULL, NULL);
    station_sound(s, sound);
}

bool sets_load(const struct station *s, struct set *ret_set) {
    return s->ops->set(s->ops->ctx, s->set.build, ret_set) == STATION_FOUND;
}

const struct set_club *sets_selected(const struct station *s, const struct set *set) {
    for (size_t i = 0; i < set->count; i++) {
        if (set->club[i].club_id == s->set.selected) {
            return &set->club[i];
        }
    }
    return NULL;
}

void sets_open(struct station *s, const char *build) {
    memset(&s->set, 0, sizeof s->set);
    SET(s->set.build, build);
    station_move(s, STATION_SET);
}

void sets_back(struct station *s) {
    if (s->set.mode == SET_KIT) {
        s->set.mode = SET_PLOTS;
        memset(s->set.message, 0, sizeof s->set.message);
    } else {
        station_move(s, STATION_REVIEW);
    }
}

static void another(struct station *s, bool before) {
    char build[PARTS_BUILD_MAX] = "";
    switch (s->ops->beside(s->ops->ctx, s->set.build, before, build)) {
    case STATION_FOUND:
        sets_open(s, build);
        break;
    case STATION_ABSENT:
        message(s, before ? WORD_SET_FIRST : WORD_SET_LAST, NULL, SOUND_HOLD);
        break;
    case STATION_LOOKUP_FAILED:
        message(s, WORD_REVIEW_FAILED, NULL, SOUND_HOLD);
        break;
    }
}

// Keeps the selected row on the screen.
static void select_row(struct station *s, int64_t index) {
    struct set set;
    bool kit = s->set.mode == SET_KIT;
    if (index < 0 || (!kit && !sets_load(s, &set)) ||
        index >= (int64_t)(kit ? s->set.kit.count : set.count)) {
        return;
    }
    s->set.selected = kit ? s->set.kit.club[index].club_id : set.club[index].club_id;
    if (index < s->set.first) {
        s->set.first = (int)index;
    } else if (index >= s->set.first + VIEW_ROWS_MAX) {
        s->set.first = (int)index - VIEW_ROWS_MAX + 1;
    }
}

void sets_scan(struct station *s, const struct ticket *ticket) {
    struct part part;
    if (ticket->kind == TICKET_BUILD) {
        struct set set;
        if (s->ops->set(s->ops->ctx, ticket->text, &set) == STATION_FOUND) {
            sets_open(s, set.build);
            station_sound(s, SOUND_ACCEPTED);
            return;
        }
    } else if (s->ops->part(s->ops->ctx, ticket->text, &part) == STATION_FOUND &&
               part.build[0] != '\0') {
        sets_open(s, part.build);
        station_sound(s, SOUND_ACCEPTED);
        return;
    }
    message(s, WORD_SET_NO_BUILD, ticket->text, SOUND_HOLD);
}

static void tickets(struct station *s) {
    char path[VIEW_TEXT_MAX] = "";
    if (s->ops->tickets(s->ops->ctx, s->set.build, path, sizeof path)) {
        message(s, WORD_REVIEW_EXPORTED, path, SOUND_ACCEPTED);
    } else {
        message(s, WORD_REVIEW_NOT_EXPORTED, NULL, SOUND_HOLD);
    }
}

// The log of the selected club's shaft, or of its head while it has none.
static void life(struct station *s) {
    struct set set;
    const struct set_club *club = sets_load(s, &set) ? sets_selected(s, &set) : NULL;
    if (club != NULL) {
        review_life(s, club->shaft[0] != '\0' ? club->shaft : club->head);
    }
}

void sets_action(struct station *s, enum view_action_id id, int64_t argument) {
    memset(s->set.message, 0, sizeof s->set.message);
    if (id == ACTION_ROW) {
        select_row(s, argument);
    } else if (id == ACTION_BUILD_BACK || id == ACTION_BUILD_ON) {
        another(s, id == ACTION_BUILD_BACK);
    } else if (id == ACTION_LIFE) {
        life(s);
    } else if (id == ACTION_TICKETS) {
        tickets(s);
    } else if (id == ACTION_KIT) {
        s->set.mode = SET_KIT;
        s->set.first = 0; // it is the shorter list
        kits_lay(s);
    } else if (id == ACTION_KIT_SWINGWEIGHT) {
        s->set.by = MATCH_BY_SWINGWEIGHT;
        kits_lay(s);
    } else if (id == ACTION_KIT_FLEX) {
        s->set.by = MATCH_BY_FLEX;
        kits_lay(s);
    } else if (id == ACTION_KIT_ACCEPT) {
        kits_accept(s);
    } else {
        final_open(s, id);
    }
}

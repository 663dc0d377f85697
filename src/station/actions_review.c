// What can be touched while somebody looks at the log, at a day, at a build as a set.

#include "station_inner.h"

static void spare_actions(const struct station *s, const struct entry *entry, struct view *view) {
    struct part spares[STATION_ROWS_MAX];
    int count = s->ops->spares(s->ops->ctx, entry->shaft, spares, STATION_ROWS_MAX);
    for (int i = 0; i < count; i++) {
        char key[2] = {i < 9 ? (char)('1' + i) : '\0', '\0'};
        view_offer(view, ACTION_SPARE, i, spares[i].ticket, s->review.note_active ? "" : key,
                   TONE_PLAIN);
    }
    offer(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
}

static void filter_actions(const struct station *s, struct view *view) {
    char labels[VIEW_ACTIONS_MAX][VIEW_SHORT_MAX];
    bool values = s->review.mode == REVIEW_PICK;
    int count = filters_labels(s, labels, VIEW_ACTIONS_MAX - 4);
    for (int i = 0; i < count; i++) {
        char key[2] = {i < 9 ? (char)('1' + i) : '\0', '\0'};
        view_offer(view, values ? ACTION_FILTER_VALUE : ACTION_FILTER_PICK, i, labels[i], key,
                   TONE_PLAIN);
    }
    offer(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
    offer(view, ACTION_FILTER_OPEN, WORD_L_OPEN, "F11", TONE_PLAIN);
    offer(view, ACTION_FILTER_CLEAR, WORD_L_CLEAR, "Del", TONE_PLAIN);
}

static void decisions(const struct station *s, struct view *view) {
    bool typing = s->review.note_active;
    offer(view, ACTION_DECIDE_USE, WORD_L_USE, typing ? "" : "1", TONE_FINE);
    offer(view, ACTION_DECIDE_RECUT, WORD_L_RECUT, typing ? "" : "2", TONE_WORK);
    offer(view, ACTION_DECIDE_SCRAP, WORD_L_SCRAP, typing ? "" : "3", TONE_STOP);
}

static void note_actions(const struct station *s, struct view *view) {
    if (decide_has_note(s)) {
        offer_press(view);
    }
    offer(view, ACTION_NOTE, s->review.note_active ? WORD_L_NOTE_DONE : WORD_L_NOTE, "F4",
          TONE_PLAIN);
}

static void day_actions(const struct station *s, struct view *view) {
    if (s->review.mode == REVIEW_CHECK) {
        offer_press(view);
        offer(view, ACTION_BACK, WORD_L_STOP_CHECK, "F3", TONE_PLAIN);
        return;
    }
    offer(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
    if (s->review.mode == REVIEW_SIGN) {
        offer(view, ACTION_SIGN_CONFIRM, WORD_L_SIGN_CONFIRM, "F4", TONE_FINE);
        return;
    }
    offer(view, ACTION_REPORT, WORD_L_REPORT, "F2", TONE_PLAIN);
    offer(view, ACTION_LEDGER, WORD_L_LEDGER, "F6", TONE_PLAIN);
    offer(view, ACTION_SIGN, WORD_L_SIGN, "F4", TONE_WORK);
    offer(view, ACTION_SIGN_OUT, WORD_L_SIGN_OUT, "F10", TONE_PLAIN);
}

void review_actions(const struct station *s, struct view *view) {
    struct entry entry;
    char build[PARTS_BUILD_MAX];
    bool open = false;
    bool selected = review_selected(s, &entry, &open);
    if (s->review.mode == REVIEW_DAY || s->review.mode == REVIEW_SIGN ||
        s->review.mode == REVIEW_CHECK) {
        day_actions(s, view);
        return;
    }
    if (s->review.mode == REVIEW_ENTRY || s->review.mode == REVIEW_STATS ||
        s->review.mode == REVIEW_SHOWN) {
        offer(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
        if (s->review.mode == REVIEW_ENTRY && selected && view_has_shown(&entry)) {
            offer(view, ACTION_SHOWN, WORD_L_SHOWN, "F12", TONE_PLAIN);
        }
        return;
    }
    if (s->review.mode == REVIEW_SPARE && selected) {
        spare_actions(s, &entry, view);
        return;
    }
    if (s->review.mode == REVIEW_FILTERS || s->review.mode == REVIEW_PICK) {
        filter_actions(s, view);
        return;
    }
    if (open) {
        decisions(s, view);
    }
    if (selected) {
        note_actions(s, view);
    }
    offer(view, ACTION_BACK, WORD_L_CLOSE, "F3", TONE_PLAIN);
    offer(view, ACTION_OLDER, WORD_L_OLDER, "PgDn", TONE_PLAIN);
    offer(view, ACTION_NEWER, WORD_L_NEWER, "PgUp", TONE_PLAIN);
    offer(view, ACTION_DAY_BACK, WORD_L_DAY_BACK, "F5", TONE_PLAIN);
    offer(view, ACTION_DAY_ON, WORD_L_DAY_ON, "F6", TONE_PLAIN);
    offer(view, ACTION_FILTER_BUILD, WORD_L_BUILD, "F7", TONE_PLAIN);
    offer(view, ACTION_FILTER, WORD_L_FILTER, "F8", TONE_WORK);
    offer(view, ACTION_FILTER_OPEN, WORD_L_OPEN, "F11", TONE_PLAIN);
    offer(view, ACTION_FILTER_CLEAR, WORD_L_CLEAR, "Del", TONE_PLAIN);
    if (selected) {
        offer(view, ACTION_OPEN_ENTRY, WORD_L_ENTRY, "F12", TONE_PLAIN);
    }
    if (selected && (entry.shaft[0] != '\0' || entry.head[0] != '\0')) {
        offer(view, ACTION_LIFE, WORD_L_LIFE, "F9", TONE_PLAIN);
    }
    if (review_build(s, build)) {
        offer(view, ACTION_SET, WORD_L_SET, "Ins", TONE_PLAIN);
        offer(view, ACTION_TICKETS, WORD_L_TICKETS, "", TONE_PLAIN);
    }
    if (day_shown(s)) {
        offer(view, ACTION_DAY, WORD_L_DAY, "End", TONE_PLAIN);
    }
    offer(view, ACTION_STATS, WORD_L_STATS, "Home", TONE_PLAIN);
    offer(view, ACTION_EXPORT, WORD_L_EXPORT, "F2", TONE_PLAIN);
    offer(view, ACTION_SIGN_OUT, WORD_L_SIGN_OUT, "F10", TONE_PLAIN);
}

void set_actions(const struct station *s, struct view *view) {
    struct set set;
    bool known = sets_load(s, &set);
    const struct set_club *club = known ? sets_selected(s, &set) : NULL;
    bool waits = false;
    for (size_t i = 0; known && i < set.count; i++) {
        waits = waits || (set.club[i].shaft[0] == '\0' && set.club[i].stage == STAGE_PENDING);
    }
    offer(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
    if (s->set.mode == SET_KIT) {
        offer(view, ACTION_KIT_ACCEPT, WORD_L_KIT_ACCEPT, "F4", TONE_FINE);
        offer(view, ACTION_KIT_SWINGWEIGHT, WORD_L_KIT_SWINGWEIGHT, "F7", TONE_PLAIN);
        offer(view, ACTION_KIT_FLEX, WORD_L_KIT_FLEX, "F8", TONE_PLAIN);
    } else {
        offer(view, ACTION_BUILD_BACK, WORD_L_BUILD_BACK, "F5", TONE_PLAIN);
        offer(view, ACTION_BUILD_ON, WORD_L_BUILD_ON, "F6", TONE_PLAIN);
        offer(view, ACTION_TICKETS, WORD_L_TICKETS, "F2", TONE_PLAIN);
        if (waits) {
            offer(view, ACTION_KIT, WORD_L_KIT, "F4", TONE_WORK);
        }
        if (club != NULL) {
            offer(view, ACTION_LIFE, WORD_L_LIFE, "F11", TONE_PLAIN);
        }
        if (club != NULL && club->stage == STAGE_DONE) {
            offer(view, ACTION_FINAL_LENGTH, WORD_L_FINAL_LENGTH, "F7", TONE_PLAIN);
            offer(view, ACTION_FINAL_SWINGWEIGHT, WORD_L_FINAL_SWINGWEIGHT, "F8", TONE_PLAIN);
            offer(view, ACTION_FINAL_FREQUENCY, WORD_L_FINAL_FREQUENCY, "F9", TONE_PLAIN);
            offer(view, ACTION_FINAL_LOFT, WORD_L_FINAL_LOFT, "F12", TONE_PLAIN);
            offer(view, ACTION_FINAL_LIE, WORD_L_FINAL_LIE, "Ins", TONE_PLAIN);
        }
    }
    offer(view, ACTION_SIGN_OUT, WORD_L_SIGN_OUT, "F10", TONE_PLAIN);
}

void final_actions(const struct station *s, struct view *view) {
    offer_press(view);
    offer(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
    for (char letter = 'C'; s->number.kind == NUMBER_FINAL_SWINGWEIGHT && letter <= 'E'; letter++) {
        const char label[2] = {letter, '\0'};
        view_offer(view, ACTION_KEY, letter, label, "", TONE_PLAIN);
    }
}

// What can be touched now. The same list says what is accepted, so that a touch that comes a
// moment too late does nothing.

#include "station_inner.h"
#include "text.h"

#include <string.h>

void offer(struct view *view, enum view_action_id id, enum word label, const char *key,
           enum view_tone tone) {
    view_offer(view, id, 0, word(label), key, tone);
}

void offer_press(struct view *view) {
    offer(view, ACTION_PRESS, WORD_L_PRESS, "F1", TONE_WORK);
}

static void offer_held(struct view *view, enum word label) {
    offer(view, ACTION_HELD, label, "F2", TONE_STOP);
}

// A choice with the next free number as its key.
static void choice(struct view *view, enum view_action_id id, enum word label,
                   enum view_tone tone) {
    char key[2] = {'1', '\0'};
    for (size_t i = 0; i < view->action_count; i++) {
        char taken = view->action[i].key[0];
        if (view->action[i].key[1] == '\0' && taken >= key[0] && taken < '9') {
            key[0] = (char)(taken + 1);
        }
    }
    offer(view, id, label, key, tone);
}

static void wrong_choices(const struct station *s, struct view *view) {
    const struct progress *progress = &s->club.progress;
    enum station_state at = s->hold.back;
    bool at_cut = at == STATION_TIP_CUT || at == STATION_BUTT_CUT;
    if (at == STATION_TIP_CUT || (at == STATION_BUTT_CUT && progress->tip_seq != 0)) {
        choice(view, ACTION_WRONG_MISCUT, WORD_L_TIP_OFF, TONE_PLAIN);
    }
    if (at == STATION_BUTT_CUT && progress->tip_seq != 0) {
        choice(view, ACTION_WRONG_TOO_EARLY, WORD_L_EARLY_TIP, TONE_PLAIN);
    }
    if ((at == STATION_MEASURE || at == STATION_LOGGED) && progress->butt_seq != 0) {
        choice(view, ACTION_WRONG_TOO_EARLY, WORD_L_EARLY_BUTT, TONE_PLAIN);
    }
    if (at == STATION_LOGGED) {
        choice(view, ACTION_WRONG_MISCUT, WORD_L_MEASURED_WRONG, TONE_PLAIN);
    } else {
        choice(view, ACTION_WRONG_NOT_SAFE, WORD_L_NOT_SAFE, TONE_STOP);
        choice(view, ACTION_WRONG_PARTS, WORD_L_WRONG_PARTS, TONE_CAUTION);
    }
    if (at_cut && at == STATION_BUTT_CUT && s->club.head.bore != BORE_THROUGH) {
        choice(view, ACTION_DRY_FIT, WORD_L_DRY_FIT, TONE_PLAIN);
    }
    choice(view, ACTION_WRONG_SUPERVISOR, WORD_L_CALL, TONE_CAUTION);
    offer(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
}

static void hold_actions(const struct station *s, struct view *view) {
    offer_press(view);
    if (s->hold.cause == HOLD_SOMETHING_WRONG) {
        wrong_choices(s, view);
        return;
    }
    if (s->hold.consent) {
        offer(view, ACTION_CONSENT, WORD_L_CONSENT, "F4", TONE_CAUTION);
    }
    if (s->hold.cause == HOLD_TIP_PAST || s->hold.cause == HOLD_BUTT_SHORT) {
        choice(view, ACTION_WRONG_MISCUT, WORD_L_MEASURED_WRONG, TONE_PLAIN);
    }
    if (s->hold.cause != HOLD_SUPERVISOR) {
        offer_held(view, WORD_L_CALL);
    }
    if (station_signed_on(s)) {
        offer(view, ACTION_START_OVER, WORD_L_START_OVER, "F3", TONE_PLAIN);
    }
}

static void consent_actions(const struct station *s, struct view *view) {
    struct plan_input input;
    struct plan plan;
    enum consent consent;
    cutting_plan(s, &input, &plan);
    bool known = consent_for(s, &plan, &consent);
    if (station_asks_number(s)) {
        offer_press(view);
    } else if (known && consent != CONSENT_COLUMN) {
        choice(view, ACTION_ROW,
               consent == CONSENT_SHIM ? WORD_CONSENT_SHIM : WORD_CONSENT_EXTENSION, TONE_CAUTION);
    } else {
        for (size_t i = 0; i < s->club.chart.count; i++) {
            const struct chart_column *column = &s->club.chart.column[i];
            char label[VIEW_SHORT_MAX];
            char weight[LENGTH_TEXT_MAX + 2];
            char key[2] = {i < 9 ? (char)('1' + i) : '\0', '\0'};
            struct text grams = text_open(weight, sizeof weight);
            text_add_mass(&grams, column->weight);
            SAY(label, CONSENT_COLUMN, column->name, weight, NULL);
            view_offer(view, ACTION_ROW, (int64_t)i, label, key, TONE_CAUTION);
        }
    }
    offer(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
}

static void number_actions(const struct station *s, struct view *view) {
    offer_press(view);
    offer_held(view, WORD_L_HELD);
    if (s->state == STATION_MEASURE) {
        offer(view, ACTION_START_OVER, WORD_L_START_OVER, "F3", TONE_PLAIN);
    } else {
        offer(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
    }
}

static void cut_actions(const struct station *s, struct view *view) {
    offer_press(view);
    offer_held(view, s->state == STATION_CARE ? WORD_L_NOT_SAFE : WORD_L_HELD);
    offer(view, ACTION_START_OVER, WORD_L_START_OVER, "F3", TONE_PLAIN);
    if (s->state == STATION_BUTT_CUT && s->club.head.bore != BORE_THROUGH) {
        offer(view, ACTION_DRY_FIT, WORD_L_DRY_FIT, "F4", TONE_PLAIN);
    }
}

void actions_fill(const struct station *s, struct view *view) {
    view->action_count = 0;
    if (s->saving != SAVING_NONE) {
        return;
    }
    switch (s->state) {
    case STATION_SIGNED_OUT:
        offer_held(view, WORD_L_CALL);
        break;
    case STATION_READY:
        offer_held(view, WORD_L_HELD);
        offer(view, ACTION_DESK, WORD_L_DESK, "F5", TONE_PLAIN);
        offer(view, ACTION_REVIEW, WORD_L_REVIEW, "F6", TONE_PLAIN);
        offer(view, ACTION_CHECK, WORD_L_CHECK, "F7", TONE_PLAIN);
        offer(view, ACTION_SELFCHECK, WORD_L_SELFCHECK, "F8", TONE_PLAIN);
        offer(view, ACTION_SIGN_OUT, WORD_L_SIGN_OUT, "F10", TONE_PLAIN);
        break;
    case STATION_PAIR:
        offer_held(view, WORD_L_HELD);
        offer(view, ACTION_START_OVER, WORD_L_START_OVER, "F3", TONE_PLAIN);
        break;
    case STATION_CARE:
    case STATION_TIP_CUT:
    case STATION_BUTT_CUT:
        cut_actions(s, view);
        break;
    case STATION_DRY_FIT:
    case STATION_MISCUT:
    case STATION_MEASURE:
        number_actions(s, view);
        break;
    case STATION_RESUME:
        choice(view, ACTION_RESUME_NOT_CUT, WORD_L_NOT_CUT, TONE_WORK);
        choice(view, ACTION_RESUME_CUT, WORD_L_CUT, TONE_FINE);
        choice(view, ACTION_RESUME_OTHER, WORD_L_OTHER, TONE_CAUTION);
        offer_held(view, WORD_L_HELD);
        offer(view, ACTION_START_OVER, WORD_L_START_OVER, "F3", TONE_PLAIN);
        break;
    case STATION_LOGGED:
        offer_press(view);
        offer_held(view, WORD_L_HELD);
        break;
    case STATION_HOLD:
        hold_actions(s, view);
        break;
    case STATION_PIN:
        offer_press(view);
        if (s->pin.locked) {
            offer(view, ACTION_UNLOCK, WORD_L_UNLOCK, "F4", TONE_CAUTION);
        }
        offer(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
        break;
    case STATION_CHECK:
        offer_press(view);
        offer(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
        break;
    case STATION_SELFCHECK:
        if (!s->untrusted) {
            offer_press(view);
            offer(view, ACTION_BACK, WORD_L_BACK, "F3", TONE_PLAIN);
        }
        offer(view, ACTION_LOOK_AGAIN, WORD_L_LOOK_AGAIN, "F4", TONE_PLAIN);
        offer(view, ACTION_SOUNDS, WORD_L_SOUNDS, "F6", TONE_PLAIN);
        if (selfchecks_more(s)) {
            offer(view, ACTION_OLDER, WORD_L_MORE, "PgDn", TONE_PLAIN);
        }
        if (s->looked_page > 0) {
            offer(view, ACTION_NEWER, WORD_L_LESS, "PgUp", TONE_PLAIN);
        }
        break;
    case STATION_CONSENT:
        consent_actions(s, view);
        break;
    case STATION_REVIEW:
        review_actions(s, view);
        break;
    case STATION_DESK:
        offer(view, ACTION_BACK, WORD_L_LEAVE, "F3", TONE_PLAIN);
        if (s->supervisor.badge[0] == '\0') {
            offer(view, ACTION_SUPERVISOR, WORD_L_SUPERVISOR, "F9", TONE_PLAIN);
        }
        offer(view, ACTION_SIGN_OUT, WORD_L_SIGN_OUT, "F10", TONE_PLAIN);
        break;
    case STATION_SET:
        set_actions(s, view);
        break;
    case STATION_FINAL:
        final_actions(s, view);
        break;
    case STATION_STATE_COUNT:
        break;
    }
}

// Keys, fields, picks and rows the screen makes itself (view.h).
static bool made_by_screen(const struct station *s, enum view_action_id id) {
    bool number = station_asks_number(s);
    if (id == ACTION_FIELD || id == ACTION_PICK) {
        return number;
    }
    if (id == ACTION_KEY) {
        return number || s->state == STATION_PIN || s->state == STATION_REVIEW;
    }
    return id == ACTION_ROW && (s->state == STATION_SET ||
                                (s->state == STATION_REVIEW && s->review.mode == REVIEW_LIST));
}

bool actions_allow(const struct station *s, enum view_action_id id, int64_t argument) {
    struct view view;
    if (made_by_screen(s, id)) {
        return true;
    }
    actions_fill(s, &view);
    for (size_t i = 0; i < view.action_count; i++) {
        if (view.action[i].id == id && view.action[i].argument == argument) {
            return true;
        }
    }
    return false;
}

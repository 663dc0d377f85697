// What a press, a hold, a key and a touch do, by where the bench stands.

#include "station_inner.h"

#include <string.h>

static void confirm_care(struct station *s) {
    struct entry entry = save_entry(s, ENTRY_CARE);
    SET(entry.cause, material_text(s->club.model.material));
    save_begin(s, &entry, THEN_CARE);
}

static void press(struct station *s) {
    switch (s->state) {
    case STATION_CARE:
        station_dead_time(s);
        confirm_care(s);
        break;
    case STATION_TIP_CUT:
    case STATION_BUTT_CUT:
        station_dead_time(s);
        cutting_press(s);
        break;
    case STATION_DRY_FIT:
    case STATION_MISCUT:
    case STATION_MEASURE:
    case STATION_FINAL:
        station_dead_time(s);
        answer_press(s);
        break;
    case STATION_CONSENT:
        if (station_asks_number(s)) {
            station_dead_time(s);
            answer_press(s);
        }
        break; // else a button chooses nothing
    case STATION_LOGGED:
    case STATION_CHECK:
    case STATION_SELFCHECK:
        station_home(s);
        break;
    case STATION_HOLD:
        hold_press(s);
        break;
    case STATION_PIN:
        station_dead_time(s);
        pin_press(s);
        break;
    case STATION_REVIEW:
        station_dead_time(s);
        day_checks(s) ? day_stop(s) : decide_note(s);
        break;
    case STATION_SIGNED_OUT:
    case STATION_READY:
    case STATION_PAIR:
    case STATION_RESUME:
    case STATION_SET:
    case STATION_DESK:
    case STATION_STATE_COUNT:
        break; // a button never identifies or chooses
    }
}

static void held(struct station *s) {
    if (s->state == STATION_HOLD && s->hold.cause != HOLD_SOMETHING_WRONG) {
        hold_held(s);
    } else if (s->state != STATION_HOLD && s->state != STATION_CHECK && s->state != STATION_DESK &&
               s->state != STATION_SELFCHECK && s->supervisor.badge[0] == '\0') {
        wrong_open(s);
    }
}

static void back(struct station *s) {
    enum stage stage = s->club.progress.stage;
    bool shown = stage == STAGE_TIP_SHOWN || stage == STAGE_BUTT_SHOWN;
    if (s->state == STATION_HOLD) {
        station_move(s, s->hold.back);
    } else if (s->state == STATION_SET) {
        sets_back(s);
    } else if (s->state == STATION_FINAL) {
        station_move(s, STATION_SET);
    } else if (s->state == STATION_PIN && s->pin.purpose == PIN_FOR_DESK) {
        memset(&s->supervisor, 0, sizeof s->supervisor);
        station_move(s, STATION_DESK);
    } else if (s->state == STATION_REVIEW && s->review.mode == REVIEW_SIGN) {
        s->review.mode = REVIEW_DAY;
    } else if (day_checks(s)) {
        day_stop(s);
    } else if (s->state == STATION_REVIEW && s->review.mode != REVIEW_LIST) {
        memset(&s->day, 0, sizeof s->day);
        s->review.mode = s->review.mode == REVIEW_PICK    ? REVIEW_FILTERS
                         : s->review.mode == REVIEW_SHOWN ? REVIEW_ENTRY
                                                          : REVIEW_LIST;
    } else if ((s->state != STATION_DRY_FIT && s->state != STATION_MISCUT) || !shown) {
        station_home(s);
    } else if (s->shown_seq == 0) {
        station_move(s, STATION_RESUME);
    } else {
        station_move(s, stage == STAGE_TIP_SHOWN ? STATION_TIP_CUT : STATION_BUTT_CUT);
    }
}

void react_key(struct station *s, int64_t code) {
    if (s->state == STATION_PIN) {
        pin_key(s, code);
    } else if (s->state == STATION_REVIEW) {
        review_key(s, code);
    } else if (station_asks_number(s)) {
        number_key(s, code);
    }
}

static void row(struct station *s, int64_t argument) {
    if (s->state == STATION_CONSENT) {
        consent_choose(s, argument);
    } else if (s->state == STATION_SET) {
        sets_action(s, ACTION_ROW, argument);
    } else {
        review_action(s, ACTION_ROW, argument);
    }
}

// What the one button was held for.
static void take(struct station *s, enum view_action_id id, int64_t argument) {
    s->picked = 0;
    switch ((int)id) {
    case ACTION_PICK:
        number_pick(s, argument);
        press(s);
        break;
    case ACTION_PRESS:
        press(s);
        break;
    case ACTION_HELD:
        held(s);
        break;
    default:
        react_action(s, id, argument);
    }
}

void react_button(struct station *s, bool pressed) {
    enum view_action_id id;
    int64_t argument;
    if (!pressed && lone_held(s, &id, &argument)) {
        take(s, id, argument);
    } else if (!pressed) {
        held(s);
    } else if (!lone_press(s)) {
        press(s);
    }
}

void react_action(struct station *s, enum view_action_id id, int64_t argument) {
    if (!actions_allow(s, id, argument)) {
        return; // touched a moment too late
    }
    switch (id) {
    case ACTION_PRESS:
    case ACTION_HELD:
        if (station_now(s) >= s->dead_until_ms) {
            // A touch takes nothing that the one button has moved on to.
            id == ACTION_PRESS ? react_button(s, true) : held(s);
        }
        break;
    case ACTION_SIGN_OUT:
        station_sign_off(s, "signed_off");
        break;
    case ACTION_START_OVER:
        station_home(s);
        break;
    case ACTION_BACK:
        back(s);
        break;
    case ACTION_DRY_FIT:
        number_open(s, NUMBER_DRY_FIT);
        break;
    case ACTION_WRONG_TOO_EARLY:
    case ACTION_WRONG_MISCUT:
    case ACTION_WRONG_NOT_SAFE:
    case ACTION_WRONG_PARTS:
    case ACTION_WRONG_SUPERVISOR:
        wrong_choose(s, id);
        break;
    case ACTION_RESUME_NOT_CUT:
    case ACTION_RESUME_CUT:
    case ACTION_RESUME_OTHER:
        resume_choose(s, id);
        break;
    case ACTION_FIELD:
        number_field(s, argument);
        break;
    case ACTION_KEY:
        react_key(s, argument);
        break;
    case ACTION_PICK:
        number_pick(s, argument);
        break;
    case ACTION_REVIEW:
        pin_open(s, PIN_FOR_REVIEW, NULL);
        break;
    case ACTION_CHECK:
        station_move(s, STATION_CHECK);
        break;
    case ACTION_SELFCHECK:
        selfchecks_open(s);
        break;
    case ACTION_LOOK_AGAIN:
    case ACTION_SOUNDS:
        selfchecks_action(s, id);
        break;
    case ACTION_DESK:
        station_move(s, STATION_DESK);
        break;
    case ACTION_SUPERVISOR:
        pin_open(s, PIN_FOR_DESK, NULL);
        break;
    case ACTION_UNLOCK:
        pin_unlock(s);
        break;
    case ACTION_CONSENT:
        pin_open(s, PIN_FOR_CONSENT, NULL);
        break;
    case ACTION_ROW:
        row(s, argument);
        break;
    case ACTION_LIFE:
        s->state == STATION_REVIEW ? review_action(s, id, argument) : sets_action(s, id, argument);
        break;
    case ACTION_DAY:
    case ACTION_REPORT:
    case ACTION_LEDGER:
    case ACTION_SIGN:
    case ACTION_SIGN_CONFIRM:
        day_action(s, id);
        break;
    case ACTION_TICKETS:
        s->state == STATION_REVIEW ? day_action(s, id) : sets_action(s, id, argument);
        break;
    case ACTION_BUILD_BACK:
    case ACTION_BUILD_ON:
    case ACTION_FINAL_LENGTH:
    case ACTION_FINAL_SWINGWEIGHT:
    case ACTION_FINAL_FREQUENCY:
    case ACTION_FINAL_LOFT:
    case ACTION_FINAL_LIE:
    case ACTION_KIT:
    case ACTION_KIT_SWINGWEIGHT:
    case ACTION_KIT_FLEX:
    case ACTION_KIT_ACCEPT:
        sets_action(s, id, argument);
        break;
    case ACTION_OLDER:
    case ACTION_NEWER:
        s->state == STATION_SELFCHECK ? selfchecks_action(s, id) : review_action(s, id, argument);
        break;
    case ACTION_SET:
    case ACTION_STATS:
    case ACTION_DAY_BACK:
    case ACTION_DAY_ON:
    case ACTION_FILTER:
    case ACTION_FILTER_PICK:
    case ACTION_FILTER_VALUE:
    case ACTION_FILTER_BUILD:
    case ACTION_FILTER_OPEN:
    case ACTION_FILTER_CLEAR:
    case ACTION_OPEN_ENTRY:
    case ACTION_SHOWN:
    case ACTION_NOTE:
    case ACTION_EXPORT:
        review_action(s, id, argument);
        break;
    case ACTION_DECIDE_USE:
    case ACTION_DECIDE_RECUT:
    case ACTION_DECIDE_SCRAP:
    case ACTION_SPARE:
        decide(s, id, argument);
        break;
    case ACTION_DESK_BUTTON:
    case ACTION_TILE:
    case ACTION_CHOICE:
    case ACTION_TOUR: // whoever has the bench takes these before the station
    case ACTION_LESSON_LEAVE:
    case ACTION_LESSON_SCAN:
    case ACTION_LESSON_NEXT:
    case ACTION_LESSON_BACK:
    case ACTION_LESSON_LIST:
    case ACTION_LESSON_END:
    case ACTION_NONE:
    case ACTION_ID_COUNT:
        break;
    }
}

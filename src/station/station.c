// Events in. Each ends with the guard of law 1.

#include "station_inner.h"

#include <string.h>

#define DEAD_MS 400
#define LOGGED_MS 8000
#define CHECK_LOOK_MS 250 // how far the check of a log is
#define SUPERVISOR_IDLE_MS (5 * 60 * 1000)

int64_t station_now(const struct station *s) {
    return s->ops->mono_ms(s->ops->ctx);
}

void station_sound(const struct station *s, enum station_sound sound) {
    s->ops->sound(s->ops->ctx, sound);
}

bool station_signed_on(const struct station *s) {
    return s->worker.badge[0] != '\0';
}

bool station_asks_number(const struct station *s) {
    return s->state == STATION_DRY_FIT || s->state == STATION_MISCUT ||
           s->state == STATION_MEASURE || s->state == STATION_FINAL ||
           (s->state == STATION_CONSENT && s->number.kind == NUMBER_GIVEN_TRIM);
}

void station_dead_time(struct station *s) {
    s->dead_until_ms = station_now(s) + DEAD_MS;
}

static void lay_aside(struct station *s) {
    day_stop(s);
    memset(s->head, 0, sizeof s->head);
    memset(s->shaft, 0, sizeof s->shaft);
    memset(&s->club, 0, sizeof s->club);
    memset(s->cut_id, 0, sizeof s->cut_id);
    memset(&s->hold, 0, sizeof s->hold);
    memset(&s->number, 0, sizeof s->number);
    memset(&s->pin, 0, sizeof s->pin);
    memset(&s->review, 0, sizeof s->review);
    memset(&s->set, 0, sizeof s->set);
    memset(&s->day, 0, sizeof s->day);
    memset(&s->supervisor, 0, sizeof s->supervisor);
    s->shown_seq = 0;
    s->shown_mark = LENGTH_UNKNOWN;
    s->tip_made = LENGTH_UNKNOWN;
    s->maybe_cut = false;
    s->looked_page = 0;
}

void station_home(struct station *s) {
    lay_aside(s);
    if (selfchecks_keep_out(s)) {
        return;
    }
    station_move(s, station_signed_on(s) ? STATION_READY : STATION_SIGNED_OUT);
}

void station_sign_off(struct station *s, const char *cause) {
    struct entry entry;
    lay_aside(s);
    entry = save_entry(s, ENTRY_SIGN_OFF);
    SET(entry.cause, cause);
    save_aside(s, &entry);
    memset(&s->worker, 0, sizeof s->worker);
    memset(s->care_done, 0, sizeof s->care_done);
    s->last_cause = HOLD_NONE;
    if (!selfchecks_keep_out(s)) {
        station_move(s, STATION_SIGNED_OUT);
    }
}

void station_settle(struct station *s, const struct station_settings *settings) {
    s->settings = *settings;
}

void station_init(struct station *s, const struct station_settings *settings,
                  const struct station_ops *ops) {
    memset(s, 0, sizeof *s);
    s->settings = *settings;
    s->ops = ops;
    s->state = STATION_SIGNED_OUT;
    for (int i = 0; i < DEVICE_COUNT; i++) {
        s->present[i] = true;
    }
    s->last_input_ms = station_now(s);
    s->entered_ms = s->last_input_ms;
    lay_aside(s);
}

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

static void key(struct station *s, int64_t code) {
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

static void action(struct station *s, enum view_action_id id, int64_t argument);

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
        action(s, id, argument);
    }
}

static void button(struct station *s, bool pressed) {
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

static void action(struct station *s, enum view_action_id id, int64_t argument) {
    if (!actions_allow(s, id, argument)) {
        return; // touched a moment too late
    }
    switch (id) {
    case ACTION_PRESS:
    case ACTION_HELD:
        if (station_now(s) >= s->dead_until_ms) {
            // A touch takes nothing that the one button has moved on to.
            id == ACTION_PRESS ? button(s, true) : held(s);
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
        key(s, argument);
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

static bool waits_for_parts(const struct station *s) {
    return s->state == STATION_SIGNED_OUT || s->state == STATION_READY || s->state == STATION_PAIR;
}

static void device(struct station *s, enum station_device which, bool present) {
    s->present[which] = present;
    if (which != DEVICE_SCANNER) {
        return;
    }
    if (present && s->state == STATION_HOLD && s->hold.cause == HOLD_SCANNER_GONE) {
        station_move(s, s->hold.back);
    } else if (!present && waits_for_parts(s) && s->saving == SAVING_NONE) {
        struct hold hold = hold_make(s, HOLD_SCANNER_GONE);
        hold_line(&hold, WORD_HOLD_SCANNER, NULL, NULL, NULL);
        hold_todo(&hold, WORD_DO_PLUG, NULL, NULL, NULL);
        hold_todo(&hold, WORD_DO_TYPE_TICKETS, NULL, NULL, NULL);
        hold_show(s, &hold);
    }
}

static void fault(struct station *s, const char *text) {
    if (s->state == STATION_CHECK) {
        return; // it is on the screen
    }
    struct hold hold = hold_make(s, HOLD_SCAN_FAULT);
    SET(hold.line[0], text);
    hold_todo(&hold, WORD_DO_SETTING, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_TYPE, NULL, NULL, NULL);
    hold_show(s, &hold);
}

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

static bool tick(struct station *s) {
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

static void guard(struct station *s) {
    bool between = s->state == STATION_SIGNED_OUT || s->state == STATION_READY ||
                   s->state == STATION_PAIR || s->state == STATION_CARE;
    if (between && s->saving == SAVING_NONE) {
        selfchecks_keep_out(s);
    }
    if (s->saving == SAVING_NONE && (s->state == STATION_TIP_CUT || s->state == STATION_BUTT_CUT) &&
        !cutting_mark_allowed(s)) {
        struct hold hold = hold_make(s, HOLD_GUARD);
        hold.start_over = true;
        hold_line(&hold, WORD_HOLD_GUARD_LINE, NULL, NULL, NULL);
        hold_todo(&hold, WORD_DO_MEASURE_FIRST, NULL, NULL, NULL);
        hold_todo(&hold, WORD_DO_SCAN_BOTH, NULL, NULL, NULL);
        hold_show(s, &hold);
    }
}

// Whatever else happens, nothing is chosen by the one button any more.
static void unpick(struct station *s, const struct event *event) {
    bool touched = event->kind == EVENT_ACTION && event->action != (int)ACTION_PRESS &&
                   event->action != (int)ACTION_HELD;
    if (touched || event->kind == EVENT_SCAN || event->kind == EVENT_KEY ||
        event->kind == EVENT_FAULT || event->kind == EVENT_DEVICE) {
        s->picked = 0;
    }
}

static void input(struct station *s, const struct event *event) {
    switch (event->kind) {
    case EVENT_SCAN:
        scanning_scan(s, event->text);
        break;
    case EVENT_KEY:
        key(s, event->key);
        break;
    case EVENT_PRESS:
        if (station_now(s) >= s->dead_until_ms) {
            button(s, true);
        }
        break;
    case EVENT_HELD:
        if (station_now(s) >= s->dead_until_ms) {
            button(s, false);
        }
        break;
    case EVENT_ACTION:
        action(s, (enum view_action_id)event->action, event->argument);
        break;
    case EVENT_FAULT:
        fault(s, event->text);
        break;
    case EVENT_TICK:
    case EVENT_DEVICE:
    case EVENT_WEIGHT:
    case EVENT_SELFCHECK:
    case EVENT_ELSEWHERE:
        break;
    }
}

bool station_event(struct station *s, const struct event *event) {
    bool changed = true;
    unpick(s, event);
    if (event->kind == EVENT_TICK) {
        changed = tick(s);
    } else if (event->kind == EVENT_DEVICE) {
        device(s, event->device, event->present);
    } else if (event->kind == EVENT_WEIGHT) {
        changed = false;
    } else if (event->kind == EVENT_SELFCHECK) {
        changed = selfchecks_news(s);
    } else if (s->saving != SAVING_NONE) {
        station_sound(s, SOUND_HOLD); // the screen says why nothing else may start
    } else {
        s->last_input_ms = station_now(s);
        s->begun = true;
        input(s, event);
    }
    guard(s);
    return changed;
}

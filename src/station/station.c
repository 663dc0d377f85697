// How a sitting begins and ends; events in, each of which ends with the guard of law 1.

#include "station_inner.h"

#include <string.h>

#define DEAD_MS 400

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
        react_key(s, event->key);
        break;
    case EVENT_PRESS:
        if (station_now(s) >= s->dead_until_ms) {
            react_button(s, true);
        }
        break;
    case EVENT_HELD:
        if (station_now(s) >= s->dead_until_ms) {
            react_button(s, false);
        }
        break;
    case EVENT_ACTION:
        react_action(s, (enum view_action_id)event->action, event->argument);
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
        changed = idle_tick(s);
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

// What is to be seen now: the header, then the one view of this state.

#include "station_inner.h"

#include <string.h>

void view_offer(struct view *view, enum view_action_id id, int64_t argument, const char *label,
                const char *key, enum view_tone tone) {
    if (view->action_count < VIEW_ACTIONS_MAX) {
        struct view_action *action = &view->action[view->action_count++];
        *action = (struct view_action){.id = id, .argument = argument, .tone = tone};
        SET(action->label, label);
        SET(action->key, key);
    }
}

static void status(struct view *view, enum word label, enum view_health health) {
    struct view_status *at = &view->status[view->status_count++];
    SET(at->label, word(label));
    at->health = health;
}

static void header(const struct station *s, struct view *view) {
    enum view_health log = s->saving == SAVING_NONE       ? HEALTH_GOOD
                           : s->saving == SAVING_CHECKING ? HEALTH_WARN
                                                          : HEALTH_BAD;
    SET(view->bench, s->settings.bench);
    SET(view->worker, station_signed_on(s) ? s->worker.name : word(WORD_NOBODY));
    if (s->supervisor.name[0] != '\0') {
        SET(view->worker, s->supervisor.name);
    }
    status(view, WORD_STATUS_SCANNER, s->present[DEVICE_SCANNER] ? HEALTH_GOOD : HEALTH_BAD);
    status(view, WORD_STATUS_BUTTON, s->present[DEVICE_BUTTON] ? HEALTH_GOOD : HEALTH_BAD);
    if (s->settings.camera) {
        status(view, WORD_STATUS_CAMERA, s->present[DEVICE_CAMERA] ? HEALTH_GOOD : HEALTH_BAD);
    }
    if (s->settings.scale) {
        status(view, WORD_STATUS_SCALE, s->present[DEVICE_SCALE] ? HEALTH_GOOD : HEALTH_BAD);
    }
    status(view, WORD_STATUS_LOG, log);
    enum view_health copies;
    if (copies_health(s, &copies)) {
        status(view, WORD_STATUS_COPIES, copies);
    }
    if (s->settings.wrong[0] != '\0') {
        status(view, WORD_STATUS_SETTINGS, HEALTH_BAD);
    }
}

static int step_of(enum station_state state) {
    switch (state) {
    case STATION_PAIR:
    case STATION_DRY_FIT:
        return 0;
    case STATION_CARE:
    case STATION_RESUME:
        return 1;
    case STATION_TIP_CUT:
        return 2;
    case STATION_BUTT_CUT:
        return 3;
    case STATION_MEASURE:
        return 4;
    case STATION_LOGGED:
        return 5;
    case STATION_MISCUT:
    case STATION_SIGNED_OUT:
    case STATION_READY:
    case STATION_HOLD:
    case STATION_PIN:
    case STATION_CONSENT:
    case STATION_REVIEW:
    case STATION_SET:
    case STATION_FINAL:
    case STATION_CHECK:
    case STATION_DESK:
    case STATION_SELFCHECK:
    case STATION_STATE_COUNT:
        break;
    }
    return -1;
}

static int step(const struct station *s) {
    enum station_state state = s->state == STATION_HOLD ? s->hold.back : s->state;
    if (state == STATION_MISCUT) {
        return s->number.kind == NUMBER_BUTT_LEFT ? 3 : 2;
    }
    return step_of(state);
}

void view_band(struct view *view, enum view_tone tone, bool button, enum word band,
               enum word hint) {
    view->band_tone = tone;
    view->band_button = button;
    SET(view->band, word(band));
    SET(view->band_hint, word(hint));
}

// Law 1 once more, at the last moment: without its grounds the view is a stop, never a mark.
static void cut_or_stop(const struct station *s, struct view *view) {
    if (cutting_mark_allowed(s)) {
        view_cut(s, view);
        return;
    }
    struct hold hold = hold_make(s, HOLD_GUARD);
    hold.start_over = true;
    hold_line(&hold, WORD_HOLD_GUARD_LINE, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_MEASURE_FIRST, NULL, NULL, NULL);
    view_hold(s, &hold, view);
}

static void body(const struct station *s, struct view *view) {
    switch (s->state) {
    case STATION_SIGNED_OUT:
    case STATION_READY:
        view_message(s, view);
        break;
    case STATION_PAIR:
        view_pair(s, view);
        break;
    case STATION_CARE:
        view_care(s, view);
        break;
    case STATION_TIP_CUT:
    case STATION_BUTT_CUT:
        cut_or_stop(s, view);
        break;
    case STATION_DRY_FIT:
    case STATION_MISCUT:
    case STATION_MEASURE:
    case STATION_FINAL:
        view_number(s, view);
        break;
    case STATION_RESUME:
        view_resume(s, view);
        break;
    case STATION_LOGGED:
        view_logged(s, view);
        break;
    case STATION_HOLD:
        view_hold(s, &s->hold, view);
        break;
    case STATION_PIN:
        view_pin(s, view);
        break;
    case STATION_CONSENT:
        station_asks_number(s) ? view_number(s, view) : view_consent(s, view);
        break;
    case STATION_REVIEW:
        view_review(s, view);
        break;
    case STATION_SET:
        view_set(s, view);
        break;
    case STATION_CHECK:
        view_check(view);
        break;
    case STATION_SELFCHECK:
        view_selfcheck(s, view);
        break;
    case STATION_DESK:
        view->body = VIEW_MENU; // filled by the desk
        view_band(view, TONE_PLAIN, false, WORD_BAND_DESK, WORD_EMPTY);
        break;
    case STATION_STATE_COUNT:
        break;
    }
}

void station_view(const struct station *s, struct view *ret_view) {
    memset(ret_view, 0, sizeof *ret_view);
    ret_view->log.selected = -1;
    header(s, ret_view);
    ret_view->step = step(s);
    if (s->saving != SAVING_NONE) {
        view_saving(s, ret_view);
    } else {
        body(s, ret_view);
    }
    actions_fill(s, ret_view);
    lone_view(s, ret_view);
}

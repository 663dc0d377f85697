// The button was held: something is wrong. What can be chosen depends on where the shaft is;
// actions.c lists it, this carries it out.

#include "station_inner.h"

#include <string.h>

void wrong_open(struct station *s) {
    struct hold hold = hold_make(s, HOLD_SOMETHING_WRONG);
    if (s->state == STATION_CARE) {
        wrong_choose(s, ACTION_WRONG_NOT_SAFE);
        return;
    }
    if (s->state == STATION_SIGNED_OUT) {
        wrong_choose(s, ACTION_WRONG_SUPERVISOR);
        return;
    }
    hold_todo(&hold, WORD_DO_CHOOSE, NULL, NULL, NULL);
    if (!s->settings.one_button) { // there `back` is one of the choices
        hold_todo(&hold, WORD_DO_PRESS_BACK, NULL, NULL, NULL);
    }
    hold_show(s, &hold);
}

static void not_safe(struct station *s) {
    struct hold hold = hold_make(s, HOLD_NOT_SAFE);
    hold.unsafe = true;
    hold_line(&hold, WORD_HOLD_UNSAFE, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_SAFE, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_CARE_AGAIN, NULL, NULL, NULL);
    memset(s->care_done, 0, sizeof s->care_done);
    hold_show(s, &hold);
}

static void wrong_parts(struct station *s) {
    struct hold hold = hold_make(s, HOLD_WRONG_PARTS);
    hold.start_over = true;
    hold_line(&hold, WORD_HOLD_WRONG_LINE, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_BOTH_BACK, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_START_OVER, NULL, NULL, NULL);
    hold_show(s, &hold);
}

static void too_early(struct station *s) {
    const struct progress *progress = &s->club.progress;
    if (s->hold.back == STATION_BUTT_CUT) {
        cutting_withdraw(s, progress->tip_seq, THEN_TIP_AGAIN);
    } else if (s->hold.back == STATION_LOGGED) {
        cutting_withdraw(s, progress->measure_seq, THEN_UNMEASURED);
    } else {
        cutting_withdraw(s, progress->butt_seq, THEN_BUTT_AGAIN);
    }
}

static void off_the_mark(struct station *s) {
    if (s->hold.back == STATION_LOGGED || s->hold.cause == HOLD_BUTT_SHORT) {
        cutting_withdraw(s, s->club.progress.measure_seq, THEN_MEASURE);
    } else {
        number_open(s, NUMBER_TIP_MADE);
    }
}

void wrong_choose(struct station *s, enum view_action_id id) {
    if (id == ACTION_WRONG_NOT_SAFE) {
        not_safe(s);
    } else if (id == ACTION_WRONG_PARTS) {
        wrong_parts(s);
    } else if (id == ACTION_WRONG_SUPERVISOR) {
        hold_held(s);
    } else if (id == ACTION_WRONG_TOO_EARLY) {
        too_early(s);
    } else if (id == ACTION_WRONG_MISCUT) {
        off_the_mark(s);
    }
}

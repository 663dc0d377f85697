// What follows once an entry is on disk, and never before.

#include "record.h"
#include "station_inner.h"

#include <string.h>

// What it does to the club, as it went into the log; else `otherwise`, if any.
static void outcome(struct hold *hold, const struct entry *saved, enum word otherwise) {
    struct record record;
    if (record_read(saved->plan, &record) && record.outcome[0] != '\0') {
        hold_line(hold, WORD_OUTCOME, record.outcome, NULL, NULL);
    } else if (otherwise != WORD_EMPTY) {
        hold_line(hold, otherwise, NULL, NULL, NULL);
    }
}

static void tip_past(struct station *s, const struct entry *saved) {
    struct hold hold = hold_make(s, HOLD_TIP_PAST);
    char made[LENGTH_TEXT_MAX];
    char mark[LENGTH_TEXT_MAX];
    char over[LENGTH_TEXT_MAX];
    say_length_source(s, saved->made, made);
    say_length_source(s, saved->planned, mark);
    say_length_source(s, saved->made - saved->planned, over);
    hold.start_over = true;
    hold_line(&hold, WORD_HOLD_PAST, made, mark, over);
    outcome(&hold, saved, WORD_HOLD_STIFFER);
    hold_todo(&hold, WORD_DO_ASIDE, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_DECIDE, NULL, NULL, NULL);
    hold_show(s, &hold);
}

static void butt_short(struct station *s, const struct entry *saved) {
    struct hold hold = hold_make(s, HOLD_BUTT_SHORT);
    struct record record;
    char made[LENGTH_TEXT_MAX];
    char mark[LENGTH_TEXT_MAX];
    char under[LENGTH_TEXT_MAX];
    char playing[LENGTH_TEXT_MAX];
    say_length_source(s, saved->made, made);
    say_length_source(s, saved->planned, mark);
    say_length_source(s, saved->planned - saved->made, under);
    hold.start_over = true;
    hold_line(&hold, WORD_HOLD_SHORT, made, mark, under);
    if (record_read(saved->plan, &record)) {
        say_length_source(s, record_playing(&record, saved->made), playing);
        hold_line(&hold, WORD_HOLD_PLAYING, playing, NULL, NULL);
    }
    outcome(&hold, saved, WORD_EMPTY);
    hold_todo(&hold, WORD_DO_ASIDE, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_DECIDE, NULL, NULL, NULL);
    hold_show(s, &hold);
}

static void too_long(struct station *s, const struct entry *saved) {
    char over[LENGTH_TEXT_MAX];
    char mark[LENGTH_TEXT_MAX];
    struct plan_input input;
    struct plan plan;
    bool extended = cutting_plan(s, &input, &plan) && plan.extension > 0;
    if (s->club.progress.stage != STAGE_BUTT_CUT && !extended) {
        // No butt cut was planned; now one is needed, so its mark is shown and logged like any.
        cutting_show_butt(s);
        return;
    }
    say_length(s, saved->made - saved->planned, over);
    say_length(s, saved->planned, mark);
    number_open(s, NUMBER_MEASURE);
    SAY(s->number.note, MEASURE_AGAIN, over, mark, NULL);
}

static void logged(struct station *s) {
    s->last_cause = HOLD_NONE;
    if (s->settings.care_every_club) {
        memset(s->care_done, 0, sizeof s->care_done);
    }
    station_move(s, STATION_LOGGED);
    station_sound(s, SOUND_LOGGED);
}

static void miscut_tip(struct station *s) {
    length_nm made = s->tip_made;
    s->tip_made = LENGTH_UNKNOWN;
    cutting_tip_made(s, made);
}

// A recut has its plan at once, so that a shaft which gives none is seen here and not at the saw.
static void decided(struct station *s, const struct entry *saved) {
    struct club club;
    struct plan_input input;
    struct plan plan;
    s->review.mode = REVIEW_LIST;
    s->review.note_active = false;
    memset(s->review.note, 0, sizeof s->review.note);
    SAY(s->review.message, REVIEW_DECIDED, NULL, NULL, NULL);
    station_sound(s, SOUND_LOGGED);
    memset(&club, 0, sizeof club);
    if (strcmp(saved->cause, "recut") != 0 ||
        s->ops->club(s->ops->ctx, saved->club_id, &club) != STATION_FOUND) {
        return;
    }
    if (club_plan(&club, &s->settings.rules, &input, &plan)) {
        char tip[LENGTH_TEXT_MAX];
        char butt[LENGTH_TEXT_MAX];
        say_length(s, plan.tip_mark, tip);
        say_length(s, plan.butt_mark, butt);
        SAY(s->review.message, REVIEW_RECUT, club.shaft.ticket, tip, butt);
    } else {
        char why[PLAN_LINE_TEXT_MAX];
        plan_line_text(&input, &plan.refusal, why, sizeof why);
        SAY(s->review.message, REVIEW_RECUT_REFUSED, club.shaft.ticket, why, NULL);
    }
}

static void noted(struct station *s, const struct entry *saved) {
    char about[LENGTH_TEXT_MAX];
    s->review.note_active = false;
    memset(s->review.note, 0, sizeof s->review.note);
    say_number(saved->refers, about);
    SAY(s->review.message, REVIEW_NOTED, about, NULL, NULL);
    station_sound(s, SOUND_LOGGED);
}

void after_save(struct station *s, enum save_then then, const struct entry *saved) {
    switch (then) {
    case THEN_NOTHING:
        break;
    case THEN_READY:
        station_home(s);
        break;
    case THEN_CARE:
        s->care_done[s->club.model.material] = true;
        cutting_proceed(s);
        break;
    case THEN_TIP_MARK:
        s->shown_seq = saved->seq;
        s->club.shown_mark = saved->planned;
        station_move(s, STATION_TIP_CUT);
        break;
    case THEN_BUTT_MARK:
        s->shown_seq = saved->seq;
        s->club.shown_mark = saved->planned;
        station_move(s, STATION_BUTT_CUT);
        break;
    case THEN_TIP_CUT:
    case THEN_TIP_AGAIN:
    case THEN_BUTT_AGAIN:
        cutting_step(s);
        break;
    case THEN_TIP_PAST:
        tip_past(s, saved);
        break;
    case THEN_BUTT_CUT:
    case THEN_MEASURE:
        number_open(s, NUMBER_MEASURE);
        break;
    case THEN_LOGGED:
        logged(s);
        break;
    case THEN_LONG:
        too_long(s, saved);
        break;
    case THEN_SHORT:
        butt_short(s, saved);
        break;
    case THEN_UNMEASURED:
        cutting_withdraw(s, s->club.progress.butt_seq, THEN_BUTT_AGAIN);
        break;
    case THEN_MISCUT_TIP:
        miscut_tip(s);
        break;
    case THEN_REPLAN:
        if (cutting_reload(s)) {
            cutting_proceed(s);
        }
        break;
    case THEN_FINAL:
        station_move(s, STATION_SET);
        SAY(s->set.message, FINAL_LOGGED, NULL, NULL, NULL);
        station_sound(s, SOUND_LOGGED);
        break;
    case THEN_DECIDED:
        decided(s, saved);
        break;
    case THEN_NOTED:
        noted(s, saved);
        break;
    }
}

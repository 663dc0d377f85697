// From a matched pair to marks, and from presses to entries.

#include "record.h"
#include "station_inner.h"

#include <string.h>

bool cutting_plan(const struct station *s, struct plan_input *ret_input, struct plan *ret_plan) {
    return club_plan(&s->club, &s->settings.rules, ret_input, ret_plan);
}

length_nm cutting_tip_mark(const struct station *s) {
    struct club club = s->club;
    struct plan_input input;
    struct plan plan;
    club.progress.stage = STAGE_TIP_SHOWN; // as if the tip were still open
    return club_plan(&club, &s->settings.rules, &input, &plan) ? plan.tip_mark : LENGTH_UNKNOWN;
}

bool cutting_reload(struct station *s) {
    struct club club;
    memset(&club, 0, sizeof club);
    if (s->ops->club(s->ops->ctx, s->club.id, &club) != STATION_FOUND) {
        hold_store_failed(s);
        return false;
    }
    s->club = club;
    return true;
}

bool cutting_shown(const struct station *s, struct record *ret_record) {
    struct plan_input input;
    struct plan plan;
    if (!cutting_plan(s, &input, &plan)) {
        return false;
    }
    record_make(&input, &plan, ret_record);
    estimate_say(&s->club, &input, &plan, &s->settings.assembly, &ret_record->estimates);
    ret_record->shown = (struct record_shown){.known = true,
                                              .tip_right = s->settings.tip_right,
                                              .metric = s->settings.metric_first,
                                              .maybe = s->maybe_cut,
                                              .new_tip = s->club.progress.tip_seq != 0,
                                              .piece = answer_piece(s),
                                              .tip_part = cutting_tip_part(s)};
    return true;
}

void cutting_record(const struct station *s, struct entry *entry) {
    struct plan_input input;
    struct plan plan;
    struct record record;
    if (!cutting_shown(s, &record) || !cutting_plan(s, &input, &plan)) {
        return;
    }
    if (entry->verdict == VERDICT_SHORT && entry->kind == ENTRY_TIP_CUT) {
        estimate_say_tip(&s->club, &plan, entry->made, record.outcome);
    } else if (entry->verdict == VERDICT_SHORT) {
        estimate_say_length(&s->club, &plan, &s->settings.assembly, entry->made, record.outcome);
    }
    entry->chart_revision = record.chart_revision;
    if (!record_write(&record, entry->plan, sizeof entry->plan)) {
        entry->plan[0] = '\0'; // never for texts within their limits
    }
}

length_nm cutting_tip_part(const struct station *s) {
    const struct progress *progress = &s->club.progress;
    bool part = progress->stage == STAGE_TIP_SHOWN && progress->tip_made != LENGTH_UNKNOWN;
    return part ? progress->tip_made : 0;
}

bool cutting_mark_allowed(const struct station *s) {
    bool tip = s->state == STATION_TIP_CUT;
    enum stage stage = tip ? STAGE_TIP_SHOWN : STAGE_BUTT_SHOWN;
    struct plan_input input;
    struct plan plan;
    return station_signed_on(s) && s->saving == SAVING_NONE && s->club.id != 0 &&
           s->club.progress.stage == stage && strcmp(s->head, s->club.head.ticket) == 0 &&
           strcmp(s->shaft, s->club.shaft.ticket) == 0 && s->head[0] != '\0' &&
           s->shaft[0] != '\0' && s->care_done[s->club.model.material] && s->shown_seq != 0 &&
           cutting_plan(s, &input, &plan) &&
           s->shown_mark == (tip ? plan.tip_mark : plan.butt_mark);
}

static void disk_full(struct station *s) {
    struct hold hold = hold_make(s, HOLD_DISK_FULL);
    hold.start_over = true;
    hold_line(&hold, WORD_HOLD_ROOM, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_ROOM, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_START_OVER, NULL, NULL, NULL);
    hold_show(s, &hold);
}

static void refused(struct station *s, const struct plan_input *input, const struct plan *plan) {
    struct hold hold = hold_make(s, HOLD_PLAN_REFUSED);
    char text[PLAN_LINE_TEXT_MAX];
    enum consent consent;
    plan_line_source(input, &plan->refusal, text, sizeof text);
    hold.start_over = true;
    hold.consent = consent_for(s, plan, &consent);
    SET(hold.line[0], text);
    hold_todo(&hold, WORD_DO_ASIDE, NULL, NULL, NULL);
    if (hold.consent) {
        hold_todo(&hold, WORD_DO_CONSENT, NULL, NULL, NULL);
    }
    hold_todo(&hold, WORD_DO_START_OVER, NULL, NULL, NULL);
    hold_show(s, &hold);
}

static void other_bench(struct station *s) {
    const struct club *club = &s->club;
    struct hold hold = hold_make(s, HOLD_OTHER_BENCH);
    hold.start_over = true;
    hold_line(&hold, WORD_HOLD_BENCH, club->order.build, club->order.club, club->progress.bench);
    hold_todo(&hold, WORD_DO_BENCH, club->progress.bench, NULL, NULL);
    hold_todo(&hold, WORD_DO_NEXT_LIST, NULL, NULL, NULL);
    hold_show(s, &hold);
}

static void waits(struct station *s) {
    struct hold hold = hold_make(s, HOLD_DECISION);
    hold.start_over = true;
    hold_line(&hold, WORD_HOLD_WAITS, s->club.order.build, s->club.order.club, NULL);
    hold_todo(&hold, WORD_DO_ASIDE, NULL, NULL, NULL);
    hold_todo(&hold, WORD_DO_DECIDE, NULL, NULL, NULL);
    hold_show(s, &hold);
}

static void done_already(struct station *s) {
    struct hold hold = hold_make(s, HOLD_ALREADY_CUT);
    hold.start_over = true;
    hold_line(&hold, WORD_HOLD_DONE, s->club.order.build, s->club.order.club, NULL);
    hold_todo(&hold, WORD_DO_NEXT_LIST, NULL, NULL, NULL);
    hold_show(s, &hold);
}

static bool may_be_cut_here(struct station *s) {
    const struct progress *progress = &s->club.progress;
    if (progress->bench[0] != '\0' && strcmp(progress->bench, s->settings.bench) != 0) {
        other_bench(s);
        return false;
    }
    if (progress->stage == STAGE_DECISION) {
        waits(s);
        return false;
    }
    if (progress->stage == STAGE_DONE) {
        done_already(s);
        return false;
    }
    return !ordering_changed(s) && !ordering_waits(s, &s->club);
}

void cutting_proceed(struct station *s) {
    enum stage stage = s->club.progress.stage;
    struct plan_input input;
    struct plan plan;
    if (!may_be_cut_here(s)) {
        return;
    }
    if (!cutting_plan(s, &input, &plan)) {
        if (plan.refusal.code == PLAN_F_NO_BORE_HEIGHT || plan.refusal.code == PLAN_F_BORE_RANGE) {
            number_open(s, NUMBER_DRY_FIT);
        } else {
            refused(s, &input, &plan);
        }
    } else if (!s->care_done[s->club.model.material]) {
        station_move(s, STATION_CARE);
    } else if (s->shown_seq == 0 && (stage == STAGE_TIP_SHOWN || stage == STAGE_BUTT_SHOWN)) {
        station_move(s, STATION_RESUME);
    } else {
        cutting_step(s);
    }
}

// Law 6: the plan is on disk before its mark is on the screen.
static void show(struct station *s, enum entry_kind kind, length_nm mark) {
    struct entry entry = save_entry(s, kind);
    if (!s->ops->room(s->ops->ctx)) {
        disk_full(s);
        return;
    }
    entry.planned = mark;
    entry.attempt = s->club.progress.attempt;
    cutting_record(s, &entry);
    memset(s->cut_id, 0, sizeof s->cut_id);
    s->ops->random_id(s->ops->ctx, s->cut_id);
    s->shown_mark = mark;
    s->shown_seq = 0;
    save_begin(s, &entry, kind == ENTRY_TIP_SHOWN ? THEN_TIP_MARK : THEN_BUTT_MARK);
}

void cutting_show_butt(struct station *s) {
    struct plan_input input;
    struct plan plan;
    if (!cutting_plan(s, &input, &plan)) {
        refused(s, &input, &plan);
        return;
    }
    show(s, ENTRY_BUTT_SHOWN, plan.butt_mark);
}

void cutting_step(struct station *s) {
    enum stage stage = s->club.progress.stage;
    struct plan_input input;
    struct plan plan;
    if (!cutting_plan(s, &input, &plan)) {
        refused(s, &input, &plan);
        return;
    }
    if (stage == STAGE_TIP_SHOWN && plan.tip_mark <= cutting_tip_part(s)) {
        number_open(s, NUMBER_TIP_MADE); // nothing is left to cut: how much is off?
    } else if (stage == STAGE_TIP_SHOWN || (stage == STAGE_PENDING && plan.tip_mark > 0)) {
        show(s, ENTRY_TIP_SHOWN, plan.tip_mark);
    } else if (stage == STAGE_BUTT_SHOWN || (stage != STAGE_BUTT_CUT && plan.butt_cut)) {
        show(s, ENTRY_BUTT_SHOWN, plan.butt_mark);
    } else {
        number_open(s, NUMBER_MEASURE);
    }
}

// The cut was made at the mark: the id made with the mark goes with it.
static void cut(struct station *s, enum entry_kind kind, length_nm made, enum verdict verdict,
                enum save_then then) {
    struct entry entry = save_entry(s, kind);
    struct plan_input input;
    struct plan plan;
    cutting_plan(s, &input, &plan);
    if (s->cut_id[0] != '\0') {
        SET(entry.confirm_id, s->cut_id);
    }
    entry.planned = kind == ENTRY_BUTT_CUT ? plan.butt_mark : plan.tip_mark;
    entry.made = made;
    entry.verdict = verdict;
    entry.attempt = s->club.progress.attempt;
    cutting_record(s, &entry);
    memset(s->cut_id, 0, sizeof s->cut_id);
    s->shown_seq = 0;
    s->maybe_cut = false;
    save_begin(s, &entry, then);
}

void cutting_press(struct station *s) {
    if (!cutting_mark_allowed(s)) {
        return; // the guard after this event makes it a hold
    }
    if (s->state == STATION_TIP_CUT) {
        cut(s, ENTRY_TIP_CUT, s->shown_mark, VERDICT_IN, THEN_TIP_CUT);
    } else {
        cut(s, ENTRY_BUTT_CUT, s->shown_mark, VERDICT_NONE, THEN_BUTT_CUT);
    }
}

void cutting_butt_made(struct station *s, length_nm left) {
    cut(s, ENTRY_BUTT_CUT, left, VERDICT_NONE, THEN_BUTT_CUT);
}

void cutting_withdraw(struct station *s, int64_t refers, enum save_then then) {
    struct entry entry = save_entry(s, ENTRY_WITHDRAW);
    entry.refers = refers;
    SET(entry.cause, then == THEN_MISCUT_TIP ? "off_the_mark"
                     : then == THEN_MEASURE  ? "measured_wrong"
                                             : "pressed_too_early");
    save_begin(s, &entry, then);
}

// R13. Kept lengths are compared: cutting off less leaves the shaft long.
static void tip_made(struct station *s, length_nm made) {
    length_nm raw = s->club.shaft.raw_length;
    struct plan_input input;
    struct plan plan;
    if (!cutting_plan(s, &input, &plan)) {
        refused(s, &input, &plan);
        return;
    }
    switch (plan_verdict(raw - made, raw - plan.tip_mark, s->settings.rules.tolerance)) {
    case VERDICT_SHORT:
        cut(s, ENTRY_TIP_CUT, made, VERDICT_SHORT, THEN_TIP_PAST);
        break;
    case VERDICT_LONG:
        if (made == cutting_tip_part(s)) {
            s->maybe_cut = false;
            cutting_step(s); // nothing more was cut
        } else {
            struct entry entry = save_entry(s, ENTRY_TIP_PARTIAL);
            entry.planned = plan.tip_mark;
            entry.made = made;
            entry.attempt = s->club.progress.attempt;
            cutting_record(s, &entry);
            s->maybe_cut = false; // only now: the entry says how the screen stood
            save_begin(s, &entry, THEN_TIP_AGAIN);
        }
        break;
    case VERDICT_IN:
    case VERDICT_NONE:
    case VERDICT_COUNT:
        cut(s, ENTRY_TIP_CUT, made, VERDICT_IN, THEN_TIP_CUT);
        break;
    }
}

void cutting_tip_made(struct station *s, length_nm made) {
    if (s->club.progress.tip_seq != 0) {
        s->tip_made = made;
        s->maybe_cut = false;
        cutting_withdraw(s, s->club.progress.tip_seq, THEN_MISCUT_TIP);
    } else {
        tip_made(s, made);
    }
}

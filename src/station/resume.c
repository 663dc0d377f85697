// A mark that was on the screen before: nobody but the worker can know whether it was cut.

#include "station_inner.h"

#include <string.h>

// The mark that was on the screen, when the one on offer now is another: the order was changed.
static length_nm other_mark(const struct station *s, const struct plan *plan) {
    bool butt = s->club.progress.stage == STAGE_BUTT_SHOWN;
    length_nm shown = s->club.shown_mark;
    return shown > 0 && shown != (butt ? plan->butt_mark : plan->tip_mark) ? shown : 0;
}

void resume_lengths(const struct station *s, length_nm *ret_uncut, length_nm *ret_cut) {
    struct plan_input input;
    struct plan plan;
    length_nm piece = answer_piece(s);
    *ret_uncut = piece;
    *ret_cut = piece;
    if (cutting_plan(s, &input, &plan)) {
        bool butt = s->club.progress.stage == STAGE_BUTT_SHOWN;
        length_nm other = other_mark(s, &plan);
        length_nm mark = other > 0 ? other : butt ? plan.butt_mark : plan.tip_mark;
        *ret_cut = butt ? mark : s->club.shaft.raw_length - mark;
    }
}

void resume_choose(struct station *s, enum view_action_id id) {
    bool butt = s->club.progress.stage == STAGE_BUTT_SHOWN;
    struct plan_input input;
    struct plan plan;
    length_nm other = cutting_plan(s, &input, &plan) ? other_mark(s, &plan) : 0;
    if (id == ACTION_RESUME_OTHER || (id == ACTION_RESUME_CUT && other > 0)) {
        number_open(s, butt ? NUMBER_BUTT_LEFT : NUMBER_TIP_MADE);
        if (id == ACTION_RESUME_CUT) {
            number_text(s, other, s->number.text[0]); // by the old mark; the press says so
        }
        return;
    }
    s->maybe_cut = id == ACTION_RESUME_CUT;
    cutting_step(s);
}

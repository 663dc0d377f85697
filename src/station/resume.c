// A mark that was on the screen before: nobody but the worker can know whether it was cut.

#include "station_inner.h"

void resume_lengths(const struct station *s, length_nm *ret_uncut, length_nm *ret_cut) {
    struct plan_input input;
    struct plan plan;
    length_nm piece = answer_piece(s);
    *ret_uncut = piece;
    *ret_cut = piece;
    if (cutting_plan(s, &input, &plan)) {
        *ret_cut = s->club.progress.stage == STAGE_BUTT_SHOWN
                       ? plan.butt_mark
                       : s->club.shaft.raw_length - plan.tip_mark;
    }
}

void resume_choose(struct station *s, enum view_action_id id) {
    if (id == ACTION_RESUME_OTHER) {
        bool butt = s->club.progress.stage == STAGE_BUTT_SHOWN;
        number_open(s, butt ? NUMBER_BUTT_LEFT : NUMBER_TIP_MADE);
        return;
    }
    s->maybe_cut = id == ACTION_RESUME_CUT;
    cutting_step(s);
}

// The rules R1 to R14 in the order a builder works them: facts, fit, tip, butt. Each step either
// adds its lines to the plan or refuses; the first refusal ends it.

#include "plan.h"
#include "plan_tip.h"

// R8: half the smallest gap between two trade sizes of hosel bore is 0.0025 in; within this much a
// tip and a bore are the same size.
#define FIT_SLACK ((length_nm)50800)
#define BORE_HEIGHT_MAX (2 * LENGTH_INCH)

static bool facts_known(const struct plan_input *in, struct plan *plan) {
    length_nm height = head_bore_height(in->head);
    if (height == LENGTH_UNKNOWN) {
        return plan_refuse(plan, PLAN_F_NO_BORE_HEIGHT, 0, 0);
    }
    if (height < 0 || height > BORE_HEIGHT_MAX) {
        return plan_refuse(plan, PLAN_F_BORE_RANGE, height, 0);
    }
    if (in->shaft->raw_length == LENGTH_UNKNOWN) {
        return plan_refuse(plan, PLAN_F_NO_RAW_LENGTH, 0, 0);
    }
    if (in->order->playing_length == LENGTH_UNKNOWN) {
        return plan_refuse(plan, PLAN_F_NO_PLAYING_LENGTH, 0, 0);
    }
    if (in->order->grip_cap == LENGTH_UNKNOWN) {
        return plan_refuse(plan, PLAN_F_NO_GRIP_CAP, 0, 0);
    }
    return true;
}

// R8.
static bool tip_fits(const struct plan_input *in, struct plan *plan) {
    length_nm tip = in->model->tip_diameter;
    length_nm bore = in->head->hosel_bore;
    if (tip == LENGTH_UNKNOWN || bore == LENGTH_UNKNOWN) {
        return plan_refuse(plan, PLAN_F_NO_DIAMETER, tip, bore);
    }
    if (tip > bore + FIT_SLACK) {
        return plan_refuse(plan, PLAN_F_TIP_LARGE, tip, bore);
    }
    if (tip < bore - FIT_SLACK) {
        if (!in->order->shim_consent) {
            return plan_refuse(plan, PLAN_F_TIP_SMALL, tip, bore);
        }
        plan_warn(plan, PLAN_W_SHIM, tip, bore);
    }
    return true;
}

// R12, R13: the tip is cut; what the chart asks now only tells whether it was another mark.
static void tip_is_made(const struct plan_input *in, struct plan *plan) {
    struct plan asked = {.proud = plan->proud};
    if (plan_tip(in, &asked) && asked.tip_mark != in->tip_made) {
        plan_warn(plan, PLAN_W_TIP_OFF_PLAN, asked.tip_mark, in->tip_made);
    }
    plan->column = asked.column;
    plan->tip_trim = in->tip_made;
    plan->tip_mark = in->tip_made;
    plan_reason(plan, PLAN_R_TIP_MADE, in->tip_made, in->tip_made, 0);
}

length_nm plan_plug_depth(length_nm extension) {
    return 2 * extension > LENGTH_INCH ? 2 * extension : LENGTH_INCH;
}

// R7: what is missing is added at the butt, if a supervisor allows it and it is not too much.
static bool extend(const struct plan_input *in, struct plan *plan, length_nm missing) {
    if (!in->order->extension && !in->order->extension_consent) {
        return plan_refuse(plan, PLAN_F_TOO_SHORT_SHAFT, missing, 0);
    }
    if (missing > in->rules->extension_max) {
        return plan_refuse(plan, PLAN_F_EXTENSION_MAX, missing, in->rules->extension_max);
    }
    plan->extension = missing;
    plan_warn(plan, PLAN_W_EXTEND, missing, plan_plug_depth(missing));
    return true;
}

// R7 and the butt half of R9: from the rounded tip trim, so that rounding never adds up.
static bool butt(const struct plan_input *in, struct plan *plan) {
    length_nm whole = in->order->playing_length - head_bore_height(in->head) - in->order->grip_cap;
    length_nm finished = whole + plan->proud;
    length_nm left = in->shaft->raw_length - plan->tip_mark;
    length_nm mark;
    if (whole <= 0) {
        return plan_refuse(plan, PLAN_F_NOTHING_LEFT, whole, 0);
    }
    if (left < finished && !extend(in, plan, finished - left)) {
        return false;
    }
    mark = length_round(finished, in->rules->mark_step, LENGTH_TIE_UP);
    if (mark <= 0) {
        return plan_refuse(plan, PLAN_F_NOTHING_LEFT, finished, 0);
    }
    plan->finished = finished;
    plan->butt_trim = left + plan->extension - finished;
    plan->butt_mark = mark;
    plan->butt_cut = plan->extension == 0 && mark < left;
    if (plan->proud > 0) {
        plan_warn(plan, PLAN_W_THROUGH, plan->proud, 0);
    }
    if (in->model->max_butt_trim != LENGTH_UNKNOWN && plan->butt_trim > in->model->max_butt_trim) {
        plan_warn(plan, PLAN_W_BUTT_MAX, plan->butt_trim, in->model->max_butt_trim);
    }
    return true;
}

// R10: Equipment Rules Part 2, 1c, compared in inches with no tolerance.
static void rules_of_golf(const struct plan_input *in, struct plan *plan) {
    length_nm length = in->order->playing_length;
    bool putter = in->head->kind == HEAD_KIND_PUTTER;
    if (length <= 18 * LENGTH_INCH) {
        plan_warn(plan, PLAN_W_TOO_SHORT, length, 0);
    } else if (!putter && length > 48 * LENGTH_INCH) {
        plan_warn(plan, PLAN_W_TOO_LONG, length, 0);
    } else if (!putter && in->rules->limit_46 && length > 46 * LENGTH_INCH) {
        plan_warn(plan, PLAN_W_TOO_LONG_46, length, 0);
    }
}

static bool whole_plan(const struct plan_input *in, struct plan *plan) {
    if (!facts_known(in, plan) || !tip_fits(in, plan)) {
        return false;
    }
    plan->proud = in->head->bore == BORE_THROUGH ? in->rules->through_allowance : 0;
    if (in->tip_made != LENGTH_UNKNOWN) {
        tip_is_made(in, plan);
    } else if (!plan_tip(in, plan)) {
        return false;
    }
    if (!butt(in, plan)) {
        return false;
    }
    rules_of_golf(in, plan);
    return true;
}

bool plan_make(const struct plan_input *input, struct plan *ret_plan) {
    *ret_plan = (struct plan){0};
    if (whole_plan(input, ret_plan)) {
        return true;
    }
    ret_plan->tip_trim = LENGTH_UNKNOWN;
    ret_plan->tip_mark = LENGTH_UNKNOWN;
    ret_plan->finished = LENGTH_UNKNOWN;
    ret_plan->butt_mark = LENGTH_UNKNOWN;
    ret_plan->butt_trim = LENGTH_UNKNOWN;
    ret_plan->extension = LENGTH_UNKNOWN;
    ret_plan->proud = LENGTH_UNKNOWN;
    return false;
}

const struct chart_column *plan_column(const struct plan_input *input, const struct plan *plan) {
    bool there = plan->refusal.code == PLAN_NONE && plan->column < input->chart->count;
    return there ? &input->chart->column[plan->column] : NULL;
}

bool plan_dry_fit(length_nm overall, length_nm raw, length_nm *ret_height) {
    if (overall == LENGTH_UNKNOWN || raw == LENGTH_UNKNOWN || overall < raw ||
        overall - raw > BORE_HEIGHT_MAX) {
        return false;
    }
    *ret_height = overall - raw;
    return true;
}

enum verdict plan_verdict(length_nm made, length_nm mark, length_nm tolerance) {
    if (made == LENGTH_UNKNOWN || mark == LENGTH_UNKNOWN) {
        return VERDICT_NONE;
    }
    if (made > mark + tolerance) {
        return VERDICT_LONG;
    }
    return made < mark - tolerance ? VERDICT_SHORT : VERDICT_IN;
}

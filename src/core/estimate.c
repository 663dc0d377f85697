#include "estimate.h"

#include "balance.h"
#include "flex_shaft.h"
#include "tongue.h"

static const char *const gaps[ESTIMATE_GAP_COUNT] = {
#define X(name, text) [ESTIMATE_GAP_##name] = text,
    ESTIMATE_GAPS(X)
#undef X
};

const char *estimate_gap_text(enum estimate_gap gap) {
    return _(gaps[gap]);
}

static bool within(int64_t value, int64_t low, int64_t high) {
    return value >= low && value <= high;
}

bool estimate_reach(const struct head *head, length_nm *ret_beyond) {
    if (head->cg_beyond == 0 || head->cg_beyond == LENGTH_UNKNOWN) {
        length_nm height = head_bore_height(head);
        *ret_beyond = height > 0 ? height : 0;
        return true;
    }
    *ret_beyond = head->cg_beyond;
    return false;
}

// What even an odd club stays within (common practice, no source).
static bool plausible(const struct club *club, const struct plan *plan) {
    length_nm reach;
    estimate_reach(&club->head, &reach);
    return within(club->head.weight, 100 * MASS_GRAM, 600 * MASS_GRAM) &&
           within(club->shaft.weight, 20 * MASS_GRAM, 250 * MASS_GRAM) &&
           within(club->shaft.raw_length, 18 * LENGTH_INCH, 60 * LENGTH_INCH) &&
           within(plan->finished, 15 * LENGTH_INCH, club->shaft.raw_length + plan->extension) &&
           within(reach, -2 * LENGTH_INCH, 6 * LENGTH_INCH) && club->head.inertia <= 20000;
}

static enum estimate_gap weights_gap(const struct club *club, const struct plan *plan) {
    if (plan->refusal.code != PLAN_NONE) {
        return ESTIMATE_GAP_PLAN;
    }
    if (club->head.weight <= 0) {
        return ESTIMATE_GAP_HEAD_WEIGHT;
    }
    return club->shaft.weight <= 0 ? ESTIMATE_GAP_SHAFT_WEIGHT : ESTIMATE_GAP_NONE;
}

enum estimate_gap estimate_balance(const struct club *club, const struct plan *plan,
                                   const struct assembly *assembly, struct balance_club *ret_club,
                                   bool *ret_assumed) {
    enum estimate_gap gap = weights_gap(club, plan);
    length_nm balance = flex_shaft_balance(&club->shaft, &club->model);
    struct balance_density density;
    if (gap != ESTIMATE_GAP_NONE) {
        return gap;
    }
    if (club->order.grip_weight <= 0) {
        return ESTIMATE_GAP_GRIP_WEIGHT;
    }
    if (!plausible(club, plan) || club->order.grip_weight > 300 * MASS_GRAM ||
        !balance_spread(club->shaft.weight, club->shaft.raw_length, balance, &density)) {
        return ESTIMATE_GAP_IMPLAUSIBLE;
    }
    *ret_club = (struct balance_club){
        .head = club->head.weight,
        .grip = club->order.grip_weight,
        .ferrule = assembly->ferrule,
        .epoxy = assembly->epoxy,
        .head_inertia = club->head.inertia,
        .grip_cap = club->order.grip_cap + plan->extension, // the plug's weight is left out
        .grip_balance = assembly->grip_balance,
        .raw_length = club->shaft.raw_length,
        .tip_trim = plan->tip_mark + plan->proud, // as it is once ground flush
        .finished = plan->finished - plan->proud - plan->extension,
        .shaft = density,
    };
    estimate_reach(&club->head, &ret_club->cg_beyond);
    *ret_assumed = balance == LENGTH_UNKNOWN;
    return ESTIMATE_GAP_NONE;
}

static struct estimate_value not_known(enum estimate_gap gap) {
    return (struct estimate_value){.gap = gap};
}

static struct flex_tip tip_of(const struct head *head, const struct assembly *assembly) {
    length_nm reach;
    estimate_reach(head, &reach);
    return (struct flex_tip){
        .point = (double)(assembly->ferrule + assembly->epoxy) * 1e-6,
        .mass = (double)head->weight * 1e-6,
        .beyond = (double)reach * 1e-9,
        .inertia = head->inertia > 0 ? (double)head->inertia * 1e-7 : 0,
    };
}

static enum estimate_gap flex_gap(const struct club *club, const struct plan *plan,
                                  struct flex_shaft *ret_shaft) {
    enum estimate_gap gap = weights_gap(club, plan);
    if (gap != ESTIMATE_GAP_NONE) {
        return gap;
    }
    switch (flex_shaft_make(&club->shaft, &club->model, &club->profile, ret_shaft)) {
    case FLEX_NOT_KNOWN:
        return ESTIMATE_GAP_STIFFNESS;
    case FLEX_IMPLAUSIBLE:
        return ESTIMATE_GAP_IMPLAUSIBLE;
    case FLEX_KNOWN:
        break;
    }
    ret_shaft->length += plan->extension; // all of it within the clamp
    return plausible(club, plan) ? ESTIMATE_GAP_NONE : ESTIMATE_GAP_IMPLAUSIBLE;
}

// Of the club once its end is ground flush.
static struct estimate_value frequency(const struct flex_shaft *shaft, const struct flex_tip *tip,
                                       length_nm tip_trim, const struct plan *plan) {
    struct estimate_value value = {.gap = ESTIMATE_GAP_NONE};
    if (!flex_shaft_frequency(shaft, tip_trim + plan->proud, plan->finished - plan->proud, tip,
                              &value.value)) {
        return not_known(ESTIMATE_GAP_IMPLAUSIBLE);
    }
    return value;
}

void estimate_make(const struct club *club, const struct plan *plan,
                   const struct assembly *assembly, struct estimate *ret_estimate) {
    struct balance_club parts;
    struct flex_shaft shaft;
    bool assumed = false;
    enum estimate_gap gap = estimate_balance(club, plan, assembly, &parts, &assumed);
    struct estimate_value value = not_known(gap);
    length_nm reach;
    bool reach_assumed = estimate_reach(&club->head, &reach);
    *ret_estimate = (struct estimate){value, value, value, value, assumed, reach_assumed};
    if (gap == ESTIMATE_GAP_NONE) {
        struct balance_sum sum = balance_add(&parts);
        ret_estimate->weight.value = sum.mass * 1000;
        ret_estimate->swingweight.value = balance_swingweight(&sum);
        ret_estimate->inertia.value = sum.inertia * 1e4;
    }
    gap = flex_gap(club, plan, &shaft);
    struct flex_tip tip = tip_of(&club->head, assembly);
    ret_estimate->frequency =
        gap == ESTIMATE_GAP_NONE ? frequency(&shaft, &tip, plan->tip_mark, plan) : not_known(gap);
}

struct estimate_value estimate_flex_change(const struct club *club, const struct plan *plan,
                                           length_nm tip_trim) {
    const struct assembly assembly = ASSEMBLY_DEFAULT;
    struct flex_shaft shaft;
    enum estimate_gap gap = flex_gap(club, plan, &shaft);
    if (gap != ESTIMATE_GAP_NONE) {
        return not_known(gap);
    }
    if (tip_trim < 0 || tip_trim > shaft.length - plan->finished) {
        return not_known(ESTIMATE_GAP_PLAN);
    }
    struct flex_tip tip = tip_of(&club->head, &assembly);
    struct estimate_value planned = frequency(&shaft, &tip, plan->tip_mark, plan);
    struct estimate_value made = frequency(&shaft, &tip, tip_trim, plan);
    if (planned.gap != ESTIMATE_GAP_NONE || made.gap != ESTIMATE_GAP_NONE) {
        return not_known(ESTIMATE_GAP_IMPLAUSIBLE);
    }
    return (struct estimate_value){.gap = ESTIMATE_GAP_NONE, .value = made.value - planned.value};
}

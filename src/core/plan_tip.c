#include "plan_tip.h"
#include "text.h"

void plan_reason(struct plan *plan, enum plan_code code, length_nm amount, int64_t a, int64_t b) {
    plan->reason[plan->reason_count++] =
        (struct plan_line){.code = code, .amount = amount, .a = a, .b = b};
}

void plan_warn(struct plan *plan, enum plan_code code, int64_t a, int64_t b) {
    plan->warning[plan->warning_count++] = (struct plan_line){.code = code, .a = a, .b = b};
}

bool plan_refuse(struct plan *plan, enum plan_code code, int64_t a, int64_t b) {
    plan->refusal = (struct plan_line){.code = code, .a = a, .b = b};
    return false;
}

static mass_mg apart(mass_mg a, mass_mg b) {
    return a < b ? b - a : a - b;
}

// R1: nearest by measured weight, any column, offered or not; the lighter one of two as near.
static size_t nearest(const struct chart *chart, mass_mg weight) {
    size_t best = 0;
    for (size_t i = 1; i < chart->count; i++) {
        if (apart(chart->column[i].weight, weight) < apart(chart->column[best].weight, weight)) {
            best = i;
        }
    }
    return best;
}

// R1: more than half the end's spacing beyond an end column.
static bool beyond(const struct chart *chart, mass_mg weight, size_t *ret_end) {
    const struct chart_column *column = chart->column;
    size_t last = chart->count - 1;
    if (last == 0) {
        return false;
    }
    if (2 * (column[0].weight - weight) > column[1].weight - column[0].weight) {
        *ret_end = 0;
        return true;
    }
    if (2 * (weight - column[last].weight) > column[last].weight - column[last - 1].weight) {
        *ret_end = last;
        return true;
    }
    return false;
}

static bool column_by_weight(const struct plan_input *in, struct plan *plan) {
    const struct chart *chart = in->chart;
    size_t end;
    if (beyond(chart, in->head->weight, &end)) {
        return plan_refuse(plan, PLAN_F_BEYOND_COLUMNS, (int64_t)end, 0);
    }
    plan->column = nearest(chart, in->head->weight);
    if (chart->count == 1 && chart->column[0].weight != in->head->weight) {
        plan_warn(plan, PLAN_W_ONE_COLUMN, 0, 0);
    }
    if (in->head->engraved[0] != '\0' &&
        !text_same(in->head->engraved, chart->column[plan->column].name)) {
        plan_warn(plan, PLAN_W_NOT_ENGRAVED, (int64_t)plan->column, 0);
    }
    return true;
}

static bool column_picked(const struct plan_input *in, struct plan *plan) {
    for (size_t i = 0; i < in->chart->count; i++) {
        if (text_same(in->order->picked_column, in->chart->column[i].name)) {
            plan->column = i;
            return true;
        }
    }
    return plan_refuse(plan, PLAN_F_PICK_UNKNOWN, 0, 0);
}

// R1, R5, R2. The cell's trim is the amount of the last of these lines.
static bool base_trim(const struct plan_input *in, struct plan *plan) {
    bool picked = in->order->picked_column[0] != '\0';
    enum plan_code code = picked ? PLAN_R_COLUMN_PICKED : PLAN_R_COLUMN;
    int64_t step = in->order->step;
    size_t from;
    length_nm cell;
    if (!(picked ? column_picked(in, plan) : column_by_weight(in, plan))) {
        return false;
    }
    from = plan->column;
    if ((int64_t)from + step < 0 || (int64_t)from + step >= (int64_t)in->chart->count) {
        return plan_refuse(plan, PLAN_F_STEP_OFF_END, step, (int64_t)from);
    }
    plan->column = (size_t)((int64_t)from + step);
    cell = in->chart->column[plan->column].tip_trim;
    if (cell == LENGTH_UNKNOWN) {
        return plan_refuse(plan, PLAN_F_CELL_EMPTY, (int64_t)plan->column, 0);
    }
    plan_reason(plan, code, step == 0 ? cell : 0, (int64_t)from, 0);
    if (step != 0) {
        plan_reason(plan, PLAN_R_STEP, cell, step, (int64_t)plan->column);
    }
    plan->tip_trim = cell;
    return true;
}

static void add(struct plan *plan, enum plan_code code, length_nm amount, int64_t a, int64_t b) {
    plan_reason(plan, code, amount, a, b);
    plan->tip_trim += amount;
}

// R3, only if the chart carries the note and the note means this head.
static bool bore_note(const struct plan_input *in, struct plan *plan, bool *ret_applied) {
    const struct shaft_model *model = in->model;
    length_nm height = head_bore_height(in->head);
    bool meant = model->bore_note != BORE_NOTE_NONE &&
                 (model->note_kinds == 0 || (model->note_kinds & 1u << in->head->kind) != 0);
    if (meant && model->note_not_through) {
        if (in->head->bore == BORE_UNKNOWN) {
            return plan_refuse(plan, PLAN_F_NO_BORE_KIND, 0, 0);
        }
        meant = in->head->bore != BORE_THROUGH;
    }
    *ret_applied = meant;
    if (!meant) {
        add(plan, PLAN_R_BORE_NONE, 0, height, 0);
    } else if (model->bore_note == BORE_NOTE_ADD_HEIGHT) {
        add(plan, PLAN_R_BORE_ADD, height, height, 0);
    } else if (model->bore_reference == LENGTH_UNKNOWN) {
        return plan_refuse(plan, PLAN_F_NO_BORE_REFERENCE, 0, 0);
    } else {
        add(plan, PLAN_R_BORE_REFERENCE, height - model->bore_reference, height,
            model->bore_reference);
    }
    return true;
}

// R4, never on top of R3.
static bool uniform(const struct plan_input *in, struct plan *plan, bool note_applied) {
    length_nm reference = in->order->uniform_reference;
    length_nm height = head_bore_height(in->head);
    if (!in->order->uniform_flex) {
        return true;
    }
    if (note_applied) {
        add(plan, PLAN_R_UNIFORM_IN_CHART, 0, 0, 0);
        return true;
    }
    if (reference == LENGTH_UNKNOWN) {
        return plan_refuse(plan, PLAN_F_NO_UNIFORM_REFERENCE, 0, 0);
    }
    add(plan, PLAN_R_UNIFORM, height - reference, height, reference);
    return true;
}

// R6's floor and R9. An offcut lacks some of the trim already; the mark is for the rest.
static bool to_mark(const struct plan_input *in, struct plan *plan) {
    length_nm step = in->rules->mark_step;
    length_nm cut = shaft_tip_cut(in->shaft);
    length_nm sum = plan->tip_trim - cut;
    length_nm wanted = plan->tip_trim > 0 ? plan->tip_trim : 0;
    if (plan->tip_trim < 0) {
        plan_warn(plan, PLAN_W_SHORTFALL, -plan->tip_trim, 0);
    }
    if (cut > 0) {
        plan_reason(plan, PLAN_R_TIP_CUT, -cut, cut, 0);
    }
    if (2 * (cut - wanted) >= step) {
        return plan_refuse(plan, PLAN_F_TIP_OVERCUT, wanted, cut);
    }
    plan->tip_trim = wanted > cut ? wanted - cut : 0;
    plan->tip_mark = length_round(plan->tip_trim, step, LENGTH_TIE_DOWN);
    if (plan->tip_mark != sum) {
        plan_reason(plan, PLAN_R_ROUND, plan->tip_mark - sum, sum, plan->tip_mark);
    }
    return true;
}

// R6's limits, on the rounded trim and whatever was off the tip before.
static bool within_limits(const struct plan_input *in, struct plan *plan) {
    const struct shaft_model *model = in->model;
    length_nm max = model->max_tip_trim;
    length_nm off = plan->tip_mark + shaft_tip_cut(in->shaft);
    bool taper = model->tip == TIP_TAPER;
    if (taper && off > 0 && (max == LENGTH_UNKNOWN || max == 0)) {
        return plan_refuse(plan, PLAN_F_TAPER, off, 0);
    }
    if (max == LENGTH_UNKNOWN) {
        if (!taper) {
            plan_warn(plan, PLAN_W_TIP_LIMIT_UNKNOWN, 0, 0);
        }
    } else if (off > max) {
        return plan_refuse(plan, PLAN_F_TIP_MAX, off, max);
    }
    if (taper) {
        return true;
    }
    if (model->tip_section == LENGTH_UNKNOWN) {
        plan_warn(plan, PLAN_W_TIP_SECTION_UNKNOWN, 0, 0);
        return true;
    }
    if (in->head->insertion == LENGTH_UNKNOWN) {
        return plan_refuse(plan, PLAN_F_NO_INSERTION, 0, 0);
    }
    // What is ground off at the sole is no part of what the hosel holds.
    if (model->tip_section - off < in->head->insertion + plan->proud) {
        return plan_refuse(plan, PLAN_F_TIP_SECTION, model->tip_section - off,
                           in->head->insertion + plan->proud);
    }
    return true;
}

// R1 to R5, by the chart.
static bool by_chart(const struct plan_input *in, struct plan *plan) {
    enum chart_kind kind;
    bool note_applied;
    if (!chart_kind_for_head(in->head->kind, &kind) || in->chart->kind != kind ||
        in->chart->count == 0) {
        return plan_refuse(plan, PLAN_F_NO_CHART, 0, 0);
    }
    if (in->head->weight == MASS_UNKNOWN) {
        return plan_refuse(plan, PLAN_F_NO_WEIGHT, 0, 0);
    }
    return base_trim(in, plan) && bore_note(in, plan, &note_applied) &&
           uniform(in, plan, note_applied);
}

bool plan_tip(const struct plan_input *in, struct plan *plan) {
    length_nm given;
    if (order_given_trim(in->order, &given)) {
        plan->column = PLAN_COLUMN_NONE;
        plan->tip_trim = given;
        plan_reason(plan, PLAN_R_GIVEN, given, given, 0);
    } else if (!by_chart(in, plan)) {
        return false;
    }
    return to_mark(in, plan) && within_limits(in, plan);
}

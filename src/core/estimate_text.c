#include "estimate_text.h"
#include "balance.h"
#include "text.h"

#include <math.h>

static void add_change(struct text *text, double change) {
    if (fabs(change) < 0.05) {
        text_add(text, "less than 0.1 cpm");
        return;
    }
    text_add(text, "about ");
    text_add_decimal(text, fabs(change), 1);
    text_add(text, change > 0 ? " cpm stiffer" : " cpm softer");
}

bool estimate_change_text(const struct estimate_value *change, char buffer[ESTIMATE_TEXT_MAX]) {
    struct text text = text_open(buffer, ESTIMATE_TEXT_MAX);
    if (change->gap != ESTIMATE_GAP_NONE) {
        return false;
    }
    add_change(&text, change->value);
    return true;
}

static struct text new_line(struct estimate_lines *lines) {
    char *line = lines->line[lines->count];
    lines->count++;
    return text_open(line, ESTIMATE_TEXT_MAX);
}

// A line about what the tip trim would do without `part` of it.
static void without(const struct club *club, const struct plan *plan, length_nm part,
                    const char *words, struct estimate_lines *lines) {
    struct estimate_value change = estimate_flex_change(club, plan, plan->tip_mark - part);
    if (part != 0 && change.gap == ESTIMATE_GAP_NONE && lines->count < ESTIMATE_LINES_MAX) {
        struct text text = new_line(lines);
        text_add(&text, words);
        add_change(&text, change.value);
        text_add(&text, " (estimate)");
    }
}

static length_nm amount_of(const struct plan *plan, enum plan_code code) {
    length_nm amount = 0;
    for (size_t i = 0; i < plan->reason_count; i++) {
        amount += plan->reason[i].code == code ? plan->reason[i].amount : 0;
    }
    return amount;
}

// The step's own part of the trim: what the same plan trims without it.
static length_nm step_part(const struct plan_input *input, const struct plan *plan) {
    struct order order = *input->order;
    struct plan_input plain = *input;
    struct plan other;
    if (order.step == 0 || input->tip_made != LENGTH_UNKNOWN) {
        return 0;
    }
    order.step = 0;
    plain.order = &order;
    return plan_make(&plain, &other) ? plan->tip_mark - other.tip_mark : 0;
}

static void add_scale(struct text *text, double inch_ounces) {
    char scale[BALANCE_SCALE_TEXT_MAX];
    if (balance_scale_text(inch_ounces, scale)) {
        text_add(text, scale);
    } else {
        text_add_decimal(text, inch_ounces, 1);
        text_add(text, " in oz");
    }
}

static void add_swingweight(struct text *text, const struct club *club, double inch_ounces) {
    text_add(text, "swingweight about ");
    add_scale(text, inch_ounces);
    if (club->order.swingweight[0] != '\0') {
        text_add(text, " for ");
        text_add(text, club->order.swingweight);
    }
}

static void sum_up(const struct club *club, const struct plan *plan,
                   const struct assembly *assembly, struct estimate_lines *lines) {
    struct estimate estimate;
    estimate_make(club, plan, assembly, &estimate);
    bool swing = estimate.swingweight.gap == ESTIMATE_GAP_NONE;
    bool flex = estimate.frequency.gap == ESTIMATE_GAP_NONE;
    if (!swing && !flex) {
        return;
    }
    struct text text = new_line(lines);
    text_add(&text, "Estimate: ");
    if (swing) {
        add_swingweight(&text, club, estimate.swingweight.value);
        text_add(&text, flex ? ", " : "");
    }
    if (flex) {
        text_add(&text, "about ");
        text_add_decimal(&text, estimate.frequency.value, 1);
        text_add(&text, " cpm");
    }
}

void estimate_say(const struct club *club, const struct plan_input *input, const struct plan *plan,
                  const struct assembly *assembly, struct estimate_lines *ret_lines) {
    length_nm bore = amount_of(plan, PLAN_R_BORE_ADD) + amount_of(plan, PLAN_R_BORE_REFERENCE);
    *ret_lines = (struct estimate_lines){.count = 0};
    if (plan->refusal.code != PLAN_NONE) {
        return;
    }
    sum_up(club, plan, assembly, ret_lines);
    without(club, plan, bore, "Without the bore height: ", ret_lines);
    without(club, plan, amount_of(plan, PLAN_R_UNIFORM),
            "Without the uniform flex correction: ", ret_lines);
    without(club, plan, step_part(input, plan), "Without the step: ", ret_lines);
}

void estimate_say_tip(const struct club *club, const struct plan *plan, length_nm made,
                      char buffer[ESTIMATE_TEXT_MAX]) {
    struct estimate_value change = estimate_flex_change(club, plan, made);
    struct text text = text_open(buffer, ESTIMATE_TEXT_MAX);
    if (change.gap == ESTIMATE_GAP_NONE) {
        text_add(&text, "As cut: ");
        add_change(&text, change.value);
        text_add(&text, " (estimate)");
    }
}

void estimate_say_length(const struct club *club, const struct plan *plan,
                         const struct assembly *assembly, length_nm made,
                         char buffer[ESTIMATE_TEXT_MAX]) {
    struct text text = text_open(buffer, ESTIMATE_TEXT_MAX);
    struct plan as_made = *plan;
    struct estimate planned;
    struct estimate estimate;
    as_made.finished = made;
    estimate_make(club, plan, assembly, &planned);
    estimate_make(club, &as_made, assembly, &estimate);
    if (planned.swingweight.gap == ESTIMATE_GAP_NONE &&
        estimate.swingweight.gap == ESTIMATE_GAP_NONE) {
        text_add(&text, "As measured: swingweight about ");
        add_scale(&text, estimate.swingweight.value);
        text_add(&text, ", planned ");
        add_scale(&text, planned.swingweight.value);
        text_add(&text, " (estimate)");
    }
}

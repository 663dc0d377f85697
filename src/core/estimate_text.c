#include "estimate_text.h"
#include "balance.h"
#include "reword.h"
#include "text.h"
#include "tongue.h"

#include <math.h>

enum pattern {
    SUM_BOTH_WISH,
    SUM_BOTH,
    SUM_FLEX,
    SUM_SWING_WISH,
    SUM_SWING,
    WITHOUT_BORE,
    WITHOUT_UNIFORM,
    WITHOUT_STEP,
    AS_CUT,
    AS_MEASURED,
    CHANGE_NONE,
    CHANGE_STIFFER,
    CHANGE_SOFTER,
    PATTERN_COUNT
};

// English is what the log keeps; the order is that of estimate_reword, the longer one first where
// one sentence could be two of them.
static const char *const patterns[PATTERN_COUNT] = {
    // TRANSLATORS: estimates of the club: swingweight as D2.3, %2 the one that is wished, cpm:
    // cycles a minute (frequency, how stiff the club is).
    [SUM_BOTH_WISH] = N_("Estimate: swingweight about %1 for %2, about %3 cpm"),
    [SUM_BOTH] = N_("Estimate: swingweight about %1, about %2 cpm"),
    [SUM_FLEX] = N_("Estimate: about %1 cpm"),
    [SUM_SWING_WISH] = N_("Estimate: swingweight about %1 for %2"),
    [SUM_SWING] = N_("Estimate: swingweight about %1"),
    // TRANSLATORS: what the club would be without one reason of the trim; %1 is `about 1.1 cpm
    // stiffer`.
    [WITHOUT_BORE] = N_("Without the bore height: %1 (estimate)"),
    [WITHOUT_UNIFORM] = N_("Without the uniform flex correction: %1 (estimate)"),
    [WITHOUT_STEP] = N_("Without the step: %1 (estimate)"),
    [AS_CUT] = N_("As cut: %1 (estimate)"),
    [AS_MEASURED] = N_("As measured: swingweight about %1, planned %2 (estimate)"),
    [CHANGE_NONE] = N_("less than 0.1 cpm"),
    [CHANGE_STIFFER] = N_("about %1 cpm stiffer"),
    [CHANGE_SOFTER] = N_("about %1 cpm softer"),
};

static void change_source(double change, char buffer[ESTIMATE_TEXT_MAX]) {
    char figure[LENGTH_TEXT_MAX];
    struct text number = text_open(figure, sizeof figure);
    struct text text = text_open(buffer, ESTIMATE_TEXT_MAX);
    number.source = true;
    text_add_decimal(&number, fabs(change), 1);
    text_say(&text,
             patterns[fabs(change) < 0.05 ? CHANGE_NONE
                      : change > 0        ? CHANGE_STIFFER
                                          : CHANGE_SOFTER],
             figure);
}

bool estimate_change_text(const struct estimate_value *change, char buffer[ESTIMATE_TEXT_MAX]) {
    char source[ESTIMATE_TEXT_MAX];
    struct text text = text_open(buffer, ESTIMATE_TEXT_MAX);
    if (change->gap != ESTIMATE_GAP_NONE) {
        return false;
    }
    change_source(change->value, source);
    estimate_reword(&text, source);
    return true;
}

static void part(struct text *text, const struct reword_part *of) {
    char words[ESTIMATE_TEXT_MAX];
    struct text copy = text_open(words, sizeof words);
    text_add_bytes(&copy, of->at, of->size);
    for (int i = CHANGE_NONE; i < PATTERN_COUNT; i++) {
        if (reword(text, patterns[i], words, reword_figures)) {
            return;
        }
    }
    reword_figures(text, of);
}

bool estimate_reword(struct text *text, const char *source) {
    for (int i = 0; i < PATTERN_COUNT; i++) {
        if (reword(text, patterns[i], source, part)) {
            return true;
        }
    }
    text_add(text, source);
    return false;
}

static struct text new_line(struct estimate_lines *lines) {
    char *line = lines->line[lines->count];
    lines->count++;
    return text_open(line, ESTIMATE_TEXT_MAX);
}

// A line about what the tip trim would do without `part` of it.
static void without(const struct club *club, const struct plan *plan, length_nm part,
                    enum pattern pattern, struct estimate_lines *lines) {
    struct estimate_value change = estimate_flex_change(club, plan, plan->tip_mark - part);
    if (part != 0 && change.gap == ESTIMATE_GAP_NONE && lines->count < ESTIMATE_LINES_MAX) {
        char words[ESTIMATE_TEXT_MAX];
        struct text text = new_line(lines);
        change_source(change.value, words);
        text_say(&text, patterns[pattern], words);
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
        text_add_figure(text, scale);
    } else {
        text_add_decimal(text, inch_ounces, 1);
        text_add(text, " in oz");
    }
}

static void scale_source(double inch_ounces, char buffer[LENGTH_TEXT_MAX]) {
    struct text text = text_open(buffer, LENGTH_TEXT_MAX);
    text.source = true;
    add_scale(&text, inch_ounces);
}

static void sum_up(const struct club *club, const struct plan *plan,
                   const struct assembly *assembly, struct estimate_lines *lines) {
    const char *wish = club->order.swingweight;
    struct estimate estimate;
    char scale[LENGTH_TEXT_MAX] = "";
    char cpm[LENGTH_TEXT_MAX] = "";
    estimate_make(club, plan, assembly, &estimate);
    bool swing = estimate.swingweight.gap == ESTIMATE_GAP_NONE;
    bool flex = estimate.frequency.gap == ESTIMATE_GAP_NONE;
    if (!swing && !flex) {
        return;
    }
    struct text text = new_line(lines);
    struct text figure = text_open(cpm, sizeof cpm);
    figure.source = true;
    text_add_decimal(&figure, flex ? estimate.frequency.value : 0, 1);
    scale_source(swing ? estimate.swingweight.value : 0, scale);
    if (!swing) {
        text_say(&text, patterns[SUM_FLEX], cpm);
    } else if (wish[0] != '\0') {
        text_say(&text, patterns[flex ? SUM_BOTH_WISH : SUM_SWING_WISH], scale, wish, cpm);
    } else {
        text_say(&text, patterns[flex ? SUM_BOTH : SUM_SWING], scale, cpm);
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
    without(club, plan, bore, WITHOUT_BORE, ret_lines);
    without(club, plan, amount_of(plan, PLAN_R_UNIFORM), WITHOUT_UNIFORM, ret_lines);
    without(club, plan, step_part(input, plan), WITHOUT_STEP, ret_lines);
}

void estimate_say_tip(const struct club *club, const struct plan *plan, length_nm made,
                      char buffer[ESTIMATE_TEXT_MAX]) {
    struct estimate_value change = estimate_flex_change(club, plan, made);
    struct text text = text_open(buffer, ESTIMATE_TEXT_MAX);
    if (change.gap == ESTIMATE_GAP_NONE) {
        char words[ESTIMATE_TEXT_MAX];
        change_source(change.value, words);
        text_say(&text, patterns[AS_CUT], words);
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
        char as[LENGTH_TEXT_MAX];
        char was[LENGTH_TEXT_MAX];
        scale_source(estimate.swingweight.value, as);
        scale_source(planned.swingweight.value, was);
        text_say(&text, patterns[AS_MEASURED], as, was);
    }
}

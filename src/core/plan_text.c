// The words of every line a plan can carry. A refusal says what is wrong and what to do.

#include "plan.h"
#include "reword.h"
#include "text.h"
#include "tongue.h"

#include <string.h>

#define X(name) [PLAN_##name] = #name,
static const char *const names[] = {[PLAN_NONE] = "NONE", PLAN_CODES(X)};
#undef X

const char *plan_code_name(enum plan_code code) {
    return names[code];
}

static const char *const verdicts[VERDICT_COUNT] = {
    [VERDICT_NONE] = "",
    [VERDICT_IN] = "in",
    [VERDICT_LONG] = "long",
    [VERDICT_SHORT] = "short",
};
static const char *const verdict_say[VERDICT_COUNT] = {
    [VERDICT_NONE] = "",
    // TRANSLATORS: what was made lies within the tolerance of its mark.
    [VERDICT_IN] = NT_("verdict", "in"),
    // TRANSLATORS: what was made is longer than the mark, and can be cut once more.
    [VERDICT_LONG] = NT_("verdict", "long"),
    // TRANSLATORS: too much was cut off.
    [VERDICT_SHORT] = NT_("verdict", "short"),
};

const char *verdict_text(enum verdict verdict) {
    return verdicts[verdict];
}

const char *verdict_words(enum verdict verdict) {
    return _(verdict_say[verdict]);
}

// English is what the log keeps.
// %a, %b: the line's arguments as lengths; %A, %B: as columns of the chart, `3 (210 g)`; %d, %n: a
// as a step, its direction and size. From the input: %w head weight, %e engraved number, %k head
// kind, %m shaft model, %f flex, %p picked column, %t tip diameter, %h hosel bore.
static const char *const texts[PLAN_CODE_COUNT] = {
    [PLAN_R_COLUMN] = N_("Chart, column %A"),
    [PLAN_R_COLUMN_PICKED] = N_("Chart, column %A, picked by a supervisor"),
    [PLAN_R_STEP] = N_("%d %n, column %B"),
    [PLAN_R_BORE_ADD] = N_("Bore %a, chart asks for all of it"),
    [PLAN_R_BORE_REFERENCE] = N_("Bore %a, chart is written for %b"),
    [PLAN_R_BORE_NONE] = N_("Bore %a, chart adds nothing"),
    [PLAN_R_UNIFORM] = N_("Uniform flex, bore %a against %b"),
    [PLAN_R_UNIFORM_IN_CHART] = N_("Uniform flex, the chart's bore note already does it"),
    [PLAN_R_GIVEN] = N_("Given by a supervisor"),
    [PLAN_R_TIP_CUT] = N_("Off its tip already"),
    [PLAN_R_ROUND] = N_("To the nearest mark, from %a"),
    [PLAN_R_TIP_MADE] = N_("Cut off the tip"),
    [PLAN_W_NOT_ENGRAVED] =
        N_("Engraved %e, but at %w it weighs like column %A. The chart goes by weight."),
    [PLAN_W_ONE_COLUMN] = N_("The chart has one column only, written for %A; this head weighs %w."),
    [PLAN_W_SHORTFALL] = N_("The tip trim comes out %a below zero. Nothing is cut off the tip."),
    [PLAN_W_TIP_LIMIT_UNKNOWN] =
        N_("The maker's maximum tip trim is not known for this shaft. Check before cutting."),
    [PLAN_W_TIP_SECTION_UNKNOWN] =
        N_("The length of the parallel tip is not known. Check that it still fills the hosel."),
    [PLAN_W_BUTT_MAX] = N_("Butt trim %a is more than the maker's %b. The grip may not fit."),
    [PLAN_W_EXTEND] =
        N_("Too short: extend the butt by %a before the grip. Glue the plug at least %b "
           "deep, no gap at the joint."),
    [PLAN_W_THROUGH] =
        N_("The shaft passes the sole and stands %a past the ground line. Grind it flush "
           "after the epoxy has cured."),
    [PLAN_W_SHIM] = N_("Tip %t in in a %h in bore: fit the shim the supervisor agreed to."),
    [PLAN_W_TOO_LONG] = N_("Playing length %a is over 48 in: not conforming."),
    [PLAN_W_TOO_LONG_46] = N_("Playing length %a is over the 46 in of the local rule."),
    [PLAN_W_TOO_SHORT] = N_("Playing length %a is not above 18 in: not conforming."),
    [PLAN_W_TIP_OFF_PLAN] = N_("The tip mark would be %a now, %b is cut off already."),
    [PLAN_F_NO_WEIGHT] = N_("The head has not been weighed. Weigh it and enter the weight."),
    [PLAN_F_NO_BORE_HEIGHT] =
        N_("The bore height of this head is not known. Dry-fit and measure it."),
    [PLAN_F_NO_RAW_LENGTH] = N_("The raw length of this shaft is not known. Measure the shaft."),
    [PLAN_F_NO_PLAYING_LENGTH] = N_("The order gives no playing length. Ask, and enter it."),
    [PLAN_F_NO_GRIP_CAP] = N_("The thickness of the grip cap is not known. Measure and enter it."),
    [PLAN_F_NO_INSERTION] =
        N_("The insertion depth of this head is not known. Measure the hosel and enter it."),
    [PLAN_F_NO_DIAMETER] =
        N_("Tip diameter %t, hosel bore %h. Measure what is not known and enter it."),
    [PLAN_F_NO_BORE_REFERENCE] =
        N_("The chart is written for a bore height that is not entered. Look it up and enter it."),
    [PLAN_F_NO_BORE_KIND] =
        N_("The chart asks whether this head is bored through. Look, and enter it."),
    [PLAN_F_BORE_RANGE] =
        N_("Bore height %a is not between 0 and 2 in. Dry-fit and measure again."),
    [PLAN_F_NO_CHART] = N_("No chart of %m %f for a %k. Enter the maker's chart or take "
                           "another shaft."),
    [PLAN_F_BEYOND_COLUMNS] = N_("At %w the head lies beyond the chart's end column %A. "
                                 "A supervisor must pick a column."),
    [PLAN_F_PICK_UNKNOWN] =
        N_("The chart has no column %p. A supervisor must pick one the chart has."),
    [PLAN_F_CELL_EMPTY] = N_("The maker does not offer this shaft for column %A. "
                             "Take another shaft or flex."),
    [PLAN_F_STEP_OFF_END] = N_("%d %n from column %B runs off the chart. "
                               "Change the step in the order."),
    [PLAN_F_TIP_MAX] = N_("Tip trim %a is more than the maker's maximum of %b. "
                          "Take another shaft or step."),
    [PLAN_F_TIP_SECTION] = N_("Only %a of parallel tip would be left for %b of insertion. "
                              "Take another shaft."),
    [PLAN_F_TAPER] =
        N_("A taper tip is not trimmed unless its maker allows it; the plan asks for %a. "
           "Take another shaft."),
    [PLAN_F_TIP_OVERCUT] =
        N_("%b is off this shaft's tip already, more than the %a that is wanted. "
           "Take another shaft."),
    [PLAN_F_EXTENSION_MAX] = N_("The shaft is too short by %a; a butt is extended by %b at most. "
                                "Take a longer shaft."),
    [PLAN_F_TOO_SHORT_SHAFT] = N_("The shaft is too short by %a. Take a longer shaft."),
    [PLAN_F_TIP_SMALL] = N_("Tip %t in is smaller than the %h in bore. "
                            "A supervisor must agree to a shim, or take another shaft."),
    [PLAN_F_TIP_LARGE] =
        N_("Tip %t in does not go into the %h in bore. Take another shaft or head."),
    [PLAN_F_NO_UNIFORM_REFERENCE] =
        N_("Uniform flex needs a bore height of this set. Dry-fit and measure its heads first."),
    [PLAN_F_NOTHING_LEFT] = N_("No shaft would be left: finished length %a. "
                               "Check playing length and grip cap."),
};

static void add_column(struct text *text, const struct chart *chart, int64_t index) {
    const struct chart_column *column = &chart->column[index];
    text_add(text, column->name);
    text_add(text, " (");
    text_add_mass(text, column->weight);
    text_add(text, ")");
}

static void add_diameter(struct text *text, length_nm diameter) {
    char words[LENGTH_TEXT_MAX];
    length_text_inch(diameter, 3, words);
    text_add_figure(text, words);
}

static const char step_soft[] = N_("Soft-step");
static const char step_hard[] = N_("Hard-step");

static void say(struct text *text, const char *words) {
    text_add(text, text->source ? words : _(words));
}

static void add_argument(struct text *text, char which, const struct plan_input *in,
                         const struct plan_line *line) {
    switch (which) {
    case 'a':
        text_add_length(text, line->a);
        break;
    case 'b':
        text_add_length(text, line->b);
        break;
    case 'd':
        say(text, line->a < 0 ? step_soft : step_hard);
        break;
    case 'n':
        text_add_number(text, line->a < 0 ? -line->a : line->a);
        break;
    case 'A':
        add_column(text, in->chart, line->a);
        break;
    case 'B':
        add_column(text, in->chart, line->b);
        break;
    case 'w':
        text_add_mass(text, in->head->weight);
        break;
    case 'e':
        text_add(text, in->head->engraved);
        break;
    case 'm':
        text_add(text, in->model->name);
        break;
    case 'f':
        text_add(text, in->shaft->flex);
        break;
    case 'k':
        text_add(text,
                 text->source ? head_kind_source(in->head->kind) : head_kind_words(in->head->kind));
        break;
    case 'p':
        text_add(text, in->order->picked_column);
        break;
    case 't':
        add_diameter(text, in->model->tip_diameter);
        break;
    case 'h':
        add_diameter(text, in->head->hosel_bore);
        break;
    default:
        break;
    }
}

static void fill(struct text *text, const char *pattern, const struct plan_input *input,
                 const struct plan_line *line) {
    while (*pattern != '\0') {
        size_t plain = strcspn(pattern, "%");
        text_add_bytes(text, pattern, plain);
        pattern += plain;
        if (*pattern == '%') {
            add_argument(text, pattern[1], input, line);
            pattern += pattern[1] != '\0' ? 2 : 1;
        }
    }
}

void plan_line_text(const struct plan_input *input, const struct plan_line *line, char *buffer,
                    size_t size) {
    struct text text = text_open(buffer, size);
    fill(&text, texts[line->code] != NULL ? _(texts[line->code]) : "", input, line);
}

void plan_line_source(const struct plan_input *input, const struct plan_line *line, char *buffer,
                      size_t size) {
    struct text text = text_open(buffer, size);
    text.source = true;
    fill(&text, texts[line->code] != NULL ? texts[line->code] : "", input, line);
}

// --- what the log has in English -----------------------------------------------------------------

static void part(struct text *text, const struct reword_part *of) {
    char words[PLAN_LINE_TEXT_MAX];
    struct text copy = text_open(words, sizeof words);
    text_add_bytes(&copy, of->at, of->size);
    if (strchr("dk", of->which) != NULL) {
        text_add(text, _(words));
    } else if (strchr("mfep", of->which) != NULL) {
        text_add(text, words);
    } else {
        reword_figures(text, of);
    }
}

void plan_line_reword(enum plan_code code, const char *source, char *buffer, size_t size) {
    struct text text = text_open(buffer, size);
    if (texts[code] == NULL || !reword(&text, texts[code], source, part)) {
        text_add(&text, source);
    }
}

bool plan_refusal_reword(struct text *text, const char *source) {
    for (int code = PLAN_NONE + 1; code < PLAN_CODE_COUNT; code++) {
        if (names[code][0] == 'F' && texts[code] != NULL &&
            reword(text, texts[code], source, part)) {
            return true;
        }
    }
    return false;
}

// The words of every line a plan can carry. A refusal says what is wrong and what to do.

#include "plan.h"
#include "text.h"

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

const char *verdict_text(enum verdict verdict) {
    return verdicts[verdict];
}

// %a, %b: the line's arguments as lengths; %A, %B: as columns of the chart, `3 (210 g)`; %d, %n: a
// as a step, its direction and size. From the input: %w head weight, %e engraved number, %k head
// kind, %m shaft model, %f flex, %p picked column, %t tip diameter, %h hosel bore.
static const char *const texts[PLAN_CODE_COUNT] = {
    [PLAN_R_COLUMN] = "Chart, column %A",
    [PLAN_R_COLUMN_PICKED] = "Chart, column %A, picked by a supervisor",
    [PLAN_R_STEP] = "%d %n, column %B",
    [PLAN_R_BORE_ADD] = "Bore %a, chart asks for all of it",
    [PLAN_R_BORE_REFERENCE] = "Bore %a, chart is written for %b",
    [PLAN_R_BORE_NONE] = "Bore %a, chart adds nothing",
    [PLAN_R_UNIFORM] = "Uniform flex, bore %a against %b",
    [PLAN_R_UNIFORM_IN_CHART] = "Uniform flex, the chart's bore note already does it",
    [PLAN_R_GIVEN] = "Given by a supervisor",
    [PLAN_R_TIP_CUT] = "Off its tip already",
    [PLAN_R_ROUND] = "To the nearest mark, from %a",
    [PLAN_R_TIP_MADE] = "Cut off the tip",
    [PLAN_W_NOT_ENGRAVED] =
        "Engraved %e, but at %w it weighs like column %A. The chart goes by weight.",
    [PLAN_W_ONE_COLUMN] = "The chart has one column only, written for %A; this head weighs %w.",
    [PLAN_W_SHORTFALL] = "The tip trim comes out %a below zero. Nothing is cut off the tip.",
    [PLAN_W_TIP_LIMIT_UNKNOWN] =
        "The maker's maximum tip trim is not known for this shaft. Check before cutting.",
    [PLAN_W_TIP_SECTION_UNKNOWN] =
        "The length of the parallel tip is not known. Check that it still fills the hosel.",
    [PLAN_W_BUTT_MAX] = "Butt trim %a is more than the maker's %b. The grip may not fit.",
    [PLAN_W_EXTEND] = "Too short: extend the butt by %a before the grip. Glue the plug at least %b "
                      "deep, no gap at the joint.",
    [PLAN_W_THROUGH] =
        "The shaft passes the sole and stands %a past the ground line. Grind it flush "
        "after the epoxy has cured.",
    [PLAN_W_SHIM] = "Tip %t in in a %h in bore: fit the shim the supervisor agreed to.",
    [PLAN_W_TOO_LONG] = "Playing length %a is over 48 in: not conforming.",
    [PLAN_W_TOO_LONG_46] = "Playing length %a is over the 46 in of the local rule.",
    [PLAN_W_TOO_SHORT] = "Playing length %a is not above 18 in: not conforming.",
    [PLAN_W_TIP_OFF_PLAN] = "The tip mark would be %a now, %b is cut off already.",
    [PLAN_F_NO_WEIGHT] = "The head has not been weighed. Weigh it and enter the weight.",
    [PLAN_F_NO_BORE_HEIGHT] = "The bore height of this head is not known. Dry-fit and measure it.",
    [PLAN_F_NO_RAW_LENGTH] = "The raw length of this shaft is not known. Measure the shaft.",
    [PLAN_F_NO_PLAYING_LENGTH] = "The order gives no playing length. Ask, and enter it.",
    [PLAN_F_NO_GRIP_CAP] = "The thickness of the grip cap is not known. Measure and enter it.",
    [PLAN_F_NO_INSERTION] =
        "The insertion depth of this head is not known. Measure the hosel and enter it.",
    [PLAN_F_NO_DIAMETER] =
        "Tip diameter %t, hosel bore %h. Measure what is not known and enter it.",
    [PLAN_F_NO_BORE_REFERENCE] =
        "The chart is written for a bore height that is not entered. Look it up and enter it.",
    [PLAN_F_NO_BORE_KIND] =
        "The chart asks whether this head is bored through. Look, and enter it.",
    [PLAN_F_BORE_RANGE] = "Bore height %a is not between 0 and 2 in. Dry-fit and measure again.",
    [PLAN_F_NO_CHART] = "No chart of %m %f for a %k. Enter the maker's chart or take "
                        "another shaft.",
    [PLAN_F_BEYOND_COLUMNS] = "At %w the head lies beyond the chart's end column %A. "
                              "A supervisor must pick a column.",
    [PLAN_F_PICK_UNKNOWN] = "The chart has no column %p. A supervisor must pick one the chart has.",
    [PLAN_F_CELL_EMPTY] = "The maker does not offer this shaft for column %A. "
                          "Take another shaft or flex.",
    [PLAN_F_STEP_OFF_END] = "%d %n from column %B runs off the chart. "
                            "Change the step in the order.",
    [PLAN_F_TIP_MAX] = "Tip trim %a is more than the maker's maximum of %b. "
                       "Take another shaft or step.",
    [PLAN_F_TIP_SECTION] = "Only %a of parallel tip would be left for %b of insertion. "
                           "Take another shaft.",
    [PLAN_F_TAPER] = "A taper tip is not trimmed unless its maker allows it; the plan asks for %a. "
                     "Take another shaft.",
    [PLAN_F_TIP_OVERCUT] = "%b is off this shaft's tip already, more than the %a that is wanted. "
                           "Take another shaft.",
    [PLAN_F_EXTENSION_MAX] = "The shaft is too short by %a; a butt is extended by %b at most. "
                             "Take a longer shaft.",
    [PLAN_F_TOO_SHORT_SHAFT] = "The shaft is too short by %a. Take a longer shaft.",
    [PLAN_F_TIP_SMALL] = "Tip %t in is smaller than the %h in bore. "
                         "A supervisor must agree to a shim, or take another shaft.",
    [PLAN_F_TIP_LARGE] = "Tip %t in does not go into the %h in bore. Take another shaft or head.",
    [PLAN_F_NO_UNIFORM_REFERENCE] =
        "Uniform flex needs a bore height of this set. Dry-fit and measure its heads first.",
    [PLAN_F_NOTHING_LEFT] = "No shaft would be left: finished length %a. "
                            "Check playing length and grip cap.",
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
    text_add(text, words);
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
        text_add(text, line->a < 0 ? "Soft-step" : "Hard-step");
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
        text_add(text, head_kind_words(in->head->kind));
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

void plan_line_text(const struct plan_input *input, const struct plan_line *line, char *buffer,
                    size_t size) {
    struct text text = text_open(buffer, size);
    const char *pattern = texts[line->code] != NULL ? texts[line->code] : "";
    while (*pattern != '\0') {
        size_t plain = strcspn(pattern, "%");
        text_add_bytes(&text, pattern, plain);
        pattern += plain;
        if (*pattern == '%') {
            add_argument(&text, pattern[1], input, line);
            pattern += 2;
        }
    }
}

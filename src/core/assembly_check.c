#include "assembly_check.h"

#include "text.h"
#include "tongue.h"

#include <math.h>
#include <string.h>

static const char *const words[ASSEMBLY_VALUE_COUNT] = {
#define X(name, text) text,
    ASSEMBLY_VALUES(X)
#undef X
};
static const char *const methods[LENGTH_METHOD_COUNT] = {"", "rules", "ruler"};

const char *assembly_value_words(enum assembly_value value) {
    return _(words[value]);
}

const char *assembly_value_text(enum assembly_value value) {
    return words[value];
}

bool assembly_value_from_text(const char *text, enum assembly_value *ret) {
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        if (strcmp(words[i], text) == 0) {
            *ret = (enum assembly_value)i;
            return true;
        }
    }
    return false;
}

const char *length_method_text(enum length_method method) {
    return methods[method];
}

bool length_method_from_text(const char *text, enum length_method *ret) {
    for (int i = 0; i < LENGTH_METHOD_COUNT; i++) {
        if (strcmp(methods[i], text) == 0) {
            *ret = (enum length_method)i;
            return true;
        }
    }
    return false;
}

struct final_values final_values_none(void) {
    return (struct final_values){.length = LENGTH_UNKNOWN,
                                 .frequency = FREQUENCY_UNKNOWN,
                                 .loft = LENGTH_UNKNOWN,
                                 .lie = LENGTH_UNKNOWN};
}

static bool read_value(enum assembly_value value, const char *text, enum length_unit unit,
                       struct final_values *values) {
    length_nm length;
    double inch_ounces;
    switch (value) {
    case ASSEMBLY_LENGTH:
        if (length_parse(text, unit, &length, NULL) != LENGTH_OK || !entry_final_length(length)) {
            return false;
        }
        values->length = length;
        return true;
    case ASSEMBLY_SWINGWEIGHT:
        if (strlen(text) >= sizeof values->swingweight ||
            balance_scale_parse(text, &inch_ounces) != BALANCE_SCALE_OK) {
            return false;
        }
        memset(values->swingweight, 0, sizeof values->swingweight);
        strcpy(values->swingweight, text);
        return true;
    case ASSEMBLY_FREQUENCY:
        return entry_frequency(text, &values->frequency);
    case ASSEMBLY_LOFT:
        return entry_angle(ENTRY_FINAL_LOFT, text, &values->loft);
    case ASSEMBLY_LIE:
        return entry_angle(ENTRY_FINAL_LIE, text, &values->lie);
    case ASSEMBLY_VALUE_COUNT:
        break;
    }
    return false;
}

bool final_values_read(enum assembly_value value, const char *text, enum length_unit unit,
                       struct final_values *values) {
    if (!read_value(value, text, unit, values)) {
        return false;
    }
    values->seq[value] = 0;
    values->accepted[value] = 0;
    return true;
}

static int64_t points(double inch_ounces) {
    return (int64_t)llround((inch_ounces - BALANCE_A0) / BALANCE_POINT * 10);
}

static int64_t points_of(const char *text) {
    double inch_ounces;
    return balance_scale_parse(text, &inch_ounces) == BALANCE_SCALE_OK ? points(inch_ounces)
                                                                       : ASSEMBLY_UNKNOWN;
}

static int64_t angle(int64_t ordered, int64_t model) {
    return ordered != LENGTH_UNKNOWN ? ordered : model;
}

void assembly_planned(const struct club *club, const struct bench_rules *rules,
                      const struct assembly *assembly, struct assembly_values *ret_planned) {
    int64_t *value = ret_planned->value;
    struct plan_input input;
    struct plan plan;
    struct estimate estimate;
    club_plan(club, rules, &input, &plan);
    estimate_make(club, &plan, assembly, &estimate);
    value[ASSEMBLY_LENGTH] = club->order.playing_length;
    value[ASSEMBLY_SWINGWEIGHT] = points_of(club->order.swingweight);
    if (value[ASSEMBLY_SWINGWEIGHT] == ASSEMBLY_UNKNOWN &&
        estimate.swingweight.gap == ESTIMATE_GAP_NONE) {
        value[ASSEMBLY_SWINGWEIGHT] = points(estimate.swingweight.value);
    }
    value[ASSEMBLY_FREQUENCY] = estimate.frequency.gap == ESTIMATE_GAP_NONE
                                    ? (int64_t)llround(estimate.frequency.value * 10)
                                    : ASSEMBLY_UNKNOWN;
    value[ASSEMBLY_LOFT] = angle(club->order.loft, club->head.loft);
    value[ASSEMBLY_LIE] = angle(club->order.lie, club->head.lie);
}

void assembly_measured(const struct final_values *values, struct assembly_values *ret_measured) {
    *ret_measured =
        (struct assembly_values){{[ASSEMBLY_LENGTH] = values->length,
                                  [ASSEMBLY_SWINGWEIGHT] = points_of(values->swingweight),
                                  [ASSEMBLY_FREQUENCY] = values->frequency,
                                  [ASSEMBLY_LOFT] = values->loft,
                                  [ASSEMBLY_LIE] = values->lie}};
}

unsigned assembly_accepted(const struct final_values *values) {
    unsigned accepted = 0;
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        accepted |= values->accepted[i] != 0 ? 1u << i : 0;
    }
    return accepted;
}

void assembly_check(const struct assembly_values *planned, const struct assembly_values *measured,
                    unsigned accepted, const struct assembly_tolerance *tolerance,
                    struct assembly_check *ret_check) {
    struct assembly_check check = {.done = true};
    for (int i = 0; i < ASSEMBLY_VALUE_COUNT; i++) {
        int64_t is = measured->value[i];
        int64_t wanted = planned->value[i];
        check.wanted[i] = (tolerance->wanted & 1u << i) != 0;
        if (is == ASSEMBLY_UNKNOWN) {
            check.state[i] = ASSEMBLY_MISSING;
        } else if (wanted == ASSEMBLY_UNKNOWN) {
            check.state[i] = ASSEMBLY_TAKEN;
        } else {
            check.off[i] = is - wanted;
            check.state[i] = check.off[i] > tolerance->off[i] || -check.off[i] > tolerance->off[i]
                                 ? ASSEMBLY_OUT
                                 : ASSEMBLY_IN;
        }
        check.accepted[i] = check.state[i] == ASSEMBLY_OUT && (accepted & 1u << i) != 0;
        bool lacks = check.state[i] == ASSEMBLY_MISSING ||
                     (check.state[i] == ASSEMBLY_OUT && !check.accepted[i]);
        check.done = check.done && !(check.wanted[i] && lacks);
    }
    *ret_check = check;
}

// --- in words ------------------------------------------------------------------------------------

// Thousandths with as many decimals as needed.
static void add_thousandths(struct text *text, int64_t number, const char *unit) {
    char figure[LENGTH_TEXT_MAX];
    mass_text(number, figure);
    text_add_figure(text, figure);
    text_add(text, " ");
    text_add(text, unit);
}

static void add_length(struct text *text, length_nm length) {
    struct length_fraction split;
    char figure[LENGTH_TEXT_MAX];
    if (length_split(length, &split)) {
        length_text_fraction(length, figure);
    } else {
        length_text_inch(length, 3, figure);
    }
    text_add_figure(text, figure);
    text_add(text, " ");
    text_add(text, T_("unit", "in"));
}

void assembly_text(enum assembly_value value, int64_t number, char buffer[ASSEMBLY_TEXT_MAX]) {
    struct text text = text_open(buffer, ASSEMBLY_TEXT_MAX);
    char scale[BALANCE_SCALE_TEXT_MAX];
    if (number == ASSEMBLY_UNKNOWN) {
        text_add(&text, _("not known"));
        return;
    }
    switch (value) {
    case ASSEMBLY_LENGTH:
        add_length(&text, number);
        break;
    case ASSEMBLY_SWINGWEIGHT:
        balance_scale_text(BALANCE_A0 + BALANCE_POINT / 10 * (double)number, scale);
        text_add_figure(&text, scale);
        break;
    case ASSEMBLY_FREQUENCY:
        add_thousandths(&text, number * 100, T_("unit", "cpm"));
        break;
    case ASSEMBLY_LOFT:
    case ASSEMBLY_LIE:
    case ASSEMBLY_VALUE_COUNT:
        add_thousandths(&text, number, T_("unit", "deg"));
        break;
    }
}

void assembly_tolerance_text(enum assembly_value value, int64_t number,
                             char buffer[ASSEMBLY_TEXT_MAX]) {
    struct text text = text_open(buffer, ASSEMBLY_TEXT_MAX);
    if (value != ASSEMBLY_SWINGWEIGHT) {
        assembly_text(value, number, buffer);
        return;
    }
    add_thousandths(&text, number * 100, tongue_plural("point", "points", number == 10 ? 1 : 2));
}

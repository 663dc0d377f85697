// One line of a scale, read from left to right.

#include "scale.h"

#include <string.h>

#define DIGITS_MAX 8
#define LIMIT ((mass_mg)1000 * 1000 * MASS_GRAM)

static const char no_text[] = "The scale sent bytes that are no text. Set the same speed and "
                              "format in it and in the settings.";
static const char no_form[] = "The line is no weight as the bench reads it. Set the scale to send "
                              "its reading continuously as plain text.";
static const char no_unit[] = "The unit is none of g, kg, oz and lb.";
static const char too_fine[] = "The weight has more digits than a milligram holds.";
static const char too_much[] = "The weight has too many digits, or is beyond 1000 kg.";
static const char twice[] = "The line says twice whether it is stable, or gross or net.";

// A unit in milligrams is worth / 10^decimals.
static const struct {
    const char *name;
    enum scale_unit unit;
} units[] = {
    {"g", SCALE_GRAM},   {"kg", SCALE_KILOGRAM}, {"KG", SCALE_KILOGRAM}, {"oz", SCALE_OUNCE},
    {"OZ", SCALE_OUNCE}, {"lb", SCALE_POUND},    {"LB", SCALE_POUND},
};
static const struct {
    int64_t worth;
    int decimals;
    bool exact;
} scales[] = {
    [SCALE_GRAM] = {1000, 0, true},
    [SCALE_KILOGRAM] = {1000000, 0, true},
    [SCALE_OUNCE] = {28349523125, 6, false},
    [SCALE_POUND] = {45359237, 2, false},
};

struct line {
    const char *at;
    const char *end;
    struct scale_reading *reading;
    bool said; // stable or not
};

static void skip_blanks(struct line *l) {
    while (l->at < l->end && *l->at == ' ') {
        l->at++;
    }
}

static bool letter(char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}

// Takes exactly this word, with the blanks behind it.
static bool word(struct line *l, const char *text) {
    size_t size = strlen(text);
    if ((size_t)(l->end - l->at) < size || memcmp(l->at, text, size) != 0 ||
        (l->at + size < l->end && letter(l->at[size]) && letter(text[size - 1]))) {
        return false;
    }
    l->at += size;
    skip_blanks(l);
    return true;
}

static bool refuse(struct line *l, const char *why) {
    l->reading->why = why;
    return false;
}

static bool say_stable(struct line *l, bool stable) {
    if (l->said) {
        return refuse(l, twice);
    }
    l->said = true;
    l->reading->stable = stable;
    return true;
}

static bool say_load(struct line *l, enum scale_load load) {
    if (l->reading->load != SCALE_LOAD_UNSAID) {
        return refuse(l, twice);
    }
    l->reading->load = load;
    return true;
}

static void comma(struct line *l) {
    if (l->at < l->end && *l->at == ',') {
        l->at++;
        skip_blanks(l);
    }
}

// What follows an OL is not read, but must not be a part of it.
static bool over(struct line *l) {
    struct line before = *l;
    if (!word(l, "+")) {
        word(l, "-");
    }
    if (word(l, "OL") && (l->at == l->end || l->at[-1] == ' ' || *l->at == ',')) {
        return true;
    }
    *l = before;
    return false;
}

// False: refused. *ret_over: there is no weight behind it.
static bool front_stable(struct line *l, bool *ret_over) {
    if (word(l, "ST")) {
        say_stable(l, true);
    } else if (word(l, "US")) {
        say_stable(l, false);
    } else if (word(l, "S")) {
        if (word(l, "S")) {
            say_stable(l, true);
        } else if (word(l, "D")) {
            say_stable(l, false);
        } else if ((word(l, "+") || word(l, "-")) && l->at == l->end) {
            *ret_over = true;
        } else {
            return refuse(l, no_form);
        }
    } else {
        return true;
    }
    comma(l);
    return true;
}

static bool take_load(struct line *l) {
    if (word(l, "GS")) {
        return say_load(l, SCALE_GROSS);
    }
    return !word(l, "NT") || say_load(l, SCALE_NET);
}

static bool behind(struct line *l) {
    if (word(l, "ST") || word(l, "S")) {
        if (!say_stable(l, true)) {
            return false;
        }
    } else if (word(l, "US") || word(l, "?")) {
        if (!say_stable(l, false)) {
            return false;
        }
    }
    return take_load(l) && (l->at == l->end || refuse(l, no_form));
}

struct number {
    int64_t value; // of all digits
    int decimals;
};

static bool read_number(struct line *l, struct number *ret) {
    int digits = 0;
    bool any = false;
    bool point = false;
    *ret = (struct number){0};
    for (; l->at < l->end && ((*l->at >= '0' && *l->at <= '9') || *l->at == '.'); l->at++) {
        if (*l->at == '.') {
            if (point) {
                return refuse(l, no_form);
            }
            point = true;
            continue;
        }
        any = true;
        digits += digits > 0 || *l->at != '0';
        ret->decimals += point;
        if (digits > DIGITS_MAX || ret->decimals > DIGITS_MAX) {
            return refuse(l, too_much);
        }
        ret->value = 10 * ret->value + (*l->at - '0');
    }
    skip_blanks(l);
    return any || refuse(l, no_form);
}

static bool read_unit(struct line *l, enum scale_unit *unit) {
    bool kept = l->at == l->end || !letter(*l->at);
    for (size_t i = 0; i < sizeof units / sizeof units[0] && !kept; i++) {
        if (word(l, units[i].name)) {
            *unit = units[i].unit;
            return true;
        }
    }
    // A word of the end in its place: the scale sends no unit.
    struct line after = *l;
    kept = kept || word(&after, "ST") || word(&after, "S") || word(&after, "US") ||
           word(&after, "GS") || word(&after, "NT");
    return kept || refuse(l, no_unit);
}

static bool weigh(struct line *l, const struct number *number, enum scale_unit unit, bool negative,
                  mass_mg *ret_mass) {
    int64_t worth = number->value * scales[unit].worth; // below 3e18
    int64_t part = 1;
    int64_t rest;
    for (int i = 0; i < number->decimals + scales[unit].decimals; i++) {
        part *= 10;
    }
    rest = worth % part;
    if (rest != 0 && scales[unit].exact) {
        return refuse(l, too_fine);
    }
    worth = worth / part + (rest >= part - rest);
    if (worth > LIMIT) {
        return refuse(l, too_much);
    }
    *ret_mass = negative ? -worth : worth;
    return true;
}

static bool read_weight(struct line *l, enum scale_unit unit) {
    struct number number;
    mass_mg mass;
    bool negative = word(l, "-");
    if (!negative) {
        word(l, "+");
    }
    if (!read_number(l, &number) || !read_unit(l, &unit) || !behind(l) ||
        !weigh(l, &number, unit, negative, &mass)) {
        return false;
    }
    l->reading->kind = SCALE_WEIGHT;
    l->reading->mass = mass;
    return true;
}

static bool read_over(struct line *l) {
    l->reading->kind = SCALE_OVER;
    l->reading->stable = false;
    return true;
}

static bool read_line(struct line *l, enum scale_unit unit) {
    bool beyond = false;
    skip_blanks(l);
    if (over(l)) {
        return read_over(l);
    }
    if (!front_stable(l, &beyond) || !take_load(l)) {
        return false;
    }
    if (beyond) {
        return read_over(l);
    }
    if (l->reading->load != SCALE_LOAD_UNSAID) {
        comma(l);
    }
    return over(l) ? read_over(l) : read_weight(l, unit);
}

// The line as a person can look at it. False: it is no text.
static bool show(const char *line, size_t size, char ret_line[SCALE_LINE_MAX + 1]) {
    bool text = true;
    size_t shown = size < SCALE_LINE_MAX ? size : SCALE_LINE_MAX;
    for (size_t i = 0; i < shown; i++) {
        bool printable = line[i] >= ' ' && line[i] <= '~';
        ret_line[i] = printable ? line[i] : '?';
        text = text && printable;
    }
    ret_line[shown] = '\0';
    return text;
}

void scale_line(const char *line, size_t size, enum scale_unit unit,
                struct scale_reading *ret_reading, bool *ret_said) {
    struct line l = {.at = line, .end = line + size, .reading = ret_reading};
    *ret_reading = (struct scale_reading){.kind = SCALE_REFUSED, .mass = MASS_UNKNOWN};
    if (!show(line, size, ret_reading->line)) {
        refuse(&l, no_text);
    } else if (size > SCALE_LINE_MAX) {
        refuse(&l, no_form);
    } else if (!read_line(&l, unit)) {
        ret_reading->stable = false;
        ret_reading->load = SCALE_LOAD_UNSAID;
    }
    if (ret_said != NULL) {
        *ret_said = l.said && ret_reading->kind != SCALE_REFUSED;
    }
}

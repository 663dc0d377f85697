#include "length.h"
#include "text.h"

#include <string.h>

length_nm length_round(length_nm value, length_nm step, enum length_tie tie) {
    length_nm rest = value % step;
    length_nm below = value - rest;
    bool up = rest > step - rest || (rest == step - rest && tie == LENGTH_TIE_UP);
    return up ? below + step : below;
}

static uint64_t magnitude(int64_t value) {
    return value < 0 ? -(uint64_t)value : (uint64_t)value;
}

bool length_split(length_nm value, struct length_fraction *ret_fraction) {
    uint64_t size = magnitude(value);
    struct length_fraction fraction = {.negative = value < 0, .denominator = 64};
    if (value == LENGTH_UNKNOWN || value % LENGTH_64TH != 0) {
        return false;
    }
    fraction.whole = (int64_t)(size / (uint64_t)LENGTH_INCH);
    fraction.numerator = (int)(size % (uint64_t)LENGTH_INCH / (uint64_t)LENGTH_64TH);
    while (fraction.numerator % 2 == 0 && fraction.denominator > 1) {
        fraction.numerator /= 2;
        fraction.denominator /= 2;
    }
    *ret_fraction = fraction;
    return true;
}

// `value` in units of `unit` with exactly `decimals` digits, half away from zero.
static void add_decimal(struct text *text, int64_t value, uint64_t unit, int decimals) {
    uint64_t scale = 1;
    for (int i = 0; i < decimals; i++) {
        scale *= 10;
    }
    uint64_t whole = magnitude(value) / unit;
    uint64_t part = (magnitude(value) % unit * scale * 2 + unit) / (2 * unit);
    if (part == scale) {
        whole++;
        part = 0;
    }
    if (value < 0 && (whole > 0 || part > 0)) {
        text_add(text, "-");
    }
    text_add_number(text, (int64_t)whole);
    if (decimals > 0) {
        text_add(text, ".");
    }
    for (int i = 0; i < decimals; i++) {
        scale /= 10;
        text_add_number(text, (int64_t)(part / scale % 10));
    }
}

static void drop_zeros(char *buffer) {
    size_t size = strlen(buffer);
    if (strchr(buffer, '.') == NULL) {
        return;
    }
    while (buffer[size - 1] == '0') {
        size--;
    }
    if (buffer[size - 1] == '.') {
        size--;
    }
    buffer[size] = '\0';
}

static bool open_known(int64_t value, char *buffer, struct text *ret_text) {
    *ret_text = text_open(buffer, LENGTH_TEXT_MAX);
    if (value == LENGTH_UNKNOWN) {
        text_add(ret_text, "not known");
        return false;
    }
    return true;
}

void length_text_fraction(length_nm value, char buffer[LENGTH_TEXT_MAX]) {
    struct text text;
    struct length_fraction fraction;
    if (!length_split(value, &fraction)) {
        length_text_inch(value, 4, buffer);
        return;
    }
    text = text_open(buffer, LENGTH_TEXT_MAX);
    if (fraction.negative) {
        text_add(&text, "-");
    }
    if (fraction.whole > 0 || fraction.numerator == 0) {
        text_add_number(&text, fraction.whole);
    }
    if (fraction.numerator > 0) {
        text_add(&text, fraction.whole > 0 ? " " : "");
        text_add_number(&text, fraction.numerator);
        text_add(&text, "/");
        text_add_number(&text, fraction.denominator);
    }
}

void length_text_inch(length_nm value, int decimals, char buffer[LENGTH_TEXT_MAX]) {
    struct text text;
    if (open_known(value, buffer, &text)) {
        add_decimal(&text, value, (uint64_t)LENGTH_INCH, decimals);
    }
}

void length_text_exact(length_nm value, char buffer[LENGTH_TEXT_MAX]) {
    length_text_inch(value, 9, buffer);
    drop_zeros(buffer);
}

void length_text_short(length_nm value, char buffer[LENGTH_TEXT_MAX]) {
    struct length_fraction split;
    if (length_split(value, &split)) {
        length_text_fraction(value, buffer);
    } else {
        length_text_exact(value, buffer);
    }
}

void length_text_mm(length_nm value, int decimals, char buffer[LENGTH_TEXT_MAX]) {
    struct text text;
    if (open_known(value, buffer, &text)) {
        add_decimal(&text, value, (uint64_t)LENGTH_MM, decimals);
    }
}

#define MASS_LIMIT (5000 * MASS_GRAM)

bool mass_parse(const char *text, mass_mg *ret_mass) {
    mass_mg mass = 0;
    mass_mg place = MASS_GRAM;
    bool digits = false;
    text += strspn(text, " \t");
    for (; *text >= '0' && *text <= '9'; text++, digits = true) {
        mass = mass * 10 + (*text - '0') * MASS_GRAM;
        if (mass > MASS_LIMIT) {
            return false;
        }
    }
    if (digits && (*text == '.' || *text == ',')) {
        digits = false;
        for (text++; *text >= '0' && *text <= '9'; text++, digits = true) {
            place /= 10;
            mass += (*text - '0') * place;
            if (place == 0) {
                return false;
            }
        }
    }
    text += strspn(text, " \t");
    if (!digits || *text != '\0' || mass > MASS_LIMIT) {
        return false;
    }
    *ret_mass = mass;
    return true;
}

void mass_text(mass_mg mass, char buffer[LENGTH_TEXT_MAX]) {
    struct text text;
    if (open_known(mass, buffer, &text)) {
        add_decimal(&text, mass, (uint64_t)MASS_GRAM, 3);
        drop_zeros(buffer);
    }
}

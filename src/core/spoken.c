#include "spoken.h"
#include "text.h"

#include <stdlib.h>
#include <string.h>

static const char *const ones[] = {"zero",    "one",     "two",       "three",    "four",
                                   "five",    "six",     "seven",     "eight",    "nine",
                                   "ten",     "eleven",  "twelve",    "thirteen", "fourteen",
                                   "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"};
static const char *const tens[] = {"",      "",      "twenty",  "thirty", "forty",
                                   "fifty", "sixty", "seventy", "eighty", "ninety"};

static void say_number(struct text *out, long n) {
    if (n >= 1000) {
        text_add_number(out, n); // no length at a saw
        return;
    }
    if (n >= 100) {
        text_add(out, ones[n / 100]);
        text_add(out, " hundred");
        text_add(out, n % 100 != 0 ? " and " : "");
        n %= 100;
        if (n == 0) {
            return;
        }
    }
    if (n < 20) {
        text_add(out, ones[n]);
        return;
    }
    text_add(out, tens[n / 10]);
    if (n % 10 != 0) {
        text_add(out, "-");
        text_add(out, ones[n % 10]);
    }
}

// "five eighths"; NULL: no fraction a ruler has.
static const char *part_name(long denominator, bool one) {
    switch (denominator) {
    case 2:
        return one ? "half" : "halves";
    case 4:
        return one ? "quarter" : "quarters";
    case 8:
        return one ? "eighth" : "eighths";
    case 16:
        return one ? "sixteenth" : "sixteenths";
    case 32:
        return one ? "thirty-second" : "thirty-seconds";
    case 64:
        return one ? "sixty-fourth" : "sixty-fourths";
    default:
        return NULL;
    }
}

// A length as it stands in a text.
struct found {
    const char *end;
    bool whole_known;
    long whole;
    const char *decimals; // of the whole, `digits` of them
    size_t digits;
    long numerator; // 0: no fraction
    long denominator;
    const char *unit; // "inch" or "millimetre", NULL: none
};

static size_t count_digits(const char *at) {
    return strspn(at, "0123456789");
}

// `5/8`, and no more digits or letters behind it.
static const char *read_fraction(const char *at, struct found *found) {
    char *end;
    size_t above = count_digits(at);
    if (above == 0 || above > 2 || at[above] != '/') {
        return NULL;
    }
    size_t below = count_digits(at + above + 1);
    if (below == 0 || below > 2) {
        return NULL;
    }
    found->numerator = strtol(at, &end, 10);
    found->denominator = strtol(end + 1, &end, 10);
    if (part_name(found->denominator, false) == NULL || found->numerator <= 0 ||
        found->numerator >= found->denominator) {
        found->numerator = 0;
        return NULL;
    }
    return end;
}

static bool ends_word(const char *at) {
    return !((*at >= 'a' && *at <= 'z') || (*at >= 'A' && *at <= 'Z') ||
             (*at >= '0' && *at <= '9') || *at == '-' || *at == '/');
}

static void read_unit(struct found *found) {
    const char *at = found->end + strspn(found->end, " ");
    if (strncmp(at, "in", 2) == 0 && ends_word(at + 2)) {
        found->unit = "inch";
    } else if (strncmp(at, "mm", 2) == 0 && ends_word(at + 2)) {
        found->unit = "millimetre";
    } else {
        return;
    }
    found->end = at + 2;
}

static bool read(const char *at, struct found *found) {
    const char *end = read_fraction(at, found);
    if (end == NULL) {
        size_t whole = count_digits(at);
        if (whole == 0 || whole > 4) {
            return false;
        }
        found->whole_known = true;
        found->whole = strtol(at, NULL, 10);
        end = at + whole;
        if (*end == '.' && count_digits(end + 1) > 0) {
            found->decimals = end + 1;
            found->digits = count_digits(end + 1);
            end += 1 + found->digits;
        } else if (*end == ' ' && (at = read_fraction(end + 1, found)) != NULL) {
            end = at;
        }
    }
    found->end = end;
    read_unit(found);
    return ends_word(found->end) && (found->numerator > 0 || found->unit != NULL);
}

static void say_fraction(struct text *out, const struct found *found) {
    bool half = found->numerator == 1 && found->denominator == 2;
    if (found->whole_known) {
        text_add(out, " and ");
    }
    if (half) {
        text_add(out, found->whole_known ? "a half" : "half");
        return;
    }
    say_number(out, found->numerator);
    text_add(out, " ");
    text_add(out, part_name(found->denominator, found->numerator == 1));
}

static void say_unit(struct text *out, const struct found *found) {
    bool half = found->numerator == 1 && found->denominator == 2;
    bool one = found->whole_known && found->whole == 1 && found->digits == 0;
    if (found->unit == NULL) {
        return;
    }
    if (!found->whole_known) {
        text_add(out, half ? " an " : " of an ");
        text_add(out, found->unit);
        return;
    }
    text_add(out, " ");
    text_add(out, found->unit);
    if (one && found->numerator == 0) {
        return;
    }
    text_add(out, strcmp(found->unit, "inch") == 0 ? "es" : "s");
}

static void say(struct text *out, const struct found *found) {
    if (found->whole_known) {
        say_number(out, found->whole);
    }
    if (found->digits > 0) {
        text_add(out, " point");
        for (size_t i = 0; i < found->digits; i++) {
            text_add(out, " ");
            text_add(out, ones[found->decimals[i] - '0']);
        }
    }
    if (found->numerator > 0) {
        say_fraction(out, found);
    }
    say_unit(out, found);
}

void spoken_text(const char *text, char *buffer, size_t size) {
    struct text out = text_open(buffer, size);
    bool begins = true;
    while (*text != '\0') {
        struct found found = {0};
        if (begins && read(text, &found)) {
            say(&out, &found);
            text = found.end;
            begins = false;
        } else {
            const char one[2] = {*text, '\0'};
            text_add(&out, one);
            begins = ends_word(text) && *text != '.';
            text++;
        }
    }
}

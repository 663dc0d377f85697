// Reading lengths as people write them. A cursor walks the text once; whatever it cannot read is
// reported with its place, so that the message can point at it.

#include "length.h"
#include "text.h"
#include "tongue.h"

#include <string.h>

struct cursor {
    const char *text;
    size_t at;
    struct length_error error;
};

// A number as it stands there, before its unit is known.
struct number {
    size_t start;
    size_t end;
    int64_t whole;
    bool fraction;
    int64_t numerator;
    int64_t denominator;
    int64_t decimals;  // scaled to nine digits
    int decimal_count; // without trailing zeros
};

#define COUNT_MAX ((int64_t)1000000000) // larger numbers stop growing: refused anyway
#define DECIMALS_INCH 9
#define DECIMALS_MM 6

static const struct {
    const char *text;
    int numerator;
    int denominator;
} vulgar[] = {
    {"\u00BD", 1, 2}, {"\u00BC", 1, 4}, {"\u00BE", 3, 4}, {"\u215B", 1, 8},
    {"\u215C", 3, 8}, {"\u215D", 5, 8}, {"\u215E", 7, 8}, // those a ruler has
    {"\u2150", 0, 0}, {"\u2151", 0, 0}, {"\u2152", 0, 0}, {"\u2153", 0, 0},
    {"\u2154", 0, 0}, {"\u2155", 0, 0}, {"\u2156", 0, 0}, {"\u2157", 0, 0},
    {"\u2158", 0, 0}, {"\u2159", 0, 0}, {"\u215A", 0, 0},
};

static bool fail(struct cursor *cursor, enum length_error_code code, size_t offset, size_t end) {
    cursor->error = (struct length_error){.code = code, .offset = offset, .size = end - offset};
    return false;
}

static bool fail_char(struct cursor *cursor) {
    const char *here = cursor->text + cursor->at;
    size_t size = text_utf8_size(here, strlen(here));
    if (*here == '\0') {
        return fail(cursor, LENGTH_BAD_CHAR, 0, cursor->at); // stops too early: all of it
    }
    return fail(cursor, LENGTH_BAD_CHAR, cursor->at, cursor->at + (size > 0 ? size : 1));
}

static bool take(struct cursor *cursor, const char *word) {
    size_t size = strlen(word);
    if (strncmp(cursor->text + cursor->at, word, size) != 0) {
        return false;
    }
    cursor->at += size;
    return true;
}

// Blanks, with those that spreadsheets and phones put between a number and its unit.
static bool take_blanks(struct cursor *cursor) {
    bool any = false;
    while (take(cursor, " ") || take(cursor, "\t") || take(cursor, "\u00A0") ||
           take(cursor, "\u2009") || take(cursor, "\u202F")) {
        any = true;
    }
    return any;
}

static bool digit_here(const struct cursor *cursor) {
    return cursor->text[cursor->at] >= '0' && cursor->text[cursor->at] <= '9';
}

static int64_t take_count(struct cursor *cursor) {
    int64_t count = 0;
    for (; digit_here(cursor); cursor->at++) {
        if (count < COUNT_MAX) {
            count = count * 10 + (cursor->text[cursor->at] - '0');
        }
    }
    return count;
}

static bool take_slash(struct cursor *cursor) {
    return take(cursor, "/") || take(cursor, "\u2044");
}

// The denominator, after the slash of a fraction that began at `start`.
static bool take_denominator(struct cursor *cursor, size_t start, int64_t numerator,
                             struct number *number) {
    int64_t denominator = take_count(cursor);
    bool on_ruler = denominator == 2 || denominator == 4 || denominator == 8 || denominator == 16 ||
                    denominator == 32 || denominator == 64;
    if (!on_ruler || numerator >= denominator) {
        return fail(cursor, LENGTH_BAD_FRACTION, start, cursor->at);
    }
    number->fraction = true;
    number->numerator = numerator;
    number->denominator = denominator;
    return true;
}

// True when one stands here and was taken, good or bad (then the error is set).
static bool take_vulgar(struct cursor *cursor, struct number *number) {
    size_t start = cursor->at;
    for (size_t i = 0; i < sizeof vulgar / sizeof vulgar[0]; i++) {
        if (take(cursor, vulgar[i].text)) {
            number->fraction = true;
            number->numerator = vulgar[i].numerator;
            number->denominator = vulgar[i].denominator;
            if (vulgar[i].denominator == 0) {
                fail(cursor, LENGTH_BAD_FRACTION, start, cursor->at);
            }
            return true;
        }
    }
    return false;
}

// As either half of the world writes it. A text with both has none: thousands are not written here.
static bool take_point(struct cursor *cursor) {
    return take(cursor, ".") || take(cursor, ",");
}

static bool take_decimals(struct cursor *cursor, struct number *number) {
    int64_t scale = 100000000;
    int count = 0;
    if (!digit_here(cursor)) {
        return fail_char(cursor);
    }
    for (; digit_here(cursor); cursor->at++) {
        count += count < 1000 ? 1 : 0;
        if (cursor->text[cursor->at] != '0') {
            number->decimal_count = count;
        }
        number->decimals += (cursor->text[cursor->at] - '0') * scale;
        scale /= 10;
    }
    return true;
}

// What follows a whole number: a fraction apart from it, or nothing.
static bool take_mixed(struct cursor *cursor, struct number *number) {
    size_t before = cursor->at;
    bool hyphen = take(cursor, "-") || take(cursor, "\u2013");
    bool blanks = !hyphen && take_blanks(cursor);
    size_t start = cursor->at;
    if (take_vulgar(cursor, number)) {
        return cursor->error.code == LENGTH_OK;
    }
    if ((hyphen || blanks) && digit_here(cursor)) {
        int64_t numerator = take_count(cursor);
        if (!take_slash(cursor)) {
            return fail(cursor, LENGTH_BAD_CHAR, start, cursor->at);
        }
        return take_denominator(cursor, start, numerator, number);
    }
    cursor->at = before;
    return true;
}

static bool take_number(struct cursor *cursor, struct number *number) {
    bool read;
    number->start = cursor->at;
    if (take_vulgar(cursor, number)) {
        read = cursor->error.code == LENGTH_OK;
    } else if (take_point(cursor)) {
        read = take_decimals(cursor, number);
    } else if (!digit_here(cursor)) {
        read = fail_char(cursor);
    } else {
        number->whole = take_count(cursor);
        if (take_slash(cursor)) {
            int64_t numerator = number->whole;
            number->whole = 0;
            read = take_denominator(cursor, number->start, numerator, number);
        } else if (take_point(cursor)) {
            read = take_decimals(cursor, number);
        } else {
            read = take_mixed(cursor, number);
        }
    }
    number->end = cursor->at;
    return read;
}

static bool letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

// Unit and blanks up to the end of the text. *unit stays when there is none.
static bool take_unit(struct cursor *cursor, const struct number *number, enum length_unit *unit) {
    size_t start;
    take_blanks(cursor);
    start = cursor->at;
    while (letter(cursor->text[cursor->at])) {
        cursor->at++;
    }
    if (cursor->at == start && !take(cursor, "\"") && !take(cursor, "\u2033") &&
        !take(cursor, "\u201D") && (take(cursor, "'") || take(cursor, "\u2032"))) {
        return fail(cursor, LENGTH_BAD_UNIT, start, cursor->at);
    }
    if (cursor->at > start) {
        size_t size = cursor->at - start;
        const char *word = cursor->text + start;
        bool millimetre =
            size == 2 && (word[0] == 'm' || word[0] == 'M') && (word[1] == 'm' || word[1] == 'M');
        bool inch =
            size == 2 && (word[0] == 'i' || word[0] == 'I') && (word[1] == 'n' || word[1] == 'N');
        if ((letter(word[0]) && !inch && !millimetre) || (millimetre && number->fraction)) {
            return fail(cursor, LENGTH_BAD_UNIT, start, cursor->at);
        }
        *unit = millimetre ? LENGTH_UNIT_MM : LENGTH_UNIT_INCH;
        take_blanks(cursor);
        if (letter(cursor->text[cursor->at]) || cursor->text[cursor->at] == '"') {
            return fail(cursor, LENGTH_BAD_UNIT, start, strlen(cursor->text));
        }
    } else if (number->fraction && *unit == LENGTH_UNIT_MM) {
        return fail(cursor, LENGTH_BAD_UNIT, number->start, number->end);
    }
    return cursor->text[cursor->at] == '\0' || fail_char(cursor);
}

static bool to_length(struct cursor *cursor, const struct number *number, enum length_unit unit,
                      length_nm *ret_length) {
    int64_t billion = 1000000000;
    length_nm one = unit == LENGTH_UNIT_MM ? LENGTH_MM : LENGTH_INCH;
    length_nm length;
    if (number->decimal_count > (unit == LENGTH_UNIT_MM ? DECIMALS_MM : DECIMALS_INCH)) {
        return fail(cursor, LENGTH_TOO_FINE, number->start, number->end);
    }
    if (number->whole > LENGTH_LIMIT / one) {
        return fail(cursor, LENGTH_TOO_LARGE, number->start, number->end);
    }
    length = number->whole * one + (number->decimals * one * 2 + billion) / (2 * billion);
    if (number->fraction) {
        length += LENGTH_INCH / number->denominator * number->numerator;
    }
    if (length > LENGTH_LIMIT) {
        return fail(cursor, LENGTH_TOO_LARGE, number->start, number->end);
    }
    *ret_length = length;
    return true;
}

enum length_error_code length_parse(const char *text, enum length_unit unit, length_nm *ret_length,
                                    struct length_error *ret_error) {
    struct cursor cursor = {.text = text};
    struct number number = {0};
    length_nm length = 0;
    bool negative = false;
    take_blanks(&cursor);
    if (text[cursor.at] == '\0') {
        fail(&cursor, LENGTH_EMPTY, 0, 0);
    } else {
        negative = take(&cursor, "-") || take(&cursor, "\u2212");
        if (!negative) {
            take(&cursor, "+");
        }
        if (take_number(&cursor, &number) && take_unit(&cursor, &number, &unit) &&
            to_length(&cursor, &number, unit, &length)) {
            *ret_length = negative ? -length : length;
            return LENGTH_OK;
        }
    }
    if (ret_error != NULL) {
        *ret_error = cursor.error;
    }
    return cursor.error.code;
}

// TRANSLATORS: %1 what was typed, in quotes; %2 the part of it that is wrong.
static const char *advice(enum length_error_code code) {
    switch (code) {
    case LENGTH_BAD_FRACTION:
        return N_(
            "%1: %2 is not a fraction a ruler has. Use halves, 4ths, 8ths, 16ths, 32nds or 64ths.");
    case LENGTH_BAD_UNIT:
        return N_("%1: %2 leaves the unit unclear. Write in or mm; fractions go with in only.");
    case LENGTH_TOO_FINE:
        return N_("%1: %2 has more decimals than can be kept exactly. Use at most nine for in, six "
                  "for mm.");
    case LENGTH_TOO_LARGE:
        return N_("%1: %2 is beyond 1000 in. Check the number.");
    case LENGTH_BAD_CHAR:
        return N_("%1: %2 does not belong in a length. Write 2 5/8, 2.625 or 66.7 mm.");
    case LENGTH_EMPTY:
        return N_("No length given. Write one, as 2 5/8, 2.625 or 66.7 mm.");
    case LENGTH_OK:
        break;
    }
    return "";
}

void length_error_text(const char *text, const struct length_error *error, char *buffer,
                       size_t size) {
    struct text out = text_open(buffer, size);
    char part[64];
    char whole_words[96];
    char wrong_words[96];
    struct text whole = text_open(whole_words, sizeof whole_words);
    struct text wrong = text_open(wrong_words, sizeof wrong_words);
    size_t count = error->size < sizeof part - 1 ? error->size : sizeof part - 1;
    memcpy(part, text + error->offset, count);
    part[count] = '\0';
    text_add_quoted(&whole, text);
    text_add_quoted(&wrong, part);
    text_say(&out, _(advice(error->code)), whole_words, wrong_words);
}

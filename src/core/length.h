#ifndef LENGTH_H
#define LENGTH_H

// Exact lengths and masses.
//
// A length is a signed 64-bit count of nanometres. 1 in = 25.4 mm exactly (international yard,
// 1 July 1959), so 1/64 in = 396 875 nm, 0.001 in = 25 400 nm and 0.1 mm = 100 000 nm are whole
// numbers: nothing is rounded before it is displayed. A mass is a count of milligrams.
// Pure functions: no allocation, no locale, no globals. Any thread.

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef int64_t length_nm;
typedef int64_t mass_mg;

#define LENGTH_INCH ((length_nm)25400000)
#define LENGTH_MM ((length_nm)1000000)
#define LENGTH_64TH ((length_nm)396875)

// "Not known": an empty cell, a part nobody has measured. Never takes part in arithmetic.
// Its text is `not known`, whatever the notation.
#define LENGTH_UNKNOWN INT64_MIN
#define MASS_UNKNOWN INT64_MIN
#define MASS_GRAM ((mass_mg)1000)

// What a person may type lies within +-1000 in; anything larger is refused by the parser.
#define LENGTH_LIMIT (1000 * LENGTH_INCH)

// Large enough for every text these functions write.
#define LENGTH_TEXT_MAX 48

enum length_unit { LENGTH_UNIT_INCH, LENGTH_UNIT_MM };

enum length_error_code {
    LENGTH_OK,
    LENGTH_EMPTY,        // nothing but blanks
    LENGTH_BAD_CHAR,     // a character that belongs to no notation
    LENGTH_BAD_FRACTION, // denominator not 2, 4, 8, 16, 32, 64, or numerator not below it
    LENGTH_BAD_UNIT,     // a unit that is neither in nor mm, or two units
    LENGTH_TOO_FINE,     // more digits than a nanometre can hold exactly
    LENGTH_TOO_LARGE     // beyond LENGTH_LIMIT
};

// Where the text went wrong: the offending part is `size` bytes at `offset`.
struct length_error {
    enum length_error_code code;
    size_t offset;
    size_t size;
};

// Reads `2 5/8`, `2-5/8`, `2 5/8"`, `2⅝`, `5/8`, `2.625`, `2.625 in`, `66.7 mm`, `66,7mm`, with
// blanks around; point and comma are the same; a sign only in front. A bare number takes `unit`.
// Decimal inches are accepted when exact in nanometres, or rounded half away from zero to a
// nanometre when they have at most nine decimals (a nanometre is far below any mark). *ret_length
// is untouched on failure; ret_error may be NULL. Returns LENGTH_OK or the error code.
enum length_error_code length_parse(const char *text, enum length_unit unit, length_nm *ret_length,
                                    struct length_error *ret_error);

// One sentence that shows the offending part: `"2 5/7": 5/7 is not a fraction a ruler has ...`.
void length_error_text(const char *text, const struct length_error *error, char *buffer,
                       size_t size);

enum length_tie { LENGTH_TIE_DOWN, LENGTH_TIE_UP };

// Nearest multiple of `step` (> 0) to `value` (>= 0); exactly between two, `tie` decides.
length_nm length_round(length_nm value, length_nm step, enum length_tie tie);

// A length as a person reads it off a ruler: whole and numerator/denominator in lowest terms.
// `numerator` is 0 when there is no fraction. Valid only when exact (see length_split).
struct length_fraction {
    bool negative;
    int64_t whole;
    int numerator;
    int denominator;
};

// True and *ret_fraction set when `value` is a whole number of 64ths of an inch.
bool length_split(length_nm value, struct length_fraction *ret_fraction);

// `2 5/8`, `-1/4`, `0`; falls back to decimal inches when `value` is no whole number of 64ths.
void length_text_fraction(length_nm value, char buffer[LENGTH_TEXT_MAX]);

// Decimal inches with exactly `decimals` (0 to 9) digits, half away from zero: `2.625`.
void length_text_inch(length_nm value, int decimals, char buffer[LENGTH_TEXT_MAX]);

// Decimal inches with as many of nine decimals as needed, no trailing zeros: `2.625`, `0`.
// Nine decimals name every nanometre, so parsing it back gives the same length.
void length_text_exact(length_nm value, char buffer[LENGTH_TEXT_MAX]);

// As a fraction where it is one (length_split), else exact: parsing either back gives the same
// length.
void length_text_short(length_nm value, char buffer[LENGTH_TEXT_MAX]);

// Millimetres with exactly `decimals` (0 to 6) digits, half away from zero: `66.7`.
void length_text_mm(length_nm value, int decimals, char buffer[LENGTH_TEXT_MAX]);

// Grams as people write them, `203`, `203.5`, `203,5`, at most three decimals, 0 to 5000 g.
// False on anything else; *ret_mass untouched then.
bool mass_parse(const char *text, mass_mg *ret_mass);

// `203`, `203.5`: grams with as many of three decimals as needed.
void mass_text(mass_mg mass, char buffer[LENGTH_TEXT_MAX]);

#endif

#ifndef TEXT_H
#define TEXT_H

// Sentences put together in a caller's buffer: always NUL-terminated, cut at a whole character
// when full, no locale, no allocation. Pure functions.

#include "length.h"

struct text {
    char *buffer;
    size_t size;
    size_t used;
    bool cut;    // something did not fit
    bool source; // English with a decimal point whatever the shop's language
};

// Empties the buffer. `size` 0 is allowed: nothing is ever written then.
struct text text_open(char *buffer, size_t size);
void text_add(struct text *text, const char *words);
void text_add_bytes(struct text *text, const char *bytes, size_t count);

// `pattern` with the arguments for %1 to %9; NULL, or one that is not given: nothing.
void text_fill(struct text *text, const char *pattern, const char *const *arguments, size_t count);
#define text_say(text, pattern, ...)                                                               \
    text_fill(text, pattern, (const char *const[]){__VA_ARGS__},                                   \
              sizeof((const char *const[]){__VA_ARGS__}) / sizeof(const char *))

void text_add_number(struct text *text, int64_t number);

// A number for text_say: `text_number(n).digits`.
struct text_number {
    char digits[24];
};
struct text_number text_number(int64_t number);

// An estimate or a measured value with 0 to 3 decimals, half away from zero: `261.5`, `-0.4`, with
// the shop's decimal point.
void text_add_decimal(struct text *text, double value, int decimals);

// Figures as the pure functions of length.h write them, with the shop's decimal point.
void text_add_figure(struct text *text, const char *figure);

// What was typed, with a decimal point, for the log.
void text_to_point(char *typed);

// `"words"` with control characters and invalid bytes shown as `?`, long words shortened.
void text_add_quoted(struct text *text, const char *words);

// A length as a fraction with its unit, `2 5/8 in`; a mass, `203.5 g`.
void text_add_length(struct text *text, length_nm length);
void text_add_mass(struct text *text, mass_mg mass);

// Bytes of the UTF-8 character at `bytes`, of which `left` are there; 0: none, or not valid.
size_t text_utf8_size(const char *bytes, size_t left);

// Both the same word: blanks around ignored, A-Z taken as a-z.
bool text_same(const char *a, const char *b);

#endif

#ifndef REWORD_H
#define REWORD_H

// Sentences that the log keeps in English, shown in the shop's language: a sentence is held against
// the English pattern that it was made of, and what stood for the pattern's placeholders is put
// into the pattern's translation. So the log does not depend on a language, and old entries are
// shown in that of today. Pure functions.

#include "text.h"

// One placeholder's part: of `%a` the 'a', and the bytes that stand for it.
struct reword_part {
    char which;
    const char *at;
    size_t size;
};
#define REWORD_PARTS_MAX 9

// Writes a part as it is to be shown: figures by reword_figures, words by `_`.
typedef void reword_part_fn(struct text *text, const struct reword_part *part);

// Appends the translation of `pattern` (English, placeholders a `%` and one character, up to
// REWORD_PARTS_MAX) filled from `stored`. False, nothing appended, when `stored` was not made of
// it; placeholders take as little as possible then as now.
bool reword(struct text *text, const char *pattern, const char *stored, reword_part_fn *part);

// The bytes with the shop's decimal point between digits.
void reword_figures(struct text *text, const struct reword_part *part);

#endif

#ifndef LANGUAGE_H
#define LANGUAGE_H

// The languages there are texts in, and how figures and days are written in each. Pure.

#include "tongue.h"

#include <stdbool.h>
#include <stddef.h>

struct language {
    const char *code; // ISO 639-1, as in assets/po
    char decimal_point;
    enum tongue_dates dates;
    bool own_font; // its letters are not in B612: LANGUAGE_FONT is needed
    bool unspoken; // espeak-ng 1.51 cannot read it: of each kanji it says "Chinese letter"
};

// Debian's fonts-ipaexfont-gothic, which has Japanese and clear Latin letters. Where it is missing
// such a language cannot be shown.
#define LANGUAGE_FONT "/usr/share/fonts/opentype/ipaexfont-gothic/ipaexg.ttf"

const struct language *language_at(size_t index); // NULL behind the last; English is the first
// By its code, whatever follows it: `de`, `de_AT.UTF-8`, `de-CH`. NULL: none of ours; English for
// `C` and `POSIX` too.
const struct language *language_named(const char *name);
// Whether a locale's territory prints on letter paper, `es_MX.UTF-8`: those whose LC_PAPER in
// glibc's localedata is 279 mm high. The rest of the world has ISO 216's A4.
bool language_on_letter(const char *locale);

#endif

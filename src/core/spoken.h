#ifndef SPOKEN_H
#define SPOKEN_H

// Numbers the way a person says them, in English: "two and five eighths inches", "sixty-six point
// seven millimetres". Pure functions.

#include "length.h"

#define SPOKEN_MAX 512

// Copies a sentence and spells out each length in it: `2 5/8 in`, `5/8`, `66.7 mm`. Other digits,
// such as a ticket's or a build's, stay. Cut off at the buffer's end.
void spoken_text(const char *text, char *buffer, size_t size);

#endif

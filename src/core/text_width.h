#ifndef TEXT_WIDTH_H
#define TEXT_WIDTH_H

// How wide a text stands in a terminal, for tables of plain text. A pure function.

#include <stddef.h>

// Columns of valid UTF-8: 2 for a wide or fullwidth letter (Unicode UAX #11, W and F), 0 for one
// that combines with the one before, else 1. A byte that is no UTF-8 counts 1.
size_t text_columns(const char *words);

#endif

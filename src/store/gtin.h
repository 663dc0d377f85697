#ifndef GTIN_H
#define GTIN_H

// Suppliers' codes in the one form that is stored and looked up. Private to src/store.

#include <stdbool.h>

#define GTIN_TEXT_MAX 15 // 14 digits and NUL

// A GTIN-8, -12, -13 or -14 with a right check digit, zeros put in front up to 14 digits (GS1
// General Specifications: the four lengths are one number). False: it is none, and `ret_gtin` is
// untouched.
bool gtin_normalise(const char *text, char ret_gtin[GTIN_TEXT_MAX]);

#endif

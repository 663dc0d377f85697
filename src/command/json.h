#ifndef JSON_H
#define JSON_H

// Pieces of JSON (RFC 8259), written as they come. Texts are UTF-8.

#include "length.h"

#include <stdio.h>

void json_string(FILE *to, const char *text);
// `,"key":"text"`
void json_text(FILE *to, const char *key, const char *text);
// `,"key":2.625`, in inches, exact; null when not known.
void json_length(FILE *to, const char *key, length_nm length);
// `,"key":261.5`
void json_decimal(FILE *to, const char *key, double value, int decimals);
void json_null(FILE *to, const char *key);

#endif

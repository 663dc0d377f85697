#ifndef KIT_PRINT_H
#define KIT_PRINT_H

// A kit list as text for a person, as CSV and as JSON. The last two are stable for scripts: columns
// and keys are only ever added at the end.

#include "kit.h"

#include <stdio.h>

// `before` is what kit_before found, NULL when not known.
void kit_print_text(const struct kit *kit, const double *before, FILE *to);
void kit_print_csv(const struct kit *kit, FILE *to);
void kit_print_json(const struct kit *kit, const double *before, FILE *to);

#endif

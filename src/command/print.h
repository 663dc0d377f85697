#ifndef PRINT_H
#define PRINT_H

// Sends a PDF to a printer through CUPS's `lp`, unscaled: a scaled page has other bar widths.

#include <stdbool.h>
#include <stddef.h>

// `queue` NULL: the default one. lp itself says on stdout which job it is. False: `message` says
// why and what to do; the file is there even so.
bool print_pdf(const char *path, const char *media, const char *queue, char *message, size_t size);

#endif

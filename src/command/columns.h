#ifndef COLUMNS_H
#define COLUMNS_H

// A table of plain text in a terminal. Cells are as wide as they stand there, not as many bytes.

#include <stddef.h>
#include <stdio.h>

struct column {
    const char *head;    // English, marked for translation; "": none
    int columns;         // at least: more if the head is wider; negative: flush left, as printf's
    const char *gap;     // behind it
    const char *fits[2]; // English, NULL: none; words that must fit in too
};

// The line of heads. The last one has no gap.
void columns_heads(FILE *to, const struct column *column, size_t count);

// One cell and the gap behind it. What is wider than its column stays whole.
void columns_cell(FILE *to, const struct column *column, const char *words);
void columns_number(FILE *to, const struct column *column, long long number);

// A cell of a column without a head: `columns` as above.
void columns_put(FILE *to, const char *words, int columns);

#endif

#ifndef IMPORT_COLUMNS_H
#define IMPORT_COLUMNS_H

// Which columns each kind of file has, and where their cells go. Private to src/store.

#include "import_cell.h"

struct import_column {
    const char *name;
    import_reader *read;
    size_t offset; // in the row's struct
    bool optional; // the whole column may be left out
    bool needed;   // no cell may be empty
    bool key;      // without it the row cannot be told from others
    struct import_limits limits;
};

const struct import_column *import_columns(enum import_kind kind, size_t *ret_count);

// A row of this kind with nothing known.
void import_row_clear(enum import_kind kind, union import_row *ret_row);

#endif

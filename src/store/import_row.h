#ifndef IMPORT_ROW_H
#define IMPORT_ROW_H

// What the cells of one row say to each other. Private to src/store.

#include "import_set.h"

// Complains about cells that cannot all be true, and works out what follows from others: the bore
// height of a dry fit.
void import_row_finish(enum import_kind kind, union import_row *row, struct import_say *say);

// A balance point lies on the shaft. False after a complaint.
bool import_row_balance(struct import_say *say, struct import_at at, length_nm balance,
                        length_nm raw_length);

#endif

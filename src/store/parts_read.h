#ifndef PARTS_READ_H
#define PARTS_READ_H

// Words of the tables about parts. Private to src/store.

#include "query.h"

// `raw`, `cut`, `scrap`; anything else is odd.
void parts_read_life(struct query *query, int column, enum part_life *ret_life);

#endif

#ifndef CLUB_READ_H
#define CLUB_READ_H

// One club with everything its plan needs. Private to src/store.

#include "connection.h"

// Fills *club, which is empty but for its id. Inside connection_read_begin.
enum store_result club_read(struct store *store, struct club *club);

#endif

#ifndef ROOM_H
#define ROOM_H

// Room on the disk: a reserve that must be free before marks are shown, and a ballast file that is
// given up when a cut already made could otherwise not be logged. A full WAL cannot even be
// checkpointed, so nothing else frees room. Private to src/store.

#include "connection.h"

// Makes the ballast if it is missing and twice its size is free.
void room_keep(const struct store *store);

// Removes the ballast. False when there was none.
bool room_give(const struct store *store);

#endif

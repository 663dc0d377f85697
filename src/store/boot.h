#ifndef BOOT_H
#define BOOT_H

// Which start of the machine this is, and how long ago it was: times that no setting of the clock
// moves.

#include "entry.h"

// Milliseconds since the machine started, time asleep included.
int64_t boot_ms(void);

// The kernel's id of this start, zero-filled; empty where there is none.
void boot_id(char ret_boot[ENTRY_BOOT_MAX]);

#endif

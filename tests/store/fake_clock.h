#ifndef FAKE_CLOCK_H
#define FAKE_CLOCK_H

// A store's clock that a test sets.

#include "fixture.h"

extern int64_t fake_clock_ms;
void fake_clock_use(struct store *store);
// The machine was off and on again: another boot, and so long ago.
void fake_clock_reboot(int number, int64_t ms);

#endif

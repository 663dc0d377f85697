#ifndef BUSY_H
#define BUSY_H

// A busy day at the saw, made up: clubs cut and measured, stops, cuts off their mark, decisions,
// presses taken back. The same for the same seed.

#include "scratch.h"

#define BUSY_CLUBS_MAX 1200
#define BUSY_SPARES 40 // raw shafts for recuts
#define BUSY_NAME "Þórgunnur Ævarsdóttir-Łukasiewicz ÆØÅ"

// Imports people, parts and builds of ten clubs each, and logs the whole day from begin_ms to ten
// hours later. Long names: builds and clubs as long as they may be, beyond ASCII.
void busy_day(struct scratch *scratch, int clubs, bool long_names, int64_t begin_ms, uint32_t seed);

#endif

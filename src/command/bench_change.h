#ifndef BENCH_CHANGE_H
#define BENCH_CHANGE_H

// Changing a setting at the bench: the file is written anew, the log says who, which, from and to,
// and what holds at once holds from then on. And what somebody has changed in the file by hand goes
// into the log at the next start.

#include "office.h"

struct bench;

// For office->shop, with the bench as ctx.
struct office_shop bench_change_shop(struct bench *bench);

// What holds differs from the last good settings: an entry each, those that an earlier start has
// logged already not again. False: not all could be logged, so the copy of the last good ones must
// stay as it is.
bool bench_change_log(struct bench *bench);

#endif

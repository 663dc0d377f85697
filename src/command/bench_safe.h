#ifndef BENCH_SAFE_H
#define BENCH_SAFE_H

// The bench did not last, several times in a row: a plain screen that says so, and nothing else
// until somebody presses. No database is open meanwhile.

#include "bench_settings.h"
#include "bench_starts.h"
#include "bench_watch.h"
#include "screen.h"

struct bench_safe {
    struct screen *screen;
    const struct bench_settings *settings;
    const struct bench_starts *starts;
    struct bench_watch *watch;
};

// True: somebody pressed the button or the band. False when the bench is to end.
bool bench_safe(const struct bench_safe *safe);

#endif

#ifndef BENCH_TROUBLE_H
#define BENCH_TROUBLE_H

// The database cannot be opened: the screen says why, and it is tried again until it can.

#include "bench_watch.h"
#include "screen.h"
#include "store.h"

struct bench_trouble {
    struct screen *screen;
    struct bench_watch *watch; // signs of life go on: it waits on purpose
    const char *bench;         // its name
    const char *path;
    const char *shots; // a folder for a picture, from which nothing is tried again; NULL: none
    bool once;         // says it and ends, as scripts want it
};

// `message`: why the first try failed. False when the bench is to end.
bool bench_trouble(const struct bench_trouble *trouble, const char *message,
                   struct store **ret_store);

#endif

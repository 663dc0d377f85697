#ifndef BENCH_STARTS_H
#define BENCH_STARTS_H

// How often the bench was started lately, in a file beside the database: a program that ends again
// and again must not go on doing what ends it. Only what lasted less than five minutes counts, and
// only since the machine was started; a clean end takes the file away.

#include "database.h"
#include "station.h"

#define BENCH_STARTS_SAFE 4 // the start that no longer does what the ones before it did

struct bench_starts {
    char path[DATABASE_PATH_MAX + 16]; // "<database>.starts"
    int count;                         // this one included; 0: not counted
    enum station_end end;              // how the last one ended, by "<database>.ended"
    char which[24];
};

// Counts this start, on disk. Where that cannot be written, it is as if it were the first.
void bench_starts_begin(struct bench_starts *starts, const char *db);
// Somebody wants the usual start all the same: it counts as one made now.
void bench_starts_again(struct bench_starts *starts);
// A clean end.
void bench_starts_end(const struct bench_starts *starts);

#endif

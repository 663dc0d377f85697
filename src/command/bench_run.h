#ifndef BENCH_RUN_H
#define BENCH_RUN_H

// The bench as a program: its options, and running it on a database until it ends.

#include "bench_practice.h"

struct bench_options {
    const char *db;
    const char *size;
    const char *settings;
    const char *script;
    const char *shots;
    const char *scanner;
    const char *button;
    const char *pepper;
    bool windowed;
    bool trace;
    const char *skip; // lines of the script that an earlier program has worked off
    // of `kerfside practice`
    bool tour;
    bool copy;          // make the copy and end
    bool copied;        // it is made
    bool back;          // at the end, the bench again
    const char *badge;  // bench_begins
    const char *resume; // bench_begins
    char skip_text[12]; // what `skip` points to once the bench has run
    char badge_text[TICKET_TEXT_MAX];
    char resume_text[LESSON_TEXT_MAX];
};

// False: wrong usage, and stderr says what.
bool bench_options_read(int argc, char **argv, struct bench_options *to);

// Settings, window and bench on the database at `path`; returns the exit status. The settings are
// those of the database at `real`; where that is another, this is practice, and whatever ends it by
// accident does not count as a failed start of the bench. What the next program must know of it is
// in *options afterwards. The store is closed, unless the power is to be lost: then the process
// must end as it is.
int bench_run(struct bench_options *options, const char *real, const char *path,
              enum bench_leaves *ret_leaves);

// Becomes `kerfside COMMAND` with the same options, in the same process as the system sees it.
// Returns only when that failed, and stderr says why.
void bench_become(const char *command, const struct bench_options *options);

#endif

#ifndef RUN_H
#define RUN_H

// Runs the real program as a shell would and catches what it says.

#include "scratch.h"

struct ran {
    int status; // exit status, -1: killed
    char out[SCRATCH_TEXT_MAX];
    char err[SCRATCH_TEXT_MAX];
};

// `kerfside <arguments>` in the scratch's folder; arguments are words of a shell, KERFSIDE_DB is
// the scratch's database. stdin is empty unless the arguments redirect it.
void run(const struct scratch *scratch, struct ran *ret_ran, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

// Runs `kerfside <arguments>` and fails the test when its exit status is another.
void run_expect(const struct scratch *scratch, struct ran *ret_ran, int status,
                const char *arguments);
// Fails the test when `words` are not in `text`.
void run_says(const char *text, const char *words);

#endif

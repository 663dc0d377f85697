#ifndef DAY_PAPERS_H
#define DAY_PAPERS_H

// The report of a day, or of some, from the store: for the command line and the bench.

#include "day_report.h"
#include "store.h"

struct day_papers {
    int64_t from_ms; // local midnights, the second one after the last day
    int64_t to_ms;
    length_nm tolerance;
    bool metric;
    int64_t now_ms;
    enum page_paper paper;
    const char *witness; // file of signed notes, NULL: not at hand
    const char *public;  // key to read it by
};

// Writes or replaces the file at `path`. False: `message` says why.
bool day_papers_report(struct store *store, const struct day_papers *papers, const char *path,
                       size_t *ret_pages, char *message, size_t size);

#endif

#ifndef CHECK_JSON_H
#define CHECK_JSON_H

// One object about a database for programs that watch over benches: whether it is whole, and what
// the machine says of itself. Keys stay as they are once they have been here; new ones may come.

#include "witness.h"

#include <stdio.h>

struct check_said {
    const char *database;
    bool quick; // only the last entries were looked at
    bool whole;
    const struct store_check *check; // NULL: not looked at
    int64_t uncovered;               // entries no signed note covers, -1: nobody has signed
    const char *problem;             // empty: none
    const char *settings;            // file of settings that was named, NULL: none
};
// `store` is NULL when the database could not be opened.
void check_json(FILE *to, struct store *store, const struct check_said *said);

#endif

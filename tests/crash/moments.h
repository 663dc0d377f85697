#ifndef MOMENTS_H
#define MOMENTS_H

// What a database held after each commit, and how long the tape was then: after a power cut it must
// hold what it held after the last commit before the cut, or what the next commit made of it.

#include "fixture.h"
#include "tape.h"

// Every row of every table, in one number.
uint64_t moments_digest(sqlite3 *db);

// From here on every commit of the store is noted, the state as it is now first.
void moments_begin(struct fixture *fixture);
// How many there are.
size_t moments_count(void);
// When the last one was.
size_t moments_last(void);

// True when the database that `db` has open is one that a cut before operation `ops` may leave.
bool moments_allow(sqlite3 *db, size_t ops);
// True when it is one that was committed at all, up to that cut.
bool moments_know(sqlite3 *db, size_t ops);

#endif

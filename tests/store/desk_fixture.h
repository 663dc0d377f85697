#ifndef DESK_FIXTURE_H
#define DESK_FIXTURE_H

// Documents and changes as the desk makes them, for the tests of the store. Helpers fail the test
// when they cannot do their part.

#include "fixture.h"

// A document that is there; whether it is; and one of its cells.
struct document desk_load(struct fixture *fixture, const char *sheet, const char *a, const char *b,
                          const char *c);
bool desk_there(struct fixture *fixture, const char *sheet, const char *a, const char *b,
                const char *c);
void desk_expect(const struct document *document, const char *name, const char *value);

// The entry of a change from `before` to `after`, either NULL.
struct entry desk_entry(struct fixture *fixture, const struct document *before,
                        const struct document *after, const char *worker);
// Appends it as the supervisor; its seq.
int64_t desk_changes(struct fixture *fixture, const struct document *before,
                     const struct document *after);
// The store refuses it, names `cell` (NULL: any) and says `words`; nothing is logged.
void desk_refuses(struct fixture *fixture, struct entry entry, const char *cell, const char *words);
// What takes the change of entry `seq` back.
struct entry desk_back(struct fixture *fixture, int64_t seq);

#endif

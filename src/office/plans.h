#ifndef PLANS_H
#define PLANS_H

// The plan of a club in words, for notes beside forms and lists. Private to src/office.

#include "office_inner.h"

// What the bench would do with the club: the refusal, or the marks, then reasons and warnings. NULL
// in `missing`: it has head and shaft; else what it waits for.
struct plans_words {
    bool planned;
    char missing[VIEW_SHORT_MAX]; // `no head yet`
    char refusal[VIEW_TEXT_MAX];
    char marks[VIEW_TEXT_MAX]; // `tip 2 5/8, butt 42 3/4`
    char tip[VIEW_CELL_MAX];
    char butt[VIEW_CELL_MAX];
    size_t line_count;
    char line[VIEW_LINES_MAX][VIEW_TEXT_MAX];
    enum view_tone tone[VIEW_LINES_MAX];
};
void plans_club(const struct office *office, const struct club *club,
                struct plans_words *ret_words);

// The same of the club of this name as notes, out of a store as it is now, or as it would be
// (store_rehearse).
enum store_result plans_notes(const struct office *office, struct store *store, const char *build,
                              const char *club, struct desk_remarks *remarks);

#endif

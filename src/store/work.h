#ifndef WORK_H
#define WORK_H

// The club an entry is about, and what the entry does to it and its parts. Private to src/store.

#include "query.h"

struct work {
    struct progress progress;
    char head[TICKET_TEXT_MAX];
    char shaft[TICKET_TEXT_MAX];
    length_nm raw_length;
    int rank;            // what the bench goes by, see db/0007
    int64_t changed_seq; // a change of its order that no bench was told of, 0 none
};

// True for the kinds that are about a club's stage.
bool work_moves(enum entry_kind kind);
// True for the kinds that mean nothing without a club.
bool work_needs_club(enum entry_kind kind);

enum store_result work_load(struct store *store, int64_t club_id, struct work *ret_work);

// STORE_REFUSED when the entry names other parts than the club has now, another attempt, or a
// worker who may not decide.
enum store_result work_allowed(struct store *store, const struct work *work,
                               const struct entry *entry);

// Whether the entry changes what is left of the shaft, and whether the shaft is cut from then on.
bool work_changes_shaft(const struct progress *before, const struct entry *entry);
bool work_cuts(enum entry_kind kind);
// What is left of it after such an entry. A difference is unknown when either length is, or when it
// would be negative.
length_nm work_left(enum entry_kind kind, length_nm made, length_nm raw_length);
length_nm work_minus(length_nm a, length_nm b);

// Carries the entry's effects out; `before` is as it was loaded, `after` as stage_advance left it.
enum store_result work_apply(struct store *store, const struct work *before,
                             const struct progress *after, const struct entry *entry);

#endif

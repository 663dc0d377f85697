#ifndef WITNESS_H
#define WITNESS_H

// The log against its witness: signing a day, and holding the log against what was signed.

#include "store.h"
#include "witness_file.h"

// Appends *entry, an ENTRY_DAY_SIGNED with everything but its note, and tells what the log is with
// it. The note is checkpoint_short of all entries before. `day` as checkpoint_is_day says.
// Errors as of store_append; STORE_UNKNOWN: *ret_checkpoint holds if store_confirmed finds it.
enum store_result store_sign_day(struct store *store, struct entry *entry, const char *day,
                                 struct checkpoint *ret_checkpoint);

// What the witness adds to a check.
struct witness_finding {
    int64_t covered;    // entries that some note of the witness stands for
    int64_t latest_bad; // the first bad entry is between first_bad and this one; 0: is first_bad
};

// store_check, and every note of the witness must be what the log was when it had as many entries.
// STORE_REFUSED for another log's note, entries that are missing, and entries that were rewritten.
enum store_result store_check_witness(struct store *store, const struct witness *witness,
                                      struct store_check *ret_check,
                                      struct witness_finding *ret_finding);

#endif

#ifndef WITNESS_H
#define WITNESS_H

// The log against its witness: signing a day, and holding the log against what was signed.

#include "store.h"
#include "witness_file.h"

// Appends *entry, an ENTRY_DAY_SIGNED with everything but its note, and tells what the log is with
// it. The note is checkpoint_short of all entries before: those that *checked, a check that found
// all whole, is about, and what came behind them since, of which the chain is checked here.
// STORE_REFUSED if they are other entries. `day` as checkpoint_is_day says. Other errors as of
// store_append; STORE_UNKNOWN: *ret_checkpoint holds if store_confirmed finds it.
enum store_result store_sign_day(struct store *store, const struct store_check *checked,
                                 struct entry *entry, const char *day,
                                 struct checkpoint *ret_checkpoint);

// A day's signature as the log has it: all that its note says but the key's own signature.
struct day_signature {
    struct checkpoint checkpoint;
    int64_t wall_ms;
    char worker[TICKET_TEXT_MAX];
};
// The newest of a day `from` to `to` (2026-03-31), or of any day when both are NULL.
// STORE_NONE: there is none.
enum store_result store_signature(struct store *store, const char *from, const char *to,
                                  struct day_signature *ret_signature);
// The first that stands for entry `seq`.
enum store_result store_signature_over(struct store *store, int64_t seq,
                                       struct day_signature *ret_signature);

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

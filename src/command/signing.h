#ifndef SIGNING_H
#define SIGNING_H

// Signing a day, at the command line and at the bench: the same steps in the same order.
//
// Where a function fails, `message` (size bytes) says why and what to do.

#include "witness.h"

#define SIGNING_TEXT_MAX 1200

struct signing {
    struct store *store;
    struct witness_key key;
    char witness[1000];  // the file
    bool checked;        // these two are set:
    struct witness kept; // locked
    struct store_check check;
};

// Takes the key, which must not lie in the database's folder, and finds the witness: a file, or a
// folder in which every log has a file of its own. Changes nothing. A witness that is not there yet
// may be begun if `begin` says so or no day was signed before. To be closed if true.
bool signing_open(struct signing *signing, struct store *store, const char *key,
                  const char *witness, bool begin, char *message, size_t size);
// The file that a witness names: itself, or in a folder this log's own.
bool signing_witness(struct store *store, const char *witness, char *ret_path, size_t path_size,
                     char *message, size_t size);
void signing_close(struct signing *signing);

enum signing_result {
    SIGNING_DONE,
    SIGNING_REFUSED, // nothing was signed
    SIGNING_UNKNOWN, // the disk does not say whether the entry is there
    SIGNING_NOT_KEPT // the entry is in the log, its note not in the witness; *ret_note is good
};
// Holds the whole log, as `reading` reads it, against the witness, since nothing that does not fit
// may be signed over. The witness is locked from then on. Does not touch the store to sign in, so
// that another thread may have it meanwhile.
bool signing_check(struct signing *signing, struct store *reading, char *message, size_t size);
// After signing_check: appends *entry, an ENTRY_DAY_SIGNED with everything but its note, behind
// what was checked, and writes the note to the witness.
enum signing_result signing_sign(struct signing *signing, struct entry *entry, const char *day,
                                 struct checkpoint_note *ret_note, char *message, size_t size);

#endif

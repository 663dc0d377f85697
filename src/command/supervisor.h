#ifndef SUPERVISOR_H
#define SUPERVISOR_H

// A supervisor's word at the command line: the badge, and the PIN from the terminal.

#include "store.h"

// The badge as it is in the database, in capitals. False, and stderr says why, when it is none.
bool supervisor_badge(const char *command, const char *text, struct ticket *ret_badge);

// Takes the key file of the PINs into use: `given` (from --pepper, may be NULL), else
// $KERFSIDE_PEPPER, else `setting` (may be NULL or empty), else none. False, and stderr says why,
// when it is no good.
bool supervisor_pepper(const char *command, const char *given, const char *setting,
                       struct store *store);

// Asks for the PIN and logs the try, as the bench does. False, and stderr says why, unless a
// supervisor gave the right one. A key file not in use yet is $KERFSIDE_PEPPER's. "one must
// `must`"; "nothing was `done`".
bool supervisor_confirms(const char *command, struct store *store, const char *badge,
                         const char *must, const char *done);

#endif

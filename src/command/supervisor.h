#ifndef SUPERVISOR_H
#define SUPERVISOR_H

// A supervisor's word at the command line: the badge, and the PIN from the terminal.

#include "store.h"

// The badge as it is in the database, in capitals. False, and stderr says why, when it is none.
bool supervisor_badge(const char *command, const char *text, struct ticket *ret_badge);

// Asks for the PIN and logs the try, as the bench does. False, and stderr says why, unless a
// supervisor gave the right one. "one must `must`"; "nothing was `done`".
bool supervisor_confirms(const char *command, struct store *store, const char *badge,
                         const char *must, const char *done);

#endif

#ifndef SUPERVISOR_H
#define SUPERVISOR_H

// A supervisor's word at the command line: the badge, and the PIN from the terminal.

#include "bench_settings.h"
#include "store.h"

// What only a supervisor may do here.
enum supervisor_act { SUPERVISOR_UNLOCK, SUPERVISOR_WITHDRAW, SUPERVISOR_SIGN, SUPERVISOR_KIT };

// The badge as it is in the database, in capitals. False, and stderr says why, when it is none.
bool supervisor_badge(const char *command, const char *text, struct ticket *ret_badge);

// Takes the key file of the PINs into use: `given` (from --pepper, may be NULL), else
// $KERFSIDE_PEPPER, else `setting` (may be NULL or empty), else none. False, and stderr says why,
// when it is no good.
bool supervisor_pepper(const char *command, const char *given, const char *setting,
                       struct store *store);

// The rules of PINs, and into `pepper` the path of their key file or nothing, as $KERFSIDE_SETTINGS
// says. False, and stderr says why, when that file is wrong.
bool supervisor_rules(const char *command, struct store *store, char pepper[BENCH_PATH_MAX]);

// Asks for the PIN and logs the try, as the bench does. False, and stderr says why, unless a
// supervisor gave the right one for `act`. A key file not in use yet is $KERFSIDE_PEPPER's
// or the settings'.
bool supervisor_confirms(const char *command, struct store *store, const char *badge,
                         enum supervisor_act act);

#endif

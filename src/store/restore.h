#ifndef RESTORE_H
#define RESTORE_H

// A copy put back in the place of its database.

#include "store.h"

struct restored {
    int64_t entries;  // in the copy
    char aside[1050]; // where what was there is now, with its -wal; empty: nothing was
};

// Checks the copy `from` as a whole, brings it up to date, and adds an ENTRY_RESTORED that says
// which entries it goes on from and which it takes the place of; only then is what stands at `path`
// set aside and the copy given its name. After a power cut on the way the database is the old one,
// the new one, or missing, and doing it again helps; the old one is never lost. STORE_BUSY: a bench
// or another program has the database open. Anything but STORE_OK: `message` says why.
enum store_result store_restore(const char *from, const char *path, const char *bench,
                                struct restored *ret_restored, char *message, size_t size);

#endif

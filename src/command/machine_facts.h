#ifndef MACHINE_FACTS_H
#define MACHINE_FACTS_H

// What a machine says of itself, for the self-check and for monitoring. Nothing here waits for
// anything but the disk that is asked about. What cannot be found out is not known.

#include "selfcheck.h"

// Of the file system that `path` lies on.
void machine_disk(const char *path, struct selfcheck_disk *ret_disk);
bool machine_same_disk(const char *a, const char *b);

// 1: the clock is kept right (adjtimex(2) without STA_UNSYNC), 0: it is not, -1: not known. Where
// the kernel may not be asked, as under the kiosk's unit, `told` is looked at: the folder in which
// systemd-timesyncd(8) has a file `synchronized`.
#define MACHINE_CLOCK_TOLD "/run/systemd/timesync"
int machine_clock(const char *told);

// How many other processes keep the database open, by the locks that SQLite holds on its -shm file;
// -1: not known. `without` (0: none) is not counted.
int machine_others(const char *database, int without);

#endif

#ifndef SETTLE_H
#define SETTLE_H

// After a failed sync nobody knows what of the write-ahead log is on disk, and Linux may take the
// lost pages for clean: a later sync then says yes and writes nothing. So the log is written over
// with itself and synced, before anybody trusts what stands in it. Private to src/store.

#include <stdbool.h>

// With no connection of this process open and under the write lock. True when there is no log.
bool settle_wal(const char *path);

#endif

#ifndef LOCK_H
#define LOCK_H

// The write lock of a database: an exclusive flock on "<database>.lock". It is a file of its own
// because closing any descriptor of the database itself would drop SQLite's own locks.

#include <stdbool.h>

// Opens the lock file, making it if need be. -1 and errno on failure.
int lock_open(const char *path);

// Waits up to wait_ms. False when another process (or another handle in this one) keeps it.
bool lock_take(int fd, int wait_ms);
void lock_release(int fd);

#endif

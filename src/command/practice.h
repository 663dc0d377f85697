#ifndef PRACTICE_H
#define PRACTICE_H

// What a program says and holds back while the database it has open is for practice.

#include "store.h"

// True: it is. Then stderr says so, papers are stamped from now on, and files that this program
// makes must have "practice" in their names.
bool practice_tell(const char *command, const struct store *store);

// False, and stderr says why: a file of this name would pass for real. `-` is the terminal.
bool practice_name(const char *command, const char *path);

// "PRACTICE-" or nothing, to begin a file's name with.
const char *practice_prefix(void);

#endif

#ifndef PRACTICE_H
#define PRACTICE_H

// What a program says and holds back while the database it has open is for practice.

#include "database.h"

// True: it is. Then stderr says so, papers are stamped from now on, and files that this program
// makes must have "practice" in their names.
bool practice_tell(const char *command, const struct store *store);

// False, and stderr says why: a file of this name would pass for real. `-` is the terminal.
bool practice_name(const char *command, const char *path);

// Where the practice of a database lies. False, and stderr says why: the path is too long.
bool practice_path(const char *db, char buffer[DATABASE_PATH_MAX]);

// Takes away what a practice left that was ended by accident, a power cut that nobody practised.
// One that goes on, and a file that is no practice, stay.
void practice_sweep(const char *db);

// "PRACTICE-" or nothing, to begin a file's name with.
const char *practice_prefix(void);

#endif

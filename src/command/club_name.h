#ifndef CLUB_NAME_H
#define CLUB_NAME_H

// How a build or a club of it is named on the command line.

#include <stdbool.h>

// `2041`, `B-20416`: a build; `2041-3`, `B-20416-3`: a club of it.
bool club_name_is_build(const char *name);

// Splits the name of a club in place behind the build.
void club_name_split(char *name, const char **ret_build, const char **ret_club);

#endif

#ifndef IMPORT_FILE_H
#define IMPORT_FILE_H

// One CSV file into the set. Private to src/store.

#include "import_set.h"

// Reads all rows of `path` (which outlives the set). Whatever is wrong is complained about; rows
// whose key could be read are added even so, that others may refer to them. False: no memory.
bool import_file(const char *path, struct import_set *set, struct import_say *say);

#endif

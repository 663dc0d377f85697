#ifndef SETTINGS_FILE_H
#define SETTINGS_FILE_H

#include "bench_settings.h"

// The file `given` with --settings, else $KERFSIDE_SETTINGS, over the defaults; neither: the
// defaults alone. False when it cannot be read or a line is wrong, and stderr says what.
bool settings_file_read(const char *command, const char *given, struct bench_settings *ret);

#endif

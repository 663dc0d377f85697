#ifndef SETTINGS_WRITE_H
#define SETTINGS_WRITE_H

// The file of settings, written whole: every setting with what it is, what is allowed and why its
// standard, as comments with `;`, out of the table. Lines of a person's own, with `#`, stand before
// the setting they stood before.

#include "bench_settings.h"

// English, as the file is for whoever keeps the machine.
void settings_print(FILE *to, const struct bench_lines *lines);

// Puts a new file in place of `path`: temporary file beside it, synced, renamed, folder synced, so
// that after a power cut the old one is there or the new one. Mode, owner and group stay as they
// were; of a new file they are 0660 less the umask and the program's. False, and `message` says
// why: the old one is untouched, or only the folder could not be synced and the new one is there.
bool settings_replace(const char *path, const char *text, size_t text_size, char *message,
                      size_t size);

#endif

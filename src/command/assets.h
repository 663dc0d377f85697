#ifndef ASSETS_H
#define ASSETS_H

// Where the files lie that the program comes with.

#include <stdbool.h>
#include <stddef.h>

// Folder of fonts: $KERFSIDE_ASSETS, else where it is installed, else the checkout's.
const char *assets_folder(void);

// `share/kerfside/NAME` beside the folder this program lies in. False: it is not installed there.
bool assets_installed(const char *name, char *buffer, size_t size);

// `share/locale` beside it, where the catalogues are installed. False: it is not installed there.
bool assets_locale(char *buffer, size_t size);

#endif

#ifndef ASSETS_H
#define ASSETS_H

// Folder of fonts and sounds: $KERFSIDE_ASSETS, else the checkout's, else where they are installed.
const char *assets_folder(void);

#endif

#include "assets.h"

#include <stdlib.h>
#include <unistd.h>

const char *assets_folder(void) {
    const char *given = getenv("KERFSIDE_ASSETS");
    if (given != NULL) {
        return given;
    }
    return access(KERFSIDE_SOURCE_DIR "/assets", R_OK) == 0 ? KERFSIDE_SOURCE_DIR "/assets"
                                                            : "/usr/share/kerfside/assets";
}

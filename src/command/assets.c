#include "assets.h"

#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

// Cuts off the last name of a path. False: there is none.
static bool up(char *path) {
    char *slash = strrchr(path, '/');
    if (slash == NULL) {
        return false;
    }
    *slash = '\0';
    return true;
}

// `NAME` beside the folder this program lies in.
static bool beside(const char *name, char *buffer, size_t size) {
    char program[PATH_MAX];
    ssize_t length = readlink("/proc/self/exe", program, sizeof program - 1);
    if (length <= 0) {
        return false;
    }
    program[length] = '\0';
    bool prefix = up(program); // its folder
    prefix = prefix && up(program);
    return prefix && snprintf(buffer, size, "%s/%s", program, name) < (int)size &&
           access(buffer, R_OK) == 0;
}

bool assets_installed(const char *name, char *buffer, size_t size) {
    char path[PATH_MAX];
    return snprintf(path, sizeof path, "share/kerfside/%s", name) < (int)sizeof path &&
           beside(path, buffer, size);
}

bool assets_locale(char *buffer, size_t size) {
    return beside("share/locale/de/LC_MESSAGES/kerfside.mo", buffer, size) &&
           beside("share/locale", buffer, size);
}

const char *assets_folder(void) {
    static char installed[PATH_MAX];
    const char *given = getenv("KERFSIDE_ASSETS");
    if (given != NULL) {
        return given;
    }
    return assets_installed("assets", installed, sizeof installed) ? installed
                                                                   : KERFSIDE_SOURCE_DIR "/assets";
}

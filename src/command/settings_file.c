#include "settings_file.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

bool settings_file_read(const char *command, const char *given, struct bench_settings *ret) {
    const char *path = given != NULL ? given : getenv("KERFSIDE_SETTINGS");
    struct bench_settings settings = bench_settings_default();
    if (path != NULL && *path != '\0') {
        FILE *file = fopen(path, "re");
        if (file == NULL) {
            fprintf(stderr, "kerfside %s: cannot read the settings %s: %s.\n", command, path,
                    strerror(errno));
            return false;
        }
        bool read = bench_settings_read(file, path, &settings, stderr);
        fclose(file);
        if (!read) {
            return false;
        }
    }
    *ret = settings;
    return true;
}

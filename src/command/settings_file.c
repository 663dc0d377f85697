#include "settings_file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define BYTES_MAX (1 << 20)

// NULL after a complaint.
static FILE *open_file(const char *command, const char *path) {
    int fd = open(path, O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    struct stat stat;
    if (fd < 0 || fstat(fd, &stat) != 0) {
        fprintf(stderr, "kerfside %s: cannot read the settings %s: %s.\n", command, path,
                strerror(errno));
    } else if (!S_ISREG(stat.st_mode) || stat.st_size > BYTES_MAX) {
        fprintf(stderr,
                "kerfside %s: the settings %s are not a file of at most 1 MiB. Name the file of "
                "settings.\n",
                command, path);
    } else {
        FILE *file = fdopen(fd, "r");
        if (file != NULL) {
            return file;
        }
    }
    if (fd >= 0) {
        close(fd);
    }
    return NULL;
}

bool settings_file_read(const char *command, const char *given, struct bench_settings *ret) {
    const char *path = given != NULL ? given : getenv("KERFSIDE_SETTINGS");
    struct bench_settings settings = bench_settings_default();
    if (path != NULL && *path != '\0') {
        FILE *file = open_file(command, path);
        if (file == NULL) {
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

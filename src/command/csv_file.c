#include "csv_file.h"
#include "practice.h"
#include "tongue.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

bool csv_file_write(const char *command, const char *path, const char *things, csv_file_fill *fill,
                    void *context) {
    if (!practice_name(command, path)) {
        return false;
    }
    bool terminal = strcmp(path, "-") == 0;
    char message[600];
    int64_t rows;
    int fd = terminal ? STDOUT_FILENO : open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (fd < 0) {
        fprintf(stderr, _("kerfside %s: cannot make %s: %s. Name a new file.\n"), command, path,
                strerror(errno));
        return false;
    }
    bool done = fill(context, fd, &rows, message, sizeof message);
    if (!done) {
        fprintf(stderr, "kerfside %s: %s\n", command, message);
    }
    if (!terminal && close(fd) != 0 && done) {
        fprintf(stderr, _("kerfside %s: cannot write %s: %s.\n"), command, path, strerror(errno));
        done = false;
    }
    if (!terminal && done) {
        printf("%s: %lld %s\n", path, (long long)rows, things);
    } else if (!terminal) {
        unlink(path);
    }
    return done;
}

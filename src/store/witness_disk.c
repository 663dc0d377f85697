#include "witness_disk.h"

#include <errno.h>
#include <fcntl.h>
#include <libgen.h>
#include <limits.h>
#include <stdio.h>
#include <unistd.h>

bool witness_disk_write(int fd, const char *bytes, size_t size) {
    while (size > 0) {
        ssize_t written = write(fd, bytes, size);
        if (written < 0 && errno == EINTR) {
            continue;
        }
        if (written <= 0) {
            errno = written == 0 ? ENOSPC : errno;
            return false;
        }
        bytes += written;
        size -= (size_t)written;
    }
    return true;
}

bool witness_disk_sync_folder(const char *path) {
    char folder[PATH_MAX];
    snprintf(folder, sizeof folder, "%s", path);
    int fd = open(dirname(folder), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    bool done = fd >= 0 && fsync(fd) == 0;
    int reason = errno;
    if (fd >= 0) {
        close(fd);
    }
    errno = reason;
    return done;
}

#include "page_file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static void note(struct page_file *file, int error) {
    if (file->error == 0) {
        file->error = error != 0 ? error : EIO;
    }
}

// mkstemp makes the file for its owner only; give it what any new file gets.
static void open_up(int fd) {
    mode_t mask = umask(0);
    umask(mask);
    (void)!fchmod(fd, 0666 & ~mask);
}

// A link to something that is no file, such as /dev/stdout, is followed only when it is the
// system's or our own: anybody else's could point anywhere.
static bool foreign_link(const char *path) {
    struct stat link;
    return lstat(path, &link) == 0 && S_ISLNK(link.st_mode) && link.st_uid != 0 &&
           link.st_uid != geteuid();
}

bool page_file_open(struct page_file *file, const char *path) {
    struct stat there;
    *file = (struct page_file){.fd = -1};
    if (strlen(path) >= sizeof file->path) {
        errno = ENAMETOOLONG;
        return false;
    }
    snprintf(file->path, sizeof file->path, "%s", path);
    file->beside = stat(path, &there) != 0 || S_ISREG(there.st_mode);
    if (file->beside) {
        snprintf(file->working, sizeof file->working, "%s.XXXXXX", path);
        file->fd = mkostemp(file->working, O_CLOEXEC);
    } else if (foreign_link(path)) {
        errno = ELOOP;
    } else {
        file->fd = open(path, O_WRONLY | O_CLOEXEC);
    }
    if (file->fd >= 0 && file->beside) {
        open_up(file->fd);
    }
    return file->fd >= 0;
}

bool page_file_write(struct page_file *file, const void *bytes, size_t size) {
    const char *at = bytes;
    while (size > 0 && file->error == 0) {
        ssize_t wrote = write(file->fd, at, size);
        if (wrote > 0) {
            at += wrote;
            size -= (size_t)wrote;
        } else if (wrote == 0 || errno != EINTR) {
            note(file, wrote == 0 ? EIO : errno);
        }
    }
    return file->error == 0;
}

bool page_file_keep(struct page_file *file) {
    if (file->beside && file->error == 0 && fsync(file->fd) != 0) {
        note(file, errno);
    }
    if (close(file->fd) != 0) {
        note(file, errno);
    }
    file->fd = -1;
    if (file->beside && file->error == 0 && rename(file->working, file->path) != 0) {
        note(file, errno);
    }
    if (file->beside && file->error != 0) {
        unlink(file->working);
    }
    file->beside = false;
    return file->error == 0;
}

void page_file_drop(struct page_file *file) {
    if (file->fd >= 0) {
        close(file->fd);
        file->fd = -1;
    }
    if (file->beside) {
        unlink(file->working);
        file->beside = false;
    }
}

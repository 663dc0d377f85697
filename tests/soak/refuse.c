// A disk that refuses while a file says so: loaded before the bench (LD_PRELOAD). The file named by
// KERFSIDE_SOAK_REFUSE holds `w`: nothing more can be written, or `s`: nothing is brought to the
// disk any more. Only what is named like a database and its log is refused.

#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static char refused(void) {
    const char *path = getenv("KERFSIDE_SOAK_REFUSE");
    char what = '\0';
    int fd = path == NULL ? -1 : open(path, O_RDONLY | O_CLOEXEC);
    if (fd >= 0) {
        if (read(fd, &what, 1) != 1) {
            what = '\0';
        }
        close(fd);
    }
    return what;
}

static int of_a_database(int fd) {
    char link[64];
    char name[4096];
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    ssize_t size = readlink(link, name, sizeof name - 1);
    name[size > 0 ? size : 0] = '\0';
    return strstr(name, ".db") != NULL;
}

// What the library has under this name; a function pointer by way of memory, as dlsym(3) says.
static void find(const char *name, void *ret_function, size_t size) {
    void *found = dlsym(RTLD_NEXT, name);
    memcpy(ret_function, &found, size);
}

ssize_t pwrite64(int fd, const void *bytes, size_t size, off64_t at) {
    static ssize_t (*real)(int, const void *, size_t, off64_t);
    if (real == NULL) {
        find("pwrite64", &real, sizeof real);
    }
    if (refused() == 'w' && of_a_database(fd)) {
        errno = ENOSPC;
        return -1;
    }
    return real(fd, bytes, size, at);
}

int fdatasync(int fd) {
    static int (*real)(int);
    if (real == NULL) {
        find("fdatasync", &real, sizeof real);
    }
    if (refused() == 's' && of_a_database(fd)) {
        errno = EIO;
        return -1;
    }
    return real(fd);
}

int fsync(int fd) {
    static int (*real)(int);
    if (real == NULL) {
        find("fsync", &real, sizeof real);
    }
    if (refused() == 's' && of_a_database(fd)) {
        errno = EIO;
        return -1;
    }
    return real(fd);
}

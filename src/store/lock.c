#include "lock.h"

#include <fcntl.h>
#include <sys/file.h>
#include <time.h>
#include <unistd.h>

#define STEP_MS 2

int lock_open(const char *path) {
    return open(path, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0660);
}

bool lock_take(int fd, int wait_ms) {
    const struct timespec step = {.tv_nsec = STEP_MS * 1000000L};
    for (int waited = 0; flock(fd, LOCK_EX | LOCK_NB) != 0; waited += STEP_MS) {
        if (waited >= wait_ms) {
            return false;
        }
        nanosleep(&step, NULL);
    }
    return true;
}

void lock_release(int fd) {
    flock(fd, LOCK_UN);
}

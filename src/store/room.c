#include "room.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <sys/statvfs.h>
#include <unistd.h>

#define ROOM_MB 64
#define ROOM_MB_MAX 1000000
#define ROOM_PATH_MAX (STORE_PATH_MAX + STORE_SUFFIX_MAX)

static int64_t reserve(void) {
    const char *text = getenv("KERFSIDE_ROOM_MB");
    char *end = NULL;
    long megabytes = text == NULL ? ROOM_MB : strtol(text, &end, 10);
    if (text != NULL && (end == text || *end != '\0' || megabytes < 0 || megabytes > ROOM_MB_MAX)) {
        megabytes = ROOM_MB;
    }
    return (int64_t)megabytes << 20;
}

static int64_t free_bytes(const struct store *store) {
    struct statvfs disk;
    if (statvfs(store->path, &disk) != 0) {
        return 0;
    }
    return (int64_t)disk.f_bavail * (int64_t)disk.f_frsize;
}

bool store_room(const struct store *store) {
    return free_bytes(store) >= reserve();
}

static void ballast(const struct store *store, char ret_path[ROOM_PATH_MAX]) {
    snprintf(ret_path, ROOM_PATH_MAX, "%s.ballast", store->path);
}

void store_ballast(const struct store *store, int64_t *ret_wanted, int64_t *ret_size) {
    char path[ROOM_PATH_MAX];
    struct stat file;
    ballast(store, path);
    *ret_wanted = reserve();
    *ret_size = stat(path, &file) == 0 ? (int64_t)file.st_size : 0;
}

void room_keep(const struct store *store) {
    char path[ROOM_PATH_MAX];
    int64_t size = reserve();
    if (size == 0 || free_bytes(store) < 2 * size) {
        return;
    }
    ballast(store, path);
    int fd = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0660);
    if (fd >= 0) {
        if (fallocate(fd, 0, 0, size) != 0) {
            unlink(path); // this kind of disk cannot set room aside
        }
        close(fd);
    }
}

bool room_give(const struct store *store) {
    char path[ROOM_PATH_MAX];
    ballast(store, path);
    return unlink(path) == 0;
}

#include "machine_facts.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/statvfs.h>
#include <sys/sysmacros.h>
#include <sys/timex.h>
#include <unistd.h>

#define OTHERS_MAX 32

// A small number in a file of /sys. False: there is none.
static bool read_number(const char *path, int base, int64_t *ret_number) {
    char text[64];
    char *end;
    FILE *file = fopen(path, "r");
    bool read = file != NULL && fgets(text, sizeof text, file) != NULL;
    if (file != NULL) {
        fclose(file);
    }
    if (!read) {
        return false;
    }
    long long number = strtoll(text, &end, base);
    *ret_number = number;
    return end != text;
}

// An eMMC says in tenths how much of its life is used, for two kinds of memory (JESD84-B51,
// DEVICE_LIFE_TIME_EST): 0x01 is up to 10 %, 0x0B is beyond it.
static int life_used(const char *block) {
    static const char *const places[] = {"device", "../device"}; // of a disk, of a partition
    char path[512];
    char text[64];
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++) {
        unsigned a = 0;
        unsigned b = 0;
        snprintf(path, sizeof path, "%s/%s/life_time", block, places[i]);
        FILE *file = fopen(path, "r");
        bool read = file != NULL && fgets(text, sizeof text, file) != NULL;
        if (file != NULL) {
            fclose(file);
        }
        if (read && sscanf(text, "%x %x", &a, &b) == 2 && (a > 0 || b > 0)) {
            unsigned worse = a > b ? a : b;
            return worse > 10 ? 100 : (int)worse * 10;
        }
    }
    return -1;
}

static int64_t file_system_errors(const char *block) {
    char real[512];
    char path[600];
    int64_t count = -1;
    ssize_t size = readlink(block, real, sizeof real - 1);
    if (size > 0) {
        real[size] = '\0';
        const char *name = strrchr(real, '/');
        snprintf(path, sizeof path, "/sys/fs/ext4/%s/errors_count", name == NULL ? real : name + 1);
        read_number(path, 10, &count);
    }
    return count;
}

void machine_disk(const char *path, struct selfcheck_disk *ret_disk) {
    struct selfcheck_disk disk = {.files_free = -1, .used_percent = -1, .errors = -1};
    struct statvfs system;
    struct stat file;
    char block[64];
    if (statvfs(path, &system) == 0 && stat(path, &file) == 0) {
        disk.known = true;
        disk.read_only = (system.f_flag & ST_RDONLY) != 0;
        disk.free = (int64_t)system.f_bavail * (int64_t)system.f_frsize;
        disk.total = (int64_t)system.f_blocks * (int64_t)system.f_frsize;
        disk.files_free = system.f_files == 0 ? -1 : (int64_t)system.f_favail;
        snprintf(block, sizeof block, "/sys/dev/block/%u:%u", major(file.st_dev),
                 minor(file.st_dev));
        disk.used_percent = life_used(block);
        disk.errors = file_system_errors(block);
    }
    *ret_disk = disk;
}

bool machine_same_disk(const char *a, const char *b) {
    struct stat first;
    struct stat second;
    return stat(a, &first) == 0 && stat(b, &second) == 0 && first.st_dev == second.st_dev;
}

int machine_clock(const char *told) {
    struct timex clock = {.modes = 0};
    char path[256];
    if (adjtimex(&clock) >= 0) {
        return (clock.status & STA_UNSYNC) == 0;
    }
    if (access(told, F_OK) != 0) {
        return -1;
    }
    snprintf(path, sizeof path, "%s/synchronized", told);
    return access(path, F_OK) == 0;
}

static bool counted(const int *pids, int count, int pid) {
    for (int i = 0; i < count; i++) {
        if (pids[i] == pid) {
            return true;
        }
    }
    return false;
}

// `1: POSIX  ADVISORY  READ  812 08:01:131 128 128`. Never by opening the file: closing it again
// would drop the locks of this process.
int machine_others(const char *database, int without) {
    char path[1100];
    char line[256];
    int pids[OTHERS_MAX];
    int count = 0;
    struct stat shm;
    snprintf(path, sizeof path, "%s-shm", database);
    FILE *locks = stat(path, &shm) == 0 ? fopen("/proc/locks", "r") : NULL;
    if (locks == NULL) {
        return -1;
    }
    while (fgets(line, sizeof line, locks) != NULL) {
        int pid = 0;
        unsigned long long inode = 0;
        if (sscanf(line, "%*d: POSIX %*s %*s %d %*x:%*x:%llu", &pid, &inode) == 2 &&
            inode == (unsigned long long)shm.st_ino && pid > 0 && pid != getpid() &&
            pid != without && count < OTHERS_MAX && !counted(pids, count, pid)) {
            pids[count++] = pid;
        }
    }
    fclose(locks);
    return count;
}

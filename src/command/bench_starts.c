#include "bench_starts.h"
#include "boot.h"

#include <fcntl.h>
#include <inttypes.h>
#include <libgen.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define LASTED_MS ((int64_t)300 * 1000)
#define COUNT_MOST 1000
#define LINE_MAX_BYTES 120

// The first line of a small file, empty when there is none.
static void read_line(int fd, char line[LINE_MAX_BYTES]) {
    ssize_t size = pread(fd, line, LINE_MAX_BYTES - 1, 0);
    line[size > 0 ? size : 0] = '\0';
    line[strcspn(line, "\n")] = '\0';
}

static int last_count(int fd) {
    char line[LINE_MAX_BYTES];
    char boot[ENTRY_BOOT_MAX];
    int count;
    int64_t began;
    int at;
    boot_id(boot);
    read_line(fd, line);
    if (strncmp(line, boot, strlen(boot)) != 0 ||
        sscanf(line + strlen(boot), " %4d %" SCNd64 "%n", &count, &began, &at) != 2 ||
        line[strlen(boot) + (size_t)at] != '\0' || count < 1 || count > COUNT_MOST ||
        boot_ms() - began >= LASTED_MS) {
        return 0;
    }
    return count;
}

static bool sync_folder(const char *path) {
    char name[DATABASE_PATH_MAX + 16];
    snprintf(name, sizeof name, "%s", path);
    int fd = open(dirname(name), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    bool synced = fd >= 0 && fsync(fd) == 0;
    if (fd >= 0) {
        close(fd);
    }
    return synced;
}

static bool write_count(int fd, const struct bench_starts *starts) {
    char line[LINE_MAX_BYTES];
    char boot[ENTRY_BOOT_MAX];
    boot_id(boot);
    int size = snprintf(line, sizeof line, "%s %d %" PRId64 "\n", boot, starts->count, boot_ms());
    return pwrite(fd, line, (size_t)size, 0) == size && ftruncate(fd, size) == 0 &&
           fsync(fd) == 0 && sync_folder(starts->path);
}

static int open_count(const struct bench_starts *starts) {
    return open(starts->path, O_RDWR | O_CREAT | O_NOFOLLOW | O_CLOEXEC, 0660);
}

// $SERVICE_RESULT $EXIT_CODE $EXIT_STATUS of systemd.exec(5).
static void read_end(struct bench_starts *starts, const char *db) {
    char path[DATABASE_PATH_MAX + 16];
    char line[LINE_MAX_BYTES] = "";
    char result[24];
    char status[24];
    snprintf(path, sizeof path, "%s.ended", db);
    int fd = open(path, O_RDONLY | O_NONBLOCK | O_NOFOLLOW | O_CLOEXEC);
    if (fd >= 0) {
        read_line(fd, line);
        close(fd);
    }
    starts->end = STATION_END_UNKNOWN;
    if (sscanf(line, "%23s %*23s %23[A-Z0-9]", result, status) != 2) {
        return;
    }
    snprintf(starts->which, sizeof starts->which, "%s", status);
    starts->end = strcmp(result, "watchdog") == 0    ? STATION_END_STILL
                  : strcmp(result, "oom-kill") == 0  ? STATION_END_MEMORY
                  : strcmp(result, "exit-code") == 0 ? STATION_END_STATUS
                  : strcmp(result, "signal") == 0 || strcmp(result, "core-dump") == 0
                      ? STATION_END_SIGNAL
                      : STATION_END_UNKNOWN;
}

void bench_starts_begin(struct bench_starts *starts, const char *db) {
    *starts = (struct bench_starts){.count = 1};
    snprintf(starts->path, sizeof starts->path, "%s.starts", db);
    read_end(starts, db);
    int fd = open_count(starts);
    if (fd < 0) {
        return;
    }
    starts->count = last_count(fd) + 1;
    if (!write_count(fd, starts)) {
        starts->count = 1;
    }
    close(fd);
}

void bench_starts_again(struct bench_starts *starts) {
    int fd = open_count(starts);
    if (fd >= 0) {
        write_count(fd, starts);
        close(fd);
    }
}

void bench_starts_end(const struct bench_starts *starts) {
    if (starts->count > 0 && unlink(starts->path) == 0) {
        sync_folder(starts->path);
    }
}

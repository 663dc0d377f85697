// Copies to practise on, told from a log by the database's own mark.

#include "backup.h"
#include "lock.h"
#include "room.h"
#include "schema.h"
#include "tongue.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/statvfs.h>
#include <unistd.h>

#define KEEPS_FREE ((int64_t)192 << 20) // the log's own reserve, and as much again twice
// Where a database has its application id (sqlite.org/fileformat2.html, "The Database Header").
#define MARK_AT 68
_Static_assert(SCHEMA_PRACTICE_ID == 1262834256, "the mark is written as it is read");

bool store_is_practice(const struct store *store) {
    return store->practice;
}

// The mark of a file that nobody has open. False and errno: there is no such file, or none of ours.
static bool read_mark(const char *path, int64_t *ret_mark) {
    unsigned char bytes[4];
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NOFOLLOW);
    if (fd < 0) {
        return false;
    }
    bool read = pread(fd, bytes, sizeof bytes, MARK_AT) == (ssize_t)sizeof bytes;
    close(fd);
    errno = EINVAL;
    if (read) {
        *ret_mark = (int64_t)bytes[0] << 24 | bytes[1] << 16 | bytes[2] << 8 | bytes[3];
    }
    return read;
}

enum store_result store_practice_away(const char *path, char *message, size_t size) {
    static const char *const tails[] = {".part",         ".part-wal", ".part-shm", ".part.lock",
                                        ".part.ballast", "-wal",      "-shm",      "-journal",
                                        ".lock",         ""};
    char name[PATH_MAX];
    int64_t mark = 0;
    if (strlen(path) + STORE_SUFFIX_MAX >= sizeof name) {
        snprintf(message, size, _("The path %.200s is too long."), path);
        return STORE_FAILED;
    }
    if (backup_in_use(path)) {
        snprintf(message, size, _("Another window practises on %.400s. End that first."), path);
        return STORE_BUSY;
    }
    bool there = read_mark(path, &mark) || errno != ENOENT;
    if (there && mark != SCHEMA_PRACTICE_ID) {
        snprintf(message, size, _("%.400s is no practice and was left alone. Move it away."), path);
        return STORE_REFUSED;
    }
    for (size_t i = 0; i < sizeof tails / sizeof tails[0]; i++) {
        snprintf(name, sizeof name, "%s%s", path, tails[i]);
        unlink(name);
    }
    return there ? STORE_OK : STORE_NONE;
}

static int64_t file_size(const struct store *store, const char *tail) {
    char name[STORE_PATH_MAX + STORE_SUFFIX_MAX];
    struct stat stat;
    snprintf(name, sizeof name, "%s%s", store->path, tail);
    return lstat(name, &stat) == 0 ? (int64_t)stat.st_size : 0;
}

static enum store_result look_for_room(struct store *store) {
    struct statvfs disk;
    int64_t need = file_size(store, "") + file_size(store, "-wal") + KEEPS_FREE;
    if (statvfs(store->path, &disk) != 0) {
        return connection_fail(store, N_("see how much room the disk has"));
    }
    int64_t room = (int64_t)disk.f_bavail * (int64_t)disk.f_frsize;
    return room >= need
               ? STORE_OK
               : connection_say(store, STORE_FULL,
                                _("No room to practise: %lld MB are free, a copy that does "
                                  "not crowd the log out needs %lld."),
                                (long long)(room >> 20), (long long)(need >> 20));
}

// So that no moment has a copy with the final name and without the mark. SQLite's own close brings
// all of it into the one file.
static bool mark(const char *temporary, char *why, size_t size) {
    sqlite3 *copy = NULL;
    int code =
        sqlite3_open_v2(temporary, &copy, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOFOLLOW, NULL);
    if (code == SQLITE_OK) {
        code = sqlite3_exec(copy, "PRAGMA application_id = 1262834256", NULL, NULL, NULL);
    }
    if (code != SQLITE_OK) {
        snprintf(why, size, _("Could not mark %.400s as practice: %.80s."), temporary,
                 copy == NULL ? "no memory" : sqlite3_errmsg(copy));
    }
    return sqlite3_close(copy) == SQLITE_OK && code == SQLITE_OK;
}

static bool publish(const char *temporary, const char *path, char *why, size_t size) {
    bool done = mark(temporary, why, size);
    if (done && !backup_publish(temporary, path)) {
        snprintf(why, size, _("Could not write %.400s: %s."), path, strerror(errno));
        done = false;
    }
    return done;
}

static enum store_result make(struct store *store, const char *path, const char *temporary) {
    char why[STORE_MESSAGE_MAX];
    enum store_result result = backup_copy(store, temporary);
    if (result == STORE_OK && !publish(temporary, path, why, sizeof why)) {
        unlink(temporary);
        result = connection_say(store, STORE_FAILED, "%s", why);
    }
    return result;
}

enum store_result store_practice_take(const char *path, char *message, size_t size) {
    char temporary[PATH_MAX];
    snprintf(temporary, sizeof temporary, "%.*s.part", PATH_MAX - STORE_SUFFIX_MAX, path);
    return publish(temporary, path, message, size) ? STORE_OK : STORE_FAILED;
}

enum store_result store_practice(struct store *store, const char *path) {
    char message[STORE_MESSAGE_MAX];
    char temporary[PATH_MAX];
    if (!connection_ready(store, N_("copy the database"))) {
        return STORE_FAILED;
    }
    if (store->practice) {
        return connection_say(store, STORE_REFUSED, _("%s is for practice already."), store->path);
    }
    enum store_result result = store_practice_away(path, message, sizeof message);
    if (result != STORE_OK && result != STORE_NONE) {
        return connection_say(store, result, "%s", message);
    }
    result = look_for_room(store);
    if (result != STORE_OK) {
        return result;
    }
    snprintf(temporary, sizeof temporary, "%.*s.part", PATH_MAX - STORE_SUFFIX_MAX, path);
    return make(store, path, temporary);
}

// Copies and checkpoints.

#include "backup.h"
#include "check.h"
#include "lock.h"
#include "room.h"
#include "tongue.h"

#include <errno.h>
#include <fcntl.h>
#include <libgen.h>
#include <limits.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define STORE_BEFORE_MAX 32 // ".before-12345.part"
// Where SQLite keeps its locks in a database (sqlite.org/fileformat2.html, "The Lock-Byte Page",
// and os_unix.c): every open connection to a WAL database has a read lock on some of these bytes.
#define SHARED_FIRST (0x40000000 + 2)
#define SHARED_SIZE 510

enum store_result store_checkpoint(struct store *store) {
    if (!connection_ready(store, N_("tidy up the write-ahead log"))) {
        return STORE_FAILED;
    }
    if (store->mode == STORE_READ) {
        return connection_say(store, STORE_FAILED, _("%s was opened for reading only."),
                              store->path);
    }
    if (!lock_take(store->lock_fd, store->lock_wait_ms)) {
        return connection_say(store, STORE_BUSY, _("Another program keeps %s.lock."), store->path);
    }
    int code = sqlite3_wal_checkpoint_v2(store->db, NULL, SQLITE_CHECKPOINT_TRUNCATE, NULL, NULL);
    enum store_result result =
        code == SQLITE_OK ? STORE_OK : connection_fail(store, N_("tidy up the write-ahead log"));
    lock_release(store->lock_fd);
    if (result == STORE_OK && !store->practice) {
        room_keep(store);
    }
    return result;
}

static enum store_result fail(struct store *store, const char *path, const char *reason) {
    return connection_say(
        store, STORE_FAILED,
        _("Could not write the copy %s: %s. Look at the path and the room there."), path, reason);
}

static enum store_result copy(struct store *store, const char *temporary) {
    sqlite3 *target = NULL;
    enum store_result result = STORE_OK;
    int code =
        sqlite3_open_v2(temporary, &target,
                        SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOFOLLOW, NULL);
    if (code == SQLITE_OK) {
        sqlite3_backup *backup = sqlite3_backup_init(target, "main", store->db, "main");
        if (backup != NULL) {
            sqlite3_backup_step(backup, -1);
            code = sqlite3_backup_finish(backup);
        } else {
            code = sqlite3_errcode(target);
        }
    }
    // One file without a -wal beside it, so that it can be carried away.
    if (code == SQLITE_OK) {
        code = sqlite3_exec(target, "PRAGMA journal_mode = DELETE", NULL, NULL, NULL);
    }
    if (code != SQLITE_OK) {
        result = fail(store, temporary, target == NULL ? "no memory" : sqlite3_errmsg(target));
    }
    sqlite3_close(target);
    return result;
}

// The copy has the schema of the original, which may be older than the program's.
static enum store_result examine(struct store *store, const char *temporary) {
    struct store *copied;
    struct store_check check;
    char message[STORE_MESSAGE_MAX];
    enum store_result result = connection_open(temporary, STORE_READ, store->bench, true, &copied,
                                               message, sizeof message);
    if (result != STORE_OK) {
        return fail(store, temporary, message);
    }
    result = check_file(copied, &check);
    if (result != STORE_OK) {
        result =
            result == STORE_REFUSED
                ? connection_say(store, STORE_FAILED,
                                 _("%s is not whole, so no copy of it was kept (%s). Go on with "
                                   "the last good copy."),
                                 store->path, check.problem)
                : fail(store, temporary, store_message(copied));
    }
    store_close(copied);
    return result;
}

bool backup_in_use(const char *path) {
    struct flock lock = {
        .l_type = F_WRLCK, .l_whence = SEEK_SET, .l_start = SHARED_FIRST, .l_len = SHARED_SIZE};
    int fd = open(path, O_RDONLY | O_CLOEXEC);
    bool used = fd >= 0 && fcntl(fd, F_GETLK, &lock) == 0 && lock.l_type != F_UNLCK;
    if (fd >= 0) {
        close(fd);
    }
    return used;
}

bool backup_sync(const char *path, int flags) {
    int fd = open(path, flags | O_CLOEXEC);
    bool done = fd >= 0 && fsync(fd) == 0;
    int reason = errno;
    if (fd >= 0) {
        close(fd);
    }
    errno = reason;
    return done;
}

bool backup_publish(const char *temporary, const char *path) {
    char folder[PATH_MAX];
    snprintf(folder, sizeof folder, "%s", path);
    return backup_sync(temporary, O_RDONLY) &&
           renameat2(AT_FDCWD, temporary, AT_FDCWD, path, RENAME_NOREPLACE) == 0 &&
           backup_sync(dirname(folder), O_RDONLY | O_DIRECTORY);
}

// In a folder that others may write to, one of them could have put a file of his own there in the
// moment between, and would read every name in it.
static bool ours(const char *temporary) {
    struct stat stat;
    return lstat(temporary, &stat) == 0 && S_ISREG(stat.st_mode) && stat.st_uid == geteuid() &&
           stat.st_nlink == 1;
}

enum store_result backup_copy(struct store *store, const char *temporary) {
    unlink(temporary); // of a copy that was cut short
    enum store_result result = copy(store, temporary);
    if (result == STORE_OK && !ours(temporary)) {
        result = fail(store, temporary, _("another program put a file there"));
    }
    if (result == STORE_OK) {
        result = examine(store, temporary);
    }
    if (result != STORE_OK) {
        unlink(temporary);
    }
    return result;
}

enum store_result store_backup(struct store *store, const char *path) {
    char temporary[PATH_MAX];
    struct stat existing;
    if (!connection_ready(store, N_("copy the database"))) {
        return STORE_FAILED;
    }
    if (store->practice) {
        return connection_say(store, STORE_REFUSED,
                              _("%s is for practice: nothing in it is worth a copy."), store->path);
    }
    if (lstat(path, &existing) == 0) {
        return connection_say(store, STORE_REFUSED,
                              _("%s exists already. Name another file, or move it away."), path);
    }
    if (snprintf(temporary, sizeof temporary, "%s.part", path) >= PATH_MAX) {
        return fail(store, path, strerror(ENAMETOOLONG));
    }
    enum store_result result = backup_copy(store, temporary);
    if (result == STORE_OK && !backup_publish(temporary, path)) {
        result = fail(store, path, strerror(errno));
        unlink(temporary);
    }
    return result;
}

static bool same_bytes(const char *left_path, const char *right_path) {
    char left[4096], right[4096];
    FILE *one = fopen(left_path, "re");
    FILE *two = fopen(right_path, "re");
    bool same = one != NULL && two != NULL;
    size_t size = 1;
    while (same && size > 0) {
        size = fread(left, 1, sizeof left, one);
        same = fread(right, 1, sizeof right, two) == size && memcmp(left, right, size) == 0;
    }
    same = same && !ferror(one) && !ferror(two);
    if (one != NULL) {
        fclose(one);
    }
    if (two != NULL) {
        fclose(two);
    }
    return same;
}

// A kiosk starts again and again: a migration that keeps failing must not fill the disk.
static enum store_result name_before(struct store *store, const char *temporary, int number) {
    char path[STORE_PATH_MAX + STORE_BEFORE_MAX];
    for (int i = 0; i < 10; i++) {
        int size = snprintf(path, sizeof path, "%s.before-%d", store->path, number);
        if (i > 0) {
            snprintf(path + size, sizeof path - (size_t)size, ".%d", i);
        }
        if (backup_publish(temporary, path)) {
            return STORE_OK;
        }
        if (errno != EEXIST) {
            break;
        }
        if (same_bytes(temporary, path)) {
            unlink(temporary);
            return STORE_OK;
        }
    }
    enum store_result result = fail(store, path, strerror(errno));
    unlink(temporary);
    return result;
}

enum store_result backup_before(struct store *store, int number) {
    char temporary[STORE_PATH_MAX + STORE_BEFORE_MAX];
    snprintf(temporary, sizeof temporary, "%s.before-%d.part", store->path, number);
    enum store_result result = backup_copy(store, temporary);
    return result == STORE_OK ? name_before(store, temporary, number) : result;
}

#include "restore.h"
#include "append.h"
#include "backup.h"
#include "chain.h"
#include "lock.h"
#include "tongue.h"

#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#define HEAD_BYTES 8 // of a hash, for people
#define LOCK_WAIT_MS 5000

struct restoring {
    char path[STORE_PATH_MAX];
    char part[STORE_PATH_MAX + STORE_SUFFIX_MAX];
    char aside[STORE_PATH_MAX + 50];
    char *message;
    size_t size;
    int64_t entries;
};

__attribute__((format(printf, 3, 4))) static enum store_result
say(const struct restoring *r, enum store_result result, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(r->message, r->size, format, arguments);
    va_end(arguments);
    return result;
}

static enum store_result failed(const struct restoring *r, const char *path) {
    return say(r, STORE_FAILED, _("Could not put the copy in its place: %s: %s. Do it again."),
               path, strerror(errno));
}

// `12 entries, head 3f2a...`
static void say_end(const struct chain_end *end, char *buffer, size_t size) {
    int used = snprintf(buffer, size, "%lld entries, head ", (long long)end->seq);
    for (int i = 0; i < HEAD_BYTES; i++) {
        used += snprintf(buffer + used, size - (size_t)used, "%02x", end->hash[i]);
    }
}

// The old database as far as it can be read.
static void say_replaced(const struct restoring *r, char *buffer, size_t size) {
    struct store *store;
    struct chain_end end;
    char ignored[STORE_MESSAGE_MAX];
    if (access(r->path, F_OK) != 0) {
        snprintf(buffer, size, "none");
    } else if (connection_open(r->path, STORE_READ, "", true, &store, ignored, sizeof ignored) !=
               STORE_OK) {
        snprintf(buffer, size, "one that cannot be read");
    } else {
        if (chain_find_end(store, &end) == STORE_OK) {
            say_end(&end, buffer, size);
        } else {
            snprintf(buffer, size, "one that cannot be read");
        }
        store_close(store);
    }
}

static void take_away(const char *path, const char *suffix) {
    char name[STORE_PATH_MAX + 2 * STORE_SUFFIX_MAX];
    snprintf(name, sizeof name, "%s%s", path, suffix);
    unlink(name);
}

static void take_away_part(const struct restoring *r) {
    static const char *const suffixes[] = {"", "-wal", "-shm", ".lock", ".ballast"};
    for (size_t i = 0; i < sizeof suffixes / sizeof suffixes[0]; i++) {
        take_away(r->part, suffixes[i]);
    }
}

static enum store_result copy(struct restoring *r, const char *from) {
    struct store *store;
    struct chain_end end;
    enum store_result result =
        connection_open(from, STORE_READ, "", true, &store, r->message, r->size);
    if (result != STORE_OK) {
        return result;
    }
    if (store->practice) {
        store_close(store);
        return say(
            r, STORE_REFUSED,
            _("%s is for practice: what it says was never done. Go on from a copy of the log."),
            from);
    }
    result = backup_copy(store, r->part);
    if (result == STORE_OK) {
        result = chain_find_end(store, &end);
    }
    if (result == STORE_OK) {
        r->entries = end.seq;
    } else {
        say(r, result, "%s", store_message(store));
    }
    store_close(store);
    return result;
}

static enum store_result append(struct store *store, const char *replaced) {
    char from[80];
    struct chain_end end;
    struct entry entry = entry_init(ENTRY_RESTORED);
    enum store_result result = chain_find_end(store, &end);
    if (result != STORE_OK) {
        return result;
    }
    say_end(&end, from, sizeof from);
    chain_stamp(store, &entry);
    snprintf(entry.note, sizeof entry.note, "goes on from %s; takes the place of %s", from,
             replaced);
    result = store_append(store, &entry);
    return result == STORE_OK ? store_checkpoint(store) : result;
}

// Makes the copy a log that goes on, all of it in one file.
static enum store_result go_on(const struct restoring *r, const char *bench, const char *replaced) {
    struct store *store;
    enum store_result result = store_open(r->part, STORE_WRITE, bench, &store, r->message, r->size);
    if (result != STORE_OK) {
        return result;
    }
    result = append(store, replaced);
    if (result != STORE_OK) {
        say(r, result, "%s", store_message(store));
    }
    store_close(store);
    return result == STORE_OK && !backup_sync(r->part, O_RDONLY) ? failed(r, r->part) : result;
}

static bool sync_folder(const struct restoring *r) {
    char folder[STORE_PATH_MAX];
    snprintf(folder, sizeof folder, "%s", r->path);
    *(strrchr(folder, '/') + 1) = '\0';
    return backup_sync(folder, O_RDONLY | O_DIRECTORY);
}

// A second name for the file at `path`, if there is one.
static bool link_aside(const struct restoring *r, const char *suffix) {
    char from[STORE_PATH_MAX + STORE_SUFFIX_MAX];
    char to[sizeof r->aside + STORE_SUFFIX_MAX];
    snprintf(from, sizeof from, "%s%s", r->path, suffix);
    snprintf(to, sizeof to, "%s%s", r->aside, suffix);
    return link(from, to) == 0 || errno == ENOENT;
}

static bool unlink_old(const struct restoring *r, const char *suffix) {
    char name[STORE_PATH_MAX + STORE_SUFFIX_MAX];
    snprintf(name, sizeof name, "%s%s", r->path, suffix);
    return unlink(name) == 0 || errno == ENOENT;
}

// A name that no file has, nor a -wal to it.
static void find_aside(struct restoring *r) {
    char stamp[24];
    char wal[sizeof r->aside + STORE_SUFFIX_MAX];
    struct tm date = {0};
    time_t now = time(NULL);
    do {
        gmtime_r(&now, &date);
        strftime(stamp, sizeof stamp, "%Y%m%dT%H%M%SZ", &date);
        snprintf(r->aside, sizeof r->aside, "%s.replaced-%s", r->path, stamp);
        snprintf(wal, sizeof wal, "%s-wal", r->aside);
        now++;
    } while (access(r->aside, F_OK) == 0 || access(wal, F_OK) == 0);
}

// The old database and its log have both names before either loses the first, and the log goes
// last: a database without it would be an older one, and a log beside the new database would be
// played into it. Each step is on the disk before the next.
static enum store_result swap(struct restoring *r) {
    bool there = access(r->path, F_OK) == 0;
    find_aside(r);
    if (!link_aside(r, "") || !link_aside(r, "-wal") || !sync_folder(r)) {
        return failed(r, r->aside);
    }
    take_away(r->path, ".checked"); // by a bench: that all of the old one is whole
    if (!unlink_old(r, "") || !sync_folder(r) || !unlink_old(r, "-wal") || !unlink_old(r, "-shm") ||
        !sync_folder(r)) {
        return failed(r, r->path);
    }
    take_away(r->part, "-wal"); // empty
    take_away(r->part, "-shm");
    if (renameat2(AT_FDCWD, r->part, AT_FDCWD, r->path, RENAME_NOREPLACE) != 0 || !sync_folder(r)) {
        return failed(r, r->path);
    }
    if (!there) {
        r->aside[0] = '\0';
    }
    return STORE_OK;
}

static enum store_result restore(struct restoring *r, const char *from, const char *bench) {
    char replaced[80];
    if (backup_in_use(r->path)) { // nobody may go on writing to what is set aside
        return say(
            r, STORE_BUSY,
            _("%s is in use. End the bench and every other program that has it open, then do "
              "it again."),
            r->path);
    }
    take_away_part(r);
    say_replaced(r, replaced, sizeof replaced);
    enum store_result result = copy(r, from);
    if (result == STORE_OK) {
        result = go_on(r, bench, replaced);
    }
    if (result == STORE_OK) {
        result = swap(r);
    }
    take_away_part(r);
    return result;
}

enum store_result store_restore(const char *from, const char *path, const char *bench,
                                struct restored *ret_restored, char *message, size_t size) {
    struct restoring r = {.message = message, .size = size};
    char lock_path[STORE_PATH_MAX + STORE_SUFFIX_MAX];
    if (!connection_resolve(path, r.path)) {
        return say(&r, STORE_FAILED, _("Could not find %s: %s. Look at the path."), path,
                   strerror(errno));
    }
    snprintf(r.part, sizeof r.part, "%s.restored", r.path);
    snprintf(lock_path, sizeof lock_path, "%s.lock", r.path);
    int lock = lock_open(lock_path);
    if (lock < 0) {
        return say(&r, STORE_FAILED, _("Could not open %s: %s."), lock_path, strerror(errno));
    }
    enum store_result result =
        lock_take(lock, LOCK_WAIT_MS)
            ? restore(&r, from, bench)
            : say(&r, STORE_BUSY, _("Another program is writing to %s. Try again."), r.path);
    close(lock);
    if (result == STORE_OK) {
        ret_restored->entries = r.entries;
        snprintf(ret_restored->aside, sizeof ret_restored->aside, "%s", r.aside);
    }
    return result;
}

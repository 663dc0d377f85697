// Opening, closing, and opening again after an error.

#include "connection.h"
#include "boot.h"
#include "chain.h"
#include "lock.h"
#include "migrate.h"
#include "room.h"
#include "settings.h"
#include "settle.h"
#include "tongue.h"

#include <errno.h>
#include <limits.h>
#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define LOCK_WAIT_MS 5000
#define SHARED_FROM 20000 // below, a thread and its connection cost more than they save

bool connection_resolve(const char *path, char ret_path[STORE_PATH_MAX]) {
    char folder[PATH_MAX];
    char real[PATH_MAX];
    const char *slash = strrchr(path, '/');
    const char *name = slash == NULL ? path : slash + 1;
    size_t size = slash == NULL ? 0 : (size_t)(slash - path) + 1;
    if (size >= sizeof folder || *name == '\0') {
        errno = EINVAL;
        return false;
    }
    memcpy(folder, path, size);
    folder[size] = '\0';
    if (realpath(size == 0 ? "." : folder, real) == NULL) {
        return false;
    }
    if (snprintf(ret_path, STORE_PATH_MAX, "%s/%s", strcmp(real, "/") == 0 ? "" : real, name) >=
        STORE_PATH_MAX) {
        errno = ENAMETOOLONG;
        return false;
    }
    return true;
}

static enum store_result prepare(struct store *store) {
    enum store_result result = settings_apply(store);
    if (result == STORE_OK) {
        result = migrate_examine(store, schema_migration_count);
    }
    if (result == STORE_OK) {
        result = settings_journal(store);
    }
    if (result == STORE_OK && store->mode != STORE_READ) {
        result = migrate_run(store, schema_migrations, schema_migration_count);
    }
    if (result == STORE_OK) {
        result = settings_guard(store);
    }
    if (result == STORE_OK && store->mode != STORE_READ) {
        result = chain_begin(store);
    }
    return result;
}

static void disconnect(struct store *store) {
    for (size_t i = 0; i < STATEMENT_COUNT; i++) {
        sqlite3_finalize(store->statement[i]);
        store->statement[i] = NULL;
    }
    sqlite3_close(store->db);
    store->db = NULL;
    store->unknown = false;
    store->reading = false;
    if (store->lock_fd >= 0) {
        close(store->lock_fd);
        store->lock_fd = -1;
    }
}

// Opens the lock file, which stands beside the database.
static enum store_result open_lock(struct store *store) {
    char path[STORE_PATH_MAX + STORE_SUFFIX_MAX];
    snprintf(path, sizeof path, "%s.lock", store->path);
    store->lock_fd = lock_open(path);
    return store->lock_fd >= 0
               ? STORE_OK
               : connection_say(store, STORE_FAILED,
                                _("Could not open %s: %s. Look at the path and its access rights."),
                                path, strerror(errno));
}

static enum store_result connect(struct store *store) {
    static const int flags[] = {
        [STORE_READ] = SQLITE_OPEN_READONLY,
        [STORE_WRITE] = SQLITE_OPEN_READWRITE,
        [STORE_CREATE] = SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE,
    };
    struct stat there;
    enum store_result result;
    if (lstat(store->path, &there) == 0 && !S_ISREG(there.st_mode)) {
        return connection_say(store, STORE_FAILED,
                              _("%s is no file, or a link to one. Name the database file itself."),
                              store->path);
    }
    if (sqlite3_open_v2(store->path, &store->db,
                        flags[store->mode] | SQLITE_OPEN_NOFOLLOW | SQLITE_OPEN_NOMUTEX,
                        NULL) != SQLITE_OK) {
        result = store->db == NULL
                     ? connection_say(store, STORE_FAILED, _("No memory to open %s."), store->path)
                     : connection_fail(store, N_("open the database"));
        goto disconnect;
    }
    if (store->mode != STORE_READ) {
        result = open_lock(store);
        if (result != STORE_OK) {
            goto disconnect;
        }
    }
    result = prepare(store);
    if (result != STORE_OK) {
        goto disconnect;
    }
    store->mode = store->mode == STORE_CREATE ? STORE_WRITE : store->mode;
    return STORE_OK;

disconnect:
    disconnect(store);
    return result;
}

enum store_result connection_open(const char *path, enum store_mode mode, const char *bench,
                                  bool older, struct store **ret_store, char *message,
                                  size_t size) {
    enum store_result result;
    struct store *store = calloc(1, sizeof *store);
    if (store == NULL || sodium_init() < 0) {
        snprintf(message, size, _("No memory to open %s."), path);
        free(store);
        return STORE_FAILED;
    }
    store->mode = mode;
    store->older = older;
    store->lock_fd = -1;
    store->lock_wait_ms = LOCK_WAIT_MS;
    store->shared_from = SHARED_FROM;
    store->clock = (struct store_clock){boot_ms, boot_id};
    store->pin_rules = (struct pin_rules)PIN_RULES_DEFAULT;
    snprintf(store->bench, sizeof store->bench, "%s", bench);
    if (!connection_resolve(path, store->path)) {
        result = connection_say(store, STORE_FAILED, _("Could not open %s: %s. Look at the path."),
                                path, strerror(errno));
    } else {
        result = connect(store);
    }
    if (result != STORE_OK) {
        snprintf(message, size, "%s", store->message);
        free(store);
        return result;
    }
    if (mode != STORE_READ && !store->practice) {
        room_keep(store);
    }
    *ret_store = store;
    return STORE_OK;
}

enum store_result store_open(const char *path, enum store_mode mode, const char *bench,
                             struct store **ret_store, char *message, size_t size) {
    bool copy = mode == STORE_COPY;
    return connection_open(path, copy ? STORE_READ : mode, bench, copy, ret_store, message, size);
}

void store_close(struct store *store) {
    if (store != NULL) {
        disconnect(store);
        sodium_free(store->pepper);
        free(store);
    }
}

// What the failed commit left behind, made certain one way or the other.
static enum store_result settle(struct store *store) {
    enum store_result result = open_lock(store);
    if (result != STORE_OK) {
        return result;
    }
    if (!lock_take(store->lock_fd, store->lock_wait_ms)) {
        result =
            connection_say(store, STORE_BUSY, _("Another program keeps %s.lock."), store->path);
    } else if (!settle_wal(store->path)) {
        result = connection_say(store, STORE_FAILED,
                                _("The disk of %s does not keep what is written to it. Look at the "
                                  "disk and its cable."),
                                store->path);
    }
    close(store->lock_fd); // and with it the lock
    store->lock_fd = -1;
    return result;
}

enum store_result store_reopen(struct store *store) {
    bool doubt = store->unknown;
    disconnect(store);
    enum store_result result = doubt ? settle(store) : STORE_OK;
    if (result == STORE_OK) {
        return connect(store);
    }
    store->unknown = true;
    return result;
}

const char *store_message(const struct store *store) {
    return store->message;
}

const char *store_path(const struct store *store) {
    return store->path;
}

#include "migrate.h"
#include "backup.h"
#include "lock.h"
#include "schema_check.h"
#include "tongue.h"

#include <stdio.h>

// One number out of one row, before the statement table may be used.
static bool ask(struct store *store, const char *sql, int64_t *ret_number) {
    sqlite3_stmt *statement = NULL;
    bool there = sqlite3_prepare_v2(store->db, sql, -1, &statement, NULL) == SQLITE_OK &&
                 sqlite3_step(statement) == SQLITE_ROW;
    if (there) {
        *ret_number = sqlite3_column_int64(statement, 0);
    }
    return sqlite3_finalize(statement) == SQLITE_OK && there;
}

// A pragma takes no parameter. Whose file it is, and the schema it has now.
static bool mark(struct store *store, int version) {
    char sql[96];
    snprintf(sql, sizeof sql, "PRAGMA application_id = %d; PRAGMA user_version = %d",
             store->practice ? SCHEMA_PRACTICE_ID : SCHEMA_APPLICATION_ID, version);
    return sqlite3_exec(store->db, sql, NULL, NULL, NULL) == SQLITE_OK;
}

enum store_result migrate_examine(struct store *store, size_t count) {
    int64_t application;
    int64_t version;
    int64_t objects;
    if (!ask(store, "PRAGMA application_id", &application) ||
        !ask(store, "PRAGMA user_version", &version) ||
        !ask(store, "SELECT count(*) FROM sqlite_schema", &objects)) {
        return connection_fail(store, N_("read the database"));
    }
    bool empty = application == 0 && version == 0 && objects == 0;
    if (empty && store->mode == STORE_CREATE) {
        return STORE_OK;
    }
    store->practice = application == SCHEMA_PRACTICE_ID;
    if (application != SCHEMA_APPLICATION_ID && !store->practice) {
        return connection_say(store, STORE_REFUSED,
                              _("%s is no Kerfside database. Name another file, or make a database "
                                "with `kerfside import` or `kerfside demo`."),
                              store->path);
    }
    if (version > (int64_t)count) {
        return connection_say(
            store, STORE_REFUSED,
            _("%s was written by a newer Kerfside (schema %lld, this program knows "
              "%zu). Use the newer program."),
            store->path, (long long)version, count);
    }
    if (version < (int64_t)count && store->mode == STORE_READ && !store->older) {
        return connection_say(store, STORE_REFUSED,
                              _("%s was written by an older Kerfside (schema %lld, this program "
                                "reads %zu). Open it once with `kerfside bench` to bring it up to "
                                "date."),
                              store->path, (long long)version, count);
    }
    return schema_check(store, version);
}

// The version is read again inside: another process may have been quicker.
static enum store_result step(struct store *store, const struct migration *migration) {
    char doing[96];
    int64_t version;
    snprintf(doing, sizeof doing, _("bring the database to schema %04d"), migration->number);
    enum store_result result = connection_begin(store);
    if (result != STORE_OK) {
        return result;
    }
    if (!ask(store, "PRAGMA user_version", &version)) {
        result = connection_fail(store, doing);
    } else if (version < migration->number) {
        bool done = sqlite3_exec(store->db, migration->sql, NULL, NULL, NULL) == SQLITE_OK &&
                    mark(store, migration->number);
        result = done ? STORE_OK : connection_fail(store, doing);
    }
    if (result != STORE_OK) {
        connection_rollback(store);
        return result;
    }
    return connection_commit(store);
}

// Under the lock from before the copy is made until the first step is committed, so that nothing is
// written in between that the copy does not have. A database whose log has not begun is still being
// made (the power may have gone half way) and needs none.
static enum store_result keep_copy(struct store *store, size_t count) {
    int64_t version;
    int64_t begun = 0;
    if (!lock_take(store->lock_fd, store->lock_wait_ms)) {
        return connection_say(store, STORE_BUSY, _("Another program keeps %s.lock."), store->path);
    }
    if (!ask(store, "PRAGMA user_version", &version) ||
        (version > 0 && !ask(store, "SELECT EXISTS (SELECT 1 FROM log)", &begun))) {
        return connection_fail(store, N_("read the database"));
    }
    return begun != 0 && version < (int64_t)count ? backup_before(store, (int)count) : STORE_OK;
}

static enum store_result steps(struct store *store, const struct migration *migrations,
                               size_t count, int64_t version) {
    enum store_result result = STORE_OK;
    for (size_t i = 0; result == STORE_OK && i < count; i++) {
        if (migrations[i].number > version) {
            result = step(store, &migrations[i]);
        }
    }
    return result;
}

enum store_result migrate_run(struct store *store, const struct migration *migrations,
                              size_t count) {
    int64_t version;
    if (!ask(store, "PRAGMA user_version", &version)) {
        return connection_fail(store, N_("read the schema's version"));
    }
    if (version >= (int64_t)count) {
        return STORE_OK;
    }
    enum store_result result = keep_copy(store, count);
    if (result == STORE_OK) {
        result = steps(store, migrations, count, version);
    }
    lock_release(store->lock_fd);
    return result;
}

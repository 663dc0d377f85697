// Every setting that reliability hangs on is set and read back: SQLite passes over a pragma it does
// not know without a word.

#include "settings.h"
#include "lock.h"
#include "tongue.h"

#include <stdio.h>
#include <string.h>

struct pragma {
    const char *set;
    const char *ask;
    const char *expected;
};
#define PRAGMA(name, value, expected)                                                              \
    { "PRAGMA " name " = " value, "PRAGMA " name, expected }

static bool turn(struct store *store, const struct pragma *pragma) {
    sqlite3_stmt *statement = NULL;
    bool same = false;
    if (sqlite3_exec(store->db, pragma->set, NULL, NULL, NULL) != SQLITE_OK) {
        return false;
    }
    if (sqlite3_prepare_v2(store->db, pragma->ask, -1, &statement, NULL) == SQLITE_OK &&
        sqlite3_step(statement) == SQLITE_ROW) {
        const char *value = (const char *)sqlite3_column_text(statement, 0);
        same = value != NULL && strcmp(value, pragma->expected) == 0;
    }
    return sqlite3_finalize(statement) == SQLITE_OK && same;
}

enum store_result settings_apply(struct store *store) {
    static const struct pragma pragmas[] = {
        PRAGMA("busy_timeout", "5000", "5000"),
        PRAGMA("synchronous", "EXTRA", "3"),
        PRAGMA("foreign_keys", "ON", "1"),
        PRAGMA("recursive_triggers", "ON", "1"),
        PRAGMA("cell_size_check", "ON", "1"),
        PRAGMA("mmap_size", "0", "0"),
        PRAGMA("wal_autocheckpoint", "0", "0"),
        PRAGMA("journal_size_limit", "16777216", "16777216"),
        PRAGMA("temp_store", "MEMORY", "2"),
        PRAGMA("trusted_schema", "OFF", "0"),
        PRAGMA("secure_delete", "ON", "1"),
    };
    static const struct {
        int option, value;
    } options[] = {
        {SQLITE_DBCONFIG_DEFENSIVE, 1},
        {SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0},
        {SQLITE_DBCONFIG_DQS_DML, 0},
        {SQLITE_DBCONFIG_DQS_DDL, 0},
        {SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0},
        {SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1},
    };
    static const struct {
        int limit, value;
    } limits[] = {
        {SQLITE_LIMIT_LENGTH, 1000000},
        {SQLITE_LIMIT_SQL_LENGTH, 100000},
        {SQLITE_LIMIT_ATTACHED, 0},
        {SQLITE_LIMIT_TRIGGER_DEPTH, 10},
    };
    sqlite3_extended_result_codes(store->db, 1);
    for (size_t i = 0; i < sizeof options / sizeof options[0]; i++) {
        int now = -1;
        if (sqlite3_db_config(store->db, options[i].option, options[i].value, &now) != SQLITE_OK ||
            now != options[i].value) {
            return connection_say(store, STORE_FAILED, _("SQLite refuses option %d."),
                                  options[i].option);
        }
    }
    for (size_t i = 0; i < sizeof limits / sizeof limits[0]; i++) {
        sqlite3_limit(store->db, limits[i].limit, limits[i].value);
        if (sqlite3_limit(store->db, limits[i].limit, -1) != limits[i].value) {
            return connection_say(store, STORE_FAILED, _("SQLite refuses limit %d."),
                                  limits[i].limit);
        }
    }
    for (size_t i = 0; i < sizeof pragmas / sizeof pragmas[0]; i++) {
        if (!turn(store, &pragmas[i])) {
            return sqlite3_errcode(store->db) != SQLITE_OK
                       ? connection_fail(store, N_("set the database up"))
                       : connection_say(store, STORE_FAILED, _("SQLite refuses `%s`."),
                                        pragmas[i].set);
        }
    }
    return STORE_OK;
}

// After the migrations nothing changes the schema, attaches a file or turns a setting.
static int authorize(void *context, int action, const char *a, const char *b, const char *database,
                     const char *trigger) {
    static const char *const pragmas[] = {"integrity_check", "foreign_key_check"};
    (void)context;
    (void)b;
    (void)database;
    (void)trigger;
    switch (action) {
    case SQLITE_SELECT:
    case SQLITE_READ:
    case SQLITE_FUNCTION:
    case SQLITE_RECURSIVE:
    case SQLITE_TRANSACTION:
    case SQLITE_INSERT:
        return SQLITE_OK;
    case SQLITE_UPDATE:
    case SQLITE_DELETE:
        return strcmp(a, "log") == 0 ? SQLITE_DENY : SQLITE_OK;
    case SQLITE_PRAGMA:
        for (size_t i = 0; i < sizeof pragmas / sizeof pragmas[0]; i++) {
            if (strcmp(a, pragmas[i]) == 0) {
                return SQLITE_OK;
            }
        }
        return SQLITE_DENY;
    default:
        return SQLITE_DENY;
    }
}

enum store_result settings_journal(struct store *store) {
    static const struct pragma query_only = PRAGMA("query_only", "ON", "1");
    static const struct pragma journal = PRAGMA("journal_mode", "WAL", "wal");
    if (store->mode == STORE_READ) { // a backup is no WAL database and may be read all the same
        return turn(store, &query_only) ? STORE_OK
                                        : connection_fail(store, N_("make the database read only"));
    }
    if (!lock_take(store->lock_fd, store->lock_wait_ms)) {
        return connection_say(
            store, STORE_BUSY,
            _("Another program keeps %s.lock. Look what else runs on this machine."), store->path);
    }
    bool wal = turn(store, &journal);
    lock_release(store->lock_fd);
    return wal ? STORE_OK : connection_fail(store, N_("keep a write-ahead log"));
}

enum store_result settings_guard(struct store *store) {
    return sqlite3_set_authorizer(store->db, authorize, NULL) == SQLITE_OK
               ? STORE_OK
               : connection_fail(store, N_("guard the schema"));
}

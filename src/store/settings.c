// Every setting that reliability hangs on is set and read back: SQLite passes over a pragma it does
// not know without a word.

#include "settings.h"
#include "lock.h"

#include <stdio.h>
#include <string.h>

static bool pragma(struct store *store, const char *name, const char *value, const char *expected) {
    char sql[96];
    sqlite3_stmt *statement = NULL;
    bool same = false;
    snprintf(sql, sizeof sql, "PRAGMA %s = %s", name, value);
    if (value[0] != '\0' && sqlite3_exec(store->db, sql, NULL, NULL, NULL) != SQLITE_OK) {
        return false;
    }
    snprintf(sql, sizeof sql, "PRAGMA %s", name);
    if (sqlite3_prepare_v2(store->db, sql, -1, &statement, NULL) == SQLITE_OK &&
        sqlite3_step(statement) == SQLITE_ROW) {
        same = strcmp((const char *)sqlite3_column_text(statement, 0), expected) == 0;
    }
    return sqlite3_finalize(statement) == SQLITE_OK && same;
}

enum store_result settings_apply(struct store *store) {
    static const struct {
        const char *name, *value, *expected;
    } pragmas[] = {
        {"busy_timeout", "5000", "5000"}, {"synchronous", "EXTRA", "3"},
        {"foreign_keys", "ON", "1"},      {"recursive_triggers", "ON", "1"},
        {"cell_size_check", "ON", "1"},   {"mmap_size", "0", "0"},
        {"wal_autocheckpoint", "0", "0"}, {"journal_size_limit", "16777216", "16777216"},
        {"temp_store", "MEMORY", "2"},    {"trusted_schema", "OFF", "0"},
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
            return connection_say(store, STORE_FAILED, "SQLite refuses option %d.",
                                  options[i].option);
        }
    }
    for (size_t i = 0; i < sizeof limits / sizeof limits[0]; i++) {
        sqlite3_limit(store->db, limits[i].limit, limits[i].value);
        if (sqlite3_limit(store->db, limits[i].limit, -1) != limits[i].value) {
            return connection_say(store, STORE_FAILED, "SQLite refuses limit %d.", limits[i].limit);
        }
    }
    for (size_t i = 0; i < sizeof pragmas / sizeof pragmas[0]; i++) {
        if (!pragma(store, pragmas[i].name, pragmas[i].value, pragmas[i].expected)) {
            return sqlite3_errcode(store->db) != SQLITE_OK
                       ? connection_fail(store, "set the database up")
                       : connection_say(store, STORE_FAILED, "SQLite refuses `PRAGMA %s = %s`.",
                                        pragmas[i].name, pragmas[i].value);
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
    bool wal;
    if (store->mode == STORE_READ) { // a backup is no WAL database and may be read all the same
        return pragma(store, "query_only", "ON", "1")
                   ? STORE_OK
                   : connection_fail(store, "make the database read only");
    }
    if (!lock_take(store->lock_fd, store->lock_wait_ms)) {
        return connection_say(store, STORE_BUSY,
                              "Another program keeps %s.lock. Look what else runs on this machine.",
                              store->path);
    }
    wal = pragma(store, "journal_mode", "WAL", "wal");
    lock_release(store->lock_fd);
    return wal ? STORE_OK : connection_fail(store, "keep a write-ahead log");
}

enum store_result settings_guard(struct store *store) {
    return sqlite3_set_authorizer(store->db, authorize, NULL) == SQLITE_OK
               ? STORE_OK
               : connection_fail(store, "guard the schema");
}

// Transactions under the write lock, and what SQLite's errors mean for a person.

#include "connection.h"
#include "lock.h"
#include "query.h"
#include "tongue.h"

#include <stdarg.h>
#include <stdio.h>

enum store_result connection_say(struct store *store, enum store_result result, const char *format,
                                 ...) {
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(store->message, sizeof store->message, format, arguments);
    va_end(arguments);
    return result;
}

static const char *advice(int code) {
    switch (code) {
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
        return _("The file is damaged or no database: keep it with its -wal file, and go on with "
                 "the last copy: `kerfside restore`.");
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
    case SQLITE_READONLY:
    case SQLITE_AUTH:
        return _("Look at the path and its access rights.");
    case SQLITE_NOMEM:
        return _("Memory is short: close other programs.");
    case SQLITE_IOERR:
        return _("Look at the disk and its cable, then open the database again.");
    default:
        return _("Run `kerfside check`.");
    }
}

enum store_result connection_fail(struct store *store, const char *doing) {
    int code = sqlite3_errcode(store->db) & 0xFF;
    const char *reason = sqlite3_errmsg(store->db);
    switch (code) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return connection_say(store, STORE_BUSY,
                              _("Could not %s: another program is writing to %s. Try again."),
                              _(doing), store->path);
    case SQLITE_FULL:
        return connection_say(store, STORE_FULL,
                              _("Could not %s: no room left on the disk of %s. Free some."),
                              _(doing), store->path);
    case SQLITE_CONSTRAINT:
        return connection_say(store, STORE_REFUSED, _("Could not %s: %s."), _(doing), reason);
    default:
        return connection_say(store, STORE_FAILED, _("Could not %s in %s: %s. %s"), _(doing),
                              store->path, reason, advice(code));
    }
}

static enum store_result run(struct store *store, enum statement statement, const char *doing) {
    struct query query = query_open(store, statement);
    return query_run(&query, doing);
}

bool connection_ready(struct store *store, const char *doing) {
    if (store->db != NULL && !store->unknown) {
        return true;
    }
    connection_say(store, STORE_FAILED,
                   _("Could not %s: %s was closed after an error. Open it again."), _(doing),
                   store->path);
    return false;
}

enum store_result connection_begin(struct store *store) {
    if (!connection_ready(store, N_("write to the database"))) {
        return STORE_FAILED;
    }
    if (store->mode == STORE_READ) {
        return connection_say(store, STORE_FAILED, _("%s was opened for reading only."),
                              store->path);
    }
    if (!lock_take(store->lock_fd, store->lock_wait_ms)) {
        return connection_say(store, STORE_BUSY,
                              _("Another program has been writing to %s for too long. Look what "
                                "else runs on this machine, and try again."),
                              store->path);
    }
    enum store_result result = run(store, STATEMENT_BEGIN_WRITE, N_("begin to write"));
    if (result != STORE_OK) {
        lock_release(store->lock_fd);
    }
    return result;
}

// SQLite may have rolled back by itself; then there is nothing left to undo.
void connection_rollback(struct store *store) {
    struct query query = query_open(store, STATEMENT_ROLLBACK);
    if (!sqlite3_get_autocommit(store->db)) {
        query_step(&query);
    }
    if (query.statement != NULL) {
        sqlite3_reset(query.statement);
    }
    lock_release(store->lock_fd);
}

enum store_result connection_commit(struct store *store) {
    enum store_result result = run(store, STATEMENT_COMMIT, N_("write to disk"));
    if (result == STORE_OK) {
        lock_release(store->lock_fd);
        return STORE_OK;
    }
    connection_rollback(store);
    if (result != STORE_FULL) {
        store->unknown = true;
        result =
            connection_say(store, STORE_UNKNOWN,
                           _("The disk did not confirm the last entry in %s. It may be there or "
                             "not: open the database again and look."),
                           store->path);
    }
    return result;
}

enum store_result connection_read_begin(struct store *store) {
    if (store->db != NULL && !sqlite3_get_autocommit(store->db)) {
        return STORE_OK; // part of the transaction around it
    }
    enum store_result result = run(store, STATEMENT_BEGIN_READ, N_("begin to read"));
    store->reading = result == STORE_OK;
    return result;
}

void connection_read_end(struct store *store) {
    if (store->reading) {
        struct query query = query_open(store, STATEMENT_COMMIT);
        query_step(&query);
        sqlite3_reset(query.statement);
        store->reading = false;
    }
}

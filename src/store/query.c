#include "query.h"

#include "tongue.h"

#include <string.h>

struct query query_open(struct store *store, enum statement statement) {
    struct query query = {.store = store};
    sqlite3_stmt **slot = &store->statement[statement];
    if (store->db == NULL || store->unknown) {
        return query;
    }
    if (*slot == NULL && sqlite3_prepare_v3(store->db, statement_sql(statement), -1,
                                            SQLITE_PREPARE_PERSISTENT, slot, NULL) != SQLITE_OK) {
        query.failed = true;
        return query;
    }
    query.statement = *slot;
    return query;
}

// Checks the result of binding the next parameter.
static void bound(struct query *query, int code) {
    if (code != SQLITE_OK) {
        query->failed = true;
    }
}

void query_bind_text(struct query *query, const char *text) {
    query->bound++;
    if (query->statement != NULL) {
        bound(query, sqlite3_bind_text(query->statement, query->bound, text, -1, SQLITE_STATIC));
    }
}

void query_bind_blob(struct query *query, const void *bytes, size_t size) {
    query->bound++;
    if (query->statement != NULL) {
        bound(query,
              sqlite3_bind_blob64(query->statement, query->bound, bytes, size, SQLITE_STATIC));
    }
}

void query_bind_number(struct query *query, int64_t number) {
    query->bound++;
    if (query->statement != NULL) {
        bound(query, sqlite3_bind_int64(query->statement, query->bound, number));
    }
}

static void bind_or_null(struct query *query, int64_t number, int64_t null) {
    if (number != null) {
        query_bind_number(query, number);
        return;
    }
    query->bound++;
    if (query->statement != NULL) {
        bound(query, sqlite3_bind_null(query->statement, query->bound));
    }
}

void query_bind_id(struct query *query, int64_t id) {
    bind_or_null(query, id, 0);
}

void query_bind_length(struct query *query, length_nm length) {
    bind_or_null(query, length, LENGTH_UNKNOWN);
}

bool query_step(struct query *query) {
    query->row = false;
    if (query->statement == NULL || query->failed || query->odd) {
        return false;
    }
    if (query->bound != sqlite3_bind_parameter_count(query->statement)) {
        query->misbound = true; // NULL would stand for the rest
        return false;
    }
    switch (sqlite3_step(query->statement)) {
    case SQLITE_ROW:
        query->row = true;
        query->found = true;
        break;
    case SQLITE_DONE:
        break;
    default:
        query->failed = true;
        break;
    }
    return query->row;
}

// The column's type when it is `wanted`; NULL is told apart, anything else is odd.
static bool there(struct query *query, int column, int wanted) {
    int type = query->row ? sqlite3_column_type(query->statement, column) : SQLITE_NULL;
    if (type != wanted && (type != SQLITE_NULL || query->no_null)) {
        query->odd = true;
    }
    return type == wanted;
}

int64_t query_number(struct query *query, int column) {
    return there(query, column, SQLITE_INTEGER) ? sqlite3_column_int64(query->statement, column)
                                                : 0;
}

// The value that stands for NULL, found as a number, is odd: what means the same must look the
// same.
static int64_t number_or(struct query *query, int column, int64_t null) {
    if (!there(query, column, SQLITE_INTEGER)) {
        return null;
    }
    int64_t number = sqlite3_column_int64(query->statement, column);
    query->odd |= number == null;
    return number;
}

int64_t query_id(struct query *query, int column) {
    return number_or(query, column, 0);
}

length_nm query_length(struct query *query, int column) {
    return number_or(query, column, LENGTH_UNKNOWN);
}

int query_int(struct query *query, int column) {
    int64_t number = query_number(query, column);
    if (number < INT32_MIN || number > INT32_MAX) {
        query->odd = true;
        return 0;
    }
    return (int)number;
}

void query_text(struct query *query, int column, char *buffer, size_t size) {
    memset(buffer, 0, size);
    query_text_over(query, column, buffer, size);
}

void query_text_over(struct query *query, int column, char *buffer, size_t size) {
    size_t before = strnlen(buffer, size);
    size_t bytes = 0;
    if (there(query, column, SQLITE_TEXT)) {
        // The size first, which makes it UTF-8; then as a blob, which is not copied to have a NUL.
        bytes = (size_t)sqlite3_column_bytes(query->statement, column);
        const void *text = sqlite3_column_blob(query->statement, column);
        if (text == NULL && bytes > 0) {
            query->failed = true; // no memory
            bytes = 0;
        } else if (bytes >= size || (bytes > 0 && memchr(text, 0, bytes) != NULL)) {
            query->odd = true;
            bytes = 0;
        } else if (bytes > 0) {
            memcpy(buffer, text, bytes);
        }
    }
    if (before > bytes) {
        memset(buffer + bytes, 0, before - bytes);
    }
}

void query_blob(struct query *query, int column, void *buffer, size_t size) {
    memset(buffer, 0, size);
    if (!there(query, column, SQLITE_BLOB) ||
        (size_t)sqlite3_column_bytes(query->statement, column) != size) {
        query->odd = true;
        return;
    }
    const void *blob = sqlite3_column_blob(query->statement, column);
    if (blob == NULL) {
        query->failed = true;
    } else {
        memcpy(buffer, blob, size);
    }
}

static enum store_result ended(struct query *query, const char *doing) {
    struct store *store = query->store;
    if (!connection_ready(store, doing)) {
        return STORE_FAILED;
    }
    if (query->failed) {
        return connection_fail(store, doing);
    }
    if (query->misbound) {
        return connection_say(
            store, STORE_FAILED, _("Could not %s: a fault in the program, %d values for %d."),
            _(doing), query->bound, sqlite3_bind_parameter_count(query->statement));
    }
    if (query->odd) {
        return connection_say(store, STORE_FAILED,
                              _("Could not %s: a value in %s is not what it should be. Run "
                                "`kerfside check`."),
                              _(doing), store->path);
    }
    return query->found ? STORE_OK : STORE_NONE;
}

enum store_result query_end(struct query *query, const char *doing) {
    enum store_result result = ended(query, doing);
    if (query->statement != NULL) {
        sqlite3_reset(query->statement);
        sqlite3_clear_bindings(query->statement);
    }
    query->row = false;
    return result;
}

bool query_passes(enum store_result *result, enum store_result step) {
    *result = step == STORE_NONE ? STORE_OK : step;
    return *result == STORE_OK;
}

enum store_result query_run(struct query *query, const char *doing) {
    query_step(query);
    enum store_result result = query_end(query, doing);
    return result == STORE_NONE ? STORE_OK : result;
}

// Is everything whole: the chain first, because it can name the entry.

#include "chain.h"
#include "witness_compare.h"

#include <stdio.h>

static enum store_result found(struct store_check *check, const char *what, const char *detail) {
    snprintf(check->problem, sizeof check->problem, "%s%s", what, detail);
    return STORE_REFUSED;
}

// A file that SQLite calls damaged is an answer, not a failure to look.
static enum store_result ended(struct store *store, struct query *query, const char *doing,
                               struct store_check *check) {
    enum store_result result = query_end(query, doing);
    int code = store->db == NULL ? SQLITE_OK : sqlite3_errcode(store->db) & 0xFF;
    if (result == STORE_FAILED && (code == SQLITE_CORRUPT || code == SQLITE_NOTADB)) {
        return found(check, store_message(store), "");
    }
    return result;
}

static enum store_result integrity(struct store *store, struct store_check *check) {
    char answer[160] = "";
    struct query query = query_open(store, STATEMENT_CHECK_INTEGRITY);
    if (query_step(&query)) {
        snprintf(answer, sizeof answer, "%s",
                 (const char *)sqlite3_column_text(query.statement, 0));
    }
    enum store_result result = ended(store, &query, "check the file", check);
    if (result == STORE_OK && sqlite3_stricmp(answer, "ok") != 0) {
        result = found(check, "The file is damaged: ", answer);
    }
    return result;
}

static enum store_result foreign_keys(struct store *store, struct store_check *check) {
    char table[48] = "";
    struct query query = query_open(store, STATEMENT_CHECK_FOREIGN_KEYS);
    if (query_step(&query)) {
        query_text(&query, 0, table, sizeof table);
    }
    enum store_result result = ended(store, &query, "check references", check);
    if (result == STORE_OK) {
        return found(check, "A row refers to something that is not there: table ", table);
    }
    return result == STORE_NONE ? STORE_OK : result;
}

// The counts know the last entry too: a tail that was cut off shows.
static enum store_result tail(struct store *store, struct store_check *check) {
    int64_t last = 0;
    struct query query = query_open(store, STATEMENT_CHECK_TAIL);
    if (query_step(&query)) {
        last = query_number(&query, 0);
    }
    enum store_result result = ended(store, &query, "check the end of the log", check);
    if (result == STORE_OK && last > check->entries) {
        check->first_bad = check->entries + 1;
        result = found(check, "Entries are missing at the end of the log.", "");
    } else if (result == STORE_OK && last < check->entries) {
        result =
            found(check, "The counts of the days do not know the last entries of the log.", "");
    }
    return result;
}

// What no foreign key can say. A copy of an older schema has none of it.
static enum store_result estimates(struct store *store, struct store_check *check) {
    static const struct {
        enum statement statement;
        const char *problem;
    } rows[] = {
        {STATEMENT_CHECK_WISHES, "A club wishes a shaft model that is not there: club "},
        {STATEMENT_CHECK_PROFILES, "A profile has too few or too many points: "},
    };
    char name[96];
    enum store_result result = STORE_OK;
    for (size_t i = 0; result == STORE_OK && !store->older && i < sizeof rows / sizeof rows[0];
         i++) {
        struct query query = query_open(store, rows[i].statement);
        if (query_step(&query)) {
            query_text(&query, 0, name, sizeof name);
        }
        result = ended(store, &query, "check what estimates use", check);
        result = result == STORE_OK     ? found(check, rows[i].problem, name)
                 : result == STORE_NONE ? STORE_OK
                                        : result;
    }
    return result;
}

static enum store_result all(struct store *store, struct store_check *check,
                             struct witness_compare *compare) {
    enum store_result result = chain_check(store, check, compare);
    if (result == STORE_FAILED && (sqlite3_errcode(store->db) & 0xFF) == SQLITE_CORRUPT) {
        result = found(check, store_message(store), "");
    }
    if (result == STORE_OK) {
        result = tail(store, check);
    }
    if (result == STORE_OK) {
        result = integrity(store, check);
    }
    if (result == STORE_OK) {
        result = foreign_keys(store, check);
    }
    return result == STORE_OK ? estimates(store, check) : result;
}

static enum store_result look(struct store *store, struct store_check *ret_check,
                              struct witness_compare *compare) {
    struct store_check check = {0};
    enum store_result result = connection_read_begin(store);
    if (result != STORE_OK) {
        return result;
    }
    result = all(store, &check, compare);
    connection_read_end(store);
    if (result == STORE_OK || result == STORE_REFUSED) {
        *ret_check = check;
    }
    return result;
}

enum store_result store_check(struct store *store, struct store_check *ret_check) {
    return look(store, ret_check, NULL);
}

enum store_result store_check_witness(struct store *store, const struct witness *witness,
                                      struct store_check *ret_check,
                                      struct witness_finding *ret_finding) {
    struct witness_compare compare = {.witness = witness};
    enum store_result result = look(store, ret_check, &compare);
    if (result == STORE_OK || result == STORE_REFUSED) {
        *ret_finding = compare.finding;
    }
    return result;
}

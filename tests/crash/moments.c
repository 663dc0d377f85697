#include "moments.h"

#include <stdio.h>
#include <stdlib.h>

#define MOMENTS_MAX 400

static struct {
    size_t ops;
    uint64_t digest;
} moment[MOMENTS_MAX];
static size_t count;

// FNV-1a
static void mix(uint64_t *hash, const void *bytes, size_t size) {
    for (size_t i = 0; i < size; i++) {
        *hash = (*hash ^ ((const unsigned char *)bytes)[i]) * 1099511628211u;
    }
}

static sqlite3_stmt *prepare(sqlite3 *db, const char *sql) {
    sqlite3_stmt *statement = NULL;
    if (sqlite3_prepare_v2(db, sql, -1, &statement, NULL) != SQLITE_OK) {
        fail_msg("%s: %s", sql, sqlite3_errmsg(db));
    }
    return statement;
}

static void mix_table(sqlite3 *db, const char *name, uint64_t *hash) {
    char sql[128];
    snprintf(sql, sizeof sql, "SELECT * FROM \"%s\"", name);
    sqlite3_stmt *rows = prepare(db, sql);
    mix(hash, name, strlen(name));
    while (sqlite3_step(rows) == SQLITE_ROW) {
        for (int i = 0; i < sqlite3_column_count(rows); i++) {
            int type = sqlite3_column_type(rows, i);
            mix(hash, &type, sizeof type);
            const void *bytes = sqlite3_column_blob(rows, i);
            mix(hash, bytes, (size_t)sqlite3_column_bytes(rows, i));
        }
    }
    assert_int_equal(sqlite3_finalize(rows), SQLITE_OK);
}

uint64_t moments_digest(sqlite3 *db) {
    uint64_t hash = 14695981039346656037u;
    sqlite3_stmt *tables = prepare(db, "SELECT name FROM sqlite_schema WHERE type = 'table' AND "
                                       "name NOT LIKE 'sqlite_%' ORDER BY name");
    while (sqlite3_step(tables) == SQLITE_ROW) {
        mix_table(db, (const char *)sqlite3_column_text(tables, 0), &hash);
    }
    assert_int_equal(sqlite3_finalize(tables), SQLITE_OK);
    return hash;
}

static int committed(void *path, sqlite3 *db, const char *name, int pages) {
    sqlite3 *raw = fixture_raw(path);
    (void)db;
    (void)name;
    (void)pages;
    assert_true(count < MOMENTS_MAX);
    moment[count].ops = tape_count();
    moment[count].digest = moments_digest(raw);
    count++;
    sqlite3_close(raw);
    return SQLITE_OK;
}

void moments_begin(struct fixture *fixture) {
    count = 0;
    committed(fixture->path, NULL, NULL, 0);
    sqlite3_wal_hook(fixture->store->db, committed, fixture->path);
}

size_t moments_count(void) {
    return count;
}

size_t moments_last(void) {
    return moment[count - 1].ops;
}

bool moments_allow(sqlite3 *db, size_t ops) {
    uint64_t digest = moments_digest(db);
    size_t last = 0;
    while (last + 1 < count && moment[last + 1].ops <= ops) {
        last++;
    }
    return digest == moment[last].digest || (last + 1 < count && digest == moment[last + 1].digest);
}

bool moments_know(sqlite3 *db, size_t ops) {
    uint64_t digest = moments_digest(db);
    for (size_t i = 0; i < count && (i == 0 || moment[i - 1].ops <= ops); i++) {
        if (digest == moment[i].digest) {
            return true;
        }
    }
    return false;
}

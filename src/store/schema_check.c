#include "schema_check.h"
#include "schema.h"
#include "tongue.h"

#include <sodium.h>
#include <stdio.h>
#include <string.h>

#define OBJECTS "SELECT type, name, tbl_name, ifnull(sql, '') FROM sqlite_schema ORDER BY 1, 2, 3"
enum { COLUMN_TYPE, COLUMN_NAME, COLUMN_TABLE, COLUMN_TEXT, COLUMNS };

// What each migration leaves behind, as hexadecimal. What has shipped never changes, nor does its
// line here; tests/store/test_schema.c says what the line of a new one is.
static const char *const digests[] = {
    "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
    "1c126b4b75985dba93685bc9a0315eeadcd34705cad0e8d9383aae5277c04756",
    "6e22872384e804f49dff7108ffbe7896bdbf7e4dde25441b9fc9fac4e5e8db6d",
    "9ce40e47ecb9774aef4e85f8aca0016a84d3a06eccae9b9442c1459d5f867e53",
    "132cbf24c546fbfa1c40bdf364752313d4e4d1fc7474193ae1ab50817890c7f6",
    "6bdf11de808f1a515b4a5c43afea901dfc29081d31dd505cdc1814a18cdc2a13",
    "d7b135b98e69813ab73cf1cb908f79f0010b5d0c78053c96eacfb03afdaa3fc3",
    "fc84eee4d92b6d83d53fa37ea980cd3e68fa6f7b8aa5e2fc8ff00b9c03282cc4",
    "2d2ad53e432f66ec1617f9020e32c83a16ef2dfc56537777438c1637ebcf7566",
    "7ec4228b40eff8b87144582a3eae616645dc59ec8cb4e98bfcec54f5b2cc3788",
    "c545d72bba6b0742595fab8e2517ed27dbb53387b8db27e43794d737a434c9d5",
};
#define DIGESTS (sizeof digests / sizeof digests[0])

static bool next(sqlite3_stmt *objects) {
    return objects != NULL && sqlite3_step(objects) == SQLITE_ROW;
}

// NULL, which no memory makes of it, is a text that no object has.
static const char *text(sqlite3_stmt *objects, int column) {
    const char *found = (const char *)sqlite3_column_text(objects, column);
    return found == NULL ? "?" : found;
}

enum store_result schema_digest(struct store *store, uint8_t ret_hash[DIGEST_SIZE]) {
    crypto_hash_sha256_state state;
    sqlite3_stmt *objects = NULL;
    sqlite3_prepare_v2(store->db, OBJECTS, -1, &objects, NULL);
    crypto_hash_sha256_init(&state);
    while (next(objects)) {
        for (int column = 0; column < COLUMNS; column++) {
            const char *word = text(objects, column);
            crypto_hash_sha256_update(&state, (const unsigned char *)word, strlen(word) + 1);
        }
    }
    crypto_hash_sha256_final(&state, ret_hash);
    return objects == NULL || sqlite3_finalize(objects) != SQLITE_OK
               ? connection_fail(store, N_("read the schema"))
               : STORE_OK;
}

// --- which object it is --------------------------------------------------------------------------

static bool make(sqlite3 *db, int64_t version) {
    for (int64_t i = 0; i < version; i++) {
        if (sqlite3_exec(db, schema_migrations[i].sql, NULL, NULL, NULL) != SQLITE_OK) {
            return false;
        }
    }
    return true;
}

static int order(sqlite3_stmt *ours, sqlite3_stmt *theirs) {
    int by_type = strcmp(text(ours, COLUMN_TYPE), text(theirs, COLUMN_TYPE));
    return by_type != 0 ? by_type : strcmp(text(ours, COLUMN_NAME), text(theirs, COLUMN_NAME));
}

static enum store_result refuse(struct store *store, sqlite3_stmt *object, const char *what) {
    return connection_say(
        store, STORE_REFUSED,
        _("Another program changed %s: its %s \"%.60s\" %s. It is not opened. Go on "
          "from a copy with `kerfside restore`."),
        store->path, text(object, COLUMN_TYPE), text(object, COLUMN_NAME), _(what));
}

// Both sorted, side by side. STORE_OK: no difference.
static enum store_result compare(struct store *store, sqlite3_stmt *ours, sqlite3_stmt *theirs) {
    bool have = next(ours);
    bool found = next(theirs);
    while (have || found) {
        int way = !found ? -1 : !have ? 1 : order(ours, theirs);
        if (way < 0) {
            return refuse(store, ours, N_("is missing"));
        }
        if (way > 0) {
            return refuse(store, theirs, N_("was not made by Kerfside"));
        }
        if (strcmp(text(ours, COLUMN_TEXT), text(theirs, COLUMN_TEXT)) != 0 ||
            strcmp(text(ours, COLUMN_TABLE), text(theirs, COLUMN_TABLE)) != 0) {
            return refuse(store, theirs, N_("is not as Kerfside made it"));
        }
        have = next(ours);
        found = next(theirs);
    }
    return STORE_OK;
}

static enum store_result name_it(struct store *store, int64_t version) {
    sqlite3 *made = NULL;
    sqlite3_stmt *ours = NULL;
    sqlite3_stmt *theirs = NULL;
    enum store_result result;
    if (sqlite3_open_v2(":memory:", &made, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX, NULL) !=
            SQLITE_OK ||
        !make(made, version) || sqlite3_prepare_v2(made, OBJECTS, -1, &ours, NULL) != SQLITE_OK) {
        result = connection_say(store, STORE_FAILED, _("No memory to look at the schema of %s."),
                                store->path);
    } else if (sqlite3_prepare_v2(store->db, OBJECTS, -1, &theirs, NULL) != SQLITE_OK) {
        result = connection_fail(store, N_("read the schema"));
    } else {
        result = compare(store, ours, theirs);
    }
    sqlite3_finalize(theirs);
    sqlite3_finalize(ours);
    sqlite3_close(made);
    return result;
}

bool schema_known(int64_t version, const uint8_t hash[DIGEST_SIZE]) {
    char words[2 * DIGEST_SIZE + 1];
    sodium_bin2hex(words, sizeof words, hash, DIGEST_SIZE);
    return version < (int64_t)DIGESTS && strcmp(digests[version], words) == 0;
}

enum store_result schema_check(struct store *store, int64_t version) {
    uint8_t hash[DIGEST_SIZE];
    enum store_result result = schema_digest(store, hash);
    return result != STORE_OK || schema_known(version, hash) ? result : name_it(store, version);
}

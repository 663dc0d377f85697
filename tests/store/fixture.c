#include "fixture.h"
#include "check.h"
#include "schema.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

void fixture_folder(struct fixture *fixture) {
    memset(fixture, 0, sizeof *fixture);
    strcpy(fixture->folder, "/tmp/kerfside-store-XXXXXX");
    assert_non_null(mkdtemp(fixture->folder));
    snprintf(fixture->path, sizeof fixture->path, "%s/shop.db", fixture->folder);
    setenv("KERFSIDE_ROOM_MB", "0", 1); // no 64 MiB of ballast for every test
}

void fixture_exec(sqlite3 *db, const char *sql) {
    char *message = NULL;
    if (sqlite3_exec(db, sql, NULL, NULL, &message) != SQLITE_OK) {
        fail_msg("%s: %s", sql, message);
    }
}

static void exec_file(sqlite3 *db, const char *path) {
    static char sql[65536];
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    size_t size = fread(sql, 1, sizeof sql - 1, file);
    fclose(file);
    assert_true(size > 0 && size < sizeof sql - 1);
    sql[size] = '\0';
    fixture_exec(db, sql);
}

void fixture_seed(struct store *store) {
    assert_int_equal(connection_begin(store), STORE_OK);
    exec_file(store->db, KERFSIDE_SOURCE_DIR "/tests/store/workshop.sql");
    assert_int_equal(connection_commit(store), STORE_OK);
}

void fixture_wish(struct store *store) {
    assert_int_equal(connection_begin(store), STORE_OK);
    fixture_exec(store->db,
                 "INSERT INTO build (name) VALUES ('2050');"
                 "INSERT INTO club (id, build, name, position, wished_model, wished_flex) VALUES "
                 "(6, '2050', '7', 1, 'Alder 110', 'S'), (7, '2050', '8', 2, 'Alder 110', 'S'),"
                 "(8, '2050', '9', 3, 'Alder 110', 'S');"
                 "INSERT INTO head (ticket, model, weight, bore_height, club) VALUES "
                 "('H-00060', 'Plover 7', 272000, 25400000, 6),"
                 "('H-0007Z', 'Plover 8', 279000, 25400000, 7),"
                 "('H-0008X', 'Plover 8', 285000, 25400000, 8);"
                 "INSERT INTO shaft (ticket, model, flex, raw_length, weight) VALUES "
                 "('S-0008E', 'Alder 110', 'S', 1041400000, 112000),"
                 "('S-0009C', 'Alder 110', 'S', 1041400000, 112000)");
    assert_int_equal(connection_commit(store), STORE_OK);
}

void fixture_scrap(struct store *store, bool there) {
    assert_int_equal(connection_begin(store), STORE_OK);
    fixture_exec(store->db,
                 there ? "INSERT INTO shaft (ticket, model, flex, raw_length, weight, life, "
                         "remaining) VALUES ('S-0006I', 'Alder 110', 'S', 1041400000, 112400, "
                         "'scrap', 400000000)"
                       : "DELETE FROM shaft WHERE ticket = 'S-0006I'");
    assert_int_equal(connection_commit(store), STORE_OK);
}

void fixture_version(const char *path, int version) {
    char pragma[48];
    sqlite3 *db = NULL;
    assert_int_equal(sqlite3_open_v2(path, &db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, NULL),
                     SQLITE_OK);
    fixture_exec(db, "PRAGMA journal_mode = WAL; PRAGMA synchronous = EXTRA; BEGIN");
    fixture_exec(db, schema_migrations[0].sql);
    exec_file(db, KERFSIDE_SOURCE_DIR "/tests/store/version1.sql");
    if (version == 2) {
        fixture_exec(db, schema_migrations[1].sql);
        exec_file(db, KERFSIDE_SOURCE_DIR "/tests/store/version2.sql");
    }
    snprintf(pragma, sizeof pragma, "PRAGMA user_version = %d", version);
    fixture_exec(db, pragma);
    fixture_exec(db, "PRAGMA application_id = 0x4b455246; COMMIT");
    assert_int_equal(sqlite3_close(db), SQLITE_OK);
}

static struct store *open_store(struct fixture *fixture, enum store_mode mode) {
    char message[STORE_MESSAGE_MAX];
    struct store *store = NULL;
    if (store_open(fixture->path, mode, BENCH, &store, message, sizeof message) != STORE_OK) {
        fail_msg("%s", message);
    }
    return store;
}

void fixture_open(struct fixture *fixture) {
    fixture_folder(fixture);
    fixture->store = open_store(fixture, STORE_CREATE);
    fixture_seed(fixture->store);
}

void fixture_restart(struct fixture *fixture) {
    store_close(fixture->store);
    fixture->store = open_store(fixture, STORE_WRITE);
}

void fixture_close(struct fixture *fixture) {
    DIR *folder = opendir(fixture->folder);
    store_close(fixture->store);
    assert_non_null(folder);
    for (struct dirent *item = readdir(folder); item != NULL; item = readdir(folder)) {
        if (item->d_name[0] != '.') {
            char path[400];
            snprintf(path, sizeof path, "%s/%s", fixture->folder, item->d_name);
            unlink(path);
        }
    }
    closedir(folder);
    assert_int_equal(rmdir(fixture->folder), 0);
}

sqlite3 *fixture_raw(const char *path) {
    sqlite3 *db = NULL;
    assert_int_equal(sqlite3_open_v2(path, &db, SQLITE_OPEN_READWRITE, NULL), SQLITE_OK);
    sqlite3_busy_timeout(db, 1000);
    return db;
}

int fixture_strike(sqlite3 *raw, const char *sql) {
    static char again[65536];
    char drop[4096] = "";
    size_t used = 0;
    sqlite3_stmt *triggers = NULL;
    assert_int_equal(sqlite3_prepare_v2(raw,
                                        "SELECT name, sql FROM main.sqlite_schema "
                                        "WHERE type = 'trigger'",
                                        -1, &triggers, NULL),
                     SQLITE_OK);
    again[0] = '\0';
    while (sqlite3_step(triggers) == SQLITE_ROW) {
        size_t size = strlen(drop);
        snprintf(drop + size, sizeof drop - size, "DROP TRIGGER %s;",
                 (const char *)sqlite3_column_text(triggers, 0));
        used += (size_t)snprintf(again + used, sizeof again - used, "%s;",
                                 (const char *)sqlite3_column_text(triggers, 1));
        assert_true(used < sizeof again && strlen(drop) + 1 < sizeof drop);
    }
    sqlite3_finalize(triggers);
    fixture_exec(raw, "BEGIN");
    fixture_exec(raw, drop);
    fixture_exec(raw, sql);
    int changes = sqlite3_changes(raw);
    fixture_exec(raw, again);
    fixture_exec(raw, "COMMIT");
    return changes;
}

int64_t fixture_number(sqlite3 *db, const char *sql) {
    sqlite3_stmt *statement = NULL;
    if (sqlite3_prepare_v2(db, sql, -1, &statement, NULL) != SQLITE_OK ||
        sqlite3_step(statement) != SQLITE_ROW) {
        fail_msg("%s: %s", sql, sqlite3_errmsg(db));
    }
    int64_t number = sqlite3_column_int64(statement, 0);
    sqlite3_finalize(statement);
    return number;
}

struct club fixture_club(struct fixture *fixture, int64_t club_id) {
    struct club club;
    enum store_result result = store_club(fixture->store, club_id, &club);
    if (result != STORE_OK) {
        fail_msg("club %d: %s", (int)club_id, store_message(fixture->store));
    }
    return club;
}

struct entry fixture_entry(struct fixture *fixture, enum entry_kind kind, int64_t club_id) {
    struct entry entry = entry_init(kind);
    entry.wall_ms = 1772440200000 + (int64_t)fixture->ids * 60000; // 2 March 2026, 08:30 UTC
    entry.mono_ms = 5000 + (int64_t)fixture->ids;
    strcpy(entry.boot, "2f6d1a60-0000-4000-8000-000000000001");
    strcpy(entry.bench, BENCH);
    strcpy(entry.worker, kind == ENTRY_DECIDE || kind == ENTRY_CONSENT ? SUPERVISOR : BUILDER);
    snprintf(entry.confirm_id, sizeof entry.confirm_id, "%032llx",
             (unsigned long long)++fixture->ids);
    if (club_id == 0) {
        return entry;
    }
    struct club club = fixture_club(fixture, club_id);
    entry.club_id = club_id;
    strcpy(entry.build, club.order.build);
    strcpy(entry.club, club.order.club);
    strcpy(entry.head, club.head.ticket);
    strcpy(entry.shaft, club.shaft.ticket);
    if (kind == ENTRY_TIP_CUT || kind == ENTRY_TIP_SHOWN) {
        entry.planned = LENGTH_INCH;
    } else if (kind == ENTRY_BUTT_CUT || kind == ENTRY_BUTT_SHOWN || kind == ENTRY_MEASURE) {
        entry.planned = 36 * LENGTH_INCH;
    }
    if (kind == ENTRY_TIP_CUT || kind == ENTRY_BUTT_CUT || kind == ENTRY_MEASURE) {
        entry.made = entry.planned;
        entry.verdict = VERDICT_IN;
        entry.attempt = club.progress.attempt;
    }
    return entry;
}

int64_t fixture_append(struct fixture *fixture, enum entry_kind kind, int64_t club) {
    struct entry entry = fixture_entry(fixture, kind, club);
    enum store_result result = store_append(fixture->store, &entry);
    if (result != STORE_OK) {
        fail_msg("%s: %s", entry_kind_text(kind), store_message(fixture->store));
    }
    return entry.seq;
}

void fixture_bring(struct fixture *fixture, int64_t club, enum stage stage) {
    static const enum entry_kind next[STAGE_COUNT] = {
        [STAGE_PENDING] = ENTRY_TIP_SHOWN,  [STAGE_TIP_SHOWN] = ENTRY_TIP_CUT,
        [STAGE_TIP_CUT] = ENTRY_BUTT_SHOWN, [STAGE_BUTT_SHOWN] = ENTRY_BUTT_CUT,
        [STAGE_BUTT_CUT] = ENTRY_MEASURE,
    };
    struct entry entry;
    for (int i = 0; i < STAGE_COUNT; i++) {
        enum stage now = fixture_club(fixture, club).progress.stage;
        if (now == stage) {
            return;
        }
        entry = fixture_entry(fixture, next[now], club);
        if (stage == STAGE_DECISION && now == STAGE_BUTT_CUT) {
            entry.made -= LENGTH_INCH;
            entry.verdict = VERDICT_SHORT;
        }
        assert_int_equal(store_append(fixture->store, &entry), STORE_OK);
    }
    fail_msg("club %d never came to %s", (int)club, stage_text(stage));
}

static void look_at(struct store *store,
                    enum store_result (*look)(struct store *, struct store_check *)) {
    struct store_check check = {0};
    enum store_result result = look(store, &check);
    if (result != STORE_OK) {
        fail_msg("%s", result == STORE_REFUSED ? check.problem : store_message(store));
    }
}

void fixture_expect_check(struct store *store) {
    look_at(store, store_check);
}

void fixture_expect_file(struct store *store) {
    look_at(store, check_file);
}

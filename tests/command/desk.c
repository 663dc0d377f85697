#include "desk.h"
#include "connection.h"
#include "database.h"
#include "import.h"

#include <fcntl.h>
#include <ftw.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#define FILES_MAX 8

void desk_init(struct desk *desk) {
    char message[512] = "";
    const char *temporary = getenv("TMPDIR");
    memset(desk, 0, sizeof *desk);
    snprintf(desk->folder, sizeof desk->folder, "%s/kerfside-XXXXXX",
             temporary != NULL ? temporary : "/tmp");
    assert_non_null(mkdtemp(desk->folder));
    snprintf(desk->db, sizeof desk->db, "%s/kerfside.db", desk->folder);
    setenv("KERFSIDE_ROOM_MB", "0", 1); // no ballast for a throwaway database
    if (store_open(desk->db, STORE_CREATE, DATABASE_BENCH, &desk->store, message, sizeof message) !=
        STORE_OK) {
        fail_msg("%s", message);
    }
}

static int take_away(const char *path, const struct stat *stat, int type, struct FTW *walk) {
    (void)stat;
    (void)type;
    (void)walk;
    return remove(path);
}

void desk_release(struct desk *desk) {
    store_close(desk->store);
    nftw(desk->folder, take_away, 8, FTW_DEPTH | FTW_PHYS);
}

const char *desk_path(const struct desk *desk, const char *name) {
    static char paths[4][128];
    static size_t next;
    char *path = paths[next++ % 4];
    snprintf(path, sizeof paths[0], "%s/%s", desk->folder, name);
    return path;
}

void desk_write_bytes(const struct desk *desk, const char *name, const void *bytes, size_t size) {
    FILE *file = fopen(desk_path(desk, name), "we");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, size, file), size);
    assert_int_equal(fclose(file), 0);
}

void desk_write(const struct desk *desk, const char *name, const char *text) {
    desk_write_bytes(desk, name, text, strlen(text));
}

// From inside the folder, so that messages name the files alone.
static enum store_result import(struct desk *desk, const char *const *names, size_t count) {
    struct entry entry = entry_init(ENTRY_IMPORT);
    const struct import_source source = {.paths = names, .count = count};
    FILE *messages = fmemopen(desk->messages, sizeof desk->messages, "w");
    int here = open(".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    enum store_result result;
    assert_non_null(messages);
    memset(desk->messages, 0, sizeof desk->messages);
    assert_int_equal(chdir(desk->folder), 0);
    database_stamp(&entry);
    result = import_files(desk->store, &source, &entry, messages);
    assert_int_equal(fchdir(here), 0);
    close(here);
    fclose(messages);
    return result;
}

enum store_result desk_import(struct desk *desk, ...) {
    const char *names[FILES_MAX];
    size_t count = 0;
    va_list list;
    va_start(list, desk);
    while (count < FILES_MAX && (names[count] = va_arg(list, const char *)) != NULL) {
        count++;
    }
    va_end(list);
    return import(desk, names, count);
}

enum store_result desk_import_text(struct desk *desk, const char *name, const char *text) {
    desk_write(desk, name, text);
    return import(desk, &name, 1);
}

// --- looking at the database -------------------------------------------------------------------

static void dump_table(FILE *out, sqlite3 *db, const char *table) {
    char sql[128];
    sqlite3_stmt *rows = NULL;
    snprintf(sql, sizeof sql, "SELECT * FROM \"%s\"", table);
    if (sqlite3_prepare_v2(db, sql, -1, &rows, NULL) != SQLITE_OK) {
        fail_msg("%s: %s", sql, sqlite3_errmsg(db));
    }
    while (sqlite3_step(rows) == SQLITE_ROW) {
        fputs(table, out);
        for (int i = 0; i < sqlite3_column_count(rows); i++) {
            const unsigned char *text = sqlite3_column_text(rows, i);
            fprintf(out, "\t%s", text == NULL ? (const unsigned char *)"-" : text);
        }
        fputc('\n', out);
    }
    assert_int_equal(sqlite3_finalize(rows), SQLITE_OK);
}

char *desk_dump(const struct desk *desk) {
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    sqlite3_stmt *tables = NULL;
    assert_non_null(out);
    assert_int_equal(sqlite3_prepare_v2(desk->store->db,
                                        "SELECT name FROM sqlite_schema WHERE type = 'table' "
                                        "AND name NOT LIKE 'sqlite%' ORDER BY name",
                                        -1, &tables, NULL),
                     SQLITE_OK);
    while (sqlite3_step(tables) == SQLITE_ROW) {
        dump_table(out, desk->store->db, (const char *)sqlite3_column_text(tables, 0));
    }
    assert_int_equal(sqlite3_finalize(tables), SQLITE_OK);
    fclose(out);
    return text;
}

int64_t desk_ask(const struct desk *desk, const char *sql) {
    sqlite3_stmt *statement = NULL;
    int64_t number;
    if (sqlite3_prepare_v2(desk->store->db, sql, -1, &statement, NULL) != SQLITE_OK ||
        sqlite3_step(statement) != SQLITE_ROW) {
        fail_msg("%s: %s", sql, sqlite3_errmsg(desk->store->db));
    }
    number = sqlite3_column_int64(statement, 0);
    sqlite3_finalize(statement);
    return number;
}

// --- a small workshop --------------------------------------------------------------------------

static const struct {
    const char *name;
    const char *text;
} workshop[] = {
    {"shaft_models.csv",
     "model,material,tip,tip_diameter,butt_diameter,raw_length,weight_g,tip_section,max_tip_trim,"
     "max_butt_trim,bore_note,bore_reference,bore_note_kinds\n"
     "Rod,steel,parallel,0.335,0.600,46,110,6,4,6,none,,\n"},
    {"charts.csv", "model,flex,kind,column,column_weight_g,tip_trim\n"
                   "Rod,R,wood,1,200,0\nRod,R,wood,3,210,1/2\nRod,R,wood,5,220,1\n"},
    {"head_models.csv", "model,kind,engraved,weight_g,hosel_bore,insertion,bore_height,loft,lie\n"
                        "Knob,fairway,3,210,0.335,1 1/2,1,15,57\n"},
    {"heads.csv", "ticket,model,weight_g,dry_fit_overall,dry_fit_raw,bore_height\n"
                  "H-0001A,Knob,210,47,46,\nH-00028,Knob,220,,,1\n"},
    {"shafts.csv", "ticket,model,flex,raw_length,weight_g,rack\n"
                   "S-0001S,Rod,R,46,110,A1\nS-0002Q,Rod,R,46,111,A1\nS-0003O,Rod,R,46,112,A2\n"},
    {"builds.csv", "build,club,due,head,shaft,playing_length,grip_cap,grip_weight_g,swingweight,"
                   "step,uniform_flex\n"
                   "1,3,2026-03-01,H-0001A,S-0001S,43,1/8,50,D2,0,no\n"
                   "1,5,2026-03-01,,,42,1/8,50,D1,,\n"},
    {"workers.csv", "badge,name,role\nW-0001B,Ada Quill,supervisor\nW-00029,Ben Rusk,builder\n"},
};

void desk_import_workshop(struct desk *desk) {
    const char *names[sizeof workshop / sizeof workshop[0]];
    for (size_t i = 0; i < sizeof workshop / sizeof workshop[0]; i++) {
        names[i] = workshop[i].name;
        desk_write(desk, workshop[i].name, workshop[i].text);
    }
    if (import(desk, names, sizeof workshop / sizeof workshop[0]) != STORE_OK) {
        fail_msg("%s\n%s", desk->messages, store_message(desk->store));
    }
}

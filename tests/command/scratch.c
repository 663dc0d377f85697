#include "scratch.h"
#include "connection.h"
#include "database.h"
#include "import.h"

#include <fcntl.h>
#include <ftw.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#define FILES_MAX 8

void scratch_init(struct scratch *scratch) {
    char message[512] = "";
    const char *temporary = getenv("TMPDIR");
    memset(scratch, 0, sizeof *scratch);
    snprintf(scratch->folder, sizeof scratch->folder, "%s/kerfside-XXXXXX",
             temporary != NULL ? temporary : "/tmp");
    assert_non_null(mkdtemp(scratch->folder));
    snprintf(scratch->db, sizeof scratch->db, "%s/kerfside.db", scratch->folder);
    setenv("KERFSIDE_ROOM_MB", "0", 1); // no ballast for a throwaway database
    if (store_open(scratch->db, STORE_CREATE, DATABASE_BENCH, &scratch->store, message,
                   sizeof message) != STORE_OK) {
        fail_msg("%s", message);
    }
}

static int take_away(const char *path, const struct stat *stat, int type, struct FTW *walk) {
    (void)stat;
    (void)type;
    (void)walk;
    return remove(path);
}

void scratch_release(struct scratch *scratch) {
    store_close(scratch->store);
    nftw(scratch->folder, take_away, 8, FTW_DEPTH | FTW_PHYS);
}

const char *scratch_path(const struct scratch *scratch, const char *name) {
    static char paths[4][128];
    static size_t next;
    char *path = paths[next++ % 4];
    snprintf(path, sizeof paths[0], "%s/%s", scratch->folder, name);
    return path;
}

void scratch_write_bytes(const struct scratch *scratch, const char *name, const void *bytes,
                         size_t size) {
    FILE *file = fopen(scratch_path(scratch, name), "we");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, size, file), size);
    assert_int_equal(fclose(file), 0);
}

void scratch_write(const struct scratch *scratch, const char *name, const char *text) {
    scratch_write_bytes(scratch, name, text, strlen(text));
}

// From inside the folder, so that messages name the files alone.
static enum store_result import(struct scratch *scratch, const char *const *names, size_t count) {
    struct entry entry = entry_init(ENTRY_IMPORT);
    const struct import_source source = {.paths = names, .count = count};
    FILE *messages = fmemopen(scratch->messages, sizeof scratch->messages, "w");
    int here = open(".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    enum store_result result;
    assert_non_null(messages);
    memset(scratch->messages, 0, sizeof scratch->messages);
    assert_int_equal(chdir(scratch->folder), 0);
    database_stamp(&entry);
    result = import_files(scratch->store, &source, &entry, messages);
    assert_int_equal(fchdir(here), 0);
    close(here);
    fclose(messages);
    return result;
}

enum store_result scratch_import(struct scratch *scratch, ...) {
    const char *names[FILES_MAX];
    size_t count = 0;
    va_list list;
    va_start(list, scratch);
    while (count < FILES_MAX && (names[count] = va_arg(list, const char *)) != NULL) {
        count++;
    }
    va_end(list);
    return import(scratch, names, count);
}

enum store_result scratch_import_text(struct scratch *scratch, const char *name, const char *text) {
    scratch_write(scratch, name, text);
    return import(scratch, &name, 1);
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

char *scratch_dump(const struct scratch *scratch) {
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    sqlite3_stmt *tables = NULL;
    assert_non_null(out);
    assert_int_equal(sqlite3_prepare_v2(scratch->store->db,
                                        "SELECT name FROM sqlite_schema WHERE type = 'table' "
                                        "AND name NOT LIKE 'sqlite%' ORDER BY name",
                                        -1, &tables, NULL),
                     SQLITE_OK);
    while (sqlite3_step(tables) == SQLITE_ROW) {
        dump_table(out, scratch->store->db, (const char *)sqlite3_column_text(tables, 0));
    }
    assert_int_equal(sqlite3_finalize(tables), SQLITE_OK);
    fclose(out);
    return text;
}

int64_t scratch_ask(const struct scratch *scratch, const char *sql) {
    sqlite3_stmt *statement = NULL;
    int64_t number;
    if (sqlite3_prepare_v2(scratch->store->db, sql, -1, &statement, NULL) != SQLITE_OK ||
        sqlite3_step(statement) != SQLITE_ROW) {
        fail_msg("%s: %s", sql, sqlite3_errmsg(scratch->store->db));
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

void scratch_import_workshop(struct scratch *scratch) {
    const char *names[sizeof workshop / sizeof workshop[0]];
    for (size_t i = 0; i < sizeof workshop / sizeof workshop[0]; i++) {
        names[i] = workshop[i].name;
        scratch_write(scratch, workshop[i].name, workshop[i].text);
    }
    if (import(scratch, names, sizeof workshop / sizeof workshop[0]) != STORE_OK) {
        fail_msg("%s\n%s", scratch->messages, store_message(scratch->store));
    }
}

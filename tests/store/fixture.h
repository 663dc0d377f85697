#ifndef FIXTURE_H
#define FIXTURE_H

// A workshop in a folder of its own for the tests of the store (workshop.sql says what is in it),
// and entries as the bench would make them. Helpers fail the test when they cannot do their part.

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "connection.h"

#define COUNT(array) (sizeof(array) / sizeof(array)[0])
#define BENCH "Bench 1"
#define BUILDER "W-1J"
#define SUPERVISOR "W-2H"

struct fixture {
    char folder[64];
    char path[96];
    struct store *store;
    uint64_t ids;
};

// A new folder with a database in it, seeded and open for writing; and away with all of it.
void fixture_open(struct fixture *fixture);
void fixture_close(struct fixture *fixture);

// An empty folder, no database.
void fixture_folder(struct fixture *fixture);
// Closes the store and opens it again, as after a restart.
void fixture_restart(struct fixture *fixture);
// Puts workshop.sql into an open store.
void fixture_seed(struct store *store);

// Clubs 6 to 8 of build 2050 wish for S shafts of Alder 110, of which S-0005K, S-0008E and S-0009C
// are in stock.
void fixture_wish(struct store *store);
// S-0006I as a scrapped shaft that no log explains, and away with it again.
void fixture_scrap(struct store *store, bool there);
// A new database at `path` as the program of schema 0001 left it (version1.sql), or that of 0002
// after it (version2.sql).
void fixture_version(const char *path, int version);
// The newest schema and the one after it.
#define SCHEMA_NEWEST 10
#define SCHEMA_NEXT 11
#define SCHEMA_TEXT_(number) #number
#define SCHEMA_TEXT(number) SCHEMA_TEXT_(number)
#define BEFORE_NEWEST ".before-" SCHEMA_TEXT(SCHEMA_NEWEST)
#define BEFORE_NEXT ".before-" SCHEMA_TEXT(SCHEMA_NEXT)
#define VERSION1_ENTRIES 14
#define VERSION2_ENTRIES 15

// A second connection of the tests' own, without any of the store's settings.
// Runs `sql` with no trigger in its way, and leaves the triggers as they were: what somebody does
// who knows them. Returns how many rows its last statement changed.
int fixture_strike(sqlite3 *raw, const char *sql);
sqlite3 *fixture_raw(const char *path);
void fixture_exec(sqlite3 *db, const char *sql);
int64_t fixture_number(sqlite3 *db, const char *sql);

// A new entry of the bench about club 1 to 5 (0: none), its parts, attempt and a new confirm id
// filled in. Cuts carry a planned and made length and the verdict "in".
struct entry fixture_entry(struct fixture *fixture, enum entry_kind kind, int64_t club);
// Makes such an entry and appends it; its seq.
int64_t fixture_append(struct fixture *fixture, enum entry_kind kind, int64_t club);
// Appends until the club stands at `stage` (from where a new club begins).
void fixture_bring(struct fixture *fixture, int64_t club, enum stage stage);
struct club fixture_club(struct fixture *fixture, int64_t club);

// Everything is whole; and the same for a test that wrote rows no log explains.
void fixture_expect_check(struct store *store);
void fixture_expect_file(struct store *store);

#endif

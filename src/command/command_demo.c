// A new database with the invented workshop of db/demo, and what to scan first.

#include "assets.h"
#include "command.h"
#include "database.h"
#include "import.h"
#include "options.h"

#include <errno.h>
#include <limits.h>
#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#define SUPERVISOR "W-0001B"
#define PIN_SIZE 7

static const char *const files[] = {"shaft_models.csv", "charts.csv",      "profiles.csv",
                                    "head_models.csv",  "heads.csv",       "shafts.csv",
                                    "builds.csv",       "workers.csv",     "gtins.csv",
                                    "orders.csv",       "stock_levels.csv"};
#define FILES (sizeof files / sizeof files[0])

static const char *const badges[] = {SUPERVISOR, "W-00029", "W-00037"};

static const struct {
    const char *build;
    const char *club;
    const char *shows;
} picks[] = {
    {"2041", "1", "a driver head that weighs like a 3-wood"},
    {"2042", "3H", "a hybrid among irons, uniform flex"},
    {"2043", "5", "a repair: the head must be dry-fitted first"},
    {"2045", "8", "a thin tip: a supervisor must agree to a shim"},
    {"2045", "7", "a shaft that is too short"},
};

// The folder of the demo's files, or NULL.
static const char *data_folder(void) {
    static char installed[PATH_MAX];
    const char *const folders[] = {getenv("KERFSIDE_DATA"),
                                   assets_installed("demo", installed, sizeof installed) ? installed
                                                                                         : NULL,
                                   KERFSIDE_SOURCE_DIR "/db/demo"};
    char path[PATH_MAX];
    for (size_t i = 0; i < sizeof folders / sizeof folders[0]; i++) {
        if (folders[i] != NULL &&
            snprintf(path, sizeof path, "%s/%s", folders[i], files[0]) < PATH_MAX &&
            access(path, R_OK) == 0) {
            return folders[i];
        }
    }
    return NULL;
}

// The files' orders are due from 2026-01-01 on; the demo's from today on.
static int days_since_2026(void) {
    time_t now = time(NULL);
    struct tm today, first = {.tm_year = 126, .tm_mday = 1, .tm_hour = 12};
    localtime_r(&now, &today);
    struct tm noon = {
        .tm_year = today.tm_year, .tm_mon = today.tm_mon, .tm_mday = today.tm_mday, .tm_hour = 12};
    return (int)((timegm(&noon) - timegm(&first)) / 86400);
}

static enum store_result import_demo(struct store *store, const char *folder) {
    char paths[FILES][PATH_MAX];
    const char *list[FILES];
    struct entry entry = entry_init(ENTRY_IMPORT);
    for (size_t i = 0; i < FILES; i++) {
        snprintf(paths[i], sizeof paths[i], "%s/%s", folder, files[i]);
        list[i] = paths[i];
    }
    const struct import_source source = {
        .paths = list, .count = FILES, .due_shift_days = days_since_2026()};
    database_stamp(&entry);
    return import_files(store, &source, &entry, stderr);
}

// A chart that its maker changed by a letter: what a revision looks like.
static enum store_result revise_chart(struct store *store) {
    const char *const keys[] = {"Marrick Glen 50", "A", "wood"};
    struct document before;
    struct document after;
    struct change change;
    struct entry entry = entry_init(ENTRY_CHANGE);
    enum store_result result = store_document(store, "charts", keys, &before);
    if (result != STORE_OK) {
        return result;
    }
    after = before;
    document_set(&after, ":7", "230 1 7/8");
    change_between(&before, &after, &change);
    database_stamp(&entry);
    strcpy(entry.worker, SUPERVISOR);
    strcpy(entry.note, "the maker's letter: a printing mistake in the 230 g column");
    return change_write(&change, entry.plan, sizeof entry.plan) ? store_append(store, &entry)
                                                                : STORE_FAILED;
}

static void show_people(struct store *store, const char *pin) {
    struct worker worker;
    for (size_t i = 0; i < sizeof badges / sizeof badges[0]; i++) {
        if (store_worker(store, badges[i], &worker) == STORE_OK) {
            printf("  %-10s  %s  %s", role_text(worker.role), worker.badge, worker.name);
            if (strcmp(worker.badge, SUPERVISOR) == 0) {
                printf("  PIN %s", pin);
            }
            putchar('\n');
        }
    }
}

static void show_picks(struct store *store) {
    struct club club;
    int64_t id;
    for (size_t i = 0; i < sizeof picks / sizeof picks[0]; i++) {
        if (store_club_named(store, picks[i].build, picks[i].club, &id) == STORE_OK &&
            store_club(store, id, &club) == STORE_OK) {
            printf("  %s-%-3s  head %s  shaft %s  %s\n", picks[i].build, picks[i].club,
                   club.head.ticket, club.shaft.ticket, picks[i].shows);
        }
    }
}

static void show(struct store *store, const char *pin) {
    printf("A workshop to try is in %s. Everything in it is invented.\n\n", store_path(store));
    puts("Sign on at the bench with a badge; the supervisor's PIN opens the review:");
    show_people(store, pin);
    puts("\nThen scan a head and a shaft:");
    show_picks(store);
    puts("\nWith no scanner, type a ticket and press Enter. All plans: kerfside plan --all");
}

static bool fill(struct store *store, const char *folder) {
    char pin[PIN_SIZE];
    bool done;
    snprintf(pin, sizeof pin, "%06u", (unsigned)randombytes_uniform(1000000));
    done = import_demo(store, folder) == STORE_OK &&
           store_pin_set(store, SUPERVISOR, pin) == STORE_OK && revise_chart(store) == STORE_OK;
    if (done) {
        show(store, pin);
    } else {
        database_complain("demo", store);
    }
    sodium_memzero(pin, sizeof pin);
    return done;
}

int command_demo(int argc, char **argv) {
    const char *db = NULL;
    const struct option options[] = {{"--db", &db, NULL}};
    const char *folder = data_folder();
    char path[DATABASE_PATH_MAX];
    struct store *store;
    struct stat stat;
    int count;
    if (!options_read_plain(argc, argv, options, 1, 0, 0, "", &count)) {
        return COMMAND_USAGE;
    }
    if (folder == NULL) {
        fputs("kerfside demo: the demo's files are not there; set KERFSIDE_DATA to their folder.\n",
              stderr);
        return COMMAND_REFUSED;
    }
    if (!database_path(db, path)) {
        return COMMAND_REFUSED;
    }
    if (lstat(path, &stat) == 0) {
        fprintf(stderr,
                "kerfside demo: %s exists already and was left alone. Name another file with "
                "--db, or move it away.\n",
                path);
        return COMMAND_REFUSED;
    }
    if (!database_open(argv[0], path, STORE_CREATE, &store)) {
        return COMMAND_REFUSED;
    }
    bool done = fill(store, folder);
    store_close(store);
    if (!done) {
        database_take_away(path);
    }
    return done ? COMMAND_DONE : COMMAND_REFUSED;
}

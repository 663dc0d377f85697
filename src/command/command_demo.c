// A new database with the invented workshop of db/demo, and what to scan first.

#include "columns.h"
#include "command.h"
#include "database.h"
#include "demo.h"
#include "options.h"
#include "tongue.h"

#include <errno.h>
#include <sodium.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

static const char *const badges[] = {DEMO_SUPERVISOR, "W-00029", "W-00037"};

static const struct {
    const char *build;
    const char *club;
    const char *shows;
} picks[] = {
    {"2041", "1", N_("a driver head that weighs like a 3-wood")},
    {"2042", "3H", N_("a hybrid among irons, uniform flex")},
    {"2043", "5", N_("a repair: the head must be dry-fitted first")},
    {"2045", "8", N_("a thin tip: a supervisor must agree to a shim")},
    {"2045", "7", N_("a shaft that is too short")},
};

static void show_people(struct store *store, const char *pin) {
    struct worker worker;
    for (size_t i = 0; i < sizeof badges / sizeof badges[0]; i++) {
        if (store_worker(store, badges[i], &worker) == STORE_OK) {
            fputs("  ", stdout);
            columns_put(stdout, role_words(worker.role), -10);
            printf("  %s  %s", worker.badge, worker.name);
            if (strcmp(worker.badge, DEMO_SUPERVISOR) == 0) {
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
            printf("  %s-%-3s  ", picks[i].build, picks[i].club);
            printf(_("head %s  shaft %s  "), club.head.ticket, club.shaft.ticket);
            puts(_(picks[i].shows));
        }
    }
}

static void show(struct store *store, const char *pin) {
    printf(_("A workshop to try is in %s. Everything in it is invented.\n\n"), store_path(store));
    puts(_("Sign on at the bench with a badge; the supervisor's PIN opens the review:"));
    show_people(store, pin);
    puts(_("\nThen scan a head and a shaft:"));
    show_picks(store);
    puts(_("\nWith no scanner, type a ticket and press Enter. All plans: kerfside plan --all"));
}

static bool fill(struct store *store, const char *folder) {
    char pin[DEMO_PIN_SIZE];
    bool done = demo_fill(store, folder, pin);
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
    const char *folder = demo_folder();
    char path[DATABASE_PATH_MAX];
    struct store *store;
    struct stat stat;
    int count;
    if (!options_read_plain(argc, argv, options, 1, 0, 0, "", &count)) {
        return COMMAND_USAGE;
    }
    if (folder == NULL) {
        fputs(_("kerfside demo: the demo's files are not there; set KERFSIDE_DATA to their "
                "folder.\n"),
              stderr);
        return COMMAND_REFUSED;
    }
    if (!database_path(db, path)) {
        return COMMAND_REFUSED;
    }
    if (lstat(path, &stat) == 0) {
        fprintf(stderr,
                _("kerfside demo: %s exists already and was left alone. Name another file with "
                  "--db, or move it away.\n"),
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

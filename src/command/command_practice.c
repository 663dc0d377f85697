// Practice: the bench on a copy of the database, or on the imaginary workshop for the tour.

#include "bench_run.h"
#include "command.h"
#include "database.h"
#include "demo.h"
#include "options.h"
#include "practice.h"
#include "settings_file.h"
#include "tongue.h"

#include <sodium.h>
#include <stdio.h>
#include <string.h>

// False, and stderr says why: what is there must stay.
static bool take_away(const char *path) {
    char message[600];
    enum store_result result = store_practice_away(path, message, sizeof message);
    if (result != STORE_OK && result != STORE_NONE) {
        fprintf(stderr, "kerfside practice: %s\n", message);
    }
    return result == STORE_OK || result == STORE_NONE;
}

static bool barred(const struct bench_options *options, struct store *store) {
    static struct bench_settings settings; // large
    char club[64];
    if (!settings_file_read("practice", options->settings, &settings)) {
        return true;
    }
    if (bench_practice_barred(store, settings.station.bench, club, sizeof club)) {
        fprintf(stderr, _("kerfside practice: club %s is half cut at %s. Finish it first.\n"), club,
                settings.station.bench);
        return true;
    }
    return false;
}

static bool make_copy(const struct bench_options *options, const char *path) {
    struct store *store;
    if (!database_open("practice", options->db, STORE_READ, &store)) {
        return false;
    }
    bool done = !barred(options, store);
    if (done && store_practice(store, path) != STORE_OK) {
        database_complain("practice", store);
        done = false;
    }
    store_close(store);
    return done;
}

static bool fill_workshop(const char *path, const char *folder) {
    char pin[DEMO_PIN_SIZE];
    struct store *store;
    if (!database_open("practice", path, STORE_CREATE, &store)) {
        return false;
    }
    bool done = demo_fill(store, folder, pin) && store_checkpoint(store) == STORE_OK;
    if (!done) {
        database_complain("practice", store);
    }
    sodium_memzero(pin, sizeof pin);
    store_close(store);
    return done;
}

static bool make_workshop(const char *path) {
    const char *folder = demo_folder();
    char part[DATABASE_PATH_MAX + 8];
    char message[512];
    if (folder == NULL) {
        fputs(_("kerfside practice: the imaginary workshop's files are not there; set "
                "KERFSIDE_DATA to "
                "their folder.\n"),
              stderr);
        return false;
    }
    snprintf(part, sizeof part, "%s.part", path);
    bool done = take_away(path) && fill_workshop(part, folder);
    if (done && store_practice_take(path, message, sizeof message) != STORE_OK) {
        fprintf(stderr, "kerfside practice: %s\n", message);
        done = false;
    }
    database_take_away(part); // but for what took its name
    return done;
}

static bool make(const struct bench_options *options, const char *path) {
    if (options->copied || options->resume != NULL) {
        return true;
    }
    return options->tour ? make_workshop(path) : make_copy(options, path);
}

int command_practice(int argc, char **argv) {
    struct bench_options options = {0};
    enum bench_leaves leaves = BENCH_TO_WORK;
    char real[DATABASE_PATH_MAX];
    char path[DATABASE_PATH_MAX];
    int status = COMMAND_REFUSED;
    if (!bench_options_read(argc, argv, &options)) {
        return COMMAND_USAGE;
    }
    if (!database_path(options.db, real) || !practice_path(real, path)) {
        return COMMAND_REFUSED;
    }
    if (make(&options, path)) {
        if (options.copy) {
            return COMMAND_DONE;
        }
        status = bench_run(&options, real, path, &leaves);
        if (leaves == BENCH_POWER_LOST) {
            bench_become("practice", &options);
            return COMMAND_REFUSED;
        }
        take_away(path);
    }
    if (options.back && leaves == BENCH_TO_WORK) { // the kiosk never stays without its bench
        bench_become("bench", &options);
    }
    return status;
}

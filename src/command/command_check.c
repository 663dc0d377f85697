#include "check_json.h"
#include "command.h"
#include "database.h"
#include "options.h"
#include "tongue.h"
#include "tongues.h"
#include "witness.h"

#include <stdio.h>
#include <sys/stat.h>

#define QUICK 1000 // entries

struct asked {
    const char *db;
    const char *witness;
    const char *public;
    const char *settings;
    bool json;
    bool quick;
};

static void show(const struct store *store, const struct store_check *check) {
    printf(_("%s is whole: %lld log entries, incarnation %s, last hash "), store_path(store),
           (long long)check->entries, check->incarnation);
    for (size_t i = 0; i < sizeof check->head; i++) {
        printf("%02x", check->head[i]);
    }
    putchar('\n');
    struct stat file;
    if (stat(store_path(store), &file) == 0 && (file.st_mode & S_IRWXO) != 0) {
        printf(_("Everybody on this machine may open it, and it holds people's names: "
                 "`chmod o= %s`.\n"),
               store_path(store));
    }
}

static void show_witness(const struct witness *witness, const struct store_check *check,
                         const struct witness_finding *finding) {
    int64_t uncovered = check->entries - finding->covered;
    printf(tongue_plural("It is what %s says: %zu note, the last over %lld entries.",
                         "It is what %s says: %zu notes, the last over %lld entries.",
                         witness->count),
           witness->path, witness->count, (long long)finding->covered);
    if (uncovered > 0) {
        printf(_(" No note covers the last %lld yet, as is normal until a day is signed again."),
               (long long)uncovered);
    }
    putchar('\n');
    if (witness->torn_line > 0) {
        printf(_("From line %d on it holds the beginning of a note only, as after a power cut; the "
                 "next signing takes its place.\n"),
               witness->torn_line);
    }
}

static void complain(const struct store *store, const struct store_check *check,
                     int64_t latest_bad) {
    fprintf(stderr, "kerfside check: %s: %s", store_path(store), check->problem);
    if (latest_bad > check->first_bad) {
        fprintf(stderr, _(" First bad log entry: one of %lld to %lld."),
                (long long)check->first_bad, (long long)latest_bad);
    } else if (check->first_bad > 0) {
        fprintf(stderr, _(" First bad log entry: %lld."), (long long)check->first_bad);
    }
    fputs(_(" Stop work, keep the files as they are, and go back to the last backup that is "
            "whole.\n"),
          stderr);
}

static bool check_database(struct store *store, const struct witness *witness) {
    struct store_check check;
    struct witness_finding finding = {0};
    enum store_result result = witness == NULL
                                   ? store_check(store, &check)
                                   : store_check_witness(store, witness, &check, &finding);
    if (result == STORE_OK) {
        show(store, &check);
        if (witness != NULL && witness->count > 0) {
            show_witness(witness, &check, &finding);
        }
    } else if (result == STORE_REFUSED) {
        complain(store, &check, finding.latest_bad);
    } else {
        database_complain("check", store);
    }
    return result == STORE_OK;
}

static bool check_last(struct store *store) {
    struct store_check check;
    enum store_result result = store_check_tail(store, QUICK, &check);
    if (result == STORE_OK) {
        printf(_("%s: the last %d of %lld log entries are whole.\n"), store_path(store),
               check.entries < QUICK ? (int)check.entries : QUICK, (long long)check.entries);
    } else if (result == STORE_REFUSED) {
        complain(store, &check, 0);
    } else {
        database_complain("check", store);
    }
    return result == STORE_OK;
}

// The database is looked at whatever the witness says of itself.
static bool check_witness(struct store *store, const char *path, const char *public_path) {
    uint8_t public[WITNESS_PUBLIC_SIZE];
    struct witness witness;
    char message[1200];
    if (!witness_key_read_public(public_path, public, message, sizeof message)) {
        fprintf(stderr, "kerfside check: %s\n", message);
        return false;
    }
    enum witness_result result = witness_read(path, public, &witness, message, sizeof message);
    if (result != WITNESS_OK) {
        fprintf(stderr, "kerfside check: %s\n", message);
    }
    if (result == WITNESS_FAILED) {
        return false;
    }
    bool whole = check_database(store, &witness);
    if (result == WITNESS_OK && witness.count == 0) {
        fprintf(stderr, _("kerfside check: %s holds no note, so it is witness to nothing.\n"),
                path);
        whole = false;
    }
    witness_release(&witness);
    return whole && result == WITNESS_OK;
}

static int64_t uncovered(struct store *store, int64_t entries) {
    int64_t seq = 0;
    int64_t wall_ms = 0;
    return store_last_signed(store, &seq, &wall_ms) == STORE_OK ? entries - seq : -1;
}

// One object on stdout, whatever is found.
static int as_json(const struct asked *asked) {
    char path[DATABASE_PATH_MAX];
    char message[DATABASE_PATH_MAX + 256] = "";
    struct store *store = NULL;
    struct store_check check;
    struct check_said said = {.database = path,
                              .quick = asked->quick,
                              .uncovered = -1,
                              .problem = message,
                              .settings = asked->settings};
    if (!database_path(asked->db, path)) {
        return COMMAND_REFUSED;
    }
    if (store_open(path, STORE_READ, DATABASE_BENCH, &store, message, sizeof message) == STORE_OK) {
        enum store_result result =
            asked->quick ? store_check_tail(store, QUICK, &check) : store_check(store, &check);
        said.whole = result == STORE_OK;
        if (result == STORE_OK || result == STORE_REFUSED) {
            said.check = &check;
            said.problem = check.problem;
            said.uncovered = uncovered(store, check.entries);
        } else {
            said.problem = store_message(store);
        }
    }
    check_json(stdout, store, &said);
    store_close(store);
    return said.whole ? COMMAND_DONE : COMMAND_REFUSED;
}

static int in_words(const char *command, const struct asked *asked) {
    struct store *store;
    if (!database_open(command, asked->db, STORE_READ, &store)) {
        return COMMAND_REFUSED;
    }
    bool whole = asked->quick             ? check_last(store)
                 : asked->witness == NULL ? check_database(store, NULL)
                                          : check_witness(store, asked->witness, asked->public);
    store_close(store);
    return whole ? COMMAND_DONE : COMMAND_REFUSED;
}

int command_check(int argc, char **argv) {
    struct asked asked = {.db = NULL};
    const struct option options[] = {
        {"--db", &asked.db, NULL},         {"--witness", &asked.witness, NULL},
        {"--public", &asked.public, NULL}, {"--settings", &asked.settings, NULL},
        {"--json", NULL, &asked.json},     {"--quick", NULL, &asked.quick}};
    int count;
    if (!options_read_plain(argc, argv, options, sizeof options / sizeof options[0], 0, 0, "",
                            &count)) {
        return COMMAND_USAGE;
    }
    if ((asked.witness == NULL) != (asked.public == NULL)) {
        fputs(_("kerfside check: --witness and --public belong together. See kerfside --help.\n"),
              stderr);
        return COMMAND_USAGE;
    }
    if (asked.witness != NULL && (asked.json || asked.quick)) {
        fputs(_("kerfside check: --witness goes with neither --json nor --quick. See kerfside "
                "--help.\n"),
              stderr);
        return COMMAND_USAGE;
    }
    if (asked.json) {
        tongues_use(1); // English, as all that programs read
        return as_json(&asked);
    }
    return in_words(argv[0], &asked);
}

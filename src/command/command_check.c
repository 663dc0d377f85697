#include "command.h"
#include "database.h"
#include "options.h"
#include "witness.h"

#include <stdio.h>
#include <sys/stat.h>

static void show(const struct store *store, const struct store_check *check) {
    printf("%s is whole: %lld log entries, incarnation %s, last hash ", store_path(store),
           (long long)check->entries, check->incarnation);
    for (size_t i = 0; i < sizeof check->head; i++) {
        printf("%02x", check->head[i]);
    }
    putchar('\n');
    struct stat file;
    if (stat(store_path(store), &file) == 0 && (file.st_mode & S_IRWXO) != 0) {
        printf("Everybody on this machine may open it, and it holds people's names: "
               "`chmod o= %s`.\n",
               store_path(store));
    }
}

static void show_witness(const struct witness *witness, const struct store_check *check,
                         const struct witness_finding *finding) {
    int64_t uncovered = check->entries - finding->covered;
    printf("It is what %s says: %zu %s, the last over %lld entries.", witness->path, witness->count,
           witness->count == 1 ? "note" : "notes", (long long)finding->covered);
    if (uncovered > 0) {
        printf(" No note covers the last %lld yet, as is normal until a day is signed again.",
               (long long)uncovered);
    }
    putchar('\n');
    if (witness->torn_line > 0) {
        printf("From line %d on it holds the beginning of a note only, as after a power cut; the "
               "next signing takes its place.\n",
               witness->torn_line);
    }
}

static void complain(const struct store *store, const struct store_check *check,
                     int64_t latest_bad) {
    fprintf(stderr, "kerfside check: %s: %s", store_path(store), check->problem);
    if (latest_bad > check->first_bad) {
        fprintf(stderr, " First bad log entry: one of %lld to %lld.", (long long)check->first_bad,
                (long long)latest_bad);
    } else if (check->first_bad > 0) {
        fprintf(stderr, " First bad log entry: %lld.", (long long)check->first_bad);
    }
    fputs(" Stop work, keep the files as they are, and go back to the last backup that is whole.\n",
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
        fprintf(stderr, "kerfside check: %s holds no note, so it is witness to nothing.\n", path);
        whole = false;
    }
    witness_release(&witness);
    return whole && result == WITNESS_OK;
}

int command_check(int argc, char **argv) {
    const char *db = NULL, *witness = NULL, *public = NULL;
    const struct option options[] = {
        {"--db", &db, NULL}, {"--witness", &witness, NULL}, {"--public", &public, NULL}};
    struct store *store;
    int count;
    if (!options_read_plain(argc, argv, options, 3, 0, 0, "", &count)) {
        return COMMAND_USAGE;
    }
    if ((witness == NULL) != (public == NULL)) {
        fputs("kerfside check: --witness and --public belong together. See kerfside --help.\n",
              stderr);
        return COMMAND_USAGE;
    }
    if (!database_open(argv[0], db, STORE_READ, &store)) {
        return COMMAND_REFUSED;
    }
    bool whole =
        witness == NULL ? check_database(store, NULL) : check_witness(store, witness, public);
    store_close(store);
    return whole ? COMMAND_DONE : COMMAND_REFUSED;
}

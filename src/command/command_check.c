#include "command.h"
#include "database.h"
#include "options.h"

#include <stdio.h>

static void show(const struct store *store, const struct store_check *check) {
    printf("%s is whole: %lld log entries, incarnation %s, last hash ", store_path(store),
           (long long)check->entries, check->incarnation);
    for (size_t i = 0; i < sizeof check->head; i++) {
        printf("%02x", check->head[i]);
    }
    putchar('\n');
}

int command_check(int argc, char **argv) {
    const char *db = NULL;
    const struct option options[] = {{"--db", &db, NULL}};
    struct store *store;
    struct store_check check;
    int count;
    if (!options_read_plain(argc, argv, options, 1, 0, 0, "", &count)) {
        return COMMAND_USAGE;
    }
    if (!database_open(argv[0], db, STORE_READ, &store)) {
        return COMMAND_REFUSED;
    }
    enum store_result result = store_check(store, &check);
    if (result == STORE_OK) {
        show(store, &check);
    } else if (result == STORE_REFUSED && check.first_bad > 0) {
        fprintf(stderr,
                "kerfside check: %s: %s First bad log entry: %lld. Stop work, keep the files as "
                "they are, and go back to the last backup that is whole.\n",
                store_path(store), check.problem, (long long)check.first_bad);
    } else if (result == STORE_REFUSED) {
        fprintf(stderr,
                "kerfside check: %s: %s Stop work, keep the files as they are, and go back to "
                "the last backup that is whole.\n",
                store_path(store), check.problem);
    } else {
        database_complain(argv[0], store);
    }
    store_close(store);
    return result == STORE_OK ? COMMAND_DONE : COMMAND_REFUSED;
}

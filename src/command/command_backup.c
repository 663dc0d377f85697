#include "command.h"
#include "database.h"
#include "options.h"

#include <stdio.h>

int command_backup(int argc, char **argv) {
    const char *db = NULL;
    const struct option options[] = {{"--db", &db, NULL}};
    struct store *store;
    int count;
    if (!options_read_plain(argc, argv, options, 1, 1, 1, "the file to copy to", &count)) {
        return COMMAND_USAGE;
    }
    if (!database_open(argv[0], db, STORE_READ, &store)) {
        return COMMAND_REFUSED;
    }
    enum store_result result = store_backup(store, argv[1]);
    if (result == STORE_OK) {
        printf("%s is a checked copy of %s\n", argv[1], store_path(store));
    } else {
        database_complain(argv[0], store);
    }
    store_close(store);
    return result == STORE_OK ? COMMAND_DONE : COMMAND_REFUSED;
}

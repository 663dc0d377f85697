#include "command.h"
#include "database.h"
#include "import.h"
#include "options.h"

#include <limits.h>

int command_import(int argc, char **argv) {
    const char *db = NULL;
    const struct option options[] = {{"--db", &db, NULL}};
    struct store *store;
    struct entry entry = entry_init(ENTRY_IMPORT);
    int count;
    if (!options_read_plain(argc, argv, options, 1, 1, INT_MAX, "the CSV files to import",
                            &count)) {
        return COMMAND_USAGE;
    }
    if (!database_open(argv[0], db, STORE_CREATE, &store)) {
        return COMMAND_REFUSED;
    }
    database_stamp(&entry);
    const struct import_source source = {.paths = (const char *const *)(argv + 1),
                                         .count = (size_t)count};
    enum store_result result = import_files(store, &source, &entry, stderr);
    if (result == STORE_OK) {
        printf("%s%s\n", entry.note, entry.seq == 0 ? ": nothing to change" : "");
    } else {
        database_complain(argv[0], store);
    }
    store_close(store);
    return result == STORE_OK ? COMMAND_DONE : COMMAND_REFUSED;
}

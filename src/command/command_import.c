#include "command.h"
#include "database.h"
#include "import.h"
#include "options.h"
#include "tongue.h"

#include <limits.h>
#include <unistd.h>

int command_import(int argc, char **argv) {
    const char *db = NULL;
    const struct option options[] = {{"--db", &db, NULL}};
    char path[DATABASE_PATH_MAX];
    struct store *store;
    struct entry entry = entry_init(ENTRY_IMPORT);
    int count;
    if (!options_read_plain(argc, argv, options, 1, 1, INT_MAX, N_("the CSV files to import"),
                            &count)) {
        return COMMAND_USAGE;
    }
    if (!database_path(db, path)) {
        return COMMAND_REFUSED;
    }
    bool made = access(path, F_OK) != 0;
    if (!database_open(argv[0], path, STORE_CREATE, &store)) {
        return COMMAND_REFUSED;
    }
    database_stamp(&entry);
    const struct import_source source = {.paths = (const char *const *)(argv + 1),
                                         .count = (size_t)count};
    enum store_result result = import_files(store, &source, &entry, stderr);
    if (result == STORE_OK) {
        printf("%s%s\n", entry.note, entry.seq == 0 ? _(": nothing to change") : "");
    } else {
        database_complain(argv[0], store);
    }
    store_close(store);
    if (made && result != STORE_OK) {
        database_take_away(path);
    }
    return result == STORE_OK ? COMMAND_DONE : COMMAND_REFUSED;
}

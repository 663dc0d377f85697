#include "command.h"
#include "database.h"
#include "options.h"
#include "restore.h"
#include "tongue.h"

#include <stdio.h>

int command_restore(int argc, char **argv) {
    const char *db = NULL;
    const struct option options[] = {{"--db", &db, NULL}};
    struct restored restored;
    char path[DATABASE_PATH_MAX];
    char message[512];
    int count;
    if (!options_read_plain(argc, argv, options, 1, 1, 1, N_("the copy to go on from"), &count)) {
        return COMMAND_USAGE;
    }
    if (!database_path(db, path) || !database_folders(argv[0], path)) {
        return COMMAND_REFUSED;
    }
    if (store_restore(argv[1], path, DATABASE_BENCH, &restored, message, sizeof message) !=
        STORE_OK) {
        fprintf(stderr, "kerfside restore: %s\n", message);
        return COMMAND_REFUSED;
    }
    printf(_("%s goes on from %s with its %lld log entries, and the log says so.\n"), path, argv[1],
           (long long)restored.entries);
    if (restored.aside[0] != '\0') {
        printf(_("What was there before is kept as %s.\n"), restored.aside);
    }
    puts(_("What was cut since the copy was made is not in this log: such shafts look uncut here. "
           "Measure every shaft before you cut it, until those are sorted out."));
    return COMMAND_DONE;
}

// A copy of the database, at a path of its own or as one of many in a folder.

#include "command.h"
#include "database.h"
#include "options.h"
#include "tongue.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/syscall.h>
#include <unistd.h>

#define KEEP 14
#define KEEP_MOST 1000
#define IDLE_CLASS (3 << 13) // IOPRIO_CLASS_IDLE: only when nobody else wants the disk

struct backup_options {
    const char *db;
    const char *into;
    const char *keep;
    bool gently;
};

// Lets everybody else go first. Where the kernel refuses, the copy is just not as gentle.
static void go_last(void) {
    setpriority(PRIO_PROCESS, 0, 19);
    syscall(SYS_ioprio_set, 1, 0, IDLE_CLASS);
}

static bool read_keep(const char *text, int *ret_keep) {
    char *end = NULL;
    long keep = text == NULL ? KEEP : strtol(text, &end, 10);
    if (text != NULL && (end == text || *end != '\0' || keep < 1 || keep > KEEP_MOST)) {
        fprintf(stderr, _("kerfside backup: --keep %s: a number from 1 to %d.\n"), text, KEEP_MOST);
        return false;
    }
    *ret_keep = (int)keep;
    return true;
}

int command_backup(int argc, char **argv) {
    struct backup_options to = {0};
    const struct option options[] = {{"--db", &to.db, NULL},
                                     {"--into", &to.into, NULL},
                                     {"--keep", &to.keep, NULL},
                                     {"--gently", NULL, &to.gently}};
    struct store *store;
    char path[DATABASE_PATH_MAX];
    int count;
    int keep;
    if (!options_read(argc, argv, options, sizeof options / sizeof options[0], &count)) {
        return COMMAND_USAGE;
    }
    if (count != (to.into == NULL ? 1 : 0)) {
        fprintf(stderr, "kerfside backup: %s\n",
                count == 0 ? _("missing: the file to copy to, or --into FOLDER.")
                           : _("one file to copy to, or --into FOLDER."));
        return COMMAND_USAGE;
    }
    if (!read_keep(to.keep, &keep)) {
        return COMMAND_USAGE;
    }
    if (!database_open(argv[0], to.db, STORE_COPY, &store)) {
        return COMMAND_REFUSED;
    }
    if (to.gently) {
        go_last();
    }
    enum store_result result = to.into == NULL
                                   ? store_backup(store, argv[1])
                                   : store_backup_into(store, to.into, keep, path, sizeof path);
    if (result == STORE_OK) {
        printf(_("%s is a checked copy of %s\n"), to.into == NULL ? argv[1] : path,
               store_path(store));
    } else {
        database_complain(argv[0], store);
    }
    store_close(store);
    return result == STORE_OK ? COMMAND_DONE : COMMAND_REFUSED;
}

#include "command.h"
#include "csv_file.h"
#include "database.h"
#include "days.h"
#include "ledger.h"
#include "options.h"
#include "tongue.h"

#include <stdio.h>

struct wish {
    struct store *store;
    int64_t from_ms;
    int64_t to_ms;
};

static bool fill(void *context, int fd, int64_t *ret_rows, char *message, size_t size) {
    const struct wish *wish = context;
    return ledger_write(wish->store, wish->from_ms, wish->to_ms, fd, ret_rows, message, size);
}

int command_ledger(int argc, char **argv) {
    const char *db = NULL, *from = NULL, *to = NULL, *csv = NULL;
    const struct option options[] = {
        {"--db", &db, NULL}, {"--from", &from, NULL}, {"--to", &to, NULL}, {"--csv", &csv, NULL}};
    struct wish wish = {.from_ms = 0};
    int count;
    if (!options_read_plain(argc, argv, options, 4, 0, 0, "", &count) ||
        !days_take(argv[0], "--from", from, 0, &wish.from_ms) ||
        !days_take(argv[0], "--to", to, 1, &wish.to_ms)) {
        return COMMAND_USAGE;
    }
    if (csv == NULL) {
        fputs(_("kerfside ledger: name the file with --csv. See kerfside --help.\n"), stderr);
        return COMMAND_USAGE;
    }
    if (!database_open(argv[0], db, STORE_READ, &wish.store)) {
        return COMMAND_REFUSED;
    }
    bool done = csv_file_write(argv[0], csv, "rows", fill, &wish);
    store_close(wish.store);
    return done ? COMMAND_DONE : COMMAND_REFUSED;
}

#include "command.h"
#include "database.h"
#include "options.h"
#include "secret.h"
#include "supervisor.h"

#include <sodium.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static bool read_pin(const char *command, char pin[SECRET_LINE_MAX]) {
    char again[SECRET_LINE_MAX];
    bool same = true;
    if (!secret_read("New PIN, 4 to 12 digits: ", pin)) {
        fprintf(stderr, "kerfside %s: no PIN was given; type it, or send it on stdin.\n", command);
        return false;
    }
    if (isatty(STDIN_FILENO)) {
        same = secret_read("Once more: ", again) && strcmp(pin, again) == 0;
        sodium_memzero(again, sizeof again);
    }
    if (!same) {
        fprintf(stderr, "kerfside %s: the two were not the same; nothing was changed.\n", command);
    }
    return same;
}

int command_pin(int argc, char **argv) {
    const char *db = NULL;
    const struct option options[] = {{"--db", &db, NULL}};
    struct store *store;
    struct ticket badge;
    char pin[SECRET_LINE_MAX] = "";
    int count;
    if (!options_read_plain(argc, argv, options, 1, 1, 1, "the supervisor's badge", &count)) {
        return COMMAND_USAGE;
    }
    if (!supervisor_badge(argv[0], argv[1], &badge) ||
        !database_open(argv[0], db, STORE_WRITE, &store)) {
        return COMMAND_REFUSED;
    }
    enum store_result result = STORE_REFUSED;
    if (read_pin(argv[0], pin)) {
        result = store_pin_set(store, badge.text, pin);
        if (result == STORE_OK) {
            printf("The PIN of %s is set.\n", badge.text);
        } else {
            database_complain(argv[0], store);
        }
    }
    sodium_memzero(pin, sizeof pin);
    store_close(store);
    return result == STORE_OK ? COMMAND_DONE : COMMAND_REFUSED;
}

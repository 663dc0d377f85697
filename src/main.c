// Dispatches to one subcommand and does nothing else.

#include "command.h"
#include "tongues.h"

#include <stdbool.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

static const struct {
    const char *name;
    int (*run)(int argc, char **argv);
} commands[] = {
    {"backup", command_backup},     {"bench", command_bench},
    {"card", command_card},         {"certificate", command_certificate},
    {"check", command_check},       {"decoder", command_decoder},
    {"demo", command_demo},         {"import", command_import},
    {"key", command_key},           {"ledger", command_ledger},
    {"log", command_log},           {"match", command_match},
    {"people", command_people},     {"pin", command_pin},
    {"plan", command_plan},         {"read", command_read},
    {"report", command_report},     {"restore", command_restore},
    {"pick", command_pick},         {"practice", command_practice},
    {"queue", command_queue},       {"settings", command_settings},
    {"stock", command_stock},       {"sign", command_sign},
    {"tickets", command_tickets},   {"--help", command_help},
    {"--version", command_version},
};

// A command is done only when all it said was written.
static int written(const char *name, int status) {
    if (fflush(stdout) == 0 && !ferror(stdout)) {
        return status;
    }
    fprintf(stderr, "kerfside %s: cannot write to standard output. Look at the room there.\n",
            name);
    return status == COMMAND_DONE ? COMMAND_REFUSED : status;
}

int main(int argc, char **argv) {
    if (argc < 2) {
        fputs("kerfside: say what to do, as `kerfside demo`. See kerfside --help.\n", stderr);
        return COMMAND_USAGE;
    }
    tongues_begin();
    umask(umask(0) | S_IRWXO); // database, copies, exports and reports hold people's names
    for (size_t i = 0; i < sizeof commands / sizeof commands[0]; i++) {
        if (strcmp(argv[1], commands[i].name) == 0) {
            bool help = argc == 3 && strcmp(argv[2], "--help") == 0;
            return written(argv[1], help ? command_help(argc - 1, argv + 1)
                                         : commands[i].run(argc - 1, argv + 1));
        }
    }
    fprintf(stderr, "kerfside: there is no command %s. See kerfside --help.\n", argv[1]);
    return COMMAND_USAGE;
}

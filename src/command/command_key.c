#include "command.h"
#include "options.h"
#include "tongue.h"
#include "witness_key.h"

#include <stdio.h>

int command_key(int argc, char **argv) {
    char public[WITNESS_PUBLIC_TEXT_MAX];
    char message[512];
    int count;
    if (!options_read_plain(argc, argv, NULL, 0, 1, 1, N_("the file to make"), &count)) {
        return COMMAND_USAGE;
    }
    if (!witness_key_make(argv[1], public, message, sizeof message)) {
        fprintf(stderr, "kerfside %s: %s\n", argv[0], message);
        return COMMAND_REFUSED;
    }
    printf(
        _("%s\n"
          "is the public key, also in %s.pub; write it down where others see it. %s is the secret "
          "half: keep it away from the database and its copies.\n"),
        public, argv[1], argv[1]);
    return COMMAND_DONE;
}

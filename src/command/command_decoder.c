// The child that reads frames for the bench (reader.h); not for people.

#include "command.h"
#include "reader.h"

int command_decoder(int argc, char **argv) {
    (void)argv;
    return argc == 1 ? reader_serve() : COMMAND_USAGE;
}

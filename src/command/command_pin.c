#include "command.h"
#include "database.h"
#include "options.h"

#include <sodium.h>
#include <stdio.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

#define PIN_LINE_MAX 64

// One line from stdin, shown to nobody.
static bool read_hidden(const char *prompt, char line[PIN_LINE_MAX]) {
    struct termios shown, hidden;
    bool terminal = tcgetattr(STDIN_FILENO, &shown) == 0;
    bool got;
    if (terminal) {
        fputs(prompt, stderr);
        hidden = shown;
        hidden.c_lflag &= ~(tcflag_t)ECHO;
        tcsetattr(STDIN_FILENO, TCSAFLUSH, &hidden);
    }
    got = fgets(line, PIN_LINE_MAX, stdin) != NULL;
    if (terminal) {
        tcsetattr(STDIN_FILENO, TCSAFLUSH, &shown);
        fputc('\n', stderr);
    }
    if (got) {
        line[strcspn(line, "\r\n")] = '\0';
    }
    return got;
}

static bool read_pin(const char *command, char pin[PIN_LINE_MAX]) {
    char again[PIN_LINE_MAX];
    bool same = true;
    if (!read_hidden("New PIN, 4 to 12 digits: ", pin)) {
        fprintf(stderr, "kerfside %s: no PIN was given; type it, or send it on stdin.\n", command);
        return false;
    }
    if (isatty(STDIN_FILENO)) {
        same = read_hidden("Once more: ", again) && strcmp(pin, again) == 0;
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
    char pin[PIN_LINE_MAX] = "";
    char message[160];
    int count;
    if (!options_read_plain(argc, argv, options, 1, 1, 1, "the supervisor's badge", &count)) {
        return COMMAND_USAGE;
    }
    enum ticket_error error = ticket_parse(argv[1], &badge);
    if (error != TICKET_OK) {
        ticket_error_text(argv[1], error, message, sizeof message);
        fprintf(stderr, "kerfside %s: %s\n", argv[0], message);
        return COMMAND_REFUSED;
    }
    if (!database_open(argv[0], db, STORE_WRITE, &store)) {
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

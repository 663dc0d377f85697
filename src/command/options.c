#include "options.h"

#include "text.h"
#include "tongue.h"

#include <stdio.h>
#include <string.h>

// `pattern` with %1 for `argument`.
static bool wrong(char **argv, const char *pattern, const char *argument) {
    char words[600];
    struct text text = text_open(words, sizeof words);
    text_say(&text, pattern, argument);
    fprintf(stderr, _("kerfside %s: %s See kerfside --help.\n"), argv[0], words);
    return false;
}

static const struct option *find(const struct option *options, size_t count, const char *argument,
                                 size_t size) {
    for (size_t i = 0; i < count; i++) {
        if (strlen(options[i].name) == size && strncmp(options[i].name, argument, size) == 0) {
            return &options[i];
        }
    }
    return NULL;
}

// Reads the option at argv[*at], with its value; leaves *at on the last argument it used.
static bool take(int argc, char **argv, const struct option *options, size_t count, int *at) {
    const char *argument = argv[*at];
    size_t size = strcspn(argument, "=");
    const struct option *option = find(options, count, argument, size);
    if (option == NULL) {
        return wrong(argv, _("there is no option %1."), argument);
    }
    if (option->flag != NULL) {
        if (argument[size] == '=') {
            return wrong(argv, _("no value belongs to %1."), option->name);
        }
        *option->flag = true;
    } else if (argument[size] == '=') {
        *option->value = argument + size + 1;
    } else if (*at + 1 < argc) {
        *option->value = argv[++*at];
    } else {
        return wrong(argv, _("a value is missing after %1."), argument);
    }
    return true;
}

bool options_read(int argc, char **argv, const struct option *options, size_t option_count,
                  int *ret_count) {
    int plain = 0;
    bool ended = false;
    for (int i = 1; i < argc; i++) {
        if (!ended && strcmp(argv[i], "--") == 0) {
            ended = true;
        } else if (!ended && argv[i][0] == '-' && argv[i][1] != '\0') {
            if (!take(argc, argv, options, option_count, &i)) {
                return false;
            }
        } else {
            argv[++plain] = argv[i];
        }
    }
    *ret_count = plain;
    return true;
}

bool options_read_plain(int argc, char **argv, const struct option *options, size_t option_count,
                        int least, int most, const char *what, int *ret_count) {
    int count;
    if (!options_read(argc, argv, options, option_count, &count)) {
        return false;
    }
    if (count < least) {
        return wrong(argv, _("missing: %1."), _(what));
    }
    if (count > most) {
        return wrong(argv, _("too much: %1."), argv[most + 1]);
    }
    *ret_count = count;
    return true;
}

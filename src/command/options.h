#ifndef OPTIONS_H
#define OPTIONS_H

// Options of a subcommand: `--name VALUE`, `--name=VALUE`, `--name`, in any order among the plain
// arguments; `--` ends them.

#include <stdbool.h>
#include <stddef.h>

struct option {
    const char *name;   // "--db"
    const char **value; // where its value goes, or
    bool *flag;         // what it sets
};

// Sorts argv so that the plain arguments are argv[1] to argv[*ret_count]. False: wrong usage, and
// stderr says what.
bool options_read(int argc, char **argv, const struct option *options, size_t option_count,
                  int *ret_count);

// The same, and between `least` and `most` plain arguments, called `what` (marked with N_) in the
// message.
bool options_read_plain(int argc, char **argv, const struct option *options, size_t option_count,
                        int least, int most, const char *what, int *ret_count);

#endif

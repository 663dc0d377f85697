#ifndef SETTINGS_FILE_H
#define SETTINGS_FILE_H

// Which settings hold. A command goes by a file that is right or not at all; a bench always starts:
// with the file it was given, else with the last one that was right, of which it keeps a copy
// beside the database, else with the standards.

#include "bench_settings.h"

#include <limits.h>

// The file `given` with --settings, else $KERFSIDE_SETTINGS, over the defaults; neither: the
// defaults alone. False when it cannot be read or a line is wrong, and stderr says what.
bool settings_file_read(const char *command, const char *given, struct bench_settings *ret);

// Any file of settings, to be read. NULL: stderr says why.
FILE *settings_file_open(const char *command, const char *path);

enum settings_from { SETTINGS_STANDARD, SETTINGS_FILE, SETTINGS_LAST_GOOD };

struct settings_now {
    char path[PATH_MAX]; // the file that was named; empty: none was
    char good[PATH_MAX]; // the copy of the last good one
    enum settings_from from;
    struct bench_settings settings; // what holds
    struct bench_lines lines;       // the same as text
    struct bench_lines wrong_lines; // those of a file that is wrong
    int wrong;                      // complaints about the file named
    char first[VIEW_TEXT_MAX];      // the first of them, `line 12: mark_step = 1/7: must be ...`
    bool has_before;                // a last good copy was there
    struct bench_lines before;      // and said this
};

// Never fails. What is wrong with the file is named on stderr, all of it, and what holds instead.
// `database` is the path of the database, whether there is one or not. *ret is released with
// settings_now_release.
void settings_now_read(const char *command, const char *given, const char *database,
                       struct settings_now *ret);
void settings_now_release(struct settings_now *now);

// Keeps what holds as the last good settings, if they came from the file and differ from the copy.
// False, and `message` says why, when that cannot be written: the bench works all the same.
bool settings_now_keep(const struct settings_now *now, char *message, size_t size);

#endif

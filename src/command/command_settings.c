// What the bench goes by: shown with where it is from, checked, and as a file to begin with.

#include "bench_screen.h"
#include "bench_set.h"
#include "command.h"
#include "database.h"
#include "options.h"
#include "settings_file.h"
#include "settings_write.h"
#include "tongue.h"

#include <stdio.h>
#include <string.h>

static int sample(void) {
    static struct bench_lines lines; // large
    bench_lines_init(&lines);
    settings_print(stdout, &lines);
    return COMMAND_DONE;
}

// One line a setting, as it would stand in the file, and where it is from.
static void print(const char *path, const struct bench_lines *lines) {
    const char *section = "";
    for (size_t i = 0; i < bench_settings_count(); i++) {
        const struct bench_key *key = bench_settings_key(i);
        char line[BENCH_VALUE_MAX + 40];
        if (strcmp(section, key->section) != 0) {
            printf("%s[%s]\n", i == 0 ? "" : "\n", key->section);
            section = key->section;
        }
        snprintf(line, sizeof line, "%s = %s", key->key, lines->value[i]);
        if (lines->line[i] == 0) {
            printf("%-40s ; standard\n", line);
        } else {
            printf("%-40s ; %s:%d%s\n", line, path, lines->line[i],
                   strcmp(lines->value[i], key->standard) == 0 ? _(", as the standard") : "");
        }
    }
}

static int show(const char *command, const char *given, const char *db) {
    static struct settings_now now; // large
    char database[DATABASE_PATH_MAX];
    if (!database_path(db, database)) {
        return COMMAND_REFUSED;
    }
    settings_now_read(command, given, database, &now);
    print(now.from == SETTINGS_LAST_GOOD ? now.good : now.path, &now.lines);
    settings_now_release(&now);
    return now.wrong == 0 ? COMMAND_DONE : COMMAND_REFUSED;
}

static int check(const char *command, const char *path) {
    struct bench_settings settings = bench_settings_default();
    FILE *file = settings_file_open(command, path);
    if (file == NULL) {
        return COMMAND_REFUSED;
    }
    bool good = bench_settings_read(file, path, &settings, stderr);
    fclose(file);
    if (good) {
        printf(_("%s is right.\n"), path);
        bench_screen_far(&settings, 16, 9, stdout);
    }
    return good ? COMMAND_DONE : COMMAND_REFUSED;
}

int command_settings(int argc, char **argv) {
    const char *file = NULL, *checked = NULL, *db = NULL;
    bool wants_sample = false;
    const struct option options[] = {{"--settings", &file, NULL},
                                     {"--check", &checked, NULL},
                                     {"--db", &db, NULL},
                                     {"--sample", NULL, &wants_sample}};
    int count;
    if (!options_read_plain(argc, argv, options, sizeof options / sizeof options[0], 0, 0, "",
                            &count)) {
        return COMMAND_USAGE;
    }
    if ((file != NULL) + (checked != NULL) + wants_sample > 1) {
        fprintf(stderr,
                _("kerfside %s: one of --settings, --check and --sample. See kerfside "
                  "--help.\n"),
                argv[0]);
        return COMMAND_USAGE;
    }
    if (wants_sample) {
        return sample();
    }
    return checked != NULL ? check(argv[0], checked) : show(argv[0], file, db);
}

#include "command.h"
#include "database.h"
#include "options.h"
#include "secret.h"
#include "settings_file.h"
#include "supervisor.h"
#include "tongue.h"

#include <errno.h>
#include <sodium.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define GOOD_DIGITS 6

static bool read_pin(const char *command, int least, char pin[SECRET_LINE_MAX]) {
    char again[SECRET_LINE_MAX];
    char question[80];
    bool same = true;
    snprintf(question, sizeof question, _("New PIN, better %d digits or more (%d to %d): "),
             least > GOOD_DIGITS ? least : GOOD_DIGITS, least, STORE_PIN_DIGITS_MAX);
    if (!secret_read(question, pin)) {
        fprintf(stderr, _("kerfside %s: no PIN was given; type it, or send it on stdin.\n"),
                command);
        return false;
    }
    if (isatty(STDIN_FILENO)) {
        same = secret_read(_("Once more: "), again) && strcmp(pin, again) == 0;
        sodium_memzero(again, sizeof again);
    }
    if (!same) {
        fprintf(stderr, _("kerfside %s: the two were not the same; nothing was changed.\n"),
                command);
    }
    return same;
}

static void say_set(const char *badge, bool recovered, bool few) {
    if (recovered) {
        printf(few ? _("The PIN of %s is set. It is unlocked. 6 digits are harder to guess.\n")
                   : _("The PIN of %s is set. It is unlocked.\n"),
               badge);
        return;
    }
    printf(few ? _("The PIN of %s is set. 6 digits are harder to guess.\n")
               : _("The PIN of %s is set.\n"),
           badge);
}

static bool set_pin(const char *command, struct store *store, const struct pin_rules *rules,
                    const char *badge, bool recover) {
    char pin[SECRET_LINE_MAX] = "";
    enum store_result result = STORE_REFUSED;
    store_set_pin_rules(store, rules);
    if (read_pin(command, rules->min_digits, pin)) {
        result = recover ? store_pin_recover(store, badge, pin) : store_pin_set(store, badge, pin);
        if (result == STORE_OK) {
            say_set(badge, recover, strlen(pin) < GOOD_DIGITS);
        } else {
            database_complain(command, store);
        }
    }
    sodium_memzero(pin, sizeof pin);
    return result == STORE_OK;
}

static int new_pepper(const char *command, const char *path) {
    char message[1200];
    if (store_new_pepper(path, message, sizeof message) != STORE_OK) {
        fprintf(stderr, "kerfside %s: %s\n", command, message);
        return COMMAND_REFUSED;
    }
    printf(_("%s is made. Keep a copy of it apart from the database's backups: without it no PIN "
             "made with it can be checked.\n"),
           path);
    return COMMAND_DONE;
}

// Root goes on as the one who owns the database, so that no file beside it becomes root's.
static bool as_root(const char *command, const char *db) {
    char path[DATABASE_PATH_MAX];
    struct stat stat;
    if (geteuid() != 0) {
        fprintf(stderr, _("kerfside %s: only root at the console may recover a PIN.\n"), command);
        return false;
    }
    if (!database_path(db, path)) {
        return false;
    }
    if (lstat(path, &stat) == 0 && stat.st_uid != 0 &&
        (setegid(stat.st_gid) != 0 || seteuid(stat.st_uid) != 0)) {
        fprintf(stderr, _("kerfside %s: cannot go on as the owner of %s: %s.\n"), command, path,
                strerror(errno));
        return false;
    }
    return true; // a missing database is said when it is opened
}

int command_pin(int argc, char **argv) {
    const char *db = NULL, *pepper = NULL, *made = NULL, *file = NULL;
    struct bench_settings settings;
    bool recover = false;
    const struct option options[] = {{"--db", &db, NULL},
                                     {"--pepper", &pepper, NULL},
                                     {"--settings", &file, NULL},
                                     {"--new-pepper", &made, NULL},
                                     {"--recover", NULL, &recover}};
    struct store *store;
    struct ticket badge;
    int count;
    if (!options_read(argc, argv, options, sizeof options / sizeof options[0], &count)) {
        return COMMAND_USAGE;
    }
    if (made != NULL && count == 0 && !recover && db == NULL && pepper == NULL) {
        return new_pepper(argv[0], made);
    }
    if (count != 1 || made != NULL) {
        fprintf(stderr, _("kerfside %s: %s See kerfside --help.\n"), argv[0],
                made != NULL ? _("--new-pepper goes alone, with its file.")
                : count == 0 ? _("missing: the supervisor's badge.")
                             : _("too much: one badge, nothing else."));
        return COMMAND_USAGE;
    }
    if (!settings_file_read(argv[0], file, &settings) ||
        !supervisor_badge(argv[0], argv[1], &badge) || (recover && !as_root(argv[0], db)) ||
        !database_open(argv[0], db, STORE_WRITE, &store)) {
        return COMMAND_REFUSED;
    }
    bool done = supervisor_pepper(argv[0], pepper, settings.pepper, store) &&
                set_pin(argv[0], store, &settings.pin, badge.text, recover);
    store_close(store);
    return done ? COMMAND_DONE : COMMAND_REFUSED;
}

#include "database.h"
#include "boot.h"
#include "practice.h"
#include "tongue.h"

#include <errno.h>
#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

static const char *environment(const char *name) {
    const char *value = getenv(name);
    return value != NULL && *value != '\0' ? value : NULL;
}

bool database_path(const char *given, char buffer[DATABASE_PATH_MAX]) {
    const char *data = environment("XDG_DATA_HOME");
    const char *home = environment("HOME");
    int size;
    if (given == NULL) {
        given = environment("KERFSIDE_DB");
    }
    if (given != NULL) {
        size = snprintf(buffer, DATABASE_PATH_MAX, "%s", given);
    } else if (data != NULL) {
        size = snprintf(buffer, DATABASE_PATH_MAX, "%s/kerfside/kerfside.db", data);
    } else if (home != NULL) {
        size = snprintf(buffer, DATABASE_PATH_MAX, "%s/.local/share/kerfside/kerfside.db", home);
    } else {
        fputs(_("kerfside: no place for the database; name it with --db or set KERFSIDE_DB.\n"),
              stderr);
        return false;
    }
    if (size >= DATABASE_PATH_MAX) {
        fputs(_("kerfside: the path of the database is too long; name a shorter one with --db.\n"),
              stderr);
        return false;
    }
    return true;
}

bool database_folders(const char *command, const char *path) {
    char folder[DATABASE_PATH_MAX];
    snprintf(folder, sizeof folder, "%s", path);
    for (char *slash = strchr(folder + 1, '/'); slash != NULL; slash = strchr(slash + 1, '/')) {
        *slash = '\0';
        if (mkdir(folder, 0777) != 0 && errno != EEXIST) {
            fprintf(stderr,
                    _("kerfside %s: cannot make the folder %s: %s. Name another with --db.\n"),
                    command, folder, strerror(errno));
            return false;
        }
        *slash = '/';
    }
    return true;
}

bool database_open(const char *command, const char *given, enum store_mode mode,
                   struct store **ret_store) {
    char path[DATABASE_PATH_MAX];
    char message[512];
    struct stat stat;
    if (!database_path(given, path)) {
        return false;
    }
    if (mode != STORE_CREATE && lstat(path, &stat) != 0 && errno == ENOENT) {
        fprintf(stderr,
                _("kerfside %s: there is no database %s. Name another with --db, or make one with "
                  "`kerfside demo` or `kerfside import`.\n"),
                command, path);
        return false;
    }
    if (mode == STORE_CREATE && !database_folders(command, path)) {
        return false;
    }
    if (store_open(path, mode, DATABASE_BENCH, ret_store, message, sizeof message) != STORE_OK) {
        fprintf(stderr, "kerfside %s: %s\n", command, message);
        return false;
    }
    practice_tell(command, *ret_store);
    return true;
}

void database_take_away(const char *path) {
    static const char *const tails[] = {"",      "-wal",     "-shm",    "-journal",
                                        ".lock", ".ballast", ".checked"};
    char name[DATABASE_PATH_MAX + 16];
    for (size_t i = 0; i < sizeof tails / sizeof tails[0]; i++) {
        snprintf(name, sizeof name, "%s%s", path, tails[i]);
        unlink(name);
    }
}

void database_complain(const char *command, const struct store *store) {
    fprintf(stderr, "kerfside %s: %s\n", command, store_message(store));
}

void database_stamp(struct entry *entry) {
    struct timespec now;
    unsigned char random[(CONFIRM_ID_MAX - 1) / 2];
    randombytes_buf(random, sizeof random);
    sodium_bin2hex(entry->confirm_id, sizeof entry->confirm_id, random, sizeof random);
    clock_gettime(CLOCK_REALTIME, &now);
    entry->wall_ms = (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
    entry->mono_ms = boot_ms();
    boot_id(entry->boot);
    strcpy(entry->bench, DATABASE_BENCH);
}

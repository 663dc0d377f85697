// Copies in a folder, each named after its moment, the old ones taken away.

#include "backup.h"
#include "tongue.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <time.h>
#include <unistd.h>

#define STAMP "-%Y%m%dT%H%M%SZ"
#define STAMP_SIZE 17 // -20260331T104205Z
#define END ".db"
#define PART ".db.part"

// The name all copies of a database begin with: that of its file, without .db.
static void stem(const char *db, char ret_stem[NAME_MAX]) {
    const char *slash = strrchr(db, '/');
    const char *name = slash == NULL ? db : slash + 1;
    size_t size = strlen(name);
    size -= size > 3 && strcmp(name + size - 3, END) == 0 ? 3 : 0;
    snprintf(ret_stem, NAME_MAX, "%.*s", (int)size, name);
}

// When the copy `name` was begun, by its name, in Unix milliseconds; 0 when it is none of `stem`
// with that end.
static int64_t moment(const char *name, const char *stem_, const char *end) {
    struct tm date = {0};
    char again[STAMP_SIZE + 1];
    size_t size = strlen(stem_);
    if (strncmp(name, stem_, size) != 0 || strlen(name) != size + STAMP_SIZE + strlen(end) ||
        strcmp(name + size + STAMP_SIZE, end) != 0 ||
        strptime(name + size, STAMP, &date) != name + size + STAMP_SIZE) {
        return 0;
    }
    time_t seconds = timegm(&date);
    strftime(again, sizeof again, STAMP, &date);
    return seconds > 0 && strncmp(name + size, again, STAMP_SIZE) == 0 ? (int64_t)seconds * 1000
                                                                       : 0;
}

bool store_backup_newest(const char *db, const char *folder, int64_t before_ms,
                         int64_t *ret_moment) {
    char name[NAME_MAX];
    int64_t newest = 0;
    DIR *all = opendir(folder);
    if (all == NULL) {
        return false;
    }
    stem(db, name);
    for (const struct dirent *file = readdir(all); file != NULL; file = readdir(all)) {
        int64_t at = moment(file->d_name, name, END);
        newest = at > newest && at <= before_ms ? at : newest;
    }
    closedir(all);
    *ret_moment = newest;
    return true;
}

// Newest first.
static int by_moment(const void *a, const void *b) {
    return strcmp(*(char *const *)b, *(char *const *)a);
}

// Takes away what was left half written, and all but the newest `keep` copies. What cannot be taken
// away is found again next time.
static void take_away(int folder, const char *stem_, const char *kept, int keep) {
    char **names = NULL;
    int count = 0;
    DIR *all = fdopendir(dup(folder));
    if (all == NULL) {
        return;
    }
    rewinddir(all);
    for (const struct dirent *file = readdir(all); file != NULL; file = readdir(all)) {
        if (moment(file->d_name, stem_, PART) != 0) {
            unlinkat(folder, file->d_name, 0);
        } else if (moment(file->d_name, stem_, END) != 0 && strcmp(file->d_name, kept) != 0) {
            char **more = realloc(names, ((size_t)count + 1) * sizeof *names);
            names = more != NULL ? more : names;
            if (more != NULL && (names[count] = strdup(file->d_name)) != NULL) {
                count++;
            }
        }
    }
    closedir(all);
    if (count > 1) {
        qsort(names, (size_t)count, sizeof *names, by_moment);
    }
    for (int i = 0; i < count; i++) {
        if (i + 1 >= keep) { // `kept` is one of them
            unlinkat(folder, names[i], 0);
        }
        free(names[i]);
    }
    free(names);
}

static enum store_result copy_into(struct store *store, int folder, const char *path, int keep,
                                   char *ret_path, size_t size) {
    char name[NAME_MAX];
    char stamp[STAMP_SIZE + 1];
    char target[PATH_MAX];
    struct tm date = {0};
    time_t now = time(NULL);
    gmtime_r(&now, &date);
    strftime(stamp, sizeof stamp, STAMP, &date);
    stem(store->path, name);
    if (snprintf(target, sizeof target, "%s/%s%s" END, path, name, stamp) >= PATH_MAX) {
        return connection_say(store, STORE_REFUSED, "%s: %s.", path, strerror(ENAMETOOLONG));
    }
    enum store_result result = store_backup(store, target);
    if (result == STORE_OK) {
        take_away(folder, name, strrchr(target, '/') + 1, keep);
        snprintf(ret_path, size, "%s", target);
    }
    return result;
}

enum store_result store_backup_into(struct store *store, const char *folder, int keep,
                                    char *ret_path, size_t size) {
    enum store_result result;
    if (store->practice) {
        return connection_say(store, STORE_REFUSED,
                              _("%s is for practice: nothing in it is worth a copy."), store->path);
    }
    int fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0) {
        return connection_say(store, STORE_FAILED,
                              _("The folder %s for copies cannot be opened: %s. Look whether its "
                                "disk is there."),
                              folder, strerror(errno));
    }
    if (flock(fd, LOCK_EX | LOCK_NB) != 0) {
        result =
            connection_say(store, STORE_BUSY, _("Another program is making a copy in %s."), folder);
    } else {
        result = copy_into(store, fd, folder, keep, ret_path, size);
    }
    close(fd);
    return result;
}

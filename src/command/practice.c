#include "practice.h"
#include "page.h"
#include "tongue.h"

#include <stdio.h>
#include <string.h>

#define PREFIX "PRACTICE-"
#define SUFFIX ".practice"
#define IN_NAMES "practice" // in any case of letters

static bool telling; // this process has a practice open

bool practice_tell(const char *command, const struct store *store) {
    if (!store_is_practice(store)) {
        return false;
    }
    fprintf(stderr, _("kerfside %s: PRACTICE: %s is for practice; nothing in it was ever done.\n"),
            command, store_path(store));
    page_stamp(_("PRACTICE"), IN_NAMES);
    telling = true;
    return true;
}

bool practice_name(const char *command, const char *path) {
    const char *slash = strrchr(path, '/');
    if (!telling || strcasestr(slash != NULL ? slash + 1 : path, IN_NAMES) != NULL) {
        return true;
    }
    fprintf(stderr,
            _("kerfside %s: %s would pass for real. This is practice: name a file with \"%s\" in "
              "its name.\n"),
            command, path, IN_NAMES);
    return false;
}

bool practice_path(const char *db, char buffer[DATABASE_PATH_MAX]) {
    size_t size = strlen(db);
    if (size + sizeof SUFFIX > DATABASE_PATH_MAX) {
        fputs(_("kerfside practice: the path of the database is too long.\n"), stderr);
        return false;
    }
    memcpy(buffer, db, size);
    memcpy(buffer + size, SUFFIX, sizeof SUFFIX);
    return true;
}

void practice_sweep(const char *db) {
    char path[DATABASE_PATH_MAX];
    char message[512];
    if (practice_path(db, path)) {
        store_practice_away(path, message, sizeof message); // what must stay says so when practised
    }
}

const char *practice_prefix(void) {
    return telling ? PREFIX : "";
}

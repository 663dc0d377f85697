#include "practice.h"
#include "page.h"
#include "tongue.h"

#include <stdio.h>
#include <string.h>

#define PREFIX "PRACTICE-"
#define IN_NAMES "practice" // in any case of letters

static bool telling; // this process has a practice open

bool practice_tell(const char *command, const struct store *store) {
    if (!store_is_practice(store)) {
        return false;
    }
    fprintf(stderr, "kerfside %s: PRACTICE: %s is for practice; nothing in it was ever done.\n",
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
            "kerfside %s: %s would pass for real. This is practice: name a file with \"" IN_NAMES
            "\" in its name.\n",
            command, path);
    return false;
}

const char *practice_prefix(void) {
    return telling ? PREFIX : "";
}

#include "demo.h"
#include "assets.h"
#include "database.h"
#include "import.h"

#include <limits.h>
#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

static const char *const files[] = {"shaft_models.csv", "charts.csv",      "profiles.csv",
                                    "head_models.csv",  "heads.csv",       "shafts.csv",
                                    "builds.csv",       "workers.csv",     "gtins.csv",
                                    "orders.csv",       "stock_levels.csv"};
#define FILES (sizeof files / sizeof files[0])

const char *demo_folder(void) {
    static char installed[PATH_MAX];
    const char *const folders[] = {getenv("KERFSIDE_DATA"),
                                   assets_installed("demo", installed, sizeof installed) ? installed
                                                                                         : NULL,
                                   KERFSIDE_SOURCE_DIR "/db/demo"};
    char path[PATH_MAX];
    for (size_t i = 0; i < sizeof folders / sizeof folders[0]; i++) {
        if (folders[i] != NULL &&
            snprintf(path, sizeof path, "%s/%s", folders[i], files[0]) < PATH_MAX &&
            access(path, R_OK) == 0) {
            return folders[i];
        }
    }
    return NULL;
}

// The files' orders are due from 2026-01-01 on; the demo's from today on.
static int days_since_2026(void) {
    time_t now = time(NULL);
    struct tm today, first = {.tm_year = 126, .tm_mday = 1, .tm_hour = 12};
    localtime_r(&now, &today);
    struct tm noon = {
        .tm_year = today.tm_year, .tm_mon = today.tm_mon, .tm_mday = today.tm_mday, .tm_hour = 12};
    return (int)((timegm(&noon) - timegm(&first)) / 86400);
}

static enum store_result import_demo(struct store *store, const char *folder) {
    char paths[FILES][PATH_MAX];
    const char *list[FILES];
    struct entry entry = entry_init(ENTRY_IMPORT);
    for (size_t i = 0; i < FILES; i++) {
        snprintf(paths[i], sizeof paths[i], "%s/%s", folder, files[i]);
        list[i] = paths[i];
    }
    const struct import_source source = {
        .paths = list, .count = FILES, .due_shift_days = days_since_2026()};
    database_stamp(&entry);
    return import_files(store, &source, &entry, stderr);
}

// A chart that its maker changed by a letter: what a revision looks like.
static enum store_result revise_chart(struct store *store) {
    const char *const keys[] = {"Marrick Glen 50", "A", "wood"};
    struct document before;
    struct document after;
    struct change change;
    struct entry entry = entry_init(ENTRY_CHANGE);
    enum store_result result = store_document(store, "charts", keys, &before);
    if (result != STORE_OK) {
        return result;
    }
    after = before;
    document_set(&after, ":7", "230 1 7/8");
    change_between(&before, &after, &change);
    database_stamp(&entry);
    strcpy(entry.worker, DEMO_SUPERVISOR);
    strcpy(entry.note, "the maker's letter: a printing mistake in the 230 g column");
    return change_write(&change, entry.plan, sizeof entry.plan) ? store_append(store, &entry)
                                                                : STORE_FAILED;
}

bool demo_fill(struct store *store, const char *folder, char ret_pin[DEMO_PIN_SIZE]) {
    snprintf(ret_pin, DEMO_PIN_SIZE, "%06u", (unsigned)randombytes_uniform(1000000));
    return import_demo(store, folder) == STORE_OK &&
           store_pin_set(store, DEMO_SUPERVISOR, ret_pin) == STORE_OK &&
           revise_chart(store) == STORE_OK;
}

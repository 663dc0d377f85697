#include "builds.h"
#include "command.h"
#include "database.h"
#include "kit_before.h"
#include "kit_print.h"
#include "options.h"
#include "practice.h"
#include "settings_file.h"
#include "supervisor.h"
#include "tongue.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

struct matching {
    struct store *store;
    enum match_by by;
    bool json;
    const char *csv;   // NULL: no
    const char *badge; // NULL: nothing is accepted
    struct bench_rules rules;
    struct assembly assembly;
};

// --- accepting ---------------------------------------------------------------------------------

static struct entry entry_for(enum entry_kind kind, const char *badge, const char *cause) {
    struct entry entry = entry_init(kind);
    database_stamp(&entry);
    snprintf(entry.worker, sizeof entry.worker, "%s", badge);
    snprintf(entry.cause, sizeof entry.cause, "%s", cause);
    return entry;
}

static size_t kit_entries(const struct kit *kit, const char *badge, struct entry *entries) {
    size_t count = 0;
    for (size_t i = 0; i < kit->count; i++) {
        const struct kit_club *club = &kit->club[i];
        if (club->shaft[0] == '\0') {
            continue;
        }
        struct entry entry =
            entry_for(ENTRY_KIT, badge, kit->by == MATCH_BY_FLEX ? "flex" : "swingweight");
        entry.club_id = club->club_id;
        snprintf(entry.build, sizeof entry.build, "%s", kit->build);
        snprintf(entry.club, sizeof entry.club, "%s", club->club);
        snprintf(entry.head, sizeof entry.head, "%s", club->head);
        snprintf(entry.shaft, sizeof entry.shaft, "%s", club->shaft);
        entries[count++] = entry;
    }
    return count;
}

// A commit that failed half way is looked up: one entry of the list tells for all.
static bool append(struct store *store, struct entry *entries, size_t count) {
    int64_t seq;
    enum store_result result = store_append_all(store, entries, count);
    if (result == STORE_UNKNOWN && store_reopen(store) == STORE_OK) {
        result = store_confirmed(store, entries[0].confirm_id, &seq);
        if (result == STORE_NONE) {
            fputs(_("kerfside match: the disk refused; nothing was accepted.\n"), stderr);
            return false;
        }
    }
    if (result != STORE_OK) {
        database_complain("match", store);
    }
    return result == STORE_OK;
}

static bool accept(struct matching *matching, const struct kit *kit) {
    if (kit->chosen == 0) {
        fputs(_("kerfside match: there is no shaft to accept.\n"), stderr);
        return false;
    }
    struct entry *entries = calloc(SET_CLUBS_MAX, sizeof *entries);
    if (entries == NULL) {
        fputs(_("kerfside match: no memory for the kit list.\n"), stderr);
        return false;
    }
    bool done = supervisor_confirms("match", matching->store, matching->badge, SUPERVISOR_KIT);
    if (done) {
        size_t count = kit_entries(kit, matching->badge, entries);
        done = append(matching->store, entries, count);
        if (done) {
            printf(tongue_plural("\nAccepted and logged: %zu shaft is reserved.\n",
                                 "\nAccepted and logged: %zu shafts are reserved.\n", count),
                   count);
        }
    }
    free(entries);
    return done;
}

// --- the list ----------------------------------------------------------------------------------

static bool write_csv(const struct kit *kit, const char *path) {
    if (!practice_name("match", path)) {
        return false;
    }
    bool terminal = strcmp(path, "-") == 0;
    FILE *file = terminal ? stdout : fopen(path, "wxe");
    if (file == NULL) {
        fprintf(stderr, _("kerfside match: cannot make %s: %s. Name a new file.\n"), path,
                strerror(errno));
        return false;
    }
    kit_print_csv(kit, file);
    if (terminal) {
        return true; // main looks after standard output
    }
    bool whole = !ferror(file);
    if (fclose(file) != 0 || !whole) {
        fprintf(stderr, _("kerfside match: cannot write %s: %s.\n"), path, strerror(errno));
        remove(path);
        return false;
    }
    printf(tongue_plural("%s: %zu club\n", "%s: %zu clubs\n", kit->count), path, kit->count);
    return true;
}

static bool print_kit(struct matching *matching, const struct kit *kit) {
    double spread;
    const double *before = NULL;
    if (matching->csv != NULL) {
        return write_csv(kit, matching->csv) && kit->chosen == kit->count;
    }
    if (kit_before(matching->store, kit, &matching->rules, &matching->assembly, &spread)) {
        before = &spread;
    }
    if (matching->json) {
        kit_print_json(kit, before, stdout);
    } else {
        kit_print_text(kit, before, stdout);
    }
    return matching->badge != NULL ? accept(matching, kit) : kit->chosen == kit->count;
}

static bool match(struct matching *matching, const char *build) {
    struct kit *kit = calloc(1, sizeof *kit);
    bool done = false;
    if (kit == NULL) {
        fputs(_("kerfside match: no memory for the kit list.\n"), stderr);
        return false;
    }
    enum store_result result = builds_kit(matching->store, build, matching->by, &matching->rules,
                                          &matching->assembly, kit);
    if (result == STORE_NONE) {
        fprintf(
            stderr,
            _("kerfside match: no club of a build %s waits for a shaft: one that names a wished "
              "shaft model and flex, and no shaft.\n"),
            build);
    } else if (result != STORE_OK) {
        database_complain("match", matching->store);
    } else {
        done = print_kit(matching, kit);
    }
    free(kit);
    return done;
}

static bool take_by(const char *text, enum match_by *ret_by) {
    if (text == NULL || strcmp(text, "swingweight") == 0) {
        *ret_by = MATCH_BY_SWINGWEIGHT;
    } else if (strcmp(text, "frequency") == 0) {
        *ret_by = MATCH_BY_FLEX;
    } else {
        fprintf(stderr, _("kerfside match: --by %s; it can be swingweight or frequency.\n"), text);
        return false;
    }
    return true;
}

int command_match(int argc, char **argv) {
    const char *db = NULL, *by = NULL, *badge = NULL, *file = NULL;
    bool accepted = false;
    struct matching matching = {.store = NULL};
    struct bench_settings settings;
    struct ticket ticket;
    const struct option options[] = {{"--db", &db, NULL},
                                     {"--by", &by, NULL},
                                     {"--csv", &matching.csv, NULL},
                                     {"--json", NULL, &matching.json},
                                     {"--accept", NULL, &accepted},
                                     {"--badge", &badge, NULL},
                                     {"--settings", &file, NULL}};
    int count;
    if (!options_read_plain(argc, argv, options, sizeof options / sizeof options[0], 1, 1,
                            N_("the build"), &count) ||
        !take_by(by, &matching.by)) {
        return COMMAND_USAGE;
    }
    if (accepted != (badge != NULL) || (matching.json + (matching.csv != NULL) + accepted) > 1) {
        fputs(_("kerfside match: --accept needs --badge; and one of --csv, --json and --accept at "
                "most. See kerfside --help.\n"),
              stderr);
        return COMMAND_USAGE;
    }
    if (!settings_file_read(argv[0], file, &settings)) {
        return COMMAND_REFUSED;
    }
    matching.rules = settings.station.rules;
    matching.assembly = settings.station.assembly;
    if (accepted && !supervisor_badge(argv[0], badge, &ticket)) {
        return COMMAND_REFUSED;
    }
    matching.badge = accepted ? ticket.text : NULL;
    if (!database_open(argv[0], db, accepted ? STORE_WRITE : STORE_READ, &matching.store)) {
        return COMMAND_REFUSED;
    }
    bool done = match(&matching, argv[1]);
    store_close(matching.store);
    return done ? COMMAND_DONE : COMMAND_REFUSED;
}

#include "club_name.h"
#include "command.h"
#include "database.h"
#include "options.h"
#include "paper_size.h"
#include "planning.h"
#include "settings_file.h"
#include "tongue.h"

#include <stdlib.h>
#include <string.h>

void planning_club(struct planning *planning, const struct club *club) {
    struct plan_print print = {.club = *club};
    plan_print_make(&print, &planning->rules, &planning->assembly);
    planning->refused = planning->refused || !print.planned;
    switch (planning->form) {
    case PLANNING_RECEIPT:
        fputs(planning->printed > 0 ? "\n\n" : "", stdout);
        plan_print_receipt(&print, planning->moments, stdout);
        break;
    case PLANNING_CSV:
        plan_print_csv(&print, stdout);
        break;
    case PLANNING_JSON:
        fputs(planning->printed > 0 ? ",\n" : "", stdout);
        plan_print_json(&print, stdout);
        break;
    }
    planning->printed++;
}

static bool plan_club(struct planning *planning, int64_t id) {
    struct club club;
    if (store_club(planning->store, id, &club) != STORE_OK) {
        database_complain("plan", planning->store);
        return false;
    }
    planning_club(planning, &club);
    return true;
}

static bool plan_named(struct planning *planning, char *name) {
    const char *build, *club;
    int64_t id;
    club_name_split(name, &build, &club);
    enum store_result result = store_club_named(planning->store, build, club, &id);
    if (result == STORE_NONE) {
        fprintf(stderr,
                _("kerfside plan: there is no club %s in build %s. `kerfside plan --all` shows "
                  "every club.\n"),
                club, build);
        return false;
    }
    if (result != STORE_OK) {
        database_complain("plan", planning->store);
        return false;
    }
    return plan_club(planning, id);
}

static bool found(enum store_result result, const char *build) {
    if (result == STORE_NONE) {
        fprintf(stderr,
                _("kerfside plan: there is no build %s. `kerfside plan --all` shows every club.\n"),
                build);
    }
    return result == STORE_OK;
}

static bool plan_all(struct planning *planning) {
    struct club_line *lines;
    int64_t total;
    int count = store_clubs(planning->store, CLUBS_ALL, NULL, 0, &total);
    lines = count < 0 ? NULL : calloc((size_t)total + 1, sizeof *lines);
    if (lines != NULL) {
        count = store_clubs(planning->store, CLUBS_ALL, lines, (int)total, NULL);
    }
    if (lines == NULL || count < 0) {
        database_complain("plan", planning->store);
        free(lines);
        return false;
    }
    bool done = true;
    for (int i = 0; done && i < count; i++) {
        done = plan_club(planning, lines[i].id);
    }
    free(lines);
    return done;
}

// With --all, and in a build, a refused club is a row like any other; alone it is the answer no.
static int print_plans(struct planning *planning, char *name) {
    bool alone = name != NULL && !club_name_is_build(name);
    bool done;
    if (planning->form == PLANNING_CSV) {
        plan_print_csv_header(stdout);
    }
    fputs(planning->form == PLANNING_JSON && !alone ? "[" : "", stdout);
    if (name == NULL) {
        done = plan_all(planning);
    } else {
        done = alone ? plan_named(planning, name) : found(planning_build(planning, name), name);
    }
    if (planning->form == PLANNING_JSON) {
        fputs(alone ? "\n" : "]\n", stdout);
    }
    return done && !(alone && planning->refused) ? COMMAND_DONE : COMMAND_REFUSED;
}

// --- options -----------------------------------------------------------------------------------

static bool take_mark_step(const char *text, struct bench_rules *rules) {
    static const length_nm steps[] = {LENGTH_INCH / 16, LENGTH_INCH / 32, LENGTH_INCH / 64,
                                      LENGTH_MM / 2, LENGTH_MM};
    length_nm step;
    if (text == NULL) {
        return true;
    }
    if (length_parse(text, LENGTH_UNIT_INCH, &step, NULL) == LENGTH_OK) {
        for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++) {
            if (steps[i] == step) {
                rules->mark_step = step;
                return true;
            }
        }
    }
    fprintf(stderr,
            _("kerfside plan: no mark step is %s; it can be 1/16, 1/32, 1/64, 0.5 mm or 1 mm.\n"),
            text);
    return false;
}

#define ASSEMBLY_MASS_MAX (50 * MASS_GRAM)

static bool take_mass(const char *option, const char *text, mass_mg *mass) {
    mass_mg taken;
    if (text == NULL) {
        return true;
    }
    if (!mass_parse(text, &taken) || taken > ASSEMBLY_MASS_MAX) {
        fprintf(stderr, _("kerfside plan: %s %s is no weight from 0 to 50 g.\n"), option, text);
        return false;
    }
    *mass = taken;
    return true;
}

static bool take_paper(const char *text, unsigned setting, enum page_paper *ret_paper) {
    if (!paper_size_take(text, setting, ret_paper)) {
        fprintf(stderr, _("kerfside plan: no paper is %s; it can be a4 or letter.\n"), text);
        return false;
    }
    return true;
}

static bool usage(const char *what) {
    fprintf(stderr, _("kerfside plan: %s See kerfside --help.\n"), what);
    return false;
}

static bool whole(const char *name, bool all, const struct planning_sheet *sheet, bool forms) {
    if (all == (name != NULL)) {
        return usage(_("name one club, as 2041-3, one build, as 2041, or --all."));
    }
    if (sheet->path != NULL && (all || !club_name_is_build(name) || forms)) {
        return usage(_("--pdf takes one build, as 2041, and no other form."));
    }
    return true;
}

int command_plan(int argc, char **argv) {
    const char *db = NULL, *step = NULL, *paper = NULL, *ferrule = NULL, *epoxy = NULL;
    const char *file = NULL;
    bool all = false, json = false, csv = false, limit_46 = false, moments = false;
    struct planning planning = {.store = NULL};
    struct bench_settings settings;
    struct planning_sheet sheet = {.bench = ""};
    const struct option options[] = {{"--db", &db, NULL},           {"--mark-step", &step, NULL},
                                     {"--all", NULL, &all},         {"--json", NULL, &json},
                                     {"--csv", NULL, &csv},         {"--limit-46", NULL, &limit_46},
                                     {"--moments", NULL, &moments}, {"--pdf", &sheet.path, NULL},
                                     {"--paper", &paper, NULL},     {"--bench", &sheet.bench, NULL},
                                     {"--ferrule", &ferrule, NULL}, {"--epoxy", &epoxy, NULL},
                                     {"--settings", &file, NULL}};
    int count;
    if (!options_read_plain(argc, argv, options, sizeof options / sizeof options[0], 0, 1, "",
                            &count)) {
        return COMMAND_USAGE;
    }
    if (!settings_file_read(argv[0], file, &settings)) {
        return COMMAND_REFUSED;
    }
    planning.rules = settings.station.rules;
    planning.assembly = settings.station.assembly;
    if (!take_mark_step(step, &planning.rules) ||
        !take_paper(paper, settings.paper, &sheet.paper) ||
        !take_mass("--ferrule", ferrule, &planning.assembly.ferrule) ||
        !take_mass("--epoxy", epoxy, &planning.assembly.epoxy)) {
        return COMMAND_USAGE;
    }
    char *name = count == 1 ? argv[1] : NULL;
    if (json && csv) {
        usage(_("one of --json and --csv at most."));
        return COMMAND_USAGE;
    }
    if (!whole(name, all, &sheet, json || csv || moments)) {
        return COMMAND_USAGE;
    }
    planning.rules.limit_46 = planning.rules.limit_46 || limit_46;
    planning.moments = moments;
    planning.form = json ? PLANNING_JSON : csv ? PLANNING_CSV : PLANNING_RECEIPT;
    if (!database_open(argv[0], db, STORE_READ, &planning.store)) {
        return COMMAND_REFUSED;
    }
    int status = COMMAND_REFUSED;
    size_t clubs;
    if (sheet.path == NULL) {
        status = print_plans(&planning, name);
    } else if (found(planning_pdf(&planning, name, &sheet, &clubs), name)) {
        printf(tongue_plural("%s: %zu club\n", "%s: %zu clubs\n", clubs), sheet.path, clubs);
        status = COMMAND_DONE;
    }
    store_close(planning.store);
    return status;
}

#include "command.h"
#include "database.h"
#include "options.h"
#include "plan_print.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum form { FORM_RECEIPT, FORM_CSV, FORM_JSON };

struct planning {
    struct store *store;
    struct bench_rules rules;
    enum form form;
    size_t printed;
    bool refused; // at least one club has no plan
};

static bool plan_club(struct planning *planning, int64_t id) {
    struct plan_print print = {0};
    if (store_club(planning->store, id, &print.club) != STORE_OK) {
        database_complain("plan", planning->store);
        return false;
    }
    plan_print_make(&print, &planning->rules);
    planning->refused = planning->refused || !print.planned;
    switch (planning->form) {
    case FORM_RECEIPT:
        fputs(planning->printed > 0 ? "\n\n" : "", stdout);
        plan_print_receipt(&print, stdout);
        break;
    case FORM_CSV:
        plan_print_csv(&print, stdout);
        break;
    case FORM_JSON:
        fputs(planning->printed > 0 ? ",\n" : "", stdout);
        plan_print_json(&print, stdout);
        break;
    }
    planning->printed++;
    return true;
}

// Splits "2041-3" or "B-2041X-3" in place behind the build.
static bool split(char *name, const char **ret_build, const char **ret_club) {
    struct ticket ticket;
    char *hyphen = strchr(name, '-');
    char *second = hyphen != NULL ? strchr(hyphen + 1, '-') : NULL;
    if (second != NULL) {
        *second = '\0';
        if (ticket_parse(name, &ticket) == TICKET_OK && ticket.kind == TICKET_BUILD) {
            hyphen = second;
        } else {
            *second = '-';
        }
    }
    if (hyphen == NULL) {
        return false;
    }
    *hyphen = '\0';
    *ret_build = name;
    *ret_club = hyphen + 1;
    return true;
}

static bool plan_named(struct planning *planning, char *name) {
    const char *build, *club;
    int64_t id;
    if (!split(name, &build, &club)) {
        fprintf(stderr, "kerfside plan: %s names no club; write build and club, as 2041-3.\n",
                name);
        return false;
    }
    enum store_result result = store_club_named(planning->store, build, club, &id);
    if (result == STORE_NONE) {
        fprintf(stderr,
                "kerfside plan: there is no club %s in build %s. `kerfside plan --all` shows "
                "every club.\n",
                club, build);
        return false;
    }
    if (result != STORE_OK) {
        database_complain("plan", planning->store);
        return false;
    }
    return plan_club(planning, id);
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
            "kerfside plan: no mark step is %s; it can be 1/16, 1/32, 1/64, 0.5 mm or 1 mm.\n",
            text);
    return false;
}

// With --all a refused club is a row like any other; alone it is the answer no.
static int print_plans(struct planning *planning, char *name) {
    bool done;
    if (planning->form == FORM_CSV) {
        plan_print_csv_header(stdout);
    }
    fputs(planning->form == FORM_JSON && name == NULL ? "[" : "", stdout);
    done = name == NULL ? plan_all(planning) : plan_named(planning, name);
    if (planning->form == FORM_JSON) {
        fputs(name == NULL ? "]\n" : "\n", stdout);
    }
    return done && (name == NULL || !planning->refused) ? COMMAND_DONE : COMMAND_REFUSED;
}

int command_plan(int argc, char **argv) {
    const char *db = NULL, *step = NULL;
    bool all = false, json = false, csv = false, limit_46 = false;
    const struct option options[] = {{"--db", &db, NULL},   {"--mark-step", &step, NULL},
                                     {"--all", NULL, &all}, {"--json", NULL, &json},
                                     {"--csv", NULL, &csv}, {"--limit-46", NULL, &limit_46}};
    struct planning planning = {.rules = BENCH_RULES_DEFAULT};
    int count;
    if (!options_read_plain(argc, argv, options, sizeof options / sizeof options[0], 0, 1, "",
                            &count) ||
        !take_mark_step(step, &planning.rules)) {
        return COMMAND_USAGE;
    }
    if (all == (count == 1) || (json && csv)) {
        fputs("kerfside plan: name one club, as 2041-3, or --all; and one of --json and --csv at "
              "most. See kerfside --help.\n",
              stderr);
        return COMMAND_USAGE;
    }
    planning.rules.limit_46 = limit_46;
    planning.form = json ? FORM_JSON : csv ? FORM_CSV : FORM_RECEIPT;
    if (!database_open(argv[0], db, STORE_READ, &planning.store)) {
        return COMMAND_REFUSED;
    }
    int status = print_plans(&planning, all ? NULL : argv[1]);
    store_close(planning.store);
    return status;
}

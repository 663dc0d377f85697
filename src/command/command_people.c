// Who works here: listed, unlocked, taken out of view.

#include "columns.h"
#include "command.h"
#include "csv.h"
#include "database.h"
#include "options.h"
#include "supervisor.h"
#include "tongue.h"

#include <stdio.h>
#include <string.h>

static const char *yes_no(bool yes) {
    return yes ? "yes" : "no";
}

static bool print_line(void *context, const struct person *person) {
    (void)context;
    static const struct column role = {"", -10, "  ", {N_("builder"), N_("supervisor")}};
    bool lacks_pin = person->worker.role == ROLE_SUPERVISOR && !person->pin && !person->withdrawn;
    columns_put(stdout, person->worker.badge, -15);
    fputs("  ", stdout);
    columns_cell(stdout, &role, role_words(person->worker.role));
    columns_put(stdout, person->locked ? _("locked") : lacks_pin ? _("no PIN") : "", -9);
    printf("  %s\n", person->worker.name);
    return true;
}

static bool print_csv(void *context, const struct person *person) {
    char name[2 * PARTS_NAME_MAX + 4];
    (void)context;
    csv_cell(person->worker.name, name, sizeof name);
    printf("%s,%s,%s,%s,%s\r\n", person->worker.badge, name, role_text(person->worker.role),
           yes_no(person->locked), yes_no(person->withdrawn));
    return true;
}

static bool list(struct store *store, bool csv) {
    if (csv) {
        fputs("badge,name,role,locked,withdrawn\r\n", stdout);
    }
    return store_people(store, csv ? print_csv : print_line, NULL) == STORE_OK;
}

// Out of the write-ahead log too; a bench that is at work does it at its next idle moment.
static enum store_result withdraw(struct store *store, const char *badge, const char *by) {
    enum store_result result = store_withdraw(store, badge, by);
    if (result == STORE_OK) {
        store_checkpoint(store);
    }
    return result;
}

static bool change(const char *command, struct store *store, const char *badge, const char *by,
                   bool unlock) {
    if (!supervisor_confirms(command, store, by,
                             unlock ? SUPERVISOR_UNLOCK : SUPERVISOR_WITHDRAW)) {
        return false;
    }
    enum store_result result =
        unlock ? store_pin_unlock(store, badge, by) : withdraw(store, badge, by);
    if (result != STORE_OK) {
        database_complain(command, store);
        return false;
    }
    printf(unlock ? _("%s is unlocked.\n") : _("The name of %s is withdrawn.\n"), badge);
    return true;
}

int command_people(int argc, char **argv) {
    const char *db = NULL, *pepper = NULL, *by = NULL, *unlock = NULL, *out = NULL;
    bool csv = false;
    const struct option options[] = {{"--db", &db, NULL},        {"--pepper", &pepper, NULL},
                                     {"--badge", &by, NULL},     {"--unlock", &unlock, NULL},
                                     {"--withdraw", &out, NULL}, {"--csv", NULL, &csv}};
    struct ticket badge, supervisor;
    struct store *store;
    int count;
    if (!options_read_plain(argc, argv, options, sizeof options / sizeof options[0], 0, 0, "",
                            &count)) {
        return COMMAND_USAGE;
    }
    bool changes = unlock != NULL || out != NULL;
    if (changes != (by != NULL) || csv + (unlock != NULL) + (out != NULL) > 1) {
        fprintf(stderr,
                _("kerfside %s: --unlock and --withdraw need --badge; and one of them and --csv at "
                  "most. See kerfside --help.\n"),
                argv[0]);
        return COMMAND_USAGE;
    }
    if ((changes && (!supervisor_badge(argv[0], unlock != NULL ? unlock : out, &badge) ||
                     !supervisor_badge(argv[0], by, &supervisor))) ||
        !database_open(argv[0], db, changes ? STORE_WRITE : STORE_READ, &store)) {
        return COMMAND_REFUSED;
    }
    bool done;
    if (changes) {
        done = supervisor_pepper(argv[0], pepper, NULL, store) &&
               change(argv[0], store, badge.text, supervisor.text, unlock != NULL);
    } else {
        char key_file[BENCH_PATH_MAX];
        done = supervisor_rules(argv[0], store, key_file); // who is locked hangs on them
        if (done && !list(store, csv)) {
            database_complain(argv[0], store);
            done = false;
        }
    }
    store_close(store);
    return done ? COMMAND_DONE : COMMAND_REFUSED;
}

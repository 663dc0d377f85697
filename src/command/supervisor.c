#include "supervisor.h"
#include "database.h"
#include "secret.h"
#include "settings_file.h"
#include "text.h"
#include "tongue.h"

#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MUST_MAX (PARTS_NAME_MAX + 200)

static const struct {
    const char *must;      // %1 who is none
    const char *unchanged; // after a wrong PIN
} acts[] = {
    [SUPERVISOR_UNLOCK] = {N_("%1 is no supervisor; one must unlock a PIN."),
                           N_("that is not the PIN; nothing was changed.")},
    [SUPERVISOR_WITHDRAW] = {N_("%1 is no supervisor; one must withdraw a name."),
                             N_("that is not the PIN; nothing was changed.")},
    [SUPERVISOR_SIGN] = {N_("%1 is no supervisor; one must sign a day."),
                         N_("that is not the PIN; nothing was signed.")},
    [SUPERVISOR_KIT] = {N_("%1 is no supervisor; one must accept a kit list."),
                        N_("that is not the PIN; nothing was accepted.")},
};

bool supervisor_badge(const char *command, const char *text, struct ticket *ret_badge) {
    char message[160];
    enum ticket_error error = ticket_parse(text, ret_badge);
    if (error != TICKET_OK) {
        ticket_error_text(text, error, message, sizeof message);
        fprintf(stderr, "kerfside %s: %s\n", command, message);
    }
    return error == TICKET_OK;
}

bool supervisor_pepper(const char *command, const char *given, const char *setting,
                       struct store *store) {
    const char *path = given != NULL ? given : getenv("KERFSIDE_PEPPER");
    if (path == NULL || *path == '\0') {
        path = setting;
    }
    if (path == NULL || *path == '\0' || store_set_pepper(store, path) == STORE_OK) {
        return true;
    }
    database_complain(command, store);
    return false;
}

static bool is_supervisor(const char *command, struct store *store, const char *badge,
                          enum supervisor_act act) {
    char words[MUST_MAX];
    struct text must = text_open(words, sizeof words);
    struct worker worker;
    enum store_result result = store_worker(store, badge, &worker);
    if (result == STORE_NONE) {
        fprintf(stderr, _("kerfside %s: nobody has the badge %s.\n"), command, badge);
    } else if (result != STORE_OK) {
        database_complain(command, store);
    } else if (worker.role != ROLE_SUPERVISOR) {
        text_say(&must, _(acts[act].must), worker.name);
        fprintf(stderr, "kerfside %s: %s\n", command, words);
        return false;
    }
    return result == STORE_OK;
}

static void log_try(const char *command, struct store *store, const char *badge,
                    const char *cause) {
    struct entry entry = entry_init(ENTRY_PIN);
    database_stamp(&entry);
    snprintf(entry.worker, sizeof entry.worker, "%s", badge);
    snprintf(entry.cause, sizeof entry.cause, "%s", cause);
    if (store_append(store, &entry) != STORE_OK) {
        database_complain(command, store);
    }
}

static bool pin_right(const char *command, struct store *store, const char *badge,
                      enum supervisor_act act) {
    char pin[SECRET_LINE_MAX] = "";
    int wait_s = 0;
    if (!secret_read("PIN: ", pin)) {
        fprintf(stderr, _("kerfside %s: no PIN was given; type it, or send it on stdin.\n"),
                command);
        return false;
    }
    enum pin_result result = store_pin_check(store, badge, pin, &wait_s);
    sodium_memzero(pin, sizeof pin);
    switch (result) {
    case PIN_RIGHT:
        log_try(command, store, badge, "accepted");
        return true;
    case PIN_WRONG:
        log_try(command, store, badge, "refused");
        fprintf(stderr, "kerfside %s: %s\n", command, _(acts[act].unchanged));
        break;
    case PIN_WAIT:
        log_try(command, store, badge, "waiting");
        fprintf(stderr, _("kerfside %s: too many tries; wait %d seconds.\n"), command, wait_s);
        break;
    case PIN_LOCKED:
        log_try(command, store, badge, "waiting");
        fprintf(stderr,
                _("kerfside %s: %s is locked after too many tries. Another supervisor unlocks it "
                  "with `kerfside people --unlock %s --badge W-...`, or root at the console with "
                  "`kerfside pin --recover %s`.\n"),
                command, badge, badge, badge);
        break;
    case PIN_NOT_SET:
        fprintf(stderr, _("kerfside %s: %s has no PIN. Set one with `kerfside pin %s`.\n"), command,
                badge, badge);
        break;
    case PIN_NO_PEPPER:
    case PIN_FAILED:
        database_complain(command, store);
        break;
    }
    return false;
}

bool supervisor_rules(const char *command, struct store *store, char pepper[BENCH_PATH_MAX]) {
    struct bench_settings settings;
    if (!settings_file_read(command, NULL, &settings)) {
        return false;
    }
    store_set_pin_rules(store, &settings.pin);
    memcpy(pepper, settings.pepper, BENCH_PATH_MAX);
    return true;
}

bool supervisor_confirms(const char *command, struct store *store, const char *badge,
                         enum supervisor_act act) {
    char pepper[BENCH_PATH_MAX];
    return supervisor_rules(command, store, pepper) && is_supervisor(command, store, badge, act) &&
           (store_has_pepper(store) || supervisor_pepper(command, NULL, pepper, store)) &&
           pin_right(command, store, badge, act);
}

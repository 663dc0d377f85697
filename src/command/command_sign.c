#include "command.h"
#include "database.h"
#include "options.h"
#include "signing.h"
#include "supervisor.h"
#include "tongue.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static bool complain(const char *message) {
    fprintf(stderr, "kerfside sign: %s\n", message);
    return false;
}

static bool sign(struct signing *signing, const char *badge, const char *day) {
    struct entry entry = entry_init(ENTRY_DAY_SIGNED);
    struct checkpoint_note note;
    char text[CHECKPOINT_TEXT_MAX];
    char brief[CHECKPOINT_SHORT_MAX];
    char message[SIGNING_TEXT_MAX];
    database_stamp(&entry);
    snprintf(entry.worker, sizeof entry.worker, "%s", badge);
    if (!signing_check(signing, signing->store, message, sizeof message)) {
        return complain(message);
    }
    enum signing_result result = signing_sign(signing, &entry, day, &note, message, sizeof message);
    if (result == SIGNING_DONE || result == SIGNING_NOT_KEPT) {
        checkpoint_write(&note, text);
        checkpoint_short(&note.checkpoint, brief);
        printf("%s\n%s\n", text, brief);
    }
    return result == SIGNING_DONE || complain(message);
}

static const char *today(char buffer[CHECKPOINT_DAY_MAX]) {
    time_t now = time(NULL);
    struct tm date;
    localtime_r(&now, &date);
    strftime(buffer, CHECKPOINT_DAY_MAX, "%Y-%m-%d", &date);
    return buffer;
}

int command_sign(int argc, char **argv) {
    const char *db = NULL, *badge = NULL, *witness = NULL, *key = getenv("KERFSIDE_KEY");
    char today_buffer[CHECKPOINT_DAY_MAX];
    char message[SIGNING_TEXT_MAX];
    const char *day = today(today_buffer);
    struct signing signing;
    struct store *store;
    struct ticket ticket;
    const struct option options[] = {{"--db", &db, NULL},
                                     {"--badge", &badge, NULL},
                                     {"--day", &day, NULL},
                                     {"--key", &key, NULL},
                                     {"--witness", &witness, NULL}};
    int count;
    if (!options_read_plain(argc, argv, options, sizeof options / sizeof options[0], 0, 0, "",
                            &count)) {
        return COMMAND_USAGE;
    }
    if (badge == NULL || witness == NULL || key == NULL || !checkpoint_is_day(day)) {
        complain(_("it needs --badge, --witness and --key (or KERFSIDE_KEY), and a day as "
                   "2026-03-31. See kerfside --help."));
        return COMMAND_USAGE;
    }
    if (!supervisor_badge(argv[0], badge, &ticket) ||
        !database_open(argv[0], db, STORE_WRITE, &store)) {
        return COMMAND_REFUSED;
    }
    bool done = false;
    if (signing_open(&signing, store, key, witness, true, message, sizeof message)) {
        done = supervisor_confirms("sign", store, ticket.text, SUPERVISOR_SIGN) &&
               sign(&signing, ticket.text, day);
        signing_close(&signing);
    } else {
        complain(message);
    }
    store_close(store);
    return done ? COMMAND_DONE : COMMAND_REFUSED;
}

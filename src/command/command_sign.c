#include "command.h"
#include "database.h"
#include "options.h"
#include "supervisor.h"
#include "witness.h"

#include <libgen.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>

struct signing {
    struct store *store;
    struct witness witness;
    struct witness_key key;
    const char *badge;
    const char *day;
};

static bool complain(const char *message) {
    fprintf(stderr, "kerfside sign: %s\n", message);
    return false;
}

// A key beside the database goes into every copy of its folder, and then signs for whoever has one.
static bool apart(const char *key, const char *database) {
    char folder[2][PATH_MAX];
    struct stat stats[2];
    snprintf(folder[0], sizeof folder[0], "%s", key);
    snprintf(folder[1], sizeof folder[1], "%s", database);
    if (stat(dirname(folder[0]), &stats[0]) == 0 && stat(dirname(folder[1]), &stats[1]) == 0 &&
        stats[0].st_dev == stats[1].st_dev && stats[0].st_ino == stats[1].st_ino) {
        return complain("the key lies in the folder of the database, and so in its copies. Move it "
                        "elsewhere.");
    }
    return true;
}

// Nothing is signed that does not fit what was signed before.
static bool fits(struct signing *signing) {
    struct store_check check;
    struct witness_finding finding;
    enum store_result result =
        store_check_witness(signing->store, &signing->witness, &check, &finding);
    if (result == STORE_REFUSED) {
        fprintf(
            stderr,
            "kerfside sign: %s Nothing was signed. Look at it with `kerfside check --witness`.\n",
            check.problem);
    } else if (result != STORE_OK) {
        database_complain("sign", signing->store);
    }
    return result == STORE_OK;
}

// A commit that failed half way is looked up.
static bool append(struct signing *signing, struct checkpoint *ret_checkpoint) {
    struct entry entry = entry_init(ENTRY_DAY_SIGNED);
    int64_t seq;
    database_stamp(&entry);
    snprintf(entry.worker, sizeof entry.worker, "%s", signing->badge);
    enum store_result result = store_sign_day(signing->store, &entry, signing->day, ret_checkpoint);
    if (result == STORE_UNKNOWN && store_reopen(signing->store) == STORE_OK) {
        result = store_confirmed(signing->store, entry.confirm_id, &seq);
        if (result == STORE_NONE) {
            return complain("the disk refused; nothing was signed.");
        }
    }
    if (result != STORE_OK) {
        database_complain("sign", signing->store);
    }
    return result == STORE_OK;
}

static bool sign(struct signing *signing) {
    struct checkpoint checkpoint;
    struct checkpoint_note note;
    char text[CHECKPOINT_TEXT_MAX];
    char brief[CHECKPOINT_SHORT_MAX];
    char message[1200];
    if (!fits(signing) || !append(signing, &checkpoint)) {
        return false;
    }
    witness_key_sign(&signing->key, &checkpoint, &note);
    checkpoint_write(&note, text);
    checkpoint_short(&checkpoint, brief);
    bool kept = witness_append(&signing->witness, &note, message, sizeof message);
    printf("%s\n%s\n", text, brief);
    if (!kept) {
        fprintf(stderr,
                "kerfside sign: entry %lld, that %s is signed, is in the log, but not in the "
                "witness. %s Sign once more when it can be written: a later note covers all that "
                "came before. The note above is good, if you keep it.\n",
                (long long)checkpoint.size, signing->day, message);
    }
    return kept;
}

static bool sign_confirmed(struct signing *signing, const char *witness) {
    char message[1200];
    if (!supervisor_confirms("sign", signing->store, signing->badge, "sign a day", "signed")) {
        return false;
    }
    if (witness_open(witness, signing->key.public, &signing->witness, message, sizeof message) !=
        WITNESS_OK) {
        return complain(message);
    }
    bool done = sign(signing);
    witness_release(&signing->witness);
    return done;
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
    char day[CHECKPOINT_DAY_MAX];
    char message[1200];
    struct signing signing = {.day = today(day)};
    struct ticket ticket;
    const struct option options[] = {{"--db", &db, NULL},
                                     {"--badge", &badge, NULL},
                                     {"--day", &signing.day, NULL},
                                     {"--key", &key, NULL},
                                     {"--witness", &witness, NULL}};
    int count;
    if (!options_read_plain(argc, argv, options, sizeof options / sizeof options[0], 0, 0, "",
                            &count)) {
        return COMMAND_USAGE;
    }
    if (badge == NULL || witness == NULL || key == NULL || !checkpoint_is_day(signing.day)) {
        complain("it needs --badge, --witness and --key (or KERFSIDE_KEY), and a day as "
                 "2026-03-31. See kerfside --help.");
        return COMMAND_USAGE;
    }
    if (!supervisor_badge(argv[0], badge, &ticket)) {
        return COMMAND_REFUSED;
    }
    signing.badge = ticket.text;
    if (!witness_key_read(key, &signing.key, message, sizeof message)) {
        complain(message);
        return COMMAND_REFUSED;
    }
    bool done = false;
    if (database_open(argv[0], db, STORE_WRITE, &signing.store)) {
        done = apart(key, store_path(signing.store)) && sign_confirmed(&signing, witness);
        store_close(signing.store);
    }
    witness_key_wipe(&signing.key);
    return done ? COMMAND_DONE : COMMAND_REFUSED;
}

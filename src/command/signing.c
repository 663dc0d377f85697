#include "signing.h"

#include "tongue.h"

#include <errno.h>
#include <libgen.h>
#include <limits.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

// --- what must be there before -------------------------------------------------------------------

// A key beside the database goes into every copy of its folder, and then signs for whoever has one.
static bool apart(const char *key, const char *database, char *message, size_t size) {
    char folder[2][PATH_MAX];
    struct stat stats[2];
    snprintf(folder[0], sizeof folder[0], "%s", key);
    snprintf(folder[1], sizeof folder[1], "%s", database);
    if (stat(dirname(folder[0]), &stats[0]) == 0 && stat(dirname(folder[1]), &stats[1]) == 0 &&
        stats[0].st_dev == stats[1].st_dev && stats[0].st_ino == stats[1].st_ino) {
        snprintf(message, size,
                 _("the key lies in the folder of the database, and so in its copies. Move it "
                   "elsewhere."));
        return false;
    }
    return true;
}

// In a folder each log has its own witness, named after its incarnation.
bool signing_witness(struct store *store, const char *witness, char *ret_path, size_t path_size,
                     char *message, size_t size) {
    struct stat info;
    struct entry genesis;
    int length;
    if (stat(witness, &info) != 0 || !S_ISDIR(info.st_mode)) {
        length = snprintf(ret_path, path_size, "%s", witness);
    } else if (store_entry(store, 1, &genesis) == STORE_OK) {
        length = snprintf(ret_path, path_size, "%s/kerfside-%.8s.witness", witness, genesis.note);
    } else {
        snprintf(message, size, "%s", store_message(store));
        return false;
    }
    if (length >= (int)path_size) {
        snprintf(message, size, _("The path of the witness is too long."));
        return false;
    }
    return true;
}

// A stick that is not there leaves an empty folder behind, in which a new witness would witness
// nothing of what was signed before.
static bool may_begin(struct signing *signing, char *message, size_t size) {
    char folder[PATH_MAX];
    struct stat info;
    struct day_signature before;
    snprintf(folder, sizeof folder, "%s", signing->witness);
    if (stat(dirname(folder), &info) != 0) {
        snprintf(message, size, _("Could not read the witness %s: %s. Is its stick plugged in?"),
                 signing->witness, strerror(errno));
        return false;
    }
    enum store_result result = store_signature(signing->store, NULL, NULL, &before);
    if (result == STORE_OK) {
        snprintf(message, size,
                 _("The witness %s is not there, but %s was signed before. Is it another stick? A "
                   "new witness is begun with `kerfside sign`."),
                 signing->witness, before.checkpoint.day);
    } else if (result != STORE_NONE) {
        snprintf(message, size, "%s", store_message(signing->store));
    }
    return result == STORE_NONE;
}

static bool at_hand(struct signing *signing, bool begin, char *message, size_t size) {
    struct witness witness;
    struct stat info;
    if (stat(signing->witness, &info) != 0) {
        return begin || may_begin(signing, message, size);
    }
    enum witness_result result =
        witness_read(signing->witness, signing->key.public, &witness, message, size);
    if (result != WITNESS_FAILED) {
        witness_release(&witness);
    }
    return result == WITNESS_OK;
}

bool signing_open(struct signing *signing, struct store *store, const char *key,
                  const char *witness, bool begin, char *message, size_t size) {
    *signing = (struct signing){.store = store};
    if (!witness_key_read(key, &signing->key, message, size)) {
        return false;
    }
    if (apart(key, store_path(store), message, size) &&
        signing_witness(store, witness, signing->witness, sizeof signing->witness, message, size) &&
        at_hand(signing, begin, message, size)) {
        return true;
    }
    signing_close(signing);
    return false;
}

void signing_close(struct signing *signing) {
    if (signing->checked) {
        witness_release(&signing->kept);
        signing->checked = false;
    }
    witness_key_wipe(&signing->key);
}

// --- signing -------------------------------------------------------------------------------------

static bool fits(struct signing *signing, struct store *reading, char *message, size_t size) {
    struct witness_finding finding;
    enum store_result result =
        store_check_witness(reading, &signing->kept, &signing->check, &finding);
    if (result == STORE_REFUSED) {
        snprintf(message, size,
                 _("%s Nothing was signed. Look at it with `kerfside check --witness`."),
                 signing->check.problem);
    } else if (result != STORE_OK) {
        snprintf(message, size, "%s", store_message(reading));
    }
    return result == STORE_OK;
}

bool signing_check(struct signing *signing, struct store *reading, char *message, size_t size) {
    if (witness_open(signing->witness, signing->key.public, &signing->kept, message, size) !=
        WITNESS_OK) {
        return false;
    }
    signing->checked = fits(signing, reading, message, size);
    if (!signing->checked) {
        witness_release(&signing->kept);
    }
    return signing->checked;
}

// A commit that failed half way is looked up.
static enum signing_result append(struct signing *signing, struct entry *entry, const char *day,
                                  struct checkpoint *ret_checkpoint, char *message, size_t size) {
    int64_t seq;
    enum store_result result =
        store_sign_day(signing->store, &signing->check, entry, day, ret_checkpoint);
    if (result == STORE_UNKNOWN) {
        result = store_reopen(signing->store);
        if (result == STORE_OK) {
            result = store_confirmed(signing->store, entry->confirm_id, &seq);
        }
        if (result == STORE_NONE) {
            snprintf(message, size, _("the disk refused; nothing was signed."));
            return SIGNING_REFUSED;
        }
        if (result != STORE_OK) {
            snprintf(message, size,
                     _("it is not known whether the day was signed. %s Look with `kerfside log`."),
                     store_message(signing->store));
            return SIGNING_UNKNOWN;
        }
    }
    if (result != STORE_OK) {
        snprintf(message, size, "%s", store_message(signing->store));
    }
    return result == STORE_OK ? SIGNING_DONE : SIGNING_REFUSED;
}

enum signing_result signing_sign(struct signing *signing, struct entry *entry, const char *day,
                                 struct checkpoint_note *ret_note, char *message, size_t size) {
    struct checkpoint checkpoint;
    char why[SIGNING_TEXT_MAX];
    enum signing_result result = append(signing, entry, day, &checkpoint, message, size);
    if (result != SIGNING_DONE) {
        return result;
    }
    witness_key_sign(&signing->key, &checkpoint, ret_note);
    if (witness_append(&signing->kept, ret_note, why, sizeof why)) {
        return SIGNING_DONE;
    }
    snprintf(message, size,
             _("entry %lld, that %s is signed, is in the log, but not in the witness. %s Sign once "
               "more when it can be written: a later note covers all that came before. The note is "
               "good, if you keep it."),
             (long long)checkpoint.size, day, why);
    return SIGNING_NOT_KEPT;
}

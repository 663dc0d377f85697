// PINs of supervisors: set, checked, unlocked, recovered.

#include "people.h"
#include "pin_hash.h"
#include "pin_try.h"
#include "tongue.h"

#include <string.h>

static enum store_result find_hash(struct store *store, const char *badge,
                                   struct pin_hash *ret_hash) {
    struct query query = query_open(store, STATEMENT_PIN);
    query_bind_text(&query, badge);
    if (query_step(&query)) {
        query_text(&query, 0, ret_hash->text, sizeof ret_hash->text);
        query_text(&query, 1, ret_hash->pepper, sizeof ret_hash->pepper);
    }
    return query_end(&query, N_("look up a PIN"));
}

static enum store_result keep_hash(struct store *store, const char *badge,
                                   const struct pin_hash *hash) {
    struct query query = query_open(store, STATEMENT_PIN_SET);
    query_bind_text(&query, badge);
    query_bind_text(&query, hash->text);
    query_bind_text(&query, hash->pepper);
    return query_run(&query, N_("keep a PIN"));
}

// --- checking ----------------------------------------------------------------------------------

static enum pin_result need_pepper(struct store *store, const char *badge) {
    connection_say(store, STORE_REFUSED,
                   pin_pepper_id(store)[0] == '\0'
                       ? _("The PIN of %s was made with a key file: name it with --pepper, in "
                           "$KERFSIDE_PEPPER or in the settings.")
                       : _("The PIN of %s was made with another key file than the one named with "
                           "--pepper, in $KERFSIDE_PEPPER or in the settings."),
                   badge);
    return PIN_NO_PEPPER;
}

// Takes the tries away. A hash of an older kind is made anew, now that the PIN is known; without
// the memory for that the old one stays.
static enum store_result let_in(struct store *store, const char *badge, const char *pin,
                                const struct pin_hash *hash) {
    struct pin_hash newer;
    bool renew = pin_hash_old(store, hash) && pin_hash_make(store, badge, pin, &newer);
    enum store_result result = connection_begin(store);
    if (result != STORE_OK) {
        return result;
    }
    result = pin_try_forget(store, badge);
    if (result == STORE_OK && renew) {
        result = keep_hash(store, badge, &newer);
    }
    return people_commit(store, result);
}

static enum pin_result look(struct store *store, const char *badge, const char *pin,
                            const struct pin_hash *hash) {
    enum pin_result result = pin_hash_look(store, badge, pin, hash);
    if (result == PIN_RIGHT && let_in(store, badge, pin, hash) != STORE_OK) {
        return PIN_FAILED;
    }
    if (result == PIN_FAILED) {
        connection_say(store, STORE_FAILED, _("No memory to check a PIN: close other programs."));
    }
    // If the log cannot say now that this was the last try, it will at the next.
    return result == PIN_WRONG && pin_try_tell(store, badge) != STORE_OK ? PIN_FAILED : result;
}

enum pin_result store_pin_check(struct store *store, const char *badge, const char *pin,
                                int *ret_wait_s) {
    struct pin_hash hash = {0};
    enum pin_turn turn = PIN_TURN_LOCKED;
    int64_t left = 0;
    bool supervisor = false;
    if (people_supervisor(store, badge, &supervisor) != STORE_OK) {
        return PIN_FAILED;
    }
    if (supervisor) {
        enum store_result result = find_hash(store, badge, &hash);
        if (result != STORE_OK) {
            return result == STORE_NONE ? PIN_NOT_SET : PIN_FAILED;
        }
        if (!pin_hash_readable(store, &hash)) {
            return need_pepper(store, badge);
        }
    }
    const char *counted = supervisor ? badge : PIN_TRY_STRANGER;
    if (pin_try_begin(store, counted, &turn, &left) != STORE_OK) {
        return PIN_FAILED;
    }
    switch (turn) {
    case PIN_TURN_WAIT:
        *ret_wait_s = (int)((left + 999) / 1000);
        return PIN_WAIT;
    case PIN_TURN_LOCKED:
        return PIN_LOCKED;
    case PIN_TURN_GO:
        break;
    }
    return look(store, counted, pin, &hash);
}

// --- setting -----------------------------------------------------------------------------------

void store_set_pin_rules(struct store *store, const struct pin_rules *rules) {
    store->pin_rules = *rules;
}

static bool digits(const struct store *store, const char *pin) {
    size_t size = strnlen(pin, STORE_PIN_DIGITS_MAX + 1);
    return size >= (size_t)store->pin_rules.min_digits && size <= STORE_PIN_DIGITS_MAX &&
           strspn(pin, "0123456789") == size;
}

static enum store_result may_have_pin(struct store *store, const char *badge) {
    struct worker worker;
    enum store_result result = store_worker(store, badge, &worker);
    if (result == STORE_NONE) {
        return connection_say(store, STORE_NONE, _("There is no badge %s."), badge);
    }
    return result == STORE_OK && worker.role != ROLE_SUPERVISOR
               ? connection_say(store, STORE_REFUSED,
                                _("%s is no supervisor: only they have a PIN."), badge)
               : result;
}

// A PIN without the key file of the others would be the weak one.
static enum store_result same_pepper(struct store *store) {
    struct query query = query_open(store, STATEMENT_PIN_OTHER_PEPPER);
    query_bind_text(&query, pin_pepper_id(store));
    query_step(&query);
    enum store_result result = query_end(&query, N_("look up the PINs"));
    if (result == STORE_OK) {
        return connection_say(store, STORE_REFUSED,
                              _("The PINs in %s are made with a key file: name it with --pepper or "
                                "in $KERFSIDE_PEPPER."),
                              store->path);
    }
    return result == STORE_NONE ? STORE_OK : result;
}

static enum store_result not_locked(struct store *store, const char *badge) {
    bool locked = false;
    enum store_result result = pin_try_locked(store, badge, &locked);
    return result == STORE_OK && locked
               ? connection_say(
                     store, STORE_REFUSED,
                     _("%s is locked. Another supervisor unlocks it with `kerfside people "
                       "--unlock %s --badge W-...`, or root at the console with `kerfside "
                       "pin --recover %s`."),
                     badge, badge, badge)
               : result;
}

static enum store_result keep(struct store *store, const char *badge, const struct pin_hash *hash,
                              const char *cause, const char *note) {
    int64_t seq;
    enum store_result result = keep_hash(store, badge, hash);
    if (result == STORE_OK) {
        result = pin_try_forget(store, badge);
    }
    return result == STORE_OK ? people_log(store, badge, cause, note, &seq) : result;
}

static enum store_result set(struct store *store, const char *badge, const char *pin,
                             bool recover) {
    struct pin_hash hash;
    if (!digits(store, pin)) {
        return connection_say(store, STORE_REFUSED, _("A PIN is %d to %d digits, nothing else."),
                              store->pin_rules.min_digits, STORE_PIN_DIGITS_MAX);
    }
    enum store_result result = may_have_pin(store, badge);
    if (result != STORE_OK) {
        return result;
    }
    if (!pin_hash_make(store, badge, pin, &hash)) {
        return connection_say(store, STORE_FAILED,
                              _("No memory to keep a PIN: close other programs."));
    }
    result = connection_begin(store);
    if (result != STORE_OK) {
        return result;
    }
    if (!recover) {
        result = not_locked(store, badge);
        if (result == STORE_OK) {
            result = same_pepper(store);
        }
    }
    if (result == STORE_OK) {
        result = keep(store, badge, &hash, recover ? "recovered" : "set",
                      recover ? "by root at the console" : "");
    }
    return people_commit(store, result);
}

enum store_result store_pin_set(struct store *store, const char *badge, const char *pin) {
    return set(store, badge, pin, false);
}

enum store_result store_pin_recover(struct store *store, const char *badge, const char *pin) {
    return set(store, badge, pin, true);
}

static enum store_result unlock(struct store *store, const char *badge, const char *by) {
    int64_t seq;
    bool locked = false;
    enum store_result result = people_another(store, badge, by);
    if (result == STORE_OK) {
        result = pin_try_locked(store, badge, &locked);
    }
    if (result == STORE_OK && !locked) {
        result = connection_say(store, STORE_REFUSED, _("%s is not locked."), badge);
    }
    if (result == STORE_OK) {
        result = pin_try_forget(store, badge);
    }
    return result == STORE_OK ? people_log(store, by, "unlocked", badge, &seq) : result;
}

enum store_result store_pin_unlock(struct store *store, const char *badge, const char *by) {
    enum store_result result = connection_begin(store);
    return result == STORE_OK ? people_commit(store, unlock(store, badge, by)) : result;
}

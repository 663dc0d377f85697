// PINs: Argon2id, and tries counted on disk before a hash is looked at, so that neither a pulled
// plug nor a turned clock gives tries back.

#include "pin.h"
#include "people.h"

#include <errno.h>
#include <sodium.h>
#include <string.h>

#define OPS 3
#define MEMORY ((size_t)64 << 20)
#define DIGITS_MIN 4
#define DIGITS_MAX 12
#define FREE_TRIES 3
#define WAIT_FIRST_MS 30000
#define WAIT_MOST_MS 900000

struct tries {
    int64_t count;
    int64_t wait_ms;
    int64_t until_ms;
    char boot[ENTRY_BOOT_MAX];
};

int64_t pin_wait_ms(int64_t tries) {
    int64_t wait = WAIT_FIRST_MS;
    if (tries < FREE_TRIES) {
        return 0;
    }
    for (int64_t i = FREE_TRIES; i < tries && wait < WAIT_MOST_MS; i++) {
        wait *= 2;
    }
    return wait < WAIT_MOST_MS ? wait : WAIT_MOST_MS;
}

static enum store_result load(struct store *store, const char *badge, struct tries *ret_tries) {
    struct query query = query_open(store, STATEMENT_PIN_TRY);
    query_bind_text(&query, badge);
    query_step(&query);
    ret_tries->count = query_number(&query, 0);
    ret_tries->wait_ms = query_number(&query, 1);
    ret_tries->until_ms = query_number(&query, 2);
    query_text(&query, 3, ret_tries->boot, sizeof ret_tries->boot);
    enum store_result result = query_end(&query, "read the tries at a PIN");
    return result == STORE_NONE ? STORE_OK : result;
}

// `wait_ms` counts from now, on a clock that runs through sleep and that nobody can set.
static enum store_result save(struct store *store, const char *badge, int64_t count,
                              int64_t wait_ms) {
    char boot[ENTRY_BOOT_MAX];
    struct query query = query_open(store, STATEMENT_PIN_TRY_SET);
    store->clock.boot(boot);
    query_bind_text(&query, badge);
    query_bind_number(&query, count);
    query_bind_number(&query, wait_ms);
    query_bind_number(&query, store->clock.since_boot_ms() + wait_ms);
    query_bind_text(&query, boot);
    return query_run(&query, "count a try at a PIN");
}

// What is left to wait. Nobody knows how long a machine was off: what was left when last looked at
// begins again then.
static int64_t left_ms(const struct store *store, const struct tries *tries) {
    char boot[ENTRY_BOOT_MAX];
    int64_t left = tries->until_ms - store->clock.since_boot_ms();
    store->clock.boot(boot);
    if (strcmp(boot, tries->boot) != 0 || left > tries->wait_ms) {
        return tries->wait_ms;
    }
    return left > 0 ? left : 0;
}

// In the transaction: counts this try, or sets *ret_left_ms to what must be waited first.
static enum store_result count_try(struct store *store, const char *badge, int64_t *ret_left_ms) {
    struct tries tries = {0};
    enum store_result result = load(store, badge, &tries);
    if (result != STORE_OK) {
        return result;
    }
    *ret_left_ms = left_ms(store, &tries);
    return *ret_left_ms > 0 ? save(store, badge, tries.count, *ret_left_ms)
                            : save(store, badge, tries.count + 1, pin_wait_ms(tries.count + 1));
}

static enum store_result commit(struct store *store, enum store_result result) {
    if (result != STORE_OK) {
        connection_rollback(store);
        return result;
    }
    return connection_commit(store);
}

static enum store_result begin_try(struct store *store, const char *badge, int64_t *ret_left_ms) {
    enum store_result result = connection_begin(store);
    return result == STORE_OK ? commit(store, count_try(store, badge, ret_left_ms)) : result;
}

static enum store_result forget_tries(struct store *store, const char *badge) {
    enum store_result result = connection_begin(store);
    return result == STORE_OK ? commit(store, save(store, badge, 0, 0)) : result;
}

static enum store_result find_hash(struct store *store, const char *badge,
                                   char ret_hash[crypto_pwhash_STRBYTES]) {
    struct query query = query_open(store, STATEMENT_PIN);
    query_bind_text(&query, badge);
    if (query_step(&query)) {
        query_text(&query, 0, ret_hash, crypto_pwhash_STRBYTES);
    }
    return query_end(&query, "look up a PIN");
}

// A badge nobody has a PIN for costs the same time as one that somebody has.
static enum pin_result look_at(const char *hash, const char *pin) {
    char spare[crypto_pwhash_STRBYTES];
    errno = 0;
    if (hash[0] == '\0') {
        return crypto_pwhash_str(spare, pin, strlen(pin), OPS, MEMORY) == 0 ? PIN_WRONG
                                                                            : PIN_FAILED;
    }
    if (crypto_pwhash_str_verify(hash, pin, strlen(pin)) == 0) {
        return PIN_RIGHT;
    }
    return errno == ENOMEM ? PIN_FAILED : PIN_WRONG;
}

enum pin_result store_pin_check(struct store *store, const char *badge, const char *pin,
                                int *ret_wait_s) {
    char hash[crypto_pwhash_STRBYTES] = "";
    int64_t left = 0;
    bool supervisor = false;
    if (people_supervisor(store, badge, &supervisor) != STORE_OK) {
        return PIN_FAILED;
    }
    if (supervisor) {
        enum store_result result = find_hash(store, badge, hash);
        if (result != STORE_OK) {
            return result == STORE_NONE ? PIN_NOT_SET : PIN_FAILED;
        }
    }
    const char *counted = supervisor ? badge : "";
    if (begin_try(store, counted, &left) != STORE_OK) {
        return PIN_FAILED;
    }
    if (left > 0) {
        *ret_wait_s = (int)((left + 999) / 1000);
        return PIN_WAIT;
    }
    enum pin_result pin_result = look_at(hash, pin);
    if (pin_result == PIN_RIGHT && forget_tries(store, counted) != STORE_OK) {
        return PIN_FAILED;
    }
    return pin_result;
}

static bool digits(const char *pin) {
    size_t size = strnlen(pin, DIGITS_MAX + 1);
    return size >= DIGITS_MIN && size <= DIGITS_MAX && strspn(pin, "0123456789") == size;
}

enum store_result store_pin_set(struct store *store, const char *badge, const char *pin) {
    char hash[crypto_pwhash_STRBYTES];
    struct worker worker;
    if (!digits(pin)) {
        return connection_say(store, STORE_REFUSED, "A PIN is %d to %d digits, nothing else.",
                              DIGITS_MIN, DIGITS_MAX);
    }
    enum store_result result = store_worker(store, badge, &worker);
    if (result != STORE_OK) {
        return result == STORE_NONE
                   ? connection_say(store, STORE_NONE, "There is no badge %s.", badge)
                   : result;
    }
    if (worker.role != ROLE_SUPERVISOR) {
        return connection_say(store, STORE_REFUSED, "%s is no supervisor: only they have a PIN.",
                              badge);
    }
    if (crypto_pwhash_str(hash, pin, strlen(pin), OPS, MEMORY) != 0) {
        return connection_say(store, STORE_FAILED,
                              "No memory to keep a PIN: close other programs.");
    }
    result = connection_begin(store);
    if (result != STORE_OK) {
        return result;
    }
    struct query query = query_open(store, STATEMENT_PIN_SET);
    query_bind_text(&query, badge);
    query_bind_text(&query, hash);
    result = query_run(&query, "keep a PIN");
    return commit(store, result == STORE_OK ? save(store, badge, 0, 0) : result);
}

#include "pin_try.h"
#include "people.h"

#include <string.h>

#define STATION_BADGES 3 // whose free tries the station has
#define WAIT_FIRST_MS 30000
#define WAIT_MOST_MS 900000

struct tries {
    int64_t count;
    int64_t wait_ms;
    int64_t until_ms;
    char boot[ENTRY_BOOT_MAX];
    int64_t locked; // entry that says so, 0: none
};

int64_t pin_try_wait_ms(int64_t tries, int free) {
    int64_t wait = WAIT_FIRST_MS;
    if (tries < free) {
        return 0;
    }
    for (int64_t i = free; i < tries && wait < WAIT_MOST_MS; i++) {
        wait *= 2;
    }
    return wait < WAIT_MOST_MS ? wait : WAIT_MOST_MS;
}

static enum store_result load(struct store *store, const char *badge, struct tries *ret_tries) {
    struct query query = query_open(store, STATEMENT_PIN_TRY);
    memset(ret_tries, 0, sizeof *ret_tries);
    query_bind_text(&query, badge);
    query_step(&query);
    ret_tries->count = query_number(&query, 0);
    ret_tries->wait_ms = query_number(&query, 1);
    ret_tries->until_ms = query_number(&query, 2);
    query_text(&query, 3, ret_tries->boot, sizeof ret_tries->boot);
    ret_tries->locked = query_number(&query, 4);
    enum store_result result = query_end(&query, N_("read the tries at a PIN"));
    return result == STORE_NONE ? STORE_OK : result;
}

static bool of_station(const char *badge) {
    return strcmp(badge, PIN_TRY_STRANGER) != 0;
}

static enum store_result load_all(struct store *store, int64_t *ret_count) {
    struct query query = query_open(store, STATEMENT_PIN_TRY_ALL);
    query_bind_number(&query, store->pin_rules.lock_after);
    query_step(&query);
    *ret_count = query_number(&query, 0);
    return query_end(&query, N_("read the tries at all PINs"));
}

// `wait_ms` counts from now, on a clock that runs through sleep and that nobody can set.
static enum store_result save(struct store *store, const char *badge, const struct tries *tries,
                              int64_t wait_ms) {
    char boot[ENTRY_BOOT_MAX];
    struct query query = query_open(store, STATEMENT_PIN_TRY_SET);
    store->clock.boot(boot);
    query_bind_text(&query, badge);
    query_bind_number(&query, tries->count);
    query_bind_number(&query, wait_ms);
    query_bind_number(&query, store->clock.since_boot_ms() + wait_ms);
    query_bind_text(&query, boot);
    query_bind_id(&query, tries->locked);
    return query_run(&query, N_("count a try at a PIN"));
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

static enum store_result keep_waiting(struct store *store, const char *badge,
                                      const struct tries *own, const struct tries *station) {
    enum store_result result = save(store, badge, own, left_ms(store, own));
    return result == STORE_OK && of_station(badge)
               ? save(store, PIN_TRY_STATION, station, left_ms(store, station))
               : result;
}

static enum store_result count_it(struct store *store, const char *badge, struct tries *own,
                                  struct tries *station) {
    own->count++;
    enum store_result result =
        save(store, badge, own, pin_try_wait_ms(own->count, store->pin_rules.free_tries));
    if (result != STORE_OK || !of_station(badge)) {
        return result;
    }
    result = load_all(store, &station->count);
    return result == STORE_OK
               ? save(store, PIN_TRY_STATION, station,
                      pin_try_wait_ms(station->count, STATION_BADGES * store->pin_rules.free_tries))
               : result;
}

static enum store_result tell(struct store *store, const char *badge, struct tries *own) {
    enum store_result result = people_log(store, badge, "locked", "", &own->locked);
    return result == STORE_OK ? save(store, badge, own, 0) : result;
}

static enum store_result take_turn(struct store *store, const char *badge, enum pin_turn *ret_turn,
                                   int64_t *ret_left_ms) {
    struct tries own;
    struct tries station = {0};
    enum store_result result = load(store, badge, &own);
    if (result == STORE_OK && of_station(badge)) {
        result = load(store, PIN_TRY_STATION, &station);
    }
    if (result != STORE_OK) {
        return result;
    }
    if (of_station(badge) && own.count >= store->pin_rules.lock_after) {
        *ret_turn = PIN_TURN_LOCKED;
        return own.locked == 0 ? tell(store, badge, &own) : STORE_OK;
    }
    int64_t left = left_ms(store, &own);
    int64_t left_station = left_ms(store, &station);
    *ret_left_ms = left > left_station ? left : left_station;
    *ret_turn = *ret_left_ms > 0 ? PIN_TURN_WAIT : PIN_TURN_GO;
    return *ret_left_ms > 0 ? keep_waiting(store, badge, &own, &station)
                            : count_it(store, badge, &own, &station);
}

enum store_result pin_try_begin(struct store *store, const char *badge, enum pin_turn *ret_turn,
                                int64_t *ret_left_ms) {
    enum store_result result = connection_begin(store);
    return result == STORE_OK ? people_commit(store, take_turn(store, badge, ret_turn, ret_left_ms))
                              : result;
}

enum store_result pin_try_forget(struct store *store, const char *badge) {
    const struct tries none = {0};
    struct tries station = {0};
    enum store_result result = save(store, badge, &none, 0);
    if (result == STORE_OK) {
        result = load_all(store, &station.count);
    }
    return result == STORE_OK ? save(store, PIN_TRY_STATION, &station, 0) : result;
}

enum store_result pin_try_locked(struct store *store, const char *badge, bool *ret_locked) {
    struct tries own;
    enum store_result result = load(store, badge, &own);
    if (result == STORE_OK) {
        *ret_locked = own.count >= store->pin_rules.lock_after;
    }
    return result;
}

enum store_result pin_try_tell(struct store *store, const char *badge) {
    struct tries own;
    enum store_result result = connection_begin(store);
    if (result != STORE_OK) {
        return result;
    }
    result = load(store, badge, &own);
    if (result == STORE_OK && of_station(badge) && own.count >= store->pin_rules.lock_after &&
        own.locked == 0) {
        result = tell(store, badge, &own);
    }
    return people_commit(store, result);
}

#include "people.h"
#include "append.h"
#include "chain.h"
#include "pin_try.h"
#include "tongue.h"

#include <stdio.h>
#include <string.h>

enum store_result store_worker(struct store *store, const char *badge, struct worker *ret_worker) {
    struct worker worker = {0};
    char role[16];
    struct query query = query_open(store, STATEMENT_WORKER);
    query_bind_text(&query, badge);
    if (query_step(&query)) {
        query_text(&query, 0, worker.badge, sizeof worker.badge);
        query_text(&query, 1, worker.name, sizeof worker.name);
        query_text(&query, 2, role, sizeof role);
        query.odd |= !role_from_text(role, &worker.role);
    }
    enum store_result result = query_end(&query, N_("look up a badge"));
    if (result == STORE_OK) {
        *ret_worker = worker;
    }
    return result;
}

enum store_result people_supervisor(struct store *store, const char *badge, bool *ret_yes) {
    struct worker worker = {0};
    enum store_result result = store_worker(store, badge, &worker);
    if (result != STORE_OK && result != STORE_NONE) {
        return result;
    }
    *ret_yes = result == STORE_OK && worker.role == ROLE_SUPERVISOR;
    return STORE_OK;
}

enum store_result people_another(struct store *store, const char *badge, const char *by) {
    bool yes = false;
    if (strcmp(badge, by) == 0) {
        return connection_say(store, STORE_REFUSED, _("Another supervisor must do that, not %s."),
                              badge);
    }
    enum store_result result = people_supervisor(store, by, &yes);
    return result == STORE_OK && !yes
               ? connection_say(store, STORE_REFUSED, _("%s is no supervisor."), by)
               : result;
}

enum store_result people_log(struct store *store, const char *worker, const char *cause,
                             const char *note, int64_t *ret_seq) {
    struct entry entry = entry_init(ENTRY_PIN);
    chain_stamp(store, &entry);
    snprintf(entry.worker, sizeof entry.worker, "%s", worker);
    snprintf(entry.cause, sizeof entry.cause, "%s", cause);
    snprintf(entry.note, sizeof entry.note, "%s", note);
    enum store_result result = append_entry(store, &entry);
    if (result == STORE_OK) {
        *ret_seq = entry.seq;
    }
    return result;
}

enum store_result people_commit(struct store *store, enum store_result result) {
    if (result != STORE_OK) {
        connection_rollback(store);
        return result;
    }
    return connection_commit(store);
}

enum store_result store_people(struct store *store, store_person_each *each, void *context) {
    bool more = true;
    struct query query = query_open(store, STATEMENT_PEOPLE);
    while (more && query_step(&query)) {
        struct person person = {0};
        char role[16];
        query_text(&query, 0, person.worker.badge, sizeof person.worker.badge);
        query_text(&query, 1, person.worker.name, sizeof person.worker.name);
        query_text(&query, 2, role, sizeof role);
        query.odd |= !role_from_text(role, &person.worker.role);
        person.pin = query_number(&query, 3) != 0;
        person.locked = query_number(&query, 4) >= store->pin_rules.lock_after;
        person.withdrawn = query_number(&query, 5) != 0;
        more = !query.odd && !query.failed && each(context, &person);
    }
    enum store_result result = query_end(&query, N_("list the people"));
    return result == STORE_NONE ? STORE_OK : result;
}

static enum store_result run(struct store *store, enum statement statement, const char *badge) {
    struct query query = query_open(store, statement);
    query_bind_text(&query, badge);
    return query_run(&query, N_("take a name out of view"));
}

static enum store_result withdraw(struct store *store, const char *badge, const char *by) {
    struct worker worker;
    int64_t seq = 0;
    enum store_result result = people_another(store, badge, by);
    if (result == STORE_OK) {
        result = store_worker(store, badge, &worker);
    }
    if (result == STORE_NONE) {
        result = connection_say(
            store, STORE_NONE, _("There is no badge %s, or its name was withdrawn before."), badge);
    }
    if (result == STORE_OK) {
        result = people_log(store, by, "withdrawn", badge, &seq);
    }
    if (result != STORE_OK) {
        return result;
    }
    struct query query = query_open(store, STATEMENT_WITHDRAW);
    query_bind_text(&query, badge);
    query_bind_number(&query, seq);
    result = query_run(&query, N_("take a name out of view"));
    if (result == STORE_OK) {
        result = run(store, STATEMENT_WITHDRAW_PIN, badge);
    }
    return result == STORE_OK ? run(store, STATEMENT_WITHDRAW_TRIES, badge) : result;
}

enum store_result store_withdraw(struct store *store, const char *badge, const char *by) {
    enum store_result result = connection_begin(store);
    return result == STORE_OK ? people_commit(store, withdraw(store, badge, by)) : result;
}

#include "people.h"

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
    enum store_result result = query_end(&query, "look up a badge");
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

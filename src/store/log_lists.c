#include "log_lists.h"

#include "tongue.h"

#include <stdlib.h>
#include <string.h>

#define FACETS_MAX 100000 // far more than benches, workers, materials and verdicts can make
#define FACETS_STEP 64

static enum store_result no_memory(struct store *store) {
    return connection_say(store, STORE_FAILED, _("No memory to read the log."));
}

static bool add(struct log_lists *lists, int64_t facet, const struct log_range *range) {
    if (lists->count % FACETS_STEP == 0) {
        struct log_list *more =
            realloc(lists->list, (lists->count + FACETS_STEP) * sizeof *lists->list);
        if (more == NULL) {
            return false;
        }
        lists->list = more;
    }
    lists->list[lists->count++] = (struct log_list){
        .facet = facet, .from = range->first_seq, .to = range->last_seq, .ahead = 2};
    return true;
}

static enum store_result add_facets(struct log_lists *lists, const struct log_filter *filter,
                                    const struct log_range *range) {
    bool room = true;
    struct query query = query_open(lists->store, STATEMENT_FACET_FIND);
    query_bind_text(&query, filter->bench);
    query_bind_text(&query, filter->worker);
    query_bind_text(&query, filter->material);
    query_bind_text(&query, verdict_text(filter->verdict));
    query_bind_number(&query, FACETS_MAX);
    while (room && query_step(&query)) {
        room = add(lists, query_number(&query, 0), range);
    }
    enum store_result result = query_end(&query, N_("read the facets of the log"));
    return !room ? no_memory(lists->store) : result == STORE_NONE ? STORE_OK : result;
}

enum store_result log_lists_open(struct store *store, const struct log_filter *filter,
                                 const struct log_range *range, bool newest_first,
                                 struct log_lists *ret_lists) {
    struct log_lists lists = {.store = store, .newest_first = newest_first};
    enum store_result result = STORE_OK;
#define LIST(name) (newest_first ? STATEMENT_LIST_##name##_NEWEST : STATEMENT_LIST_##name##_OLDEST)
    if (filter->ticket[0] != '\0') {
        lists.statement = strncmp(filter->ticket, "H-", 2) == 0 ? LIST(HEAD) : LIST(SHAFT);
        lists.key = filter->ticket;
    } else if (filter->needs_decision) {
        lists.statement = LIST(DECISION);
        lists.key = "";
    } else if (filter->build[0] != '\0') {
        lists.statement = LIST(BUILD);
        lists.key = filter->build;
    } else if (filter->bench[0] != '\0' || filter->worker[0] != '\0' ||
               filter->material[0] != '\0' || filter->verdict != VERDICT_NONE) {
        lists.statement = LIST(FACET);
    } else {
        return STORE_NONE;
    }
#undef LIST
    if (lists.key == NULL) {
        result = add_facets(&lists, filter, range);
    } else if (!add(&lists, 0, range)) {
        result = no_memory(store);
    }
    if (result != STORE_OK) {
        free(lists.list);
        return result;
    }
    *ret_lists = lists;
    return STORE_OK;
}

// Looks ahead on a list that has nothing at hand. A short answer is the list's end.
static enum store_result refill(struct log_lists *lists, struct log_list *list) {
    int count = 0;
    struct query query = query_open(lists->store, lists->statement);
    if (lists->key != NULL) {
        query_bind_text(&query, lists->key);
    } else {
        query_bind_number(&query, list->facet);
    }
    query_bind_number(&query, list->from);
    query_bind_number(&query, list->to);
    query_bind_number(&query, list->ahead);
    while (count < list->ahead && query_step(&query)) {
        list->seq[count++] = query_number(&query, 0);
    }
    enum store_result result = query_end(&query, N_("read the log"));
    list->count = count;
    list->at = 0;
    if (count < list->ahead) {
        list->from = 1;
        list->to = 0;
    } else if (lists->newest_first) {
        list->to = list->seq[count - 1] - 1;
    } else {
        list->from = list->seq[count - 1] + 1;
    }
    list->ahead = list->ahead < LOG_LIST_AHEAD ? 2 * list->ahead : LOG_LIST_AHEAD;
    return result == STORE_NONE ? STORE_OK : result;
}

enum store_result log_lists_next(struct log_lists *lists, int64_t *ret_seq) {
    struct log_list *next = NULL;
    for (size_t i = 0; i < lists->count; i++) {
        struct log_list *list = &lists->list[i];
        if (list->at == list->count && list->from <= list->to) {
            enum store_result result = refill(lists, list);
            if (result != STORE_OK) {
                return result;
            }
        }
        if (list->at < list->count &&
            (next == NULL || (list->seq[list->at] > next->seq[next->at]) == lists->newest_first)) {
            next = list;
        }
    }
    if (next == NULL) {
        return STORE_NONE;
    }
    *ret_seq = next->seq[next->at++];
    return STORE_OK;
}

void log_lists_release(struct log_lists *lists) {
    free(lists->list);
    lists->list = NULL;
    lists->count = 0;
}

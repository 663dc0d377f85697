// Lists of clubs, and clubs by the names on the order.

#include "query.h"

#include <string.h>

// What each list is read and counted with; both take the bench first if `bench` says so.
static const struct {
    enum statement lines, count;
    bool bench;
} lists[] = {
    [CLUBS_NEXT] = {STATEMENT_CLUBS_NEXT, STATEMENT_COUNT_NEXT, true},
    [CLUBS_HALF_CUT] = {STATEMENT_CLUBS_HALF_CUT, STATEMENT_COUNT_HALF_CUT, false},
    [CLUBS_DECISION] = {STATEMENT_CLUBS_DECISION, STATEMENT_COUNT_DECISION, false},
    [CLUBS_CUT] = {STATEMENT_CLUBS_CUT, STATEMENT_COUNT_CUT, true},
    [CLUBS_ALL] = {STATEMENT_CLUBS_ALL, STATEMENT_COUNT_ALL, false},
};

static struct query open_list(struct store *store, enum statement statement, bool bench) {
    struct query query = query_open(store, statement);
    if (bench) {
        query_bind_text(&query, store->bench);
    }
    return query;
}

static void read_line(struct query *query, struct club_line *line) {
    char stage[16];
    memset(line, 0, sizeof *line);
    line->id = query_number(query, 0);
    query_text(query, 1, line->build, sizeof line->build);
    query_text(query, 2, line->club, sizeof line->club);
    line->position = query_int(query, 3);
    line->count = query_int(query, 4);
    query_text(query, 5, line->head, sizeof line->head);
    query_text(query, 6, line->shaft, sizeof line->shaft);
    query_text(query, 7, line->due, sizeof line->due);
    query_text(query, 8, stage, sizeof stage);
    query->odd |= !stage_from_text(stage, &line->stage);
    query_text(query, 9, line->bench, sizeof line->bench);
    line->held = query_number(query, 10) != 0;
}

static enum store_result count_list(struct store *store, enum club_list list, int64_t *ret_total) {
    int64_t total = 0;
    struct query query = open_list(store, lists[list].count, lists[list].bench);
    if (query_step(&query)) {
        total = query_number(&query, 0);
    }
    enum store_result result = query_end(&query, N_("count the clubs"));
    if (result == STORE_OK) {
        *ret_total = total;
    }
    return result;
}

int store_clubs(struct store *store, enum club_list list, struct club_line *lines, int max,
                int64_t *ret_total) {
    int count = 0;
    struct query query = open_list(store, lists[list].lines, lists[list].bench);
    query_bind_number(&query, max);
    while (count < max && query_step(&query)) {
        read_line(&query, &lines[count++]);
    }
    enum store_result result = query_end(&query, N_("list the clubs"));
    if (result != STORE_OK && result != STORE_NONE) {
        return -1;
    }
    if (ret_total != NULL && count_list(store, list, ret_total) != STORE_OK) {
        return -1;
    }
    return count;
}

static enum store_result find(struct store *store, const char *build, const char *club,
                              int64_t *ret_id) {
    int64_t id = 0;
    struct query query = query_open(store, STATEMENT_CLUB_NAMED);
    query_bind_text(&query, build);
    query_bind_text(&query, club);
    if (query_step(&query)) {
        id = query_number(&query, 0);
    }
    enum store_result result = query_end(&query, N_("look up a club"));
    if (result == STORE_OK) {
        *ret_id = id;
    }
    return result;
}

enum store_result store_club_named(struct store *store, const char *build, const char *club,
                                   int64_t *ret_id) {
    struct ticket ticket;
    char body[TICKET_TEXT_MAX];
    enum store_result result = find(store, build, club, ret_id);
    if (result == STORE_NONE && ticket_parse(build, &ticket) == TICKET_OK &&
        ticket.kind == TICKET_BUILD) {
        ticket_body(&ticket, body);
        result = find(store, body, club, ret_id);
    }
    return result;
}

// Orders, lots and new tickets for the desk.

#include "workshop.h"
#include "pace.h"
#include "query.h"
#include "tongue.h"

#include <stdio.h>
#include <string.h>

static int counted(enum store_result result, int count) {
    return result == STORE_OK || result == STORE_NONE ? count : -1;
}

// --- orders --------------------------------------------------------------------------------------

static void read_order(struct query *query, struct order_line *line) {
    char status[16];
    memset(line, 0, sizeof *line);
    query_text(query, 0, line->build, sizeof line->build);
    query_text(query, 1, status, sizeof status);
    query->odd |= !order_status_from_text(status, &line->status);
    line->priority = query_int(query, 2);
    query_text(query, 3, line->reference, sizeof line->reference);
    query_text(query, 4, line->note, sizeof line->note);
    query_text(query, 5, line->due, sizeof line->due);
    line->clubs = query_int(query, 6);
    line->done = query_int(query, 7);
    line->begun = query_int(query, 8);
    line->short_parts = query_int(query, 9);
    line->bench_waits = query_number(query, 10) != 0;
}

int store_orders(struct store *store, const enum order_status *status, const char *after,
                 struct order_line *lines, int max) {
    int count = 0;
    struct query query = query_open(store, status == NULL ? STATEMENT_ORDERS : STATEMENT_ORDERS_AT);
    if (status != NULL) {
        query_bind_text(&query, order_status_text(*status));
    }
    query_bind_text(&query, after);
    query_bind_number(&query, max);
    while (count < max && query_step(&query)) {
        read_order(&query, &lines[count++]);
    }
    return counted(query_end(&query, N_("list the orders")), count);
}

enum store_result store_order(struct store *store, const char *build, struct order_line *ret_line) {
    struct order_line line = {0};
    struct query query = query_open(store, STATEMENT_ORDER);
    query_bind_text(&query, build);
    if (query_step(&query)) {
        read_order(&query, &line);
    }
    enum store_result result = query_end(&query, N_("look up an order"));
    if (result == STORE_OK) {
        *ret_line = line;
    }
    return result;
}

enum store_result store_order_counts(struct store *store, int64_t ret_counts[ORDER_STATUS_COUNT]) {
    int64_t counts[ORDER_STATUS_COUNT] = {0};
    enum store_result result = STORE_OK;
    for (int i = 0; result == STORE_OK && i < ORDER_STATUS_COUNT; i++) {
        struct query query = query_open(store, STATEMENT_ORDER_COUNT);
        query_bind_text(&query, order_status_text((enum order_status)i));
        if (query_step(&query)) {
            counts[i] = query_number(&query, 0);
        }
        result = query_end(&query, N_("count the orders"));
    }
    if (result == STORE_OK) {
        memcpy(ret_counts, counts, sizeof counts);
    }
    return result;
}

// --- the bench's day -----------------------------------------------------------------------------

// FNV-1a: two starts of the machine that look the same to it would only add one time.
static uint32_t digest(const char *text) {
    uint32_t hash = 2166136261u;
    for (; *text != '\0'; text++) {
        hash = (hash ^ (unsigned char)*text) * 16777619u;
    }
    return hash;
}

enum store_result store_pace(struct store *store, int64_t *ret_ms) {
    struct pace_club clubs[PACE_CLUBS_MAX];
    size_t count = 0;
    char boot[ENTRY_BOOT_MAX];
    struct query query = query_open(store, STATEMENT_PACE);
    query_bind_text(&query, store->bench);
    query_bind_number(&query, PACE_CLUBS_MAX);
    while (count < PACE_CLUBS_MAX && query_step(&query)) {
        clubs[count].mono_ms = query_number(&query, 0);
        query_text(&query, 1, boot, sizeof boot);
        clubs[count++].boot = digest(boot);
    }
    enum store_result result = query_end(&query, N_("look how fast clubs are finished"));
    if (result == STORE_OK && !pace_median(clubs, count, ret_ms)) {
        result = STORE_NONE;
    }
    return result;
}

// --- new tickets ---------------------------------------------------------------------------------

#define NUMBER_MAX 999999999999 // TICKET_BODY_MAX digits

enum store_result store_next_tickets(struct store *store, enum ticket_kind kind, int count,
                                     char ret_tickets[][TICKET_TEXT_MAX]) {
    static const char *const letters[TICKET_KIND_COUNT] = {
        [TICKET_HEAD] = "H", [TICKET_SHAFT] = "S", [TICKET_BUILD] = "B", [TICKET_WORKER] = "W"};
    int64_t number = 0;
    int made = 0;
    if (count < 1 || count > NEXT_TICKETS_MAX || kind >= TICKET_KIND_COUNT ||
        letters[kind] == NULL) {
        return connection_say(store, STORE_REFUSED, _("Ask for 1 to %d tickets at once."),
                              NEXT_TICKETS_MAX);
    }
    struct query query = query_open(store, STATEMENT_TICKET_NUMBER);
    query_bind_text(&query, letters[kind]);
    if (query_step(&query)) {
        number = query_number(&query, 0);
    }
    enum store_result result = query_end(&query, N_("look up the last ticket"));
    if (result != STORE_OK) {
        return result;
    }
    // At most one body in 37 has a check character that is never issued.
    if (number > NUMBER_MAX - 2 * NEXT_TICKETS_MAX) {
        return connection_say(store, STORE_REFUSED,
                              _("No %s numbers are left after %lld. Give tickets by hand."),
                              ticket_kind_name(kind), (long long)number);
    }
    while (made < count) {
        struct ticket ticket = {0};
        char body[24];
        snprintf(body, sizeof body, "%04lld", (long long)++number);
        if (ticket_make(kind, body, &ticket)) {
            memcpy(ret_tickets[made++], ticket.text, TICKET_TEXT_MAX);
        }
    }
    return STORE_OK;
}

// --- lots ----------------------------------------------------------------------------------------

int store_lots(struct store *store, int64_t before, struct lot_line *lines, int max) {
    int count = 0;
    struct query query = query_open(store, STATEMENT_LOTS);
    query_bind_number(&query, before == 0 ? INT64_MAX : before);
    query_bind_number(&query, max);
    while (count < max && query_step(&query)) {
        struct lot_line *line = &lines[count++];
        line->id = query_number(&query, 0);
        query_text(&query, 1, line->lot, sizeof line->lot);
        line->heads = query_number(&query, 2);
        line->shafts = query_number(&query, 3);
    }
    return counted(query_end(&query, N_("list the lots")), count);
}

int store_lot_parts(struct store *store, const char *lot, enum ticket_kind kind, const char *after,
                    struct lot_part *parts, int max) {
    int count = 0;
    struct query query =
        query_open(store, kind == TICKET_HEAD ? STATEMENT_LOT_HEADS : STATEMENT_LOT_SHAFTS);
    query_bind_text(&query, lot);
    query_bind_text(&query, after);
    query_bind_number(&query, max);
    while (count < max && query_step(&query)) {
        struct lot_part *part = &parts[count++];
        part->kind = kind;
        query_text(&query, 0, part->ticket, sizeof part->ticket);
        query_text(&query, 1, part->model, sizeof part->model);
        query_text(&query, 2, part->flex, sizeof part->flex);
        part->weight = query_length(&query, 3);
        part->model_weight = query_length(&query, 4);
        part->length = query_length(&query, 5);
        part->model_length = query_length(&query, 6);
    }
    return counted(query_end(&query, N_("list the parts of a lot")), count);
}

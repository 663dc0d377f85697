// Tickets to parts.

#include "parts_read.h"

#include <string.h>

static const char *const lives[PART_LIFE_COUNT] = {
    [PART_RAW] = "raw",
    [PART_CUT] = "cut",
    [PART_SCRAP] = "scrap",
};

void parts_read_life(struct query *query, int column, enum part_life *ret_life) {
    char text[8];
    query_text(query, column, text, sizeof text);
    for (int i = 0; i < PART_LIFE_COUNT; i++) {
        if (strcmp(lives[i], text) == 0) {
            *ret_life = (enum part_life)i;
            return;
        }
    }
    query->odd = true;
}

static struct part read_part(struct query *query, enum ticket_kind kind) {
    struct part part = {.kind = kind};
    query_text(query, 0, part.ticket, sizeof part.ticket);
    query_text(query, 1, part.model, sizeof part.model);
    query_text(query, 2, part.rack, sizeof part.rack);
    parts_read_life(query, 3, &part.life);
    part.club_id = query_number(query, 4);
    query_text(query, 5, part.build, sizeof part.build);
    query_text(query, 6, part.club, sizeof part.club);
    return part;
}

enum store_result store_part(struct store *store, const char *ticket, struct part *ret_part) {
    struct part part = {0};
    bool head = strncmp(ticket, "H-", 2) == 0;
    struct query query = query_open(store, head ? STATEMENT_PART_HEAD : STATEMENT_PART_SHAFT);
    query_bind_text(&query, ticket);
    if (query_step(&query)) {
        part = read_part(&query, head ? TICKET_HEAD : TICKET_SHAFT);
    }
    enum store_result result = query_end(&query, N_("look up a ticket"));
    if (result == STORE_OK) {
        *ret_part = part;
    }
    return result;
}

int store_spare_shafts(struct store *store, const char *shaft, struct part *parts, int max) {
    int count = 0;
    struct query query = query_open(store, STATEMENT_PART_SPARES);
    query_bind_text(&query, shaft);
    query_bind_number(&query, max);
    while (count < max && query_step(&query)) {
        parts[count++] = read_part(&query, TICKET_SHAFT);
    }
    enum store_result result = query_end(&query, N_("look for spare shafts"));
    return result == STORE_OK || result == STORE_NONE ? count : -1;
}

// Stock for the desk: what lies there, what to fetch, what is left of shafts.

#include "orders.h"
#include "query.h"
#include "workshop.h"

#include <string.h>

static int counted(enum store_result result, int count) {
    return result == STORE_OK || result == STORE_NONE ? count : -1;
}

// --- levels --------------------------------------------------------------------------------------

static enum store_result next_model(struct store *store, bool heads, const struct stock_line *after,
                                    struct stock_line *ret_line) {
    struct stock_line line = {.head = heads};
    struct query query =
        query_open(store, heads ? STATEMENT_STOCK_NEXT_HEAD : STATEMENT_STOCK_NEXT_SHAFT);
    query_bind_text(&query, after == NULL ? "" : after->model);
    if (!heads) {
        query_bind_text(&query, after == NULL ? "" : after->flex);
    }
    if (query_step(&query)) {
        query_text(&query, 0, line.model, sizeof line.model);
        query_text(&query, 1, line.flex, sizeof line.flex);
    }
    enum store_result result = query_end(&query, N_("list the stock"));
    if (result == STORE_OK) {
        *ret_line = line;
    }
    return result;
}

static enum store_result count_model(struct store *store, struct stock_line *line) {
    struct query query =
        query_open(store, line->head ? STATEMENT_STOCK_HEADS : STATEMENT_STOCK_SHAFTS);
    query_bind_text(&query, line->model);
    if (!line->head) {
        query_bind_text(&query, line->flex);
    }
    if (query_step(&query)) {
        line->free = query_number(&query, 0);
        line->reserved = query_number(&query, 1);
        line->needed = query_number(&query, 2);
    }
    return query_end(&query, N_("count the stock"));
}

static enum store_result level(struct store *store, struct stock_line *line) {
    struct query query = query_open(store, STATEMENT_STOCK_LEVEL);
    query_bind_text(&query, line->head ? "head" : "shaft");
    query_bind_text(&query, line->model);
    query_bind_text(&query, line->flex);
    line->levelled = query_step(&query);
    if (line->levelled) {
        line->least = query_number(&query, 0);
        line->wanted = query_number(&query, 1);
    }
    enum store_result result = query_end(&query, N_("look up a stock level"));
    line->short_by = line->needed > line->free ? line->needed - line->free : 0;
    line->reorder = line->levelled
                        ? order_again(line->free, line->needed, line->least, line->wanted)
                        : line->short_by;
    return result == STORE_NONE ? STORE_OK : result;
}

// Heads stay with a club that is done, so that those that are still to be used are found by the
// clubs that wait, in one pass for the whole page.
static enum store_result reserved_heads(struct store *store, struct stock_line *lines, int count) {
    char model[PARTS_NAME_MAX];
    struct query query = query_open(store, STATEMENT_STOCK_RESERVED_HEADS);
    while (query_step(&query)) {
        query_text(&query, 0, model, sizeof model);
        for (int i = 0; i < count; i++) {
            if (strcmp(lines[i].model, model) == 0) {
                lines[i].reserved = query_number(&query, 1);
            }
        }
    }
    enum store_result result = query_end(&query, N_("count the reserved heads"));
    return result == STORE_NONE ? STORE_OK : result;
}

static enum store_result read_stock(struct store *store, bool heads, const struct stock_line *after,
                                    struct stock_line *lines, int max, int *ret_count) {
    int count = 0;
    enum store_result result = STORE_OK;
    while (result == STORE_OK && count < max) {
        result = next_model(store, heads, count > 0 ? &lines[count - 1] : after, &lines[count]);
        if (result == STORE_OK) {
            result = count_model(store, &lines[count]);
        }
        if (result == STORE_OK) {
            result = level(store, &lines[count]);
            count++;
        }
    }
    if (result == STORE_NONE) {
        result = STORE_OK; // there is no further model
    }
    *ret_count = count;
    return result == STORE_OK && heads ? reserved_heads(store, lines, count) : result;
}

int store_stock_lines(struct store *store, bool heads, const struct stock_line *after,
                      struct stock_line *lines, int max) {
    int count = 0;
    if (connection_read_begin(store) != STORE_OK) {
        return -1;
    }
    enum store_result result = read_stock(store, heads, after, lines, max, &count);
    connection_read_end(store);
    return counted(result, count);
}

// --- what to fetch -------------------------------------------------------------------------------

static void read_pick(struct query *query, struct pick_line *line) {
    int what = query_int(query, 0);
    memset(line, 0, sizeof *line);
    query->odd |= what < 0 || what >= PICK_WHAT_COUNT;
    line->what = (enum pick_what)what;
    query_text(query, 1, line->rack, sizeof line->rack);
    query_text(query, 2, line->ticket, sizeof line->ticket);
    query_text(query, 3, line->model, sizeof line->model);
    query_text(query, 4, line->flex, sizeof line->flex);
    query_text(query, 5, line->build, sizeof line->build);
    query_text(query, 6, line->club, sizeof line->club);
    query_text(query, 7, line->due, sizeof line->due);
}

enum store_result store_pick(struct store *store, const char *build, const char *due,
                             store_pick_each *each, void *context) {
    struct pick_line line;
    struct query query =
        query_open(store, build[0] != '\0' ? STATEMENT_PICK_BUILD : STATEMENT_PICK_DUE);
    query_bind_text(&query, build[0] != '\0' ? build : due);
    while (query_step(&query)) {
        read_pick(&query, &line);
        if (query.odd || !each(context, &line)) {
            break;
        }
    }
    return query_end(&query, N_("list what to fetch"));
}

// --- what is left --------------------------------------------------------------------------------

int store_offcuts(struct store *store, const char *model, const char *flex, length_nm least,
                  const struct offcut_line *after, struct offcut_line *lines, int max) {
    int count = 0;
    char life[8];
    struct query query = query_open(store, STATEMENT_OFFCUTS);
    query_bind_text(&query, model);
    query_bind_text(&query, flex);
    query_bind_number(&query, after == NULL ? least : after->remaining);
    query_bind_text(&query, after == NULL ? "" : after->ticket);
    query_bind_number(&query, max);
    while (count < max && query_step(&query)) {
        struct offcut_line *line = &lines[count++];
        query_text(&query, 0, line->ticket, sizeof line->ticket);
        query_text(&query, 1, line->rack, sizeof line->rack);
        line->remaining = query_length(&query, 2);
        query_text(&query, 3, life, sizeof life);
        line->life = strcmp(life, "scrap") == 0 ? PART_SCRAP : PART_CUT;
    }
    return counted(query_end(&query, N_("list what is left of shafts")), count);
}

// What a GTIN names is what its newest row says.

#include "import_write.h"

#include <string.h>

static enum store_result known(struct store *store, const char *gtin, struct import_gtin *ret_row) {
    struct import_gtin row = {0};
    struct query query = query_open(store, STATEMENT_IMPORT_CODE);
    query_bind_text(&query, gtin);
    if (query_step(&query)) {
        query_text(&query, 0, row.head_model, sizeof row.head_model);
        query_text(&query, 1, row.shaft_model, sizeof row.shaft_model);
        query_text(&query, 2, row.flex, sizeof row.flex);
    }
    enum store_result result = query_end(&query, N_("look up a supplier's code"));
    if (result == STORE_OK) {
        *ret_row = row;
    }
    return result;
}

static enum store_result set(struct store *store, const struct import_gtin *row) {
    struct query query = query_open(store, STATEMENT_IMPORT_SET_CODE);
    query_bind_text(&query, row->gtin);
    query_bind_text(&query, row->head_model);
    query_bind_text(&query, row->shaft_model);
    query_bind_text(&query, row->flex);
    return query_run(&query, N_("save a supplier's code"));
}

enum store_result import_write_gtin(struct import_write *write, const void *row) {
    const struct import_gtin *wanted = row;
    struct import_gtin found;
    enum store_result result = known(write->store, wanted->gtin, &found);
    if (result == STORE_OK && strcmp(found.head_model, wanted->head_model) == 0 &&
        strcmp(found.shaft_model, wanted->shaft_model) == 0 &&
        strcmp(found.flex, wanted->flex) == 0) {
        return STORE_OK;
    }
    if (result != STORE_OK && result != STORE_NONE) {
        return result;
    }
    write->count[IMPORT_GTINS].added += result == STORE_NONE ? 1 : 0;
    write->count[IMPORT_GTINS].changed += result == STORE_OK ? 1 : 0;
    return set(write->store, wanted);
}

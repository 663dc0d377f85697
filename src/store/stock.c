// Shafts to choose from.

#include "catalogue.h"

static enum store_result read_makers(struct store *store, const char *model, const char *flex,
                                     struct stock *stock) {
    enum store_result result = STORE_OK;
    query_passes(&result, catalogue_model(store, model, &stock->model));
    for (int i = 0; result == STORE_OK && i < CHART_KIND_COUNT; i++) {
        query_passes(&result,
                     catalogue_chart(store, model, flex, (enum chart_kind)i, &stock->chart[i]));
    }
    if (result == STORE_OK) {
        query_passes(&result, catalogue_profile(store, model, flex, &stock->profile));
    }
    return result;
}

static enum store_result read_shafts(struct store *store, const char *model, const char *flex,
                                     struct shaft *shafts, int max, int *ret_count) {
    int count = 0;
    struct query query = query_open(store, STATEMENT_STOCK);
    query_bind_text(&query, model);
    query_bind_text(&query, flex);
    query_bind_number(&query, max);
    while (count < max && query_step(&query)) {
        catalogue_shaft(&query, &shafts[count++]);
    }
    enum store_result result = query_end(&query, N_("look for shafts in stock"));
    if (result == STORE_OK || result == STORE_NONE) {
        *ret_count = count;
        return STORE_OK;
    }
    return result;
}

int store_stock(struct store *store, const char *model, const char *flex, struct stock *ret_stock,
                struct shaft *shafts, int max) {
    struct stock stock = {0};
    int count = -1;
    if (connection_read_begin(store) != STORE_OK) {
        return -1;
    }
    enum store_result result = read_makers(store, model, flex, &stock);
    if (result == STORE_OK) {
        result = read_shafts(store, model, flex, shafts, max, &count);
    }
    connection_read_end(store);
    if (result != STORE_OK) {
        return -1;
    }
    *ret_stock = stock;
    return count;
}

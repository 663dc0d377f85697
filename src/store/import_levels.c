// How much of a model should lie in stock.

#include "import_write.h"

#include <string.h>

static void bind_key(struct query *query, const struct import_stock_level *level) {
    bool head = level->head_model[0] != '\0';
    query_bind_text(query, head ? "head" : "shaft");
    query_bind_text(query, head ? level->head_model : level->shaft_model);
    query_bind_text(query, level->flex);
}

enum store_result import_known_stock_level(struct store *store, struct import_stock_level *row) {
    struct import_stock_level level = *row;
    struct query query = query_open(store, STATEMENT_STOCK_LEVEL);
    bind_key(&query, &level);
    if (query_step(&query)) {
        level.least = query_int(&query, 0);
        level.wanted = query_int(&query, 1);
    }
    enum store_result result = query_end(&query, N_("look up a stock level"));
    if (result == STORE_OK) {
        *row = level;
    }
    return result;
}

enum store_result import_write_stock_level(struct import_write *write, const void *row) {
    const struct import_stock_level *level = row;
    struct import_stock_level known = *level;
    enum store_result result = import_known_stock_level(write->store, &known);
    if (result != STORE_OK && result != STORE_NONE) {
        return result;
    }
    if (result == STORE_OK && known.least == level->least && known.wanted == level->wanted) {
        return STORE_OK;
    }
    write->count[IMPORT_STOCK_LEVELS].added += result == STORE_NONE ? 1 : 0;
    write->count[IMPORT_STOCK_LEVELS].changed += result == STORE_OK ? 1 : 0;
    struct query query = query_open(write->store, STATEMENT_STOCK_LEVEL_SET);
    bind_key(&query, level);
    query_bind_number(&query, level->least);
    query_bind_number(&query, level->wanted);
    return query_run(&query, N_("save a stock level"));
}

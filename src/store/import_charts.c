// A chart is taken whole: when any column differs from the newest revision, it is a new one.

#include "import_write.h"

#include <string.h>

// `id` 0 and revision 0 when there is none.
static enum store_result newest_chart(struct store *store, const struct import_chart_cell *cell,
                                      int64_t *ret_id, int64_t *ret_revision) {
    int64_t id = 0;
    int64_t revision = 0;
    struct query query = query_open(store, STATEMENT_CHART);
    query_bind_text(&query, cell->model);
    query_bind_text(&query, cell->flex);
    query_bind_text(&query, chart_kind_text(cell->kind));
    if (query_step(&query)) {
        id = query_number(&query, 0);
        revision = query_number(&query, 1);
    }
    enum store_result result = query_end(&query, "look up a chart");
    if (result == STORE_OK || result == STORE_NONE) {
        *ret_id = id;
        *ret_revision = revision;
        return STORE_OK;
    }
    return result;
}

static enum store_result same_columns(struct store *store, int64_t chart, const void *const *cells,
                                      size_t count, bool *ret_same) {
    char name[PARTS_SHORT_MAX];
    bool same = true;
    size_t i = 0;
    struct query query = query_open(store, STATEMENT_CHART_COLUMNS);
    query_bind_number(&query, chart);
    for (; query_step(&query); i++) {
        const struct import_chart_cell *cell = i < count ? cells[i] : NULL;
        query_text(&query, 0, name, sizeof name);
        same = same && cell != NULL && strcmp(cell->column.name, name) == 0 &&
               cell->column.weight == query_number(&query, 1) &&
               cell->column.tip_trim == query_length(&query, 2);
    }
    enum store_result result = query_end(&query, "look up a chart's columns");
    if (result == STORE_OK || result == STORE_NONE) {
        *ret_same = same && i == count;
        return STORE_OK;
    }
    return result;
}

static enum store_result add_chart(struct store *store, const struct import_chart_cell *cell,
                                   int64_t revision, int64_t *ret_id) {
    int64_t id = 0;
    struct query query = query_open(store, STATEMENT_IMPORT_ADD_CHART);
    query_bind_text(&query, cell->model);
    query_bind_text(&query, cell->flex);
    query_bind_text(&query, chart_kind_text(cell->kind));
    query_bind_number(&query, revision);
    while (query_step(&query)) {
        id = query_number(&query, 0);
    }
    enum store_result result = query_end(&query, "save a chart");
    if (result == STORE_OK) {
        *ret_id = id;
    }
    return result;
}

static enum store_result add_column(struct store *store, int64_t chart,
                                    const struct chart_column *column) {
    struct query query = query_open(store, STATEMENT_IMPORT_ADD_COLUMN);
    query_bind_number(&query, chart);
    query_bind_number(&query, column->weight);
    query_bind_text(&query, column->name);
    query_bind_length(&query, column->tip_trim);
    return query_run(&query, "save a chart's column");
}

enum store_result import_write_chart(struct import_write *write, const void *const *cells,
                                     size_t count) {
    int64_t id, revision;
    bool same = false;
    enum store_result result = newest_chart(write->store, cells[0], &id, &revision);
    if (result == STORE_OK && revision > 0) {
        result = same_columns(write->store, id, cells, count, &same);
    }
    if (result != STORE_OK || same) {
        return result;
    }
    result = add_chart(write->store, cells[0], revision + 1, &id);
    for (size_t i = 0; result == STORE_OK && i < count; i++) {
        const struct import_chart_cell *cell = cells[i];
        result = add_column(write->store, id, &cell->column);
    }
    write->count[IMPORT_CHARTS].added += revision == 0 ? 1 : 0;
    write->count[IMPORT_CHARTS].changed += revision == 0 ? 0 : 1;
    return result;
}

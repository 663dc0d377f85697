// A chart is taken whole: when any column differs from the newest revision, it is a new one.

#include "catalogue.h"
#include "import_write.h"

#include <string.h>

static bool same_columns(const struct chart *chart, const void *const *cells, size_t count) {
    for (size_t i = 0; i < count && i < chart->count; i++) {
        const struct chart_column *wanted = &((const struct import_chart_cell *)cells[i])->column;
        const struct chart_column *column = &chart->column[i];
        if (strcmp(wanted->name, column->name) != 0 || wanted->weight != column->weight ||
            wanted->tip_trim != column->tip_trim) {
            return false;
        }
    }
    return chart->count == count;
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
    enum store_result result = query_end(&query, N_("save a chart"));
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
    return query_run(&query, N_("save a chart's column"));
}

enum store_result import_write_chart(struct import_write *write, const void *const *cells,
                                     size_t count) {
    const struct import_chart_cell *first = cells[0];
    struct chart newest;
    int64_t id = 0;
    enum store_result result =
        catalogue_chart(write->store, first->model, first->flex, first->kind, &newest);
    if (result == STORE_OK && same_columns(&newest, cells, count)) {
        return STORE_OK;
    }
    if (result == STORE_OK || result == STORE_NONE) {
        result = add_chart(write->store, first, newest.revision + 1, &id);
    }
    for (size_t i = 0; result == STORE_OK && i < count; i++) {
        const struct import_chart_cell *cell = cells[i];
        result = add_column(write->store, id, &cell->column);
    }
    write->count[IMPORT_CHARTS].added += newest.revision == 0 ? 1 : 0;
    write->count[IMPORT_CHARTS].changed += newest.revision == 0 ? 0 : 1;
    return result;
}

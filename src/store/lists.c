#include "lists.h"

#include "catalogue.h"
#include "parts_read.h"
#include "query.h"

#include <string.h>

static int listed(struct query *query, int count, const char *doing) {
    enum store_result result = query_end(query, doing);
    return result == STORE_OK || result == STORE_NONE ? count : -1;
}

static struct query open_list(struct store *store, enum statement statement, const char *find,
                              const char *after, int max) {
    struct query query = query_open(store, statement);
    query_bind_text(&query, after);
    query_bind_text(&query, find);
    query_bind_number(&query, max);
    return query;
}

static int parts(struct store *store, enum statement statement, const char *find, const char *after,
                 struct part_line *lines, int max) {
    int count = 0;
    struct query query = open_list(store, statement, find, after, max);
    while (count < max && query_step(&query)) {
        struct part_line *line = &lines[count++];
        memset(line, 0, sizeof *line);
        query_text(&query, 0, line->ticket, sizeof line->ticket);
        query_text(&query, 1, line->model, sizeof line->model);
        query_text(&query, 2, line->flex, sizeof line->flex);
        line->weight = query_length(&query, 3);
        line->length = query_length(&query, 4);
        query_text(&query, 5, line->rack, sizeof line->rack);
        parts_read_life(&query, 6, &line->life);
        query_text(&query, 7, line->build, sizeof line->build);
        query_text(&query, 8, line->club, sizeof line->club);
    }
    return listed(&query, count, N_("list the parts"));
}

int store_heads(struct store *store, const char *find, const char *after, struct part_line *lines,
                int max) {
    return parts(store, STATEMENT_LIST_HEADS, find, after, lines, max);
}

int store_shafts(struct store *store, const char *find, const char *after, struct part_line *lines,
                 int max) {
    return parts(store, STATEMENT_LIST_SHAFTS, find, after, lines, max);
}

static int models(struct store *store, enum statement statement, const char *find,
                  const char *after, struct model_line *lines, int max) {
    int count = 0;
    struct query query = open_list(store, statement, find, after, max);
    while (count < max && query_step(&query)) {
        struct model_line *line = &lines[count++];
        memset(line, 0, sizeof *line);
        query_text(&query, 0, line->name, sizeof line->name);
        query_text(&query, 1, line->kind, sizeof line->kind);
        query_text(&query, 2, line->detail, sizeof line->detail);
        line->weight = query_length(&query, 3);
        line->diameter = query_length(&query, 4);
        line->revision = query_number(&query, 5);
    }
    return listed(&query, count, N_("list the models"));
}

int store_head_models(struct store *store, const char *find, const char *after,
                      struct model_line *lines, int max) {
    return models(store, STATEMENT_LIST_HEAD_MODELS, find, after, lines, max);
}

int store_shaft_models(struct store *store, const char *find, const char *after,
                       struct model_line *lines, int max) {
    return models(store, STATEMENT_LIST_SHAFT_MODELS, find, after, lines, max);
}

int store_charts(struct store *store, const char *find, const struct chart_line *after,
                 struct chart_line *lines, int max) {
    static const struct chart_line first;
    int count = 0;
    struct query query = query_open(store, STATEMENT_LIST_CHARTS);
    after = after != NULL ? after : &first;
    query_bind_text(&query, after->model);
    query_bind_text(&query, after->flex);
    query_bind_text(&query, after->kind);
    query_bind_text(&query, find);
    query_bind_number(&query, max);
    while (count < max && query_step(&query)) {
        struct chart_line *line = &lines[count++];
        memset(line, 0, sizeof *line);
        query_text(&query, 0, line->model, sizeof line->model);
        query_text(&query, 1, line->flex, sizeof line->flex);
        query_text(&query, 2, line->kind, sizeof line->kind);
        line->revision = query_number(&query, 3);
        line->columns = query_int(&query, 4);
    }
    return listed(&query, count, N_("list the charts"));
}

enum store_result store_chart_revision(struct store *store, const char *model, const char *flex,
                                       const char *kind, int64_t revision,
                                       struct chart *ret_chart) {
    struct chart chart = {.revision = revision};
    if (!chart_kind_from_text(kind, &chart.kind)) {
        return STORE_NONE;
    }
    if (revision == 0) {
        return catalogue_chart(store, model, flex, chart.kind, ret_chart);
    }
    struct query query = query_open(store, STATEMENT_LIST_CHART_COLUMNS);
    query_bind_text(&query, model);
    query_bind_text(&query, flex);
    query_bind_text(&query, kind);
    query_bind_number(&query, revision);
    strncpy(chart.flex, flex, sizeof chart.flex - 1);
    while (query_step(&query)) {
        length_nm weight = query_length(&query, 0);
        if (weight != LENGTH_UNKNOWN && chart.count < CHART_COLUMNS_MAX) {
            struct chart_column *column = &chart.column[chart.count++];
            column->weight = weight;
            query_text(&query, 1, column->name, sizeof column->name);
            column->tip_trim = query_length(&query, 2);
        }
    }
    enum store_result result = query_end(&query, N_("read a chart"));
    if (result == STORE_OK) {
        *ret_chart = chart;
    }
    return result;
}

int store_flexes(struct store *store, const char *model, char flexes[][PARTS_SHORT_MAX], int max) {
    int count = 0;
    struct query query = query_open(store, STATEMENT_LIST_FLEXES);
    query_bind_text(&query, model);
    query_bind_text(&query, model);
    query_bind_text(&query, model);
    query_bind_number(&query, max);
    while (count < max && query_step(&query)) {
        query_text(&query, 0, flexes[count++], PARTS_SHORT_MAX);
    }
    return listed(&query, count, N_("list the flexes"));
}

static int open_clubs(struct query *query, int64_t *ids, int max) {
    int count = 0;
    while (count < max && query_step(query)) {
        ids[count++] = query_number(query, 0);
    }
    return listed(query, count, N_("list the open clubs"));
}

int store_open_of_shaft(struct store *store, const char *model, const char *flex, int64_t *ids,
                        int max) {
    struct query query = query_open(store, STATEMENT_OPEN_OF_SHAFT_MODEL);
    query_bind_number(&query, max);
    query_bind_text(&query, model);
    query_bind_text(&query, flex);
    return open_clubs(&query, ids, max);
}

int store_open_of_head(struct store *store, const char *model, int64_t *ids, int max) {
    struct query query = query_open(store, STATEMENT_OPEN_OF_HEAD_MODEL);
    query_bind_number(&query, max);
    query_bind_text(&query, model);
    return open_clubs(&query, ids, max);
}

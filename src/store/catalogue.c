#include "catalogue.h"

#include <string.h>

enum store_result catalogue_model(struct store *store, const char *name,
                                  struct shaft_model *ret_model) {
    struct shaft_model model = {0};
    char word[24];
    struct query query = query_open(store, STATEMENT_SHAFT_MODEL);
    query_bind_text(&query, name);
    query_step(&query);
    query_text(&query, 0, model.name, sizeof model.name);
    query_text(&query, 1, word, sizeof word);
    query.odd |= query.row && !material_from_text(word, &model.material);
    query_text(&query, 2, word, sizeof word);
    query.odd |= query.row && !tip_kind_from_text(word, &model.tip);
    model.tip_diameter = query_length(&query, 3);
    model.butt_diameter = query_length(&query, 4);
    model.raw_length = query_length(&query, 5);
    model.weight = query_length(&query, 6);
    model.tip_section = query_length(&query, 7);
    model.max_tip_trim = query_length(&query, 8);
    model.max_butt_trim = query_length(&query, 9);
    query_text(&query, 10, word, sizeof word);
    query.odd |= query.row && !bore_note_from_text(word, &model.bore_note);
    model.bore_reference = query_length(&query, 11);
    model.note_kinds = (unsigned)query_int(&query, 12);
    model.note_not_through = query_number(&query, 13) != 0;
    model.balance = query_length(&query, 14);
    model.tip_wall = query_length(&query, 15);
    model.butt_wall = query_length(&query, 16);
    model.revision = query_number(&query, 17);
    enum store_result result = query_end(&query, N_("look up a shaft model"));
    if (result == STORE_OK || result == STORE_NONE) {
        *ret_model = model;
    }
    return result;
}

static enum store_result read_columns(struct store *store, int64_t id, struct chart *chart) {
    struct query query = query_open(store, STATEMENT_CHART_COLUMNS);
    query_bind_number(&query, id);
    while (query_step(&query)) {
        struct chart_column *column = &chart->column[chart->count];
        if (chart->count == CHART_COLUMNS_MAX) {
            query.odd = true;
            break;
        }
        query_text(&query, 0, column->name, sizeof column->name);
        column->weight = query_length(&query, 1);
        column->tip_trim = query_length(&query, 2);
        chart->count++;
    }
    return query_end(&query, N_("load the chart's columns"));
}

enum store_result catalogue_chart(struct store *store, const char *model, const char *flex,
                                  enum chart_kind kind, struct chart *chart) {
    int64_t id = 0;
    memset(chart, 0, sizeof *chart);
    chart->kind = kind;
    strncpy(chart->flex, flex, sizeof chart->flex - 1);
    struct query query = query_open(store, STATEMENT_CHART);
    query_bind_text(&query, model);
    query_bind_text(&query, flex);
    query_bind_text(&query, chart_kind_text(kind));
    if (query_step(&query)) {
        id = query_number(&query, 0);
        chart->revision = query_number(&query, 1);
    }
    enum store_result result = query_end(&query, N_("load the chart"));
    return result == STORE_OK ? read_columns(store, id, chart) : result;
}

enum store_result catalogue_profile(struct store *store, const char *model, const char *flex,
                                    struct profile *profile) {
    struct query query = query_open(store, STATEMENT_PROFILE);
    query_bind_text(&query, model);
    query_bind_text(&query, flex);
    while (query_step(&query)) {
        if (profile->count == PROFILE_POINTS_MAX) {
            query.odd = true;
            break;
        }
        profile->point[profile->count++] =
            (struct profile_point){query_length(&query, 0), query_number(&query, 1)};
    }
    return query_end(&query, N_("load the shaft's profile"));
}

void catalogue_shaft(struct query *query, struct shaft *ret_shaft) {
    struct shaft *shaft = ret_shaft;
    query_text(query, 0, shaft->ticket, sizeof shaft->ticket);
    query_text(query, 1, shaft->model, sizeof shaft->model);
    query_text(query, 2, shaft->flex, sizeof shaft->flex);
    shaft->raw_length = query_length(query, 3);
    shaft->weight = query_length(query, 4);
    query_text(query, 5, shaft->rack, sizeof shaft->rack);
    shaft->balance = query_length(query, 6);
    shaft->raw_frequency = query_length(query, 7);
    shaft->frequency_mass = query_length(query, 8);
    shaft->tip_cut = query_length(query, 9);
    query_text(query, 10, shaft->from_shaft, sizeof shaft->from_shaft);
    query_text(query, 11, shaft->lot, sizeof shaft->lot);
}

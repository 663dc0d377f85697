// One club with everything its plan needs.

#include "query.h"

#include <string.h>

#define BORES_MAX 200 // positions in a build, by the schema

static void read_stage(struct query *query, int column, enum stage *ret_stage) {
    char text[16];
    query_text(query, column, text, sizeof text);
    query->odd |= !stage_from_text(text, ret_stage);
}

static enum store_result read_order(struct store *store, struct club *club) {
    struct order *order = &club->order;
    struct progress *progress = &club->progress;
    struct query query = query_open(store, STATEMENT_CLUB);
    query_bind_number(&query, club->id);
    if (query_step(&query)) {
        query_text(&query, 1, order->build, sizeof order->build);
        query_text(&query, 2, order->club, sizeof order->club);
        order->position = query_int(&query, 3);
        order->count = query_int(&query, 4);
        query_text(&query, 5, order->due, sizeof order->due);
        order->playing_length = query_length(&query, 6);
        order->grip_cap = query_length(&query, 7);
        order->grip_weight = query_length(&query, 8);
        query_text(&query, 9, order->swingweight, sizeof order->swingweight);
        order->step = query_int(&query, 10);
        order->uniform_flex = query_number(&query, 11) != 0;
        query_text(&query, 12, order->picked_column, sizeof order->picked_column);
        order->shim_consent = query_number(&query, 13) != 0;
        read_stage(&query, 14, &progress->stage);
        progress->attempt = query_int(&query, 15);
        progress->tip_made = query_length(&query, 16);
        progress->tip_seq = query_number(&query, 17);
        progress->butt_seq = query_number(&query, 18);
        progress->measure_seq = query_number(&query, 19);
        progress->decision_seq = query_number(&query, 20);
        query_text(&query, 21, progress->bench, sizeof progress->bench);
    }
    order->uniform_reference = LENGTH_UNKNOWN;
    return query_end(&query, "load the club");
}

static enum store_result read_head(struct store *store, int64_t club_id, struct head *head) {
    char word[16];
    struct query query = query_open(store, STATEMENT_CLUB_HEAD);
    query_bind_number(&query, club_id);
    query_step(&query);
    query_text(&query, 0, head->ticket, sizeof head->ticket);
    query_text(&query, 1, head->model, sizeof head->model);
    query_text(&query, 2, word, sizeof word);
    query.odd |= query.row && !head_kind_from_text(word, &head->kind);
    query_text(&query, 3, head->engraved, sizeof head->engraved);
    head->weight = query_length(&query, 4);
    head->hosel_bore = query_length(&query, 5);
    head->insertion = query_length(&query, 6);
    head->bore_height = query_length(&query, 7);
    head->model_bore_height = query_length(&query, 8);
    query_text(&query, 9, word, sizeof word);
    query.odd |= !bore_kind_from_text(word, &head->bore);
    return query_end(&query, "load the club's head");
}

static void read_model(struct query *query, struct shaft_model *model) {
    char word[16];
    query_text(query, 1, model->name, sizeof model->name);
    query_text(query, 6, word, sizeof word);
    query->odd |= query->row && !material_from_text(word, &model->material);
    query_text(query, 7, word, sizeof word);
    query->odd |= query->row && !tip_kind_from_text(word, &model->tip);
    model->tip_diameter = query_length(query, 8);
    model->butt_diameter = query_length(query, 9);
    model->raw_length = query_length(query, 10);
    model->weight = query_length(query, 11);
    model->tip_section = query_length(query, 12);
    model->max_tip_trim = query_length(query, 13);
    model->max_butt_trim = query_length(query, 14);
    query_text(query, 15, word, sizeof word);
    query->odd |= query->row && !bore_note_from_text(word, &model->bore_note);
    model->bore_reference = query_length(query, 16);
    model->note_kinds = (unsigned)query_int(query, 17);
    model->note_not_through = query_number(query, 18) != 0;
    model->revision = query_number(query, 19);
}

static enum store_result read_shaft(struct store *store, int64_t club_id, struct shaft *shaft,
                                    struct shaft_model *model) {
    struct query query = query_open(store, STATEMENT_CLUB_SHAFT);
    query_bind_number(&query, club_id);
    query_step(&query);
    query_text(&query, 0, shaft->ticket, sizeof shaft->ticket);
    query_text(&query, 1, shaft->model, sizeof shaft->model);
    query_text(&query, 2, shaft->flex, sizeof shaft->flex);
    shaft->raw_length = query_length(&query, 3);
    shaft->weight = query_length(&query, 4);
    query_text(&query, 5, shaft->rack, sizeof shaft->rack);
    read_model(&query, model);
    return query_end(&query, "load the club's shaft");
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
    return query_end(&query, "load the chart's columns");
}

// The chart's kind follows from the head even when the maker has no such chart.
static enum store_result read_chart(struct store *store, struct club *club) {
    struct chart *chart = &club->chart;
    int64_t id = 0;
    if (club->head.ticket[0] == '\0' || club->shaft.ticket[0] == '\0' ||
        !chart_kind_for_head(club->head.kind, &chart->kind)) {
        return STORE_NONE;
    }
    memcpy(chart->flex, club->shaft.flex, sizeof chart->flex);
    struct query query = query_open(store, STATEMENT_CHART);
    query_bind_text(&query, club->shaft.model);
    query_bind_text(&query, chart->flex);
    query_bind_text(&query, chart_kind_text(chart->kind));
    if (query_step(&query)) {
        id = query_number(&query, 0);
        chart->revision = query_number(&query, 1);
    }
    enum store_result result = query_end(&query, "load the chart");
    return result == STORE_OK ? read_columns(store, id, chart) : result;
}

static enum store_result read_reference(struct store *store, struct club *club) {
    struct plan_bore bores[BORES_MAX];
    size_t count = 0;
    char word[16];
    struct query query = query_open(store, STATEMENT_BUILD_BORES);
    query_bind_text(&query, club->order.build);
    query_bind_text(&query, club->shaft.model);
    while (count < BORES_MAX && query_step(&query)) {
        query_text(&query, 0, word, sizeof word);
        query.odd |= !head_kind_from_text(word, &bores[count].kind);
        bores[count].bore_height = query_length(&query, 1);
        count++;
    }
    club->order.uniform_reference = plan_uniform_reference(bores, count);
    return query_end(&query, "load the bore heights of the build");
}

// A club may lack a head, a shaft or a chart.
static bool passes(enum store_result *result, enum store_result step) {
    *result = step == STORE_NONE ? STORE_OK : step;
    return *result == STORE_OK;
}

static enum store_result read_club(struct store *store, struct club *club) {
    enum store_result result = read_order(store, club);
    if (result == STORE_OK && passes(&result, read_head(store, club->id, &club->head)) &&
        passes(&result, read_shaft(store, club->id, &club->shaft, &club->model)) &&
        passes(&result, read_chart(store, club))) {
        passes(&result, read_reference(store, club));
    }
    return result;
}

enum store_result store_club(struct store *store, int64_t club_id, struct club *ret_club) {
    struct club club = {.id = club_id};
    enum store_result result = connection_read_begin(store);
    if (result != STORE_OK) {
        return result;
    }
    result = read_club(store, &club);
    connection_read_end(store);
    if (result == STORE_OK) {
        *ret_club = club;
    }
    return result;
}

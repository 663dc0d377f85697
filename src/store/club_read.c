// One club with everything its plan needs.

#include "club_read.h"
#include "catalogue.h"

#include <string.h>

#define BORES_MAX 200 // positions in a build, by the schema

static void read_stage(struct query *query, int column, enum stage *ret_stage) {
    char text[16];
    query_text(query, column, text, sizeof text);
    query->odd |= !stage_from_text(text, ret_stage);
}

static void read_status(struct query *query, int column, enum order_status *ret_status) {
    char text[16];
    query_text(query, column, text, sizeof text);
    query->odd |= !order_status_from_text(text, ret_status);
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
        query_text(&query, 22, order->wished_model, sizeof order->wished_model);
        query_text(&query, 23, order->wished_flex, sizeof order->wished_flex);
        order->given_trim = query_length(&query, 24);
        order->trim_consent = query_length(&query, 25);
        order->extension = query_number(&query, 26) != 0;
        order->extension_consent = query_number(&query, 27) != 0;
        order->loft = query_length(&query, 28);
        order->lie = query_length(&query, 29);
        order->cancelled = query_number(&query, 30) != 0;
        read_status(&query, 31, &order->status);
        order->priority = query_int(&query, 32);
        order->changed_seq = query_id(&query, 33);
    }
    order->uniform_reference = LENGTH_UNKNOWN;
    return query_end(&query, N_("load the club"));
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
    head->cg_beyond = query_length(&query, 10);
    head->inertia = query_length(&query, 11);
    head->loft = query_length(&query, 12);
    head->lie = query_length(&query, 13);
    query_text(&query, 14, head->lot, sizeof head->lot);
    return query_end(&query, N_("load the club's head"));
}

static enum store_result read_shaft(struct store *store, struct club *club) {
    struct query query = query_open(store, STATEMENT_CLUB_SHAFT);
    query_bind_number(&query, club->id);
    query_step(&query);
    catalogue_shaft(&query, &club->shaft);
    enum store_result result = query_end(&query, N_("load the club's shaft"));
    return result == STORE_OK || result == STORE_NONE
               ? catalogue_model(store, club->shaft.model, &club->model)
               : result;
}

// The chart's kind follows from the head even when the maker has no such chart.
static enum store_result read_chart(struct store *store, struct club *club) {
    enum chart_kind kind;
    if (club->head.ticket[0] == '\0' || club->shaft.ticket[0] == '\0' ||
        !chart_kind_for_head(club->head.kind, &kind)) {
        return STORE_NONE;
    }
    return catalogue_chart(store, club->shaft.model, club->shaft.flex, kind, &club->chart);
}

static enum store_result read_reference(struct store *store, struct club *club) {
    struct plan_bore bores[BORES_MAX];
    size_t count = 0;
    char word[16];
    struct query query = query_open(store, STATEMENT_BUILD_BORES);
    query_bind_text(&query, club->order.build);
    query_bind_text(&query,
                    club->shaft.ticket[0] != '\0' ? club->shaft.model : club->order.wished_model);
    while (count < BORES_MAX && query_step(&query)) {
        query_text(&query, 0, word, sizeof word);
        query.odd |= !head_kind_from_text(word, &bores[count].kind);
        bores[count].bore_height = query_length(&query, 1);
        count++;
    }
    club->order.uniform_reference = plan_uniform_reference(bores, count);
    return query_end(&query, N_("load the bore heights of the build"));
}

// What the bench showed last, by which it may have been cut.
static enum store_result read_shown(struct store *store, struct club *club) {
    bool tip = club->progress.stage == STAGE_TIP_SHOWN;
    if (!tip && club->progress.stage != STAGE_BUTT_SHOWN) {
        return STORE_OK;
    }
    struct query query = query_open(store, STATEMENT_CLUB_SHOWN);
    query_bind_text(&query, club->shaft.ticket);
    query_bind_text(&query, entry_kind_text(tip ? ENTRY_TIP_SHOWN : ENTRY_BUTT_SHOWN));
    query_bind_number(&query, club->id);
    if (query_step(&query)) {
        club->shown_mark = query_number(&query, 0);
    }
    return query_end(&query, N_("look up the mark that was shown"));
}

// A club may lack a head, a shaft or a chart.
enum store_result club_read(struct store *store, struct club *club) {
    enum store_result result = read_order(store, club);
    if (result == STORE_OK && query_passes(&result, read_head(store, club->id, &club->head)) &&
        query_passes(&result, read_shaft(store, club)) &&
        query_passes(&result, read_chart(store, club)) &&
        query_passes(&result, catalogue_profile(store, club->shaft.model, club->shaft.flex,
                                                &club->profile))) {
        query_passes(&result, read_reference(store, club));
    }
    if (result == STORE_OK) {
        query_passes(&result, read_shown(store, club));
    }
    return result;
}

enum store_result store_club(struct store *store, int64_t club_id, struct club *ret_club) {
    struct club club = {.id = club_id};
    enum store_result result = connection_read_begin(store);
    if (result != STORE_OK) {
        return result;
    }
    result = club_read(store, &club);
    connection_read_end(store);
    if (result == STORE_OK) {
        *ret_club = club;
    }
    return result;
}

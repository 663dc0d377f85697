// Models: what differs from the newest revision becomes a new one. What only estimates use is kept
// when its cell is empty: most files do not have these columns.

#include "catalogue.h"
#include "import_write.h"

#include <string.h>

static void count(struct import_write *write, enum import_kind kind, bool added) {
    write->count[kind].added += added ? 1 : 0;
    write->count[kind].changed += added ? 0 : 1;
}

static enum store_result add_name(struct store *store, enum statement statement, const char *name) {
    struct query query = query_open(store, statement);
    query_bind_text(&query, name);
    return query_run(&query, N_("save a model"));
}

// --- shaft models ------------------------------------------------------------------------------

static bool same_shaft_model(const struct shaft_model *a, const struct shaft_model *b) {
    return a->material == b->material && a->tip == b->tip && a->tip_diameter == b->tip_diameter &&
           a->butt_diameter == b->butt_diameter && a->raw_length == b->raw_length &&
           a->weight == b->weight && a->tip_section == b->tip_section &&
           a->max_tip_trim == b->max_tip_trim && a->max_butt_trim == b->max_butt_trim &&
           a->bore_note == b->bore_note && a->bore_reference == b->bore_reference &&
           a->note_kinds == b->note_kinds && a->note_not_through == b->note_not_through &&
           a->balance == b->balance && a->tip_wall == b->tip_wall && a->butt_wall == b->butt_wall;
}

static enum store_result add_shaft_revision(struct store *store, const struct shaft_model *model,
                                            int64_t revision) {
    struct query query = query_open(store, STATEMENT_IMPORT_ADD_SHAFT_REVISION);
    query_bind_text(&query, model->name);
    query_bind_number(&query, revision);
    query_bind_text(&query, material_text(model->material));
    query_bind_text(&query, tip_kind_text(model->tip));
    query_bind_length(&query, model->tip_diameter);
    query_bind_length(&query, model->butt_diameter);
    query_bind_length(&query, model->raw_length);
    query_bind_length(&query, model->weight);
    query_bind_length(&query, model->tip_section);
    query_bind_length(&query, model->max_tip_trim);
    query_bind_length(&query, model->max_butt_trim);
    query_bind_text(&query, bore_note_text(model->bore_note));
    query_bind_length(&query, model->bore_reference);
    query_bind_number(&query, model->note_kinds);
    query_bind_number(&query, model->note_not_through ? 1 : 0);
    query_bind_length(&query, model->balance);
    query_bind_length(&query, model->tip_wall);
    query_bind_length(&query, model->butt_wall);
    return query_run(&query, N_("save a shaft model"));
}

enum store_result import_write_shaft_model(struct import_write *write, const void *row) {
    struct shaft_model wanted = ((const struct import_shaft_model *)row)->model;
    struct shaft_model newest = {0};
    enum store_result result = catalogue_model(write->store, wanted.name, &newest);
    if (result == STORE_OK) {
        wanted.balance = import_or_known(write, wanted.balance, newest.balance);
        wanted.tip_wall = import_or_known(write, wanted.tip_wall, newest.tip_wall);
        wanted.butt_wall = import_or_known(write, wanted.butt_wall, newest.butt_wall);
        if (same_shaft_model(&newest, &wanted)) {
            return STORE_OK;
        }
    }
    if (result == STORE_NONE) {
        result = add_name(write->store, STATEMENT_IMPORT_ADD_SHAFT_MODEL, wanted.name);
    }
    if (result == STORE_OK) {
        count(write, IMPORT_SHAFT_MODELS, newest.revision == 0);
        result = add_shaft_revision(write->store, &wanted, newest.revision + 1);
    }
    return result;
}

// --- head models -------------------------------------------------------------------------------

static enum store_result newest_head_model(struct store *store, const char *name,
                                           struct import_head_model *ret_model,
                                           int64_t *ret_revision) {
    struct import_head_model model = {0};
    int64_t revision = 0;
    char word[16];
    struct query query = query_open(store, STATEMENT_IMPORT_HEAD_MODEL);
    query_bind_text(&query, name);
    if (query_step(&query)) {
        revision = query_number(&query, 0);
        query_text(&query, 1, word, sizeof word);
        query.odd |= !head_kind_from_text(word, &model.kind);
        query_text(&query, 2, model.engraved, sizeof model.engraved);
        model.weight = query_length(&query, 3);
        model.hosel_bore = query_length(&query, 4);
        model.insertion = query_length(&query, 5);
        model.bore_height = query_length(&query, 6);
        query_text(&query, 7, word, sizeof word);
        query.odd |= !bore_kind_from_text(word, &model.bore);
        model.loft = query_length(&query, 8);
        model.lie = query_length(&query, 9);
        model.cg_beyond = query_length(&query, 10);
        model.inertia = query_length(&query, 11);
    }
    enum store_result result = query_end(&query, N_("look up a head model"));
    if (result == STORE_OK) {
        *ret_model = model;
        *ret_revision = revision;
    }
    return result;
}

enum store_result import_known_head_model(struct store *store, struct import_head_model *row) {
    struct import_head_model model;
    int64_t revision;
    enum store_result result = newest_head_model(store, row->name, &model, &revision);
    if (result == STORE_OK) {
        memcpy(model.name, row->name, sizeof model.name);
        *row = model;
    }
    return result;
}

static bool same_head_model(const struct import_head_model *a, const struct import_head_model *b) {
    return a->kind == b->kind && strcmp(a->engraved, b->engraved) == 0 && a->weight == b->weight &&
           a->hosel_bore == b->hosel_bore && a->insertion == b->insertion &&
           a->bore_height == b->bore_height && a->bore == b->bore && a->loft == b->loft &&
           a->lie == b->lie && a->cg_beyond == b->cg_beyond && a->inertia == b->inertia;
}

static enum store_result
add_head_revision(struct store *store, const struct import_head_model *model, int64_t revision) {
    struct query query = query_open(store, STATEMENT_IMPORT_ADD_HEAD_REVISION);
    query_bind_text(&query, model->name);
    query_bind_number(&query, revision);
    query_bind_text(&query, head_kind_text(model->kind));
    query_bind_text(&query, model->engraved);
    query_bind_length(&query, model->weight);
    query_bind_length(&query, model->hosel_bore);
    query_bind_length(&query, model->insertion);
    query_bind_length(&query, model->bore_height);
    query_bind_text(&query, bore_kind_text(model->bore));
    query_bind_length(&query, model->loft);
    query_bind_length(&query, model->lie);
    query_bind_length(&query, model->cg_beyond);
    query_bind_length(&query, model->inertia);
    return query_run(&query, N_("save a head model"));
}

enum store_result import_write_head_model(struct import_write *write, const void *row) {
    struct import_head_model wanted = *(const struct import_head_model *)row;
    struct import_head_model newest;
    int64_t revision = 0;
    enum store_result result = newest_head_model(write->store, wanted.name, &newest, &revision);
    if (result == STORE_OK) {
        wanted.cg_beyond = import_or_known(write, wanted.cg_beyond, newest.cg_beyond);
        wanted.inertia = import_or_known(write, wanted.inertia, newest.inertia);
        if (same_head_model(&newest, &wanted)) {
            return STORE_OK;
        }
    }
    if (result == STORE_NONE) {
        result = add_name(write->store, STATEMENT_IMPORT_ADD_HEAD_MODEL, wanted.name);
    }
    if (result == STORE_OK) {
        count(write, IMPORT_HEAD_MODELS, revision == 0);
        result = add_head_revision(write->store, &wanted, revision + 1);
    }
    return result;
}

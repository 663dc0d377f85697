// Documents of what the store knows.

#include "sheet.h"
#include "catalogue.h"
#include "tongue.h"

#include <string.h>

static const struct {
    enum import_kind kind;
    size_t keys;
} sheets[] = {
    {IMPORT_HEADS, 1},  {IMPORT_SHAFTS, 1}, {IMPORT_HEAD_MODELS, 1}, {IMPORT_SHAFT_MODELS, 1},
    {IMPORT_CHARTS, 3}, {IMPORT_BUILDS, 2}, {IMPORT_ORDERS, 1},      {IMPORT_STOCK_LEVELS, 3},
};

bool sheet_kind(const char *sheet, enum import_kind *ret_kind, size_t *ret_keys) {
    for (size_t i = 0; i < sizeof sheets / sizeof sheets[0]; i++) {
        if (strcmp(import_kind_name(sheets[i].kind), sheet) == 0) {
            *ret_kind = sheets[i].kind;
            *ret_keys = sheets[i].keys;
            return true;
        }
    }
    return false;
}

// A text of the document into a field of the row; what does not fit names nothing.
static void key_text(const struct document *document, const char *name, char *to, size_t size) {
    const char *value = document_value(document, name);
    if (strlen(value) < size) {
        memcpy(to, value, strlen(value) + 1);
    }
}

static enum store_result load_chart(struct store *store, struct document *document) {
    char model[PARTS_NAME_MAX] = "";
    char flex[PARTS_SHORT_MAX] = "";
    enum chart_kind kind;
    struct chart chart;
    key_text(document, "model", model, sizeof model);
    key_text(document, "flex", flex, sizeof flex);
    if (!chart_kind_from_text(document_value(document, "kind"), &kind)) {
        return STORE_NONE;
    }
    enum store_result result = catalogue_chart(store, model, flex, kind, &chart);
    if (result == STORE_OK && chart.count == 0) {
        result = STORE_NONE; // taken back
    }
    return result == STORE_OK && !sheet_chart_cells(&chart, document)
               ? connection_say(store, STORE_FAILED, _("The chart does not fit."))
               : result;
}

static enum store_result load_row(struct store *store, enum import_kind kind,
                                  const struct document *document, union import_row *row) {
    switch ((int)kind) {
    case IMPORT_HEADS:
        key_text(document, "ticket", row->HEADS.ticket, sizeof row->HEADS.ticket);
        return import_known_head(store, &row->HEADS);
    case IMPORT_SHAFTS:
        key_text(document, "ticket", row->SHAFTS.shaft.ticket, sizeof row->SHAFTS.shaft.ticket);
        return import_known_shaft(store, &row->SHAFTS);
    case IMPORT_HEAD_MODELS:
        key_text(document, "model", row->HEAD_MODELS.name, sizeof row->HEAD_MODELS.name);
        return import_known_head_model(store, &row->HEAD_MODELS);
    case IMPORT_SHAFT_MODELS:
        key_text(document, "model", row->SHAFT_MODELS.model.name,
                 sizeof row->SHAFT_MODELS.model.name);
        return catalogue_model(store, document_value(document, "model"), &row->SHAFT_MODELS.model);
    case IMPORT_ORDERS:
        key_text(document, "build", row->ORDERS.build, sizeof row->ORDERS.build);
        return import_known_order(store, &row->ORDERS);
    case IMPORT_STOCK_LEVELS:
        key_text(document, "head_model", row->STOCK_LEVELS.head_model,
                 sizeof row->STOCK_LEVELS.head_model);
        key_text(document, "shaft_model", row->STOCK_LEVELS.shaft_model,
                 sizeof row->STOCK_LEVELS.shaft_model);
        key_text(document, "flex", row->STOCK_LEVELS.flex, sizeof row->STOCK_LEVELS.flex);
        return import_known_stock_level(store, &row->STOCK_LEVELS);
    default:
        key_text(document, "build", row->BUILDS.order.build, sizeof row->BUILDS.order.build);
        key_text(document, "club", row->BUILDS.order.club, sizeof row->BUILDS.order.club);
        return import_known_club(store, &row->BUILDS);
    }
}

enum store_result sheet_load(struct store *store, enum import_kind kind,
                             struct document *document) {
    union import_row row = {0};
    if (kind == IMPORT_CHARTS) {
        return load_chart(store, document);
    }
    enum store_result result = load_row(store, kind, document, &row);
    return result == STORE_OK && !sheet_row_cells(kind, &row, document)
               ? connection_say(store, STORE_FAILED, _("The %s do not fit."), document->sheet)
               : result;
}

enum store_result store_document(struct store *store, const char *sheet, const char *const *keys,
                                 struct document *ret_document) {
    static const char *const names[][CHANGE_KEYS_MAX] = {
        [IMPORT_HEADS] = {"ticket"},
        [IMPORT_SHAFTS] = {"ticket"},
        [IMPORT_HEAD_MODELS] = {"model"},
        [IMPORT_SHAFT_MODELS] = {"model"},
        [IMPORT_BUILDS] = {"build", "club"},
        [IMPORT_CHARTS] = {"model", "flex", "kind"},
        [IMPORT_ORDERS] = {"build"},
        [IMPORT_STOCK_LEVELS] = {"head_model", "shaft_model", "flex"},
    };
    struct document document = {0};
    enum import_kind kind;
    if (!connection_ready(store, N_("read the sheet"))) {
        return STORE_FAILED;
    }
    if (!sheet_kind(sheet, &kind, &document.keys)) {
        return connection_say(store, STORE_REFUSED, _("There is no sheet \"%s\"."), sheet);
    }
    strcpy(document.sheet, sheet);
    for (size_t i = 0; i < document.keys; i++) {
        if (!document_set(&document, names[kind][i], keys[i])) {
            return STORE_NONE; // nothing is called that
        }
    }
    enum store_result result = sheet_load(store, kind, &document);
    if (result == STORE_OK) {
        *ret_document = document;
    }
    return result;
}

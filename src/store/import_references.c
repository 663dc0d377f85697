#include "import_check.h"
#include "query.h"
#include "tongue.h"

#include <string.h>

// Where a name may be found: a table of the set, or by a statement in the store.
struct reference {
    enum import_kind kind;
    enum statement statement;
    const char *noun;
};
static const struct reference shaft_models = {IMPORT_SHAFT_MODELS, STATEMENT_IMPORT_HAS_SHAFT_MODEL,
                                              N_("shaft model")};
static const struct reference head_models = {IMPORT_HEAD_MODELS, STATEMENT_IMPORT_HAS_HEAD_MODEL,
                                             N_("head model")};
static const struct reference heads = {IMPORT_HEADS, STATEMENT_IMPORT_HAS_HEAD, N_("head")};
static const struct reference shafts = {IMPORT_SHAFTS, STATEMENT_IMPORT_HAS_SHAFT, N_("shaft")};

struct checking {
    struct store *store;
    const struct import_set *set;
    struct import_say *say;
    enum store_result result; // the first failure sticks
};

static void complain(struct checking *checking, struct import_at at, const char *column,
                     const struct reference *to, const char *name) {
    char quoted[IMPORT_QUOTED_MAX];
    if (import_say_form(checking->say)) {
        import_complain(checking->say, at, column,
                        _("there is no %s %s in the shop; choose one of the list"), _(to->noun),
                        import_quote(name, quoted));
        return;
    }
    import_complain(checking->say, at, column,
                    _("no %s %s in the shop or in these files; import %s.csv with it, or correct "
                      "the name"),
                    _(to->noun), import_quote(name, quoted), import_kind_name(to->kind));
}

// `key` is a row of the kind referred to, with its key set to `name`.
static void check(struct checking *checking, struct import_at at, const char *column,
                  const struct reference *to, const void *key, const char *name) {
    if (checking->result != STORE_OK || import_set_find(checking->set, to->kind, key) != NULL) {
        return;
    }
    struct query query = query_open(checking->store, to->statement);
    query_bind_text(&query, name);
    query_step(&query);
    enum store_result result = query_end(&query, N_("look for a part or model"));
    if (result == STORE_NONE) {
        if (!checking->set->table[to->kind].partial) {
            complain(checking, at, column, to, name);
        }
    } else if (result != STORE_OK) {
        checking->result = result;
    }
}

static void check_shaft_model(struct checking *checking, struct import_at at, const char *column,
                              const char *name) {
    struct import_shaft_model key = {0};
    strcpy(key.model.name, name);
    check(checking, at, column, &shaft_models, &key, name);
}

static void check_club(struct checking *checking, const struct import_club *club) {
    struct import_head head = {0};
    struct import_shaft shaft = {0};
    if (club->head[0] != '\0') {
        strcpy(head.ticket, club->head);
        check(checking, club->at, "head", &heads, &head, club->head);
    }
    if (club->shaft[0] != '\0') {
        strcpy(shaft.shaft.ticket, club->shaft);
        check(checking, club->at, "shaft", &shafts, &shaft, club->shaft);
    }
    if (club->order.wished_model[0] != '\0') {
        check_shaft_model(checking, club->at, "shaft_model", club->order.wished_model);
    }
}

static void check_head_model(struct checking *checking, struct import_at at, const char *column,
                             const char *name) {
    struct import_head_model key = {0};
    strcpy(key.name, name);
    check(checking, at, column, &head_models, &key, name);
}

static void check_models(struct checking *checking, struct import_at at, const char *head_model,
                         const char *shaft_model) {
    if (head_model[0] != '\0') {
        check_head_model(checking, at, "head_model", head_model);
    }
    if (shaft_model[0] != '\0') {
        check_shaft_model(checking, at, "shaft_model", shaft_model);
    }
}

// A name that could not be read is empty, and was complained about.
static void check_row(struct checking *checking, enum import_kind kind, const void *row) {
    const struct import_chart_cell *cell = row;
    const struct import_profile_point *point = row;
    const struct import_shaft *shaft = row;
    const struct import_head *head = row;
    const struct import_gtin *gtin = row;
    const struct import_stock_level *level = row;
    if (kind == IMPORT_CHARTS) {
        check_shaft_model(checking, cell->at, "model", cell->model);
    } else if (kind == IMPORT_PROFILES) {
        check_shaft_model(checking, point->at, "model", point->model);
    } else if (kind == IMPORT_SHAFTS && shaft->shaft.model[0] != '\0') {
        check_shaft_model(checking, shaft->at, "model", shaft->shaft.model);
    } else if (kind == IMPORT_HEADS && head->model[0] != '\0') {
        check_head_model(checking, head->at, "model", head->model);
    } else if (kind == IMPORT_BUILDS) {
        check_club(checking, row);
    } else if (kind == IMPORT_GTINS) {
        check_models(checking, gtin->at, gtin->head_model, gtin->shaft_model);
    } else if (kind == IMPORT_STOCK_LEVELS) {
        check_models(checking, level->at, level->head_model, level->shaft_model);
    }
}

enum store_result import_check_references(struct store *store, const struct import_set *set,
                                          struct import_say *say) {
    struct checking checking = {.store = store, .set = set, .say = say, .result = STORE_OK};
    for (int i = 0; i < IMPORT_KIND_COUNT; i++) {
        enum import_kind kind = (enum import_kind)i;
        for (size_t row = 0; row < set->table[kind].count; row++) {
            check_row(&checking, kind, import_set_row(set, kind, row));
        }
    }
    return checking.result;
}

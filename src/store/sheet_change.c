// A change into the tables, as the entry that is about to be logged says.

#include "catalogue.h"
#include "changes.h"
#include "import_check.h"
#include "people.h"
#include "sheet.h"
#include "told.h"
#include "tongue.h"

#include <string.h>

static void hear(void *ctx, const char *column, const char *text) {
    struct store *store = ctx;
    if (store->complaint_count < STORE_COMPLAINTS_MAX) {
        struct store_complaint *complaint = &store->complaint[store->complaint_count++];
        memset(complaint, 0, sizeof *complaint);
        strncpy(complaint->cell, column != NULL ? column : "", sizeof complaint->cell - 1);
        strncpy(complaint->text, text, sizeof complaint->text - 1);
    }
}

static enum store_result complain(struct store *store, const char *cell, const char *text) {
    hear(store, cell, text);
    return connection_say(store, STORE_REFUSED, "%s: %s", cell, text);
}

size_t store_complaints(const struct store *store, const struct store_complaint **ret_complaints) {
    *ret_complaints = store->complaint;
    return store->complaint_count;
}

static enum store_result complained(struct store *store, const struct import_say *say) {
    if (say->complaints == 0) {
        return STORE_OK;
    }
    const struct store_complaint *first = &store->complaint[0];
    return connection_say(store, STORE_REFUSED, "%s%s%s", first->cell,
                          first->cell[0] != '\0' ? ": " : "", first->text);
}

static enum store_result no_memory(struct store *store) {
    return connection_say(store, STORE_FAILED, _("Memory is short: close other programs."));
}

// --- what the store would write ------------------------------------------------------------------

static bool chart_as_written(const struct import_set *set, struct document *document) {
    struct chart chart = {.count = set->table[IMPORT_CHARTS].count};
    document->count = document->keys;
    for (size_t i = 0; i < chart.count && i < CHART_COLUMNS_MAX; i++) {
        chart.column[i] =
            ((const struct import_chart_cell *)set->table[IMPORT_CHARTS].sorted[i])->column;
    }
    return chart.count <= CHART_COLUMNS_MAX && sheet_chart_cells(&chart, document);
}

// Reads, checks and sorts the rows of a document, and writes its cells as the store does.
static enum store_result read_document(struct store *store, enum import_kind kind,
                                       struct import_say *say, struct import_set *set,
                                       struct document *document) {
    if (!sheet_rows(document, kind, say, set) || !import_set_sort(set) ||
        !import_check_set(set, say)) {
        return no_memory(store);
    }
    if (kind == IMPORT_CHARTS && set->table[kind].count == 0) {
        import_complain(say, (struct import_at){.file = document->sheet}, ":",
                        _("the chart has no column; add one"));
    }
    enum store_result result = complained(store, say);
    if (result == STORE_OK) {
        result = import_check_references(store, set, say);
    }
    if (result == STORE_OK) {
        result = complained(store, say);
    }
    if (result == STORE_OK &&
        !(kind == IMPORT_CHARTS ? chart_as_written(set, document)
                                : sheet_row_cells(kind, import_set_row(set, kind, 0), document))) {
        result = connection_say(store, STORE_REFUSED, _("This does not fit. Write less."));
    }
    return result;
}

enum store_result store_canonical(struct store *store, struct document *document) {
    struct import_set set = import_set_init();
    struct import_say say = {.listener = hear, .ctx = store};
    struct document canonical = *document;
    enum import_kind kind;
    size_t keys;
    store->complaint_count = 0;
    if (!connection_ready(store, N_("read the sheet"))) {
        return STORE_FAILED;
    }
    if (!sheet_kind(document->sheet, &kind, &keys) || document->keys != keys) {
        return connection_say(store, STORE_REFUSED, _("There is no sheet \"%s\"."),
                              document->sheet);
    }
    enum store_result result = read_document(store, kind, &say, &set, &canonical);
    import_set_release(&set);
    if (result == STORE_OK) {
        *document = canonical;
    }
    return result;
}

// --- writing -------------------------------------------------------------------------------------

static enum store_result write_rows(struct import_write *write, enum import_kind kind) {
    const void *row = import_set_row(write->set, kind, 0);
    enum store_result result;
    switch ((int)kind) {
    case IMPORT_HEADS:
        return import_write_head(write, row);
    case IMPORT_SHAFTS:
        return import_write_shaft(write, row);
    case IMPORT_HEAD_MODELS:
        return import_write_head_model(write, row);
    case IMPORT_SHAFT_MODELS:
        return import_write_shaft_model(write, row);
    case IMPORT_CHARTS:
        return import_write_chart(write, write->set->table[kind].sorted,
                                  write->set->table[kind].count);
    case IMPORT_ORDERS:
        return import_write_order(write, row);
    case IMPORT_STOCK_LEVELS:
        return import_write_stock_level(write, row);
    default:
        result = import_write_club(write, row);
        return result == STORE_OK ? import_write_club_parts(write, row) : result;
    }
}

static enum store_result put(struct store *store, enum import_kind kind, struct document *after) {
    struct import_set set = import_set_init();
    struct import_say say = {.listener = hear, .ctx = store};
    struct import_write write = {.store = store, .set = &set, .say = &say, .exact = true};
    struct document canonical = *after;
    struct change odd;
    enum store_result result = read_document(store, kind, &say, &set, &canonical);
    change_between(after, &canonical, &odd);
    if (result == STORE_OK && !change_empty(&odd)) {
        result = complain(store, odd.cell[0].name, _("is not written as the log keeps it"));
    }
    if (result == STORE_OK) {
        result = write_rows(&write, kind);
    }
    if (result == STORE_OK) {
        result = complained(store, &say);
    }
    import_set_release(&set);
    return result;
}

// --- taking away ---------------------------------------------------------------------------------

static enum store_result used_part(struct store *store, bool head, const char *ticket,
                                   bool *ret_yes) {
    struct query query =
        query_open(store, head ? STATEMENT_SHEET_HEAD_USED : STATEMENT_SHEET_SHAFT_USED);
    query_bind_text(&query, ticket);
    query_step(&query);
    enum store_result result = query_end(&query, N_("look what became of a part"));
    if (result == STORE_OK || result == STORE_NONE) {
        *ret_yes = result == STORE_OK;
        return STORE_OK;
    }
    return result;
}

// A part that was received by mistake and never used.
static enum store_result take_part(struct store *store, bool head, const char *ticket) {
    bool used = true;
    enum store_result result = used_part(store, head, ticket, &used);
    if (result == STORE_OK && used) {
        result =
            complain(store, "ticket",
                     _("this part is reserved or has been worked on, so it stays in the shop's "
                       "books"));
    }
    if (result != STORE_OK) {
        return result;
    }
    struct query query =
        query_open(store, head ? STATEMENT_SHEET_TAKE_HEAD : STATEMENT_SHEET_TAKE_SHAFT);
    query_bind_text(&query, ticket);
    return query_run(&query, N_("take a part back"));
}

// A chart of no column: the next revision, in which the maker has none.
static enum store_result take_chart(struct store *store, const struct document *now) {
    struct chart chart;
    enum chart_kind kind;
    if (!chart_kind_from_text(document_value(now, "kind"), &kind)) {
        return STORE_NONE;
    }
    enum store_result result = catalogue_chart(store, document_value(now, "model"),
                                               document_value(now, "flex"), kind, &chart);
    if (result != STORE_OK) {
        return result;
    }
    struct query query = query_open(store, STATEMENT_IMPORT_ADD_CHART);
    query_bind_text(&query, document_value(now, "model"));
    query_bind_text(&query, document_value(now, "flex"));
    query_bind_text(&query, document_value(now, "kind"));
    query_bind_number(&query, chart.revision + 1);
    while (query_step(&query)) {
        // gives the new row's id
    }
    return query_end(&query, N_("take a chart back"));
}

// An order that was begun by mistake and has no club.
static enum store_result take_order(struct store *store, const char *build) {
    struct query query = query_open(store, STATEMENT_ORDER_TAKE);
    query_bind_text(&query, build);
    query_step(&query);
    enum store_result result = query_end(&query, N_("take an order back"));
    return result == STORE_NONE
               ? complain(store, "build", _("this order has clubs; set its status to cancelled"))
               : result;
}

static enum store_result take_stock_level(struct store *store, const struct document *now) {
    bool head = document_value(now, "head_model")[0] != '\0';
    struct query query = query_open(store, STATEMENT_STOCK_LEVEL_TAKE);
    query_bind_text(&query, head ? "head" : "shaft");
    query_bind_text(&query, document_value(now, head ? "head_model" : "shaft_model"));
    query_bind_text(&query, document_value(now, "flex"));
    return query_run(&query, N_("take a stock level back"));
}

static enum store_result take(struct store *store, enum import_kind kind,
                              const struct document *now) {
    switch ((int)kind) {
    case IMPORT_HEADS:
    case IMPORT_SHAFTS:
        return take_part(store, kind == IMPORT_HEADS, document_value(now, "ticket"));
    case IMPORT_CHARTS:
        return take_chart(store, now);
    case IMPORT_ORDERS:
        return take_order(store, document_value(now, "build"));
    case IMPORT_STOCK_LEVELS:
        return take_stock_level(store, now);
    case IMPORT_BUILDS:
        return complain(store, "cancelled",
                        _("a club stays in the books once it is ordered; cancel it instead"));
    default:
        return complain(store, now->cell[0].name,
                        _("this stays in the shop's books once it is there; change it instead"));
    }
}

// --- the change ----------------------------------------------------------------------------------

static enum store_result allowed(struct store *store, enum import_kind kind, const char *badge) {
    bool supervisor = false;
    struct worker worker;
    if (kind == IMPORT_HEADS || kind == IMPORT_SHAFTS) {
        enum store_result result = store_worker(store, badge, &worker);
        return result == STORE_NONE
                   ? connection_say(store, STORE_REFUSED, _("Nobody here has badge \"%s\"."), badge)
                   : result;
    }
    enum store_result result = people_supervisor(store, badge, &supervisor);
    return result == STORE_OK && !supervisor
               ? connection_say(store, STORE_REFUSED,
                                _("Only a supervisor may change this, not %s."),
                                badge[0] == '\0' ? "nobody" : badge)
               : result;
}

// What an entry refers to is what it takes back, exactly.
static enum store_result takes_back(struct store *store, const struct entry *entry,
                                    const struct change *change) {
    struct entry before;
    struct change first, back;
    char wanted[CHANGE_TEXT_MAX], given[CHANGE_TEXT_MAX];
    if (entry->refers == 0) {
        return STORE_OK;
    }
    enum store_result result = store_entry(store, entry->refers, &before);
    if (result != STORE_OK && result != STORE_NONE) {
        return result;
    }
    if (result == STORE_NONE || before.kind != ENTRY_CHANGE || !change_read(before.plan, &first)) {
        return connection_say(store, STORE_REFUSED, _("Entry %lld is no change to be taken back."),
                              (long long)entry->refers);
    }
    change_back(&first, &back);
    return change_write(&back, wanted, sizeof wanted) &&
                   change_write(change, given, sizeof given) && strcmp(wanted, given) == 0
               ? STORE_OK
               : connection_say(store, STORE_REFUSED, _("This does not take back entry %lld."),
                                (long long)entry->refers);
}

static enum store_result load_now(struct store *store, enum import_kind kind,
                                  const struct change *change, struct document *now) {
    *now = (struct document){.keys = change->keys, .count = change->keys};
    strcpy(now->sheet, change->sheet);
    memcpy(now->cell, change->key, change->keys * sizeof now->cell[0]);
    return sheet_load(store, kind, now);
}

static enum store_result in_time(struct store *store, const struct change *change) {
    const char *cell = "";
    char why[TOLD_WHY_MAX];
    enum store_result result = told_in_time(store, change, &cell, why);
    return result == STORE_REFUSED ? complain(store, cell, why) : result;
}

static enum store_result carry_out(struct store *store, enum import_kind kind,
                                   const struct change *change) {
    struct document now;
    struct document after;
    enum store_result result = in_time(store, change);
    if (result != STORE_OK) {
        return result;
    }
    result = load_now(store, kind, change, &now);
    if (result != STORE_OK && result != STORE_NONE) {
        return result;
    }
    const char *other = change_apply(change, result == STORE_OK ? &now : NULL, &after);
    if (other != NULL) {
        return complain(store, other,
                        change->made ? _("is there already; take another")
                                     : _("is not as it was any more; look again, then change it"));
    }
    return change->taken ? take(store, kind, &now) : put(store, kind, &after);
}

enum store_result sheet_change(struct store *store, const struct entry *entry) {
    struct change change;
    enum import_kind kind;
    size_t keys;
    store->complaint_count = 0;
    if (!change_read(entry->plan, &change) || change_empty(&change) ||
        !sheet_kind(change.sheet, &kind, &keys) || keys != change.keys) {
        return connection_say(store, STORE_REFUSED, _("The change is not well formed."));
    }
    enum store_result result = allowed(store, kind, entry->worker);
    if (result == STORE_OK) {
        result = takes_back(store, entry, &change);
    }
    if (result == STORE_OK) {
        result = carry_out(store, kind, &change);
    }
    if (result == STORE_OK) {
        result = changes_add(store, entry->seq, &change);
    }
    return result == STORE_OK ? told_mark(store, entry, &change) : result;
}

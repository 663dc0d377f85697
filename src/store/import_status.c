// Orders as a whole: status, priority, the shop's own reference.

#include "import_write.h"
#include "tongue.h"

#include <string.h>

static enum store_result look_up(struct store *store, const char *build,
                                 struct import_order *ret_order) {
    struct import_order order = {0};
    char status[16];
    struct query query = query_open(store, STATEMENT_IMPORT_ORDER);
    query_bind_text(&query, build);
    if (query_step(&query)) {
        query_text(&query, 0, status, sizeof status);
        query.odd |= !order_status_from_text(status, &order.status);
        order.priority = query_int(&query, 1);
        query_text(&query, 2, order.reference, sizeof order.reference);
        query_text(&query, 3, order.note, sizeof order.note);
    }
    enum store_result result = query_end(&query, N_("look up an order"));
    if (result == STORE_OK) {
        memcpy(order.build, build, strnlen(build, sizeof order.build - 1));
        *ret_order = order;
    }
    return result;
}

enum store_result import_known_order(struct store *store, struct import_order *row) {
    return look_up(store, row->build, row);
}

static enum store_result save(struct store *store, enum statement statement,
                              const struct import_order *order) {
    struct query query = query_open(store, statement);
    query_bind_text(&query, order_status_text(order->status));
    query_bind_number(&query, order->priority);
    query_bind_text(&query, order->reference);
    query_bind_text(&query, order->note);
    query_bind_text(&query, order->build);
    return query_run(&query, N_("save an order"));
}

static enum store_result on_order(struct store *store, enum statement statement,
                                  const char *build) {
    struct query query = query_open(store, statement);
    query_bind_text(&query, build);
    return query_run(&query, N_("let go of the parts of an order"));
}

// Complains when one of its clubs is begun: a shaft that is cut is nobody's stock.
static enum store_result may_be_cancelled(struct import_write *write,
                                          const struct import_order *order, bool *ret_may) {
    char club[PARTS_SHORT_MAX] = "";
    struct query query = query_open(write->store, STATEMENT_ORDER_BEGUN_CLUB);
    query_bind_text(&query, order->build);
    if (query_step(&query)) {
        query_text(&query, 0, club, sizeof club);
    }
    enum store_result result = query_end(&query, N_("look for a club that is begun"));
    if (result == STORE_OK) {
        import_complain(write->say, order->at, "status",
                        _("club %s of order %s is begun at the saw, so the order cannot be "
                          "cancelled; finish or scrap that club first, or hold the order"),
                        club, order->build);
    }
    if (result == STORE_OK || result == STORE_NONE) {
        *ret_may = result == STORE_NONE;
        return STORE_OK;
    }
    return result;
}

static enum store_result cancel(struct import_write *write, const struct import_order *order) {
    static const enum statement freed[] = {STATEMENT_ORDER_FREE_HEADS, STATEMENT_ORDER_FREE_SHAFTS,
                                           STATEMENT_ORDER_NO_CONSENT};
    bool may = false;
    enum store_result result = may_be_cancelled(write, order, &may);
    for (size_t i = 0; result == STORE_OK && may && i < sizeof freed / sizeof freed[0]; i++) {
        result = on_order(write->store, freed[i], order->build);
    }
    return result;
}

enum store_result import_write_order(struct import_write *write, const void *row) {
    struct import_order order = *(const struct import_order *)row;
    struct import_order known;
    enum store_result result = look_up(write->store, order.build, &known);
    if (result == STORE_NONE) {
        write->count[IMPORT_ORDERS].added++;
        return save(write->store, STATEMENT_IMPORT_ADD_ORDER, &order);
    }
    if (result != STORE_OK) {
        return result;
    }
    if (!write->exact) {
        import_keep_text(order.reference, known.reference, sizeof order.reference);
        import_keep_text(order.note, known.note, sizeof order.note);
    }
    if (order.status == known.status && order.priority == known.priority &&
        strcmp(order.reference, known.reference) == 0 && strcmp(order.note, known.note) == 0) {
        return STORE_OK;
    }
    if (order.status == ORDER_CANCELLED && known.status != ORDER_CANCELLED) {
        result = cancel(write, &order);
    }
    write->count[IMPORT_ORDERS].changed++;
    return result == STORE_OK ? save(write->store, STATEMENT_IMPORT_SET_ORDER, &order) : result;
}

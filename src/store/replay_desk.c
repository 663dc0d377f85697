// What the desk changed, held against the tables: the newest value of every cell that nothing but a
// change or an import writes, and which orders a bench must still hear of. An import may change
// what it likes, so that only what was changed after the last one is known.

#include "orders.h"
#include "query.h"
#include "replay.h"
#include "text.h"
#include "tongue.h"

#include <sodium.h>
#include <stdio.h>
#include <string.h>

// --- orders to be told of ------------------------------------------------------------------------

static struct replay_order *order_of(struct replay *replay, const char *build) {
    uint8_t key[TABLE_KEY_SIZE] = {0};
    bool new;
    memcpy(key, build, strnlen(build, TABLE_KEY_SIZE));
    return table_take(&replay->orders, key, &new);
}

bool replay_order_moves(struct replay *replay, const struct entry *entry, enum stage before,
                        enum stage after) {
    int begun = (after != STAGE_PENDING) - (before != STAGE_PENDING);
    struct replay_order *order = begun != 0 ? order_of(replay, entry->build) : NULL;
    if (order != NULL) {
        order->begun += begun;
    }
    return begun == 0 || order != NULL;
}

bool replay_order_changes(struct replay *replay, const struct entry *entry) {
    struct change change;
    bool told = entry->kind == ENTRY_TOLD;
    if (entry->kind == ENTRY_IMPORT) {
        replay->imported = entry->seq;
    }
    if (!told && (entry->kind != ENTRY_CHANGE || entry->build[0] == '\0' ||
                  !change_read(entry->plan, &change) || !order_change_tells(&change))) {
        return true;
    }
    struct replay_order *order = order_of(replay, entry->build);
    if (order != NULL && told) {
        order->changed = 0;
    } else if (order != NULL && order->begun > 0 && order->changed == 0) {
        order->changed = entry->seq;
    }
    return order != NULL;
}

static enum store_result orders(const struct replay *replay, struct store_check *check) {
    enum store_result result = STORE_OK;
    struct query query = query_open(replay->store, STATEMENT_CHECK_ORDERS);
    while (result == STORE_OK && query_step(&query)) {
        uint8_t key[TABLE_KEY_SIZE] = {0};
        char build[PARTS_BUILD_MAX];
        query_text(&query, 0, build, sizeof build);
        int64_t changed = query_id(&query, 1);
        memcpy(key, build, strlen(build));
        const struct replay_order *order = table_find(&replay->orders, key);
        if (!query.odd && changed != (order == NULL ? 0 : order->changed)) {
            snprintf(check->problem, sizeof check->problem,
                     _("Order %s: what a bench must still hear of is not what the log says."),
                     build);
            result = STORE_REFUSED;
        }
    }
    enum store_result ended = query_end(&query, N_("compare the orders with the log"));
    return ended == STORE_OK || ended == STORE_NONE ? result : ended;
}

// --- cells ---------------------------------------------------------------------------------------

// Written by the bench too.
static bool of_the_bench(const char *sheet, const char *cell) {
    static const char *const cells[][2] = {{"heads", "dry_fit_overall"},
                                           {"heads", "dry_fit_raw"},
                                           {"heads", "bore_height"},
                                           {"builds", "head"},
                                           {"builds", "shaft"}};
    for (size_t i = 0; i < sizeof cells / sizeof cells[0]; i++) {
        if (strcmp(cells[i][0], sheet) == 0 && strcmp(cells[i][1], cell) == 0) {
            return true;
        }
    }
    return false;
}

// Whether this cell of this thing was not met before; it is from now on. `cell` empty: the thing.
static bool first_time(struct table *seen, const struct change *change, const char *cell,
                       bool *memory) {
    uint8_t key[TABLE_KEY_SIZE];
    crypto_generichash_state state;
    bool new = false;
    crypto_generichash_init(&state, NULL, 0, sizeof key);
    crypto_generichash_update(&state, (const uint8_t *)change->sheet, strlen(change->sheet) + 1);
    for (size_t i = 0; i < change->keys; i++) {
        const char *value = change->key[i].value;
        crypto_generichash_update(&state, (const uint8_t *)value, strlen(value) + 1);
    }
    crypto_generichash_update(&state, (const uint8_t *)cell, strlen(cell) + 1);
    crypto_generichash_final(&state, key, sizeof key);
    *memory = table_take(seen, key, &new) != NULL && *memory;
    return new;
}

static enum store_result differs(struct store_check *check, int64_t seq,
                                 const struct change *change, const char *what) {
    char name[sizeof check->problem];
    struct text row = text_open(name, sizeof name);
    struct text text = text_open(check->problem, sizeof check->problem);
    text_add(&row, change->sheet);
    for (size_t i = 0; i < change->keys; i++) {
        text_add(&row, " ");
        text_add(&row, change->key[i].value);
    }
    // TRANSLATORS: %1 a sheet and the keys of a row, as `builds 2041 3`, %2 a column of it.
    text_say(&text, _("%1: the %2 is not what the log says, entry %3."), name, what,
             text_number(seq).digits);
    return STORE_REFUSED;
}

// Newest first. What takes a thing away names all its cells, so that nothing older counts when it
// is made once more.
static enum store_result cells(struct store *store, struct table *seen, int64_t seq,
                               const struct change *change, struct store_check *check) {
    const char *keys[CHANGE_KEYS_MAX];
    struct document now;
    bool memory = true;
    for (size_t i = 0; i < change->keys; i++) {
        keys[i] = change->key[i].value;
    }
    enum store_result result = store_document(store, change->sheet, keys, &now);
    if (result != STORE_OK && result != STORE_NONE) {
        return result;
    }
    bool there = result == STORE_OK;
    if (first_time(seen, change, "", &memory) && there == change->taken) {
        return differs(check, seq, change, T_("row", "row"));
    }
    for (size_t i = 0; there && i < change->count; i++) {
        const struct change_cell *cell = &change->cell[i];
        if (!of_the_bench(change->sheet, cell->name) &&
            first_time(seen, change, cell->name, &memory) &&
            strcmp(document_value(&now, cell->name), cell->after) != 0) {
            return differs(check, seq, change, cell->name);
        }
    }
    return memory ? STORE_OK
                  : connection_say(store, STORE_FAILED, _("No memory to go through the log of %s."),
                                   store->path);
}

static enum store_result next_change(struct store *store, int64_t before, int64_t after,
                                     struct entry *ret_entry) {
    int64_t seq = 0;
    struct query query = query_open(store, STATEMENT_CHECK_CHANGED);
    query_bind_number(&query, before);
    query_bind_number(&query, after);
    if (query_step(&query)) {
        seq = query_number(&query, 0);
    }
    enum store_result result = query_end(&query, N_("look for what was changed"));
    return result == STORE_OK ? store_entry(store, seq, ret_entry) : result;
}

// From the newest change back to the last import.
static enum store_result changes(const struct replay *replay, struct store_check *check) {
    struct table seen = table_init(TABLE_KEY_SIZE);
    struct entry entry = {.seq = INT64_MAX};
    struct change change;
    enum store_result result = STORE_OK;
    while (result == STORE_OK) {
        result = next_change(replay->store, entry.seq, replay->imported, &entry);
        if (result == STORE_OK && change_read(entry.plan, &change)) {
            result = cells(replay->store, &seen, entry.seq, &change, check);
        }
    }
    table_release(&seen);
    return result == STORE_NONE ? STORE_OK : result;
}

enum store_result replay_desk(const struct replay *replay, struct store_check *check) {
    enum store_result result = orders(replay, check);
    return result == STORE_OK ? changes(replay, check) : result;
}

#include "told.h"
#include "orders.h"
#include "tongue.h"
#include "work.h"
#include "workshop.h"

#include <stdio.h>
#include <string.h>

// --- naming --------------------------------------------------------------------------------------

static const char *key_of(const struct change *change, const char *name) {
    for (size_t i = 0; i < change->keys; i++) {
        if (strcmp(change->key[i].name, name) == 0) {
            return change->key[i].value;
        }
    }
    return "";
}

static void put(char *to, size_t size, const char *text) {
    if (strlen(text) < size) {
        memset(to, 0, size);
        memcpy(to, text, strlen(text));
    }
}

static enum store_result name_part(struct store *store, const char *ticket, struct entry *entry) {
    struct part part = {0};
    bool head = strncmp(ticket, "H-", 2) == 0;
    enum store_result result = store_part(store, ticket, &part);
    put(head ? entry->head : entry->shaft, TICKET_TEXT_MAX, ticket);
    if (result == STORE_OK) {
        put(entry->build, sizeof entry->build, part.build);
        put(entry->club, sizeof entry->club, part.club);
    }
    return result == STORE_NONE ? STORE_OK : result;
}

enum store_result told_name(struct store *store, struct entry *entry) {
    struct change change;
    if (entry->kind != ENTRY_CHANGE || !change_read(entry->plan, &change)) {
        return STORE_OK; // what is no change is refused when it is carried out
    }
    put(entry->build, sizeof entry->build, key_of(&change, "build"));
    put(entry->club, sizeof entry->club, key_of(&change, "club"));
    if (strcmp(change.sheet, "heads") == 0 || strcmp(change.sheet, "shafts") == 0) {
        return name_part(store, key_of(&change, "ticket"), entry);
    }
    return STORE_OK;
}

// --- too late ------------------------------------------------------------------------------------

static void why(const struct progress *progress, bool cut, char ret_why[TOLD_WHY_MAX]) {
    bool butt = progress->butt_seq != 0 || progress->measure_seq != 0;
    bool tip = cut || progress->tip_seq != 0 || progress->tip_made != LENGTH_UNKNOWN;
    if (progress->stage == STAGE_DONE) {
        snprintf(ret_why, TOLD_WHY_MAX, _("this club is done; it stays as it is"));
    } else if (butt || tip) {
        snprintf(ret_why, TOLD_WHY_MAX,
                 _("the shaft of this club is cut; make a new line for it, or "
                   "scrap the shaft at the review first"));
    } else {
        snprintf(ret_why, TOLD_WHY_MAX,
                 _("its mark was shown at %s and may be cut by now; let that bench finish it, or "
                   "hold the order"),
                 progress->bench);
    }
}

enum store_result told_in_time(struct store *store, const struct change *change,
                               const char **ret_cell, char ret_why[TOLD_WHY_MAX]) {
    struct work work = {0};
    struct part shaft = {.life = PART_RAW};
    int64_t id = 0;
    if (change->made || strcmp(change->sheet, "builds") != 0) {
        return STORE_OK;
    }
    enum store_result result =
        store_club_named(store, key_of(change, "build"), key_of(change, "club"), &id);
    if (result == STORE_OK) {
        result = work_load(store, id, &work);
    }
    if (result == STORE_OK && work.shaft[0] != '\0') {
        result = store_part(store, work.shaft, &shaft);
    }
    if (result != STORE_OK) {
        return result == STORE_NONE ? STORE_OK : result; // change_apply says so
    }
    const char *cell = order_too_late(change, &work.progress, shaft.life != PART_RAW);
    if (cell == NULL) {
        return STORE_OK;
    }
    *ret_cell = cell;
    why(&work.progress, shaft.life != PART_RAW, ret_why);
    return STORE_REFUSED;
}

// --- what a bench must hear ----------------------------------------------------------------------

static enum store_result begun(struct store *store, const char *build, bool *ret_begun) {
    struct query query = query_open(store, STATEMENT_ORDER_BEGUN);
    query_bind_text(&query, build);
    query_step(&query);
    enum store_result result = query_end(&query, N_("look whether the order is begun"));
    if (result == STORE_OK || result == STORE_NONE) {
        *ret_begun = result == STORE_OK;
        return STORE_OK;
    }
    return result;
}

enum store_result told_mark(struct store *store, const struct entry *entry,
                            const struct change *change) {
    bool is_begun = false;
    if (entry->build[0] == '\0' || !order_change_tells(change)) {
        return STORE_OK;
    }
    enum store_result result = begun(store, entry->build, &is_begun);
    if (result != STORE_OK || !is_begun) {
        return result;
    }
    struct query query = query_open(store, STATEMENT_ORDER_CHANGED);
    query_bind_number(&query, entry->seq);
    query_bind_text(&query, entry->build);
    return query_run(&query, N_("mark the order as changed"));
}

// One of the entries about an order; false when a bench need not hear of it.
static bool read_change(struct query *query, struct change_line *line) {
    char plan[ENTRY_PLAN_MAX];
    struct change change;
    memset(line, 0, sizeof *line);
    line->seq = query_number(query, 0);
    line->wall_ms = query_number(query, 1);
    query_text(query, 2, line->worker, sizeof line->worker);
    query_text(query, 3, line->club, sizeof line->club);
    query_text(query, 4, line->part, sizeof line->part);
    query_text(query, 5, plan, sizeof plan);
    if (!change_read(plan, &change) || !order_change_tells(&change)) {
        return false;
    }
    change_words(&change, line->words, sizeof line->words);
    return true;
}

static struct query open_changes(struct store *store, const char *build, int64_t from) {
    struct query query = query_open(store, STATEMENT_ORDER_CHANGES);
    query_bind_text(&query, build);
    query_bind_number(&query, from);
    return query;
}

int store_order_changes(struct store *store, const char *build, int64_t from,
                        struct change_line *lines, int max) {
    int count = 0;
    struct query query = open_changes(store, build, from);
    while (count < max && query_step(&query)) {
        count += read_change(&query, &lines[count]) ? 1 : 0;
    }
    enum store_result result = query_end(&query, N_("list the changes of an order"));
    return result == STORE_OK || result == STORE_NONE ? count : -1;
}

static enum store_result untold(struct store *store, const char *build, int64_t *ret_first,
                                int64_t *ret_newest) {
    struct change_line line;
    int64_t first = 0;
    struct query query = query_open(store, STATEMENT_ORDER_UNTOLD);
    query_bind_text(&query, build);
    if (query_step(&query)) {
        first = query_id(&query, 0);
    }
    enum store_result result = query_end(&query, N_("look up an order"));
    if (result != STORE_OK) {
        return result;
    }
    *ret_first = first;
    query = open_changes(store, build, first);
    while (first != 0 && query_step(&query)) {
        if (read_change(&query, &line)) {
            *ret_newest = line.seq;
        }
    }
    result = query_end(&query, N_("list the changes of an order"));
    return result == STORE_NONE ? STORE_OK : result;
}

enum store_result told_allowed(struct store *store, const struct entry *entry) {
    int64_t first = 0;
    int64_t newest = 0;
    enum store_result result = untold(store, entry->build, &first, &newest);
    if (result != STORE_OK && result != STORE_NONE) {
        return result;
    }
    return first != 0 && entry->refers == newest
               ? STORE_OK
               : connection_say(store, STORE_REFUSED,
                                _("Order %s was changed once more, or another bench was told. Scan "
                                  "both parts again."),
                                entry->build);
}

enum store_result told_clear(struct store *store, const struct entry *entry) {
    struct query query = query_open(store, STATEMENT_ORDER_TOLD);
    query_bind_text(&query, entry->build);
    return query_run(&query, N_("mark the order's changes as told"));
}

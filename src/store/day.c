#include "day.h"
#include "chain.h"

#define QUARTER_MS 900000

int64_t day_quarter(int64_t wall_ms) {
    return wall_ms / QUARTER_MS - (wall_ms % QUARTER_MS < 0 ? 1 : 0);
}

static bool is_cut(enum entry_kind kind) {
    return kind == ENTRY_TIP_CUT || kind == ENTRY_BUTT_CUT;
}

// Past the mark, or measured short: what a supervisor decides on.
static bool is_off(const struct entry *entry) {
    return (entry->kind == ENTRY_TIP_CUT || entry->kind == ENTRY_MEASURE) &&
           entry->verdict == VERDICT_SHORT;
}

static enum store_result add(struct store *store, const struct entry *entry, bool done) {
    struct query query = query_open(store, STATEMENT_QUARTER_ADD);
    query_bind_number(&query, day_quarter(entry->wall_ms));
    query_bind_number(&query, entry->seq);
    query_bind_number(&query, done);
    query_bind_number(&query, is_cut(entry->kind));
    query_bind_number(&query, is_off(entry));
    query_bind_number(&query, entry->kind == ENTRY_HOLD);
    return query_run(&query, "count the entry");
}

static enum store_result change(struct store *store, int64_t wall_ms, int done, int cuts, int off) {
    struct query query = query_open(store, STATEMENT_QUARTER_CHANGE);
    query_bind_number(&query, day_quarter(wall_ms));
    query_bind_number(&query, done);
    query_bind_number(&query, cuts);
    query_bind_number(&query, off);
    return query_run(&query, "count the entry it refers to");
}

enum store_result day_entry(struct store *store, const struct entry *entry, enum stage before,
                            enum stage after) {
    bool withdraw = entry->kind == ENTRY_WITHDRAW;
    int done = (after == STAGE_DONE) - (before == STAGE_DONE);
    struct entry about;
    // A decision or withdrawal changes the count of the time it is about: a club is done when it
    // was measured.
    if (!withdraw && !(entry->kind == ENTRY_DECIDE && done != 0)) {
        return add(store, entry, done > 0);
    }
    enum store_result result = add(store, entry, false);
    if (result == STORE_OK) {
        result = store_entry(store, entry->refers, &about);
    }
    if (result != STORE_OK) {
        return result;
    }
    return change(store, about.wall_ms, done, withdraw && is_cut(about.kind) ? -1 : 0,
                  withdraw && is_off(&about) ? -1 : 0);
}

enum store_result store_day(struct store *store, int64_t from_ms, int64_t to_ms,
                            struct day_count *ret_count) {
    struct day_count count = {0};
    struct query query = query_open(store, STATEMENT_QUARTER_SUM);
    query_bind_number(&query, day_quarter(from_ms));
    query_bind_number(&query, day_quarter(to_ms));
    if (query_step(&query)) {
        count.clubs_done = query_number(&query, 0);
        count.cuts = query_number(&query, 1);
        count.out_of_tolerance = query_number(&query, 2);
        count.holds = query_number(&query, 3);
        count.open_decisions = query_number(&query, 4);
    }
    enum store_result result = query_end(&query, "count the day");
    if (result == STORE_OK) {
        *ret_count = count;
    }
    return result;
}

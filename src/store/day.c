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

bool day_is_about(const struct entry *entry, enum stage before, enum stage after) {
    return entry->kind == ENTRY_WITHDRAW ||
           (entry->kind == ENTRY_DECIDE && (after == STAGE_DONE) != (before == STAGE_DONE));
}

struct day_change day_own(const struct entry *entry, enum stage before, enum stage after) {
    bool done = after == STAGE_DONE && before != STAGE_DONE;
    return (struct day_change){
        .quarter = day_quarter(entry->wall_ms),
        .done = done && !day_is_about(entry, before, after) ? 1 : 0,
        .cuts = is_cut(entry->kind) ? 1 : 0,
        .off = is_off(entry) ? 1 : 0,
        .holds = entry->kind == ENTRY_HOLD ? 1 : 0,
    };
}

struct day_change day_of_about(const struct entry *entry, const struct entry *about,
                               enum stage before, enum stage after) {
    bool withdraw = entry->kind == ENTRY_WITHDRAW;
    return (struct day_change){
        .quarter = day_quarter(about->wall_ms),
        .done = (after == STAGE_DONE) - (before == STAGE_DONE),
        .cuts = withdraw && is_cut(about->kind) ? -1 : 0,
        .off = withdraw && is_off(about) ? -1 : 0,
    };
}

static enum store_result span(struct store *store, int64_t seq, int64_t quarter) {
    struct query query = query_open(store, STATEMENT_SPAN_ADD);
    query_bind_number(&query, quarter);
    query_bind_number(&query, seq);
    return query_run(&query, N_("note the time of the entry"));
}

static enum store_result add(struct store *store, const struct day_change *own) {
    struct query query = query_open(store, STATEMENT_QUARTER_ADD);
    query_bind_number(&query, own->quarter);
    query_bind_number(&query, own->done);
    query_bind_number(&query, own->cuts);
    query_bind_number(&query, own->off);
    query_bind_number(&query, own->holds);
    return query_run(&query, N_("count the entry"));
}

static enum store_result change(struct store *store, const struct day_change *about) {
    struct query query = query_open(store, STATEMENT_QUARTER_CHANGE);
    query_bind_number(&query, about->quarter);
    query_bind_number(&query, about->done);
    query_bind_number(&query, about->cuts);
    query_bind_number(&query, about->off);
    return query_run(&query, N_("count the entry it refers to"));
}

enum store_result day_entry(struct store *store, const struct entry *entry, enum stage before,
                            enum stage after) {
    struct entry about;
    struct day_change own = day_own(entry, before, after);
    enum store_result result = span(store, entry->seq, own.quarter);
    if (result == STORE_OK) {
        result = add(store, &own);
    }
    if (result == STORE_OK && day_is_about(entry, before, after)) {
        result = store_entry(store, entry->refers, &about);
        if (result == STORE_OK) {
            struct day_change other = day_of_about(entry, &about, before, after);
            result = change(store, &other);
        }
    }
    return result;
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
    enum store_result result = query_end(&query, N_("count the day"));
    if (result == STORE_OK) {
        *ret_count = count;
    }
    return result;
}

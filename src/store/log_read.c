// Reading the log for review. Pages go by key, and each filter has the index that finds its rows
// without passing over the others.

#include "chain.h"
#include "day.h"
#include "log_filter.h"

#include <string.h>

enum store_result store_entry(struct store *store, int64_t seq, struct entry *ret_entry) {
    struct entry entry;
    struct query query = query_open(store, STATEMENT_LOG_ENTRY);
    query_bind_number(&query, seq);
    if (query_step(&query)) {
        chain_read(&query, &entry);
    }
    enum store_result result = query_end(&query, "read an entry");
    if (result == STORE_OK) {
        *ret_entry = entry;
    }
    return result;
}

enum store_result log_filter_range(struct store *store, const struct log_filter *filter,
                                   struct log_range *ret_range) {
    struct log_range range = {
        .first_seq = 1,
        .last_seq = INT64_MAX,
        .from_ms = filter->from_ms == 0 ? INT64_MIN : filter->from_ms,
        .to_ms = filter->to_ms == 0 ? INT64_MAX : filter->to_ms,
    };
    if (filter->from_ms != 0 || filter->to_ms != 0) {
        struct query query = query_open(store, STATEMENT_QUARTER_RANGE);
        query_bind_number(&query, day_quarter(range.from_ms));
        query_bind_number(&query, day_quarter(range.to_ms));
        if (query_step(&query)) {
            range.first_seq = query_number(&query, 0);
            range.last_seq = query_number(&query, 1);
        }
        enum store_result result = query_end(&query, "find the time in the log");
        if (result != STORE_OK) {
            return result;
        }
    }
    *ret_range = range;
    return STORE_OK;
}

void log_filter_bind(struct query *query, const struct log_filter *filter,
                     const struct log_range *range) {
    query_bind_number(query, range->first_seq);
    query_bind_number(query, range->last_seq);
    query_bind_number(query, range->from_ms);
    query_bind_number(query, range->to_ms);
    query_bind_text(query, filter->build);
    query_bind_text(query, filter->worker);
    query_bind_text(query, filter->ticket);
    query_bind_text(query, verdict_text(filter->verdict));
    query_bind_number(query, filter->cuts_only);
    query_bind_number(query, filter->needs_decision);
}

// The narrowest way to the rows.
static enum statement way(const struct log_filter *filter) {
    bool off = filter->verdict == VERDICT_LONG || filter->verdict == VERDICT_SHORT;
    if (filter->ticket[0] != '\0') {
        return strncmp(filter->ticket, "H-", 2) == 0 ? STATEMENT_LOG_BY_HEAD
                                                     : STATEMENT_LOG_BY_SHAFT;
    }
    if (filter->needs_decision) {
        return STATEMENT_LOG_BY_DECISION;
    }
    if (filter->build[0] != '\0') {
        return STATEMENT_LOG_BY_BUILD;
    }
    if (filter->worker[0] != '\0') {
        return off ? STATEMENT_LOG_BY_OFF_WORKER : STATEMENT_LOG_BY_WORKER;
    }
    return off ? STATEMENT_LOG_BY_OFF : STATEMENT_LOG_BY_SEQ;
}

static void read_line(struct query *query, struct log_line *line) {
    char word[ENTRY_CAUSE_MAX];
    memset(line, 0, sizeof *line);
    line->seq = query_number(query, 0);
    query_text(query, 1, word, sizeof word);
    query->odd |= !entry_kind_from_text(word, &line->kind);
    line->wall_ms = query_number(query, 2);
    query_text(query, 3, line->worker, sizeof line->worker);
    query_text(query, 4, line->build, sizeof line->build);
    query_text(query, 5, line->club, sizeof line->club);
    query_text(query, 6, line->shaft, sizeof line->shaft);
    line->planned = query_length(query, 7);
    line->made = query_length(query, 8);
    query_text(query, 9, word, sizeof word);
    query->odd |= !chain_verdict(word, &line->verdict);
    query_text(query, 10, line->cause, sizeof line->cause);
    line->refers = query_number(query, 11);
    line->open = query_number(query, 12) != 0;
}

int store_log(struct store *store, const struct log_filter *filter, int64_t before,
              struct log_line *lines, int max) {
    struct log_range range;
    int count = 0;
    if (log_filter_range(store, filter, &range) != STORE_OK) {
        return -1;
    }
    if (before > 0 && before <= range.last_seq) {
        range.last_seq = before - 1;
    }
    struct query query = query_open(store, way(filter));
    log_filter_bind(&query, filter, &range);
    query_bind_number(&query, max);
    while (count < max && query_step(&query)) {
        read_line(&query, &lines[count++]);
    }
    enum store_result result = query_end(&query, "read the log");
    return result == STORE_OK || result == STORE_NONE ? count : -1;
}

static enum store_result give(struct query *query, store_entry_each *each, void *context) {
    struct entry entry;
    bool more = true;
    while (more && query_step(query)) {
        chain_read(query, &entry);
        more = !query->odd && each(context, &entry);
    }
    enum store_result result = query_end(query, "read the log");
    return result == STORE_NONE ? STORE_OK : result;
}

enum store_result store_log_each(struct store *store, const struct log_filter *filter,
                                 store_entry_each *each, void *context) {
    struct log_range range;
    enum store_result result = log_filter_range(store, filter, &range);
    if (result != STORE_OK) {
        return result;
    }
    struct query query = query_open(store, STATEMENT_LOG_EXPORT);
    log_filter_bind(&query, filter, &range);
    return give(&query, each, context);
}

enum store_result store_log_about(struct store *store, int64_t first_seq, int64_t last_seq,
                                  store_entry_each *each, void *context) {
    struct query query = query_open(store, STATEMENT_LOG_ABOUT);
    query_bind_number(&query, first_seq);
    query_bind_number(&query, last_seq);
    return give(&query, each, context);
}

// Reading the log for review. Pages go by key, and every filter has lists that find its rows
// without passing over the others.

#include "chain.h"
#include "log_lists.h"

#include <string.h>

enum store_result store_alive(struct store *store) {
    struct query query = query_open(store, STATEMENT_LOG_LAST);
    query_step(&query);
    return query_end(&query, N_("read the end of the log"));
}

enum store_result store_entry(struct store *store, int64_t seq, struct entry *ret_entry) {
    struct entry entry;
    struct query query = query_open(store, STATEMENT_LOG_ENTRY);
    query_bind_number(&query, seq);
    if (query_step(&query)) {
        chain_read(&query, &entry);
    }
    enum store_result result = query_end(&query, N_("read an entry"));
    if (result == STORE_OK) {
        *ret_entry = entry;
    }
    return result;
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

// From the log itself.
static enum store_result read_all(struct store *store, const struct log_filter *filter,
                                  const struct log_range *range, struct log_line *lines, int max,
                                  int *ret_count) {
    struct query query = query_open(store, STATEMENT_LOG_BY_SEQ);
    log_filter_bind(&query, filter, range);
    query_bind_number(&query, max);
    while (*ret_count < max && query_step(&query)) {
        read_line(&query, &lines[(*ret_count)++]);
    }
    enum store_result result = query_end(&query, N_("read the log"));
    return result == STORE_NONE ? STORE_OK : result;
}

static enum store_result read_lists(struct store *store, struct log_lists *lists,
                                    const struct log_filter *filter, const struct log_range *range,
                                    struct log_line *lines, int max, int *ret_count) {
    enum store_result result = STORE_OK;
    int64_t seq;
    while (*ret_count < max && result == STORE_OK) {
        result = log_lists_next(lists, &seq);
        if (result != STORE_OK) {
            break;
        }
        struct query query = query_open(store, STATEMENT_LOG_LINE_OF);
        log_filter_bind(&query, filter, range);
        query_bind_number(&query, seq);
        if (query_step(&query)) {
            read_line(&query, &lines[(*ret_count)++]);
        }
        query_passes(&result, query_end(&query, N_("read the log")));
    }
    return result == STORE_NONE ? STORE_OK : result;
}

static enum store_result read_range(struct store *store, const struct log_filter *filter,
                                    const struct log_range *range, struct log_line *lines, int max,
                                    int *ret_count) {
    struct log_lists lists;
    enum store_result result = log_lists_open(store, filter, range, true, &lists);
    if (result == STORE_NONE) {
        return read_all(store, filter, range, lines, max, ret_count);
    }
    if (result == STORE_OK) {
        result = read_lists(store, &lists, filter, range, lines, max, ret_count);
        log_lists_release(&lists);
    }
    return result;
}

static enum store_result read_log(struct store *store, const struct log_filter *filter,
                                  int64_t before, struct log_line *lines, int max, int *ret_count) {
    struct log_ranges ranges;
    enum store_result result = log_filter_ranges(store, filter, &ranges);
    for (size_t i = 0; result == STORE_OK && i < ranges.count && *ret_count < max; i++) {
        struct log_range range = ranges.range[i];
        if (before > 0 && before <= range.last_seq) {
            range.last_seq = before - 1;
        }
        if (range.first_seq <= range.last_seq) {
            result = read_range(store, filter, &range, lines, max, ret_count);
        }
    }
    log_ranges_release(&ranges);
    return result;
}

int store_log(struct store *store, const struct log_filter *filter, int64_t before,
              struct log_line *lines, int max) {
    int count = 0;
    enum store_result result = connection_read_begin(store);
    if (result == STORE_OK) {
        result = read_log(store, filter, before, lines, max, &count);
        connection_read_end(store);
    }
    return result == STORE_OK ? count : -1;
}

int store_log_choices(struct store *store, enum log_choice choice, char texts[][LOG_CHOICE_MAX],
                      int max) {
    static const enum statement statements[] = {[LOG_BENCHES] = STATEMENT_FACET_BENCHES,
                                                [LOG_WORKERS] = STATEMENT_FACET_WORKERS,
                                                [LOG_MATERIALS] = STATEMENT_FACET_MATERIALS};
    int count = 0;
    struct query query = query_open(store, statements[choice]);
    query_bind_number(&query, max);
    while (count < max && query_step(&query)) {
        query_text(&query, 0, texts[count++], LOG_CHOICE_MAX);
    }
    enum store_result result = query_end(&query, N_("read what the log can be filtered by"));
    return result == STORE_OK || result == STORE_NONE ? count : -1;
}

// *more: nobody said yet that it is enough.
static enum store_result give(struct query *query, store_entry_each *each, void *context,
                              bool *more) {
    struct entry entry;
    while (*more && query_step(query)) {
        chain_read(query, &entry);
        *more = !query->odd && each(context, &entry);
    }
    enum store_result result = query_end(query, N_("read the log"));
    return result == STORE_NONE ? STORE_OK : result;
}

static enum store_result give_lists(struct store *store, struct log_lists *lists,
                                    const struct log_filter *filter, const struct log_range *range,
                                    store_entry_each *each, void *context, bool *more) {
    enum store_result result = STORE_OK;
    struct entry entry;
    int64_t seq;
    while (*more && result == STORE_OK) {
        result = log_lists_next(lists, &seq);
        if (result != STORE_OK) {
            break;
        }
        struct query query = query_open(store, STATEMENT_LOG_ENTRY_OF);
        log_filter_bind(&query, filter, range);
        query_bind_number(&query, seq);
        bool there = query_step(&query);
        if (there) {
            chain_read(&query, &entry);
        }
        if (query_passes(&result, query_end(&query, N_("read the log"))) && there) {
            *more = each(context, &entry);
        }
    }
    return result == STORE_NONE ? STORE_OK : result;
}

static enum store_result give_range(struct store *store, const struct log_filter *filter,
                                    const struct log_range *range, store_entry_each *each,
                                    void *context, bool *more) {
    struct log_lists lists;
    enum store_result result = log_lists_open(store, filter, range, false, &lists);
    if (result == STORE_NONE) {
        struct query query = query_open(store, STATEMENT_LOG_EXPORT);
        log_filter_bind(&query, filter, range);
        return give(&query, each, context, more);
    }
    if (result == STORE_OK) {
        result = give_lists(store, &lists, filter, range, each, context, more);
        log_lists_release(&lists);
    }
    return result;
}

static enum store_result give_log(struct store *store, const struct log_filter *filter,
                                  store_entry_each *each, void *context) {
    struct log_ranges ranges;
    bool more = true;
    enum store_result result = log_filter_ranges(store, filter, &ranges);
    for (size_t i = ranges.count; result == STORE_OK && more && i > 0; i--) {
        result = give_range(store, filter, &ranges.range[i - 1], each, context, &more);
    }
    log_ranges_release(&ranges);
    return result;
}

enum store_result store_log_each(struct store *store, const struct log_filter *filter,
                                 store_entry_each *each, void *context) {
    enum store_result result = connection_read_begin(store);
    if (result == STORE_OK) {
        result = give_log(store, filter, each, context);
        connection_read_end(store);
    }
    return result;
}

enum store_result store_log_about(struct store *store, int64_t first_seq, int64_t last_seq,
                                  store_entry_each *each, void *context) {
    bool more = true;
    struct query query = query_open(store, STATEMENT_LOG_ABOUT);
    query_bind_number(&query, first_seq);
    query_bind_number(&query, last_seq);
    return give(&query, each, context, &more);
}

#ifndef LOG_LISTS_H
#define LOG_LISTS_H

// The sorted lists of entries that a filter is narrowed to, merged: those of the facets that it
// meets, or the one of its part, of its build, of what waits for a decision. Private to src/store.

#include "log_filter.h"

#define LOG_LIST_AHEAD 32
struct log_list {
    int64_t facet; // key of a list of a facet
    int64_t from;  // what was not looked at yet
    int64_t to;
    int64_t seq[LOG_LIST_AHEAD]; // looked at ahead
    int count;
    int at;
    int ahead; // for the next look
};
struct log_lists {
    struct store *store;
    enum statement statement;
    bool newest_first;
    const char *key; // text, NULL: the list's facet
    size_t count;
    struct log_list *list;
};

// STORE_NONE: the filter names only times, so the log itself is the list. `filter` must outlive it.
enum store_result log_lists_open(struct store *store, const struct log_filter *filter,
                                 const struct log_range *range, bool newest_first,
                                 struct log_lists *ret_lists);
// The next entry that may meet the filter; times and the filter's other words are not looked at.
// STORE_NONE: no more.
enum store_result log_lists_next(struct log_lists *lists, int64_t *ret_seq);
void log_lists_release(struct log_lists *lists);

#endif

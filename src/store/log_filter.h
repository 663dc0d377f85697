#ifndef LOG_FILTER_H
#define LOG_FILTER_H

// A filter of the log turned into numbered parameters 1 to 11 of a LOG_FILTER statement.
// Private to src/store.

#include "query.h"

struct log_range {
    int64_t first_seq;
    int64_t last_seq;
    int64_t from_ms;
    int64_t to_ms;
};

// The entries that can lie in the filter's time, newest first: a stretch for each run of the clock
// that has quarters of it. To be released.
struct log_ranges {
    size_t count;
    struct log_range *range;
};
enum store_result log_filter_ranges(struct store *store, const struct log_filter *filter,
                                    struct log_ranges *ret_ranges);
void log_ranges_release(struct log_ranges *ranges);

// `filter` and `range` must outlive the query.
void log_filter_bind(struct query *query, const struct log_filter *filter,
                     const struct log_range *range);

#endif

#include "log_filter.h"
#include "day.h"
#include "tongue.h"

#include <stdlib.h>

#define RANGES_STEP 16

static struct log_range whole(const struct log_filter *filter) {
    return (struct log_range){
        .first_seq = 1,
        .last_seq = INT64_MAX,
        .from_ms = filter->from_ms == 0 ? INT64_MIN : filter->from_ms,
        .to_ms = filter->to_ms == 0 ? INT64_MAX : filter->to_ms,
    };
}

static bool add(struct log_ranges *ranges, const struct log_range *range) {
    if (ranges->count % RANGES_STEP == 0) {
        struct log_range *more =
            realloc(ranges->range, (ranges->count + RANGES_STEP) * sizeof *ranges->range);
        if (more == NULL) {
            return false;
        }
        ranges->range = more;
    }
    ranges->range[ranges->count++] = *range;
    return true;
}

enum store_result log_filter_ranges(struct store *store, const struct log_filter *filter,
                                    struct log_ranges *ret_ranges) {
    struct log_range range = whole(filter);
    enum store_result result = STORE_OK;
    bool room = true;
    *ret_ranges = (struct log_ranges){0};
    if (filter->from_ms == 0 && filter->to_ms == 0) {
        room = add(ret_ranges, &range);
    } else {
        struct query query = query_open(store, STATEMENT_SPAN_FIND);
        query_bind_number(&query, day_quarter(range.from_ms));
        query_bind_number(&query, day_quarter(range.to_ms));
        while (room && query_step(&query)) {
            range.first_seq = query_number(&query, 0);
            range.last_seq = query_number(&query, 1);
            room = add(ret_ranges, &range);
        }
        result = query_end(&query, N_("find the time in the log"));
        result = result == STORE_NONE ? STORE_OK : result;
    }
    return room ? result
                : connection_say(store, STORE_FAILED, _("No memory to find the time in the log."));
}

void log_ranges_release(struct log_ranges *ranges) {
    free(ranges->range);
    *ranges = (struct log_ranges){0};
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
    query_bind_text(query, filter->bench);
    query_bind_number(query, filter->needs_decision);
    query_bind_text(query, filter->material);
}

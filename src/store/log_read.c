// Reading the log for review.

#include "chain.h"

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

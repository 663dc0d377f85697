#ifndef IMPORT_WRITE_H
#define IMPORT_WRITE_H

// The checked set into the store, inside one write transaction. Private to src/store.
//
// What only the store can tell (a cut shaft, another club's head) is complained about here; the
// caller rolls back when there were complaints. Rows that say what the store says change nothing.

#include "import_set.h"
#include "query.h"

struct import_count {
    size_t added;
    size_t changed;
};

struct import_write {
    struct store *store;
    const struct import_set *set;
    struct import_say *say;
    bool exact; // an empty cell means not known; else what is known stays
    struct import_count count[IMPORT_KIND_COUNT]; // of things: charts and profiles, not rows
};

// Each takes one kind of row. STORE_OK goes on.
enum store_result import_write_shaft_model(struct import_write *write, const void *row);
enum store_result import_write_head_model(struct import_write *write, const void *row);
enum store_result import_write_head(struct import_write *write, const void *row);
enum store_result import_write_shaft(struct import_write *write, const void *row);
enum store_result import_write_worker(struct import_write *write, const void *row);
enum store_result import_write_gtin(struct import_write *write, const void *row);
enum store_result import_write_stock_level(struct import_write *write, const void *row);
// Before the clubs: none of a cancelled order has a part reserved.
enum store_result import_write_order(struct import_write *write, const void *row);
// The order line, letting go of parts it does not name any more.
enum store_result import_write_club(struct import_write *write, const void *row);
// Then its parts, when every club has let go.
enum store_result import_write_club_parts(struct import_write *write, const void *row);

// `count` cells of one chart, from the lightest to the heaviest head.
enum store_result import_write_chart(struct import_write *write, const void *const *cells,
                                     size_t count);

// The points of one profile, from the tip to the butt.
enum store_result import_write_profile(struct import_write *write, const void *const *points,
                                       size_t count);

// What a cell says, or what is known when it is empty.
int64_t import_or_known(const struct import_write *write, int64_t cell, int64_t known);

// The same for a text of `size` bytes.
void import_keep_text(char *wanted, const char *known, size_t size);

// The row of a head, shaft, head model, order, order line or stock level as the store has it, by
// the key in *row.
enum store_result import_known_head(struct store *store, struct import_head *row);
enum store_result import_known_shaft(struct store *store, struct import_shaft *row);
enum store_result import_known_head_model(struct store *store, struct import_head_model *row);
enum store_result import_known_club(struct store *store, struct import_club *row);
enum store_result import_known_order(struct store *store, struct import_order *row);
enum store_result import_known_stock_level(struct store *store, struct import_stock_level *row);

// A club that was begun is not changed by a file. The complaint, when `stage` says it was.
bool import_write_begun(struct import_write *write, struct import_at at, const char *column,
                        enum stage stage, const char *build, const char *club);

#endif

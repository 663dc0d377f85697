#ifndef IMPORT_SET_H
#define IMPORT_SET_H

// The rows of an import as typed values, one table a kind of file, in the order they stood.
// Private to src/store.

#include "club.h"
#include "gtin.h"
#include "import_say.h"

// clang-format off
// name, file name without .csv, struct
#define IMPORT_KINDS(X)                                                                            \
    X(SHAFT_MODELS, "shaft_models", import_shaft_model)                                            \
    X(CHARTS, "charts", import_chart_cell)                                                         \
    X(PROFILES, "profiles", import_profile_point)                                                  \
    X(HEAD_MODELS, "head_models", import_head_model)                                               \
    X(HEADS, "heads", import_head)                                                                 \
    X(SHAFTS, "shafts", import_shaft)                                                              \
    X(BUILDS, "builds", import_club)                                                               \
    X(WORKERS, "workers", import_worker)                                                           \
    X(GTINS, "gtins", import_gtin)                                                                 \
    X(ORDERS, "orders", import_order)                                                              \
    X(STOCK_LEVELS, "stock_levels", import_stock_level)
// clang-format on
enum import_kind {
#define X(name, file, type) IMPORT_##name,
    IMPORT_KINDS(X)
#undef X
        IMPORT_KIND_COUNT
};

// Every row begins with its place. Whatever is unknown of numbers is LENGTH_UNKNOWN.
struct import_shaft_model {
    struct import_at at;
    struct shaft_model model;
};
struct import_chart_cell {
    struct import_at at;
    char model[PARTS_NAME_MAX];
    char flex[PARTS_SHORT_MAX];
    enum chart_kind kind;
    struct chart_column column;
};
struct import_profile_point {
    struct import_at at;
    char model[PARTS_NAME_MAX];
    char flex[PARTS_SHORT_MAX];
    struct profile_point point;
};
struct import_head_model {
    struct import_at at;
    char name[PARTS_NAME_MAX];
    enum head_kind kind;
    char engraved[PARTS_SHORT_MAX];
    mass_mg weight;
    length_nm hosel_bore;
    length_nm insertion;
    length_nm bore_height;
    enum bore_kind bore;
    int64_t loft; // thousandths of a degree
    int64_t lie;
    length_nm cg_beyond;
    int64_t inertia; // g cm2
};
struct import_head {
    struct import_at at;
    char ticket[TICKET_TEXT_MAX];
    char model[PARTS_NAME_MAX];
    mass_mg weight;
    length_nm dry_fit_overall;
    length_nm dry_fit_raw;
    length_nm bore_height; // as given, or from the dry fit
    char lot[PARTS_LOT_MAX];
};
struct import_shaft {
    struct import_at at;
    struct shaft shaft;
};
// A file that says nothing of it leaves a cancelled line cancelled.
enum import_answer { IMPORT_UNANSWERED, IMPORT_NO, IMPORT_YES };
struct import_club {
    struct import_at at;
    struct order order; // what a cell can say of it
    enum import_answer cancelled;
    char head[TICKET_TEXT_MAX];  // empty: none reserved
    char shaft[TICKET_TEXT_MAX]; // empty: none reserved
};
struct import_worker {
    struct import_at at;
    struct worker worker;
};
struct import_gtin {
    struct import_at at;
    char gtin[GTIN_TEXT_MAX];
    char head_model[PARTS_NAME_MAX];  // empty: it is a shaft's
    char shaft_model[PARTS_NAME_MAX]; // empty: it is a head's
    char flex[PARTS_SHORT_MAX];       // empty: whatever flex
};
struct import_order {
    struct import_at at;
    char build[PARTS_BUILD_MAX];
    enum order_status status;
    int priority;
    char reference[ORDER_REFERENCE_MAX];
    char note[ORDER_NOTE_MAX];
};
struct import_stock_level {
    struct import_at at;
    char head_model[PARTS_NAME_MAX];  // empty: it is a shaft's
    char shaft_model[PARTS_NAME_MAX]; // empty: it is a head's
    char flex[PARTS_SHORT_MAX];
    int least;
    int wanted;
};

union import_row {
    struct import_at at;
#define X(name, file, type) struct type name;
    IMPORT_KINDS(X)
#undef X
};

struct import_table {
    unsigned char *rows;
    size_t count;
    size_t capacity;
    const void **sorted; // by key, NULL until import_set_sort
    bool partial;        // a row or a whole file of this kind could not be read
};
struct import_set {
    struct import_table table[IMPORT_KIND_COUNT];
};

const char *import_kind_name(enum import_kind kind); // "shaft_models"
size_t import_row_size(enum import_kind kind);

struct import_set import_set_init(void);
void import_set_release(struct import_set *set);

// Takes a copy of `row` (import_row_size bytes). False: no memory.
bool import_set_add(struct import_set *set, enum import_kind kind, const void *row);
const void *import_set_row(const struct import_set *set, enum import_kind kind, size_t index);

// Sorts every table by its key: name, ticket, badge, GTIN, build; build and club; chart and column
// weight; profile and distance from the tip; models and flex of a stock level.
// Rows of one key stay in the order they stood. False: no memory.
bool import_set_sort(struct import_set *set);
// By `key`'s key fields, the first such row or NULL. Only after import_set_sort.
const void *import_set_find(const struct import_set *set, enum import_kind kind, const void *key);
// One behind the last of the sorted rows that belong to one chart or profile with row `first`.
size_t import_set_chart_end(const struct import_set *set, size_t first);
size_t import_set_profile_end(const struct import_set *set, size_t first);
// Both have the same key.
bool import_set_same(enum import_kind kind, const void *a, const void *b);

#endif

#include "import_set.h"

#include <stdlib.h>
#include <string.h>

#define X(name, file, type) [IMPORT_##name] = file,
static const char *const names[IMPORT_KIND_COUNT] = {IMPORT_KINDS(X)};
#undef X
#define X(name, file, type) [IMPORT_##name] = sizeof(struct type),
static const size_t sizes[IMPORT_KIND_COUNT] = {IMPORT_KINDS(X)};
#undef X

const char *import_kind_name(enum import_kind kind) {
    return names[kind];
}

size_t import_row_size(enum import_kind kind) {
    return sizes[kind];
}

struct import_set import_set_init(void) {
    return (struct import_set){0};
}

void import_set_release(struct import_set *set) {
    for (int kind = 0; kind < IMPORT_KIND_COUNT; kind++) {
        free(set->table[kind].rows);
        free(set->table[kind].sorted);
    }
    *set = import_set_init();
}

bool import_set_add(struct import_set *set, enum import_kind kind, const void *row) {
    struct import_table *table = &set->table[kind];
    if (table->count == table->capacity) {
        size_t capacity = table->capacity > 0 ? 2 * table->capacity : 64;
        unsigned char *rows = reallocarray(table->rows, capacity, sizes[kind]);
        if (rows == NULL) {
            return false;
        }
        table->rows = rows;
        table->capacity = capacity;
    }
    memcpy(table->rows + table->count * sizes[kind], row, sizes[kind]);
    table->count++;
    return true;
}

const void *import_set_row(const struct import_set *set, enum import_kind kind, size_t index) {
    return set->table[kind].rows + index * sizes[kind];
}

// --- keys --------------------------------------------------------------------------------------

static int by_shaft_model(const void *a, const void *b) {
    const struct import_shaft_model *one = a, *two = b;
    return strcmp(one->model.name, two->model.name);
}

static int compare(int64_t a, int64_t b) {
    return (a > b) - (a < b);
}

static int by_chart(const void *a, const void *b) {
    const struct import_chart_cell *one = a, *two = b;
    int order = strcmp(one->model, two->model);
    if (order == 0) {
        order = strcmp(one->flex, two->flex);
    }
    return order != 0 ? order : compare(one->kind, two->kind);
}

static int by_chart_column(const void *a, const void *b) {
    const struct import_chart_cell *one = a, *two = b;
    int order = by_chart(a, b);
    return order != 0 ? order : compare(one->column.weight, two->column.weight);
}

static int by_profile(const void *a, const void *b) {
    const struct import_profile_point *one = a, *two = b;
    int order = strcmp(one->model, two->model);
    return order != 0 ? order : strcmp(one->flex, two->flex);
}

static int by_profile_point(const void *a, const void *b) {
    const struct import_profile_point *one = a, *two = b;
    int order = by_profile(a, b);
    return order != 0 ? order : compare(one->point.from_tip, two->point.from_tip);
}

static int by_head_model(const void *a, const void *b) {
    const struct import_head_model *one = a, *two = b;
    return strcmp(one->name, two->name);
}

static int by_head(const void *a, const void *b) {
    const struct import_head *one = a, *two = b;
    return strcmp(one->ticket, two->ticket);
}

static int by_shaft(const void *a, const void *b) {
    const struct import_shaft *one = a, *two = b;
    return strcmp(one->shaft.ticket, two->shaft.ticket);
}

static int by_club(const void *a, const void *b) {
    const struct import_club *one = a, *two = b;
    int order = strcmp(one->order.build, two->order.build);
    return order != 0 ? order : strcmp(one->order.club, two->order.club);
}

static int by_worker(const void *a, const void *b) {
    const struct import_worker *one = a, *two = b;
    return strcmp(one->worker.badge, two->worker.badge);
}

static int by_gtin(const void *a, const void *b) {
    const struct import_gtin *one = a, *two = b;
    return strcmp(one->gtin, two->gtin);
}

static int by_order(const void *a, const void *b) {
    const struct import_order *one = a, *two = b;
    return strcmp(one->build, two->build);
}

static int by_stock_level(const void *a, const void *b) {
    const struct import_stock_level *one = a, *two = b;
    int order = strcmp(one->head_model, two->head_model);
    if (order == 0) {
        order = strcmp(one->shaft_model, two->shaft_model);
    }
    return order != 0 ? order : strcmp(one->flex, two->flex);
}

static int (*const by_key[IMPORT_KIND_COUNT])(const void *a, const void *b) = {
    [IMPORT_SHAFT_MODELS] = by_shaft_model,
    [IMPORT_CHARTS] = by_chart_column,
    [IMPORT_PROFILES] = by_profile_point,
    [IMPORT_HEAD_MODELS] = by_head_model,
    [IMPORT_HEADS] = by_head,
    [IMPORT_SHAFTS] = by_shaft,
    [IMPORT_BUILDS] = by_club,
    [IMPORT_WORKERS] = by_worker,
    [IMPORT_GTINS] = by_gtin,
    [IMPORT_ORDERS] = by_order,
    [IMPORT_STOCK_LEVELS] = by_stock_level,
};

bool import_set_same(enum import_kind kind, const void *a, const void *b) {
    return by_key[kind](a, b) == 0;
}

// `kind` behind `context`. Rows of one table lie in one array: their addresses tell the order.
static int by_key_and_place(const void *a, const void *b, void *context) {
    enum import_kind kind = *(const enum import_kind *)context;
    const void *one = *(const void *const *)a, *two = *(const void *const *)b;
    int order = by_key[kind](one, two);
    return order != 0 ? order : (one > two) - (one < two);
}

bool import_set_sort(struct import_set *set) {
    for (int i = 0; i < IMPORT_KIND_COUNT; i++) {
        enum import_kind kind = (enum import_kind)i;
        struct import_table *table = &set->table[kind];
        const void **sorted = reallocarray(table->sorted, table->count + 1, sizeof *sorted);
        if (sorted == NULL) {
            return false;
        }
        for (size_t row = 0; row < table->count; row++) {
            sorted[row] = import_set_row(set, kind, row);
        }
        qsort_r(sorted, table->count, sizeof *sorted, by_key_and_place, &kind);
        table->sorted = sorted;
    }
    return true;
}

const void *import_set_find(const struct import_set *set, enum import_kind kind, const void *key) {
    const struct import_table *table = &set->table[kind];
    size_t low = 0;
    size_t high = table->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (by_key[kind](table->sorted[middle], key) < 0) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low < table->count && by_key[kind](table->sorted[low], key) == 0 ? table->sorted[low]
                                                                            : NULL;
}

static size_t end_of(const struct import_table *table, size_t first,
                     int (*by)(const void *a, const void *b)) {
    size_t end = first + 1;
    while (end < table->count && by(table->sorted[first], table->sorted[end]) == 0) {
        end++;
    }
    return end;
}

size_t import_set_chart_end(const struct import_set *set, size_t first) {
    return end_of(&set->table[IMPORT_CHARTS], first, by_chart);
}

size_t import_set_profile_end(const struct import_set *set, size_t first) {
    return end_of(&set->table[IMPORT_PROFILES], first, by_profile);
}

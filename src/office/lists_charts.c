// Charts, their revisions, and what differs between two of them.

#include "office_inner.h"
#include "text.h"

#include <stdlib.h>
#include <string.h>

#define SOME (VIEW_ROWS_MAX + 1)

static void number_cell(int64_t number, char *buffer, size_t size) {
    struct text text = text_open(buffer, size);
    text_add_number(&text, number);
}

enum desk_result list_charts(struct office *office, const struct desk_query *query,
                             struct desk_table *table) {
    const char *const heads[] = {_("Shaft model"), _("Flex"), _("For"), _("Columns"),
                                 _("Revision")};
    struct chart_line lines[SOME];
    struct chart_line after;
    memset(&after, 0, sizeof after);
    SET(after.model, query->after.key[0]);
    SET(after.flex, query->after.key[1]);
    SET(after.kind, query->after.key[2]);
    int count = store_charts(office->store, query->find, &after, lines, SOME);
    SET(table->set.title, _("Trimming charts"));
    rows_head(table, heads, sizeof heads / sizeof *heads);
    for (int i = 0; i < count; i++) {
        int row = rows_add(table);
        char(*cell)[VIEW_CELL_MAX] = row < 0 ? NULL : table->set.row[row].cell;
        if (row < 0) {
            break;
        }
        const char *const keys[] = {lines[i].model, lines[i].flex, lines[i].kind};
        for (size_t key = 0; key < DESK_KEYS; key++) {
            SET(table->ref[row].key[key], keys[key]);
            SET(cell[key], keys[key]);
        }
        number_cell(lines[i].columns, cell[3], VIEW_CELL_MAX);
        number_cell(lines[i].revision, cell[4], VIEW_CELL_MAX);
    }
    return count < 0 ? DESK_FAILED : DESK_DONE;
}

// The key of a revision's row: model, flex, and `iron 3`.
static int64_t revision_of(const struct desk_ref *ref, char *kind, size_t size) {
    const char *blank = strchr(ref->key[2], ' ');
    words_copy(kind, size, ref->key[2]);
    if (blank == NULL) {
        return 0;
    }
    kind[blank - ref->key[2]] = '\0';
    return strtoll(blank + 1, NULL, 10);
}

static enum store_result load(struct office *office, const struct desk_ref *ref, const char *kind,
                              int64_t revision, struct chart *ret_chart) {
    return store_chart_revision(office->store, ref->key[0], ref->key[1], kind, revision, ret_chart);
}

static void title_of(const struct desk_ref *ref, const char *kind, const char *what,
                     struct desk_table *table) {
    struct text text = text_open(table->set.title, sizeof table->set.title);
    text_add(&text, what);
    text_add(&text, ref->key[0]);
    text_add(&text, " ");
    text_add(&text, ref->key[1]);
    text_add(&text, ", ");
    text_add(&text, kind);
}

enum desk_result list_revisions(struct office *office, const struct desk_query *query,
                                struct desk_table *table) {
    const char *const heads[] = {_("Revision"), _("Columns")};
    char kind[DESK_KEY_MAX];
    struct chart chart;
    int64_t from = revision_of(&query->after, kind, sizeof kind);
    revision_of(&query->of, kind, sizeof kind);
    enum store_result result = load(office, &query->of, kind, 0, &chart);
    title_of(&query->of, kind, _("Revisions of "), table);
    rows_head(table, heads, sizeof heads / sizeof *heads);
    int64_t revision = from > 0 ? from - 1 : chart.revision;
    for (; result == STORE_OK && revision > 0; revision--) {
        int row = rows_add(table);
        if (row < 0) {
            break;
        }
        result = load(office, &query->of, kind, revision, &chart);
        table->ref[row] = query->of;
        struct text key = text_open(table->ref[row].key[2], DESK_KEY_MAX);
        text_add(&key, kind);
        text_add(&key, " ");
        text_add_number(&key, revision);
        number_cell(revision, table->set.row[row].cell[0], VIEW_CELL_MAX);
        number_cell((int64_t)chart.count, table->set.row[row].cell[1], VIEW_CELL_MAX);
    }
    return office_result(result);
}

static void column_words(const struct office *office, const struct chart_column *column,
                         char *buffer) {
    char trim[VIEW_CELL_MAX];
    struct text text = text_open(buffer, VIEW_CELL_MAX);
    if (column == NULL) {
        text_add(&text, _("not there"));
        return;
    }
    text_add_mass(&text, column->weight);
    office_length(office, column->tip_trim, trim, sizeof trim);
    text_add(&text, ", ");
    text_add(&text, trim[0] != '\0' ? trim : _("not offered"));
}

static const struct chart_column *column_named(const struct chart *chart, const char *name) {
    for (size_t i = 0; i < chart->count; i++) {
        if (strcmp(chart->column[i].name, name) == 0) {
            return &chart->column[i];
        }
    }
    return NULL;
}

static bool same_column(const struct chart_column *a, const struct chart_column *b) {
    return a != NULL && b != NULL && a->weight == b->weight && a->tip_trim == b->tip_trim;
}

static void difference(const struct office *office, const struct chart_column *before,
                       const struct chart_column *after, struct desk_table *table) {
    int row = same_column(before, after) ? -1 : rows_add(table);
    if (row >= 0) {
        char(*cell)[VIEW_CELL_MAX] = table->set.row[row].cell;
        const char *name = after != NULL ? after->name : before->name;
        SET(table->ref[row].key[0], name);
        SET(cell[0], name);
        column_words(office, before, cell[1]);
        column_words(office, after, cell[2]);
        table->set.row[row].tone = TONE_CAUTION;
    }
}

// A revision against the newest; the newest against the one before it.
enum desk_result list_differences(struct office *office, const struct desk_query *query,
                                  struct desk_table *table) {
    const char *const heads[] = {_("Column"), _("Before"), _("After")};
    char kind[DESK_KEY_MAX];
    struct chart before = {0};
    struct chart after;
    int64_t revision = revision_of(&query->of, kind, sizeof kind);
    enum store_result result = load(office, &query->of, kind, 0, &after);
    if (result == STORE_OK) {
        revision -= revision == after.revision ? 1 : 0;
        result = revision > 0 ? load(office, &query->of, kind, revision, &before) : STORE_OK;
    }
    if (result != STORE_OK) {
        return office_result(result);
    }
    title_of(&query->of, kind, _("Differences, "), table);
    struct text text = text_open(table->set.subtitle, sizeof table->set.subtitle);
    text_add(&text, _("revision "));
    text_add_number(&text, revision);
    text_add(&text, _(" to "));
    text_add_number(&text, after.revision);
    rows_head(table, heads, sizeof heads / sizeof *heads);
    for (size_t i = 0; i < after.count; i++) {
        difference(office, column_named(&before, after.column[i].name), &after.column[i], table);
    }
    for (size_t i = 0; i < before.count; i++) {
        if (column_named(&after, before.column[i].name) == NULL) {
            difference(office, &before.column[i], NULL, table);
        }
    }
    if (table->set.row_count == 0) {
        rows_note(table, TONE_FINE, _("Nothing differs."));
    }
    return DESK_DONE;
}

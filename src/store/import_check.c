#include "import_check.h"
#include "text.h"
#include "tongue.h"

#include <stdlib.h>
#include <string.h>

// --- keys given twice --------------------------------------------------------------------------

static const char *const key_column[IMPORT_KIND_COUNT] = {
    [IMPORT_SHAFT_MODELS] = "model", [IMPORT_CHARTS] = "column_weight_g",
    [IMPORT_PROFILES] = "from_tip",  [IMPORT_HEAD_MODELS] = "model",
    [IMPORT_HEADS] = "ticket",       [IMPORT_SHAFTS] = "ticket",
    [IMPORT_BUILDS] = "club",        [IMPORT_WORKERS] = "badge",
    [IMPORT_GTINS] = "gtin",         [IMPORT_ORDERS] = "build",
    [IMPORT_STOCK_LEVELS] = "flex",
};

static const struct import_at *place(const void *row) {
    return row; // every row begins with its place
}

static void check_keys(const struct import_set *set, enum import_kind kind,
                       struct import_say *say) {
    const struct import_table *table = &set->table[kind];
    size_t first = 0;
    for (size_t i = 1; i < table->count; i++) {
        if (!import_set_same(kind, table->sorted[first], table->sorted[i])) {
            first = i;
            continue;
        }
        const struct import_at *before = place(table->sorted[first]);
        if (import_say_form(say)) { // two columns of a chart: of anything else it has one row
            import_complain(
                say, *place(table->sorted[i]), key_column[kind],
                _("two columns are written for the same weight; take one of the two out"));
            continue;
        }
        import_complain(say, *place(table->sorted[i]), key_column[kind],
                        _("%s in %s:%zu; take one of the two out"),
                        kind == IMPORT_CHARTS     ? _("this chart has a column of the same weight")
                        : kind == IMPORT_PROFILES ? _("this profile has a point at that place")
                                                  : _("is there already"),
                        before->file, before->line);
    }
}

// --- charts ------------------------------------------------------------------------------------

// The columns of one chart, from the lightest to the heaviest head.
static void check_chart(const void *const *cells, size_t count, struct import_say *say) {
    const struct import_chart_cell *offered = NULL; // the last one a trim is given for
    for (size_t i = 0; i < count; i++) {
        const struct import_chart_cell *cell = cells[i];
        for (size_t j = 0; j < i; j++) {
            const struct import_chart_cell *other = cells[j];
            if (text_same(cell->column.name, other->column.name)) {
                import_complain(say, cell->at, "column",
                                _("this chart has a column of that name in %s:%zu; rename one"),
                                other->at.file, other->at.line);
                break;
            }
        }
        if (cell->column.tip_trim == LENGTH_UNKNOWN) {
            continue;
        }
        if (offered != NULL && cell->column.tip_trim < offered->column.tip_trim) {
            import_remark(say, cell->at, "tip_trim",
                          _("a heavier head is trimmed less here than in %s:%zu; compare with the "
                            "maker's chart"),
                          offered->at.file, offered->at.line);
        }
        offered = cell;
    }
    if (count > CHART_COLUMNS_MAX) {
        const struct import_chart_cell *cell = cells[CHART_COLUMNS_MAX];
        import_complain(say, cell->at, "column", _("the chart has %zu columns, at most %d fit"),
                        count, CHART_COLUMNS_MAX);
    }
}

static void check_charts(const struct import_set *set, struct import_say *say) {
    const struct import_table *table = &set->table[IMPORT_CHARTS];
    for (size_t i = 0, next; i < table->count; i = next) {
        next = import_set_chart_end(set, i);
        check_chart(table->sorted + i, next - i, say);
    }
}

// --- profiles ----------------------------------------------------------------------------------

// The points of one profile, from the tip to the butt. They stand in that order in the file too, or
// a slip of a digit would go unseen. Rows of one table lie in one array: their addresses tell.
static void check_profile(const void *const *points, size_t count, struct import_say *say) {
    const struct import_profile_point *first = points[0];
    for (size_t i = 1; i < count; i++) {
        const struct import_profile_point *near = points[i - 1], *far = points[i];
        if (far < near) {
            import_complain(
                say, near->at, "from_tip",
                _("lies nearer to the tip than the point in %s:%zu; write the points of "
                  "a profile from the tip to the butt"),
                far->at.file, far->at.line);
        }
    }
    if (count < 2) {
        import_complain(say, first->at, "from_tip",
                        _("a profile has at least two points; add the others"));
    } else if (count > PROFILE_POINTS_MAX) {
        const struct import_profile_point *point = points[PROFILE_POINTS_MAX];
        import_complain(say, point->at, "from_tip", _("the profile has %zu points, at most %d fit"),
                        count, PROFILE_POINTS_MAX);
    }
}

static void check_profiles(const struct import_set *set, struct import_say *say) {
    const struct import_table *table = &set->table[IMPORT_PROFILES];
    for (size_t i = 0, next; i < table->count; i = next) {
        next = import_set_profile_end(set, i);
        check_profile(table->sorted + i, next - i, say);
    }
}

// --- parts reserved twice ----------------------------------------------------------------------

struct part_column {
    const char *name;
    size_t offset; // in struct import_club
};
static const struct part_column part_columns[] = {
    {"head", offsetof(struct import_club, head)},
    {"shaft", offsetof(struct import_club, shaft)},
};

static const char *part_of(const struct import_club *club, const struct part_column *column) {
    return (const char *)club + column->offset;
}

// Rows of one table lie in one array: their addresses tell the order.
static int by_part(const void *a, const void *b, void *column) {
    const struct import_club *one = *(const struct import_club *const *)a;
    const struct import_club *two = *(const struct import_club *const *)b;
    int order = strcmp(part_of(one, column), part_of(two, column));
    return order != 0 ? order : (one > two) - (one < two);
}

static bool check_parts(const struct import_set *set, struct part_column column,
                        struct import_say *say) {
    size_t count = set->table[IMPORT_BUILDS].count;
    const struct import_club **clubs = reallocarray(NULL, count + 1, sizeof *clubs);
    if (clubs == NULL) {
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        clubs[i] = import_set_row(set, IMPORT_BUILDS, i);
    }
    qsort_r(clubs, count, sizeof *clubs, by_part, &column);
    for (size_t i = 1; i < count; i++) {
        const char *part = part_of(clubs[i], &column);
        if (*part != '\0' && strcmp(part, part_of(clubs[i - 1], &column)) == 0) {
            import_complain(
                say, clubs[i]->at, column.name,
                _("%s is reserved for club %s of build %s in %s:%zu; take another part"), part,
                clubs[i - 1]->order.club, clubs[i - 1]->order.build, clubs[i - 1]->at.file,
                clubs[i - 1]->at.line);
        }
    }
    free(clubs);
    return true;
}

bool import_check_set(const struct import_set *set, struct import_say *say) {
    for (int kind = 0; kind < IMPORT_KIND_COUNT; kind++) {
        check_keys(set, (enum import_kind)kind, say);
    }
    check_charts(set, say);
    check_profiles(set, say);
    return check_parts(set, part_columns[0], say) && check_parts(set, part_columns[1], say);
}

// Lists of parts and models.

#include "office_inner.h"
#include "text.h"

#include <string.h>

static const char *const lives[PART_LIFE_COUNT] = {
    [PART_RAW] = N_("raw"), [PART_CUT] = N_("cut"), [PART_SCRAP] = N_("scrap")};

static void where(const struct part_line *line, char *buffer, size_t size) {
    struct text text = text_open(buffer, size);
    text_add(&text, line->build);
    text_add(&text, line->club[0] != '\0' ? "-" : "");
    text_add(&text, line->club);
}

static void part_rows(const struct office *office, const struct part_line *lines, int count,
                      bool heads, struct desk_table *table) {
    for (int i = 0; i < count; i++) {
        int row = rows_add(table);
        char(*cell)[VIEW_CELL_MAX] = row < 0 ? NULL : table->set.row[row].cell;
        int at = 0;
        if (row < 0) {
            return;
        }
        SET(table->ref[row].key[0], lines[i].ticket);
        words_copy(cell[at++], VIEW_CELL_MAX, lines[i].ticket);
        words_copy(cell[at++], VIEW_CELL_MAX, lines[i].model);
        if (!heads) {
            words_copy(cell[at++], VIEW_CELL_MAX, lines[i].flex);
        }
        office_weight(lines[i].weight, cell[at++], VIEW_CELL_MAX);
        office_length(office, lines[i].length, cell[at++], VIEW_CELL_MAX);
        if (!heads) {
            words_copy(cell[at++], VIEW_CELL_MAX,
                       lines[i].life == PART_RAW ? lines[i].rack : _(lives[lines[i].life]));
            table->set.row[row].tone = lines[i].life == PART_SCRAP ? TONE_CAUTION : TONE_PLAIN;
        }
        where(&lines[i], cell[at], VIEW_CELL_MAX);
    }
}

enum desk_result list_heads(struct office *office, const struct desk_query *query,
                            struct desk_table *table) {
    const char *const heads[] = {_("Ticket"), _("Model"), _("g"), _("Bore height"), _("For")};
    struct part_line lines[ROWS_ASKED];
    int count = store_heads(office->store, query->find, query->after.key[0], lines, ROWS_ASKED);
    SET(table->set.title, _("Heads"));
    rows_head(table, heads, sizeof heads / sizeof *heads);
    part_rows(office, lines, count, true, table);
    return count < 0 ? DESK_FAILED : DESK_DONE;
}

enum desk_result list_shafts(struct office *office, const struct desk_query *query,
                             struct desk_table *table) {
    const char *const heads[] = {_("Ticket"), _("Model"), _("Flex"), _("g"),
                                 _("Length"), _("Rack"),  _("For")};
    struct part_line lines[ROWS_ASKED];
    int count = store_shafts(office->store, query->find, query->after.key[0], lines, ROWS_ASKED);
    SET(table->set.title, _("Shafts"));
    rows_head(table, heads, sizeof heads / sizeof *heads);
    part_rows(office, lines, count, false, table);
    return count < 0 ? DESK_FAILED : DESK_DONE;
}

// Thousandths of an inch, as calipers and catalogues have them: `0.370`.
static void diameter(const struct office *office, length_nm length, char *cell) {
    char words[LENGTH_TEXT_MAX] = "";
    if (length != LENGTH_UNKNOWN && office->settings->metric_first) {
        length_text_mm(length, 2, words);
    } else if (length != LENGTH_UNKNOWN) {
        length_text_inch(length, 3, words);
    }
    struct text text = text_open(cell, VIEW_CELL_MAX);
    text_add_figure(&text, words);
}

static void model_rows(const struct office *office, const struct model_line *lines, int count,
                       struct desk_table *table) {
    for (int i = 0; i < count; i++) {
        int row = rows_add(table);
        char(*cell)[VIEW_CELL_MAX] = row < 0 ? NULL : table->set.row[row].cell;
        if (row < 0) {
            return;
        }
        SET(table->ref[row].key[0], lines[i].name);
        SET(cell[0], lines[i].name);
        SET(cell[1], csv_words(lines[i].kind));
        SET(cell[2], csv_words(lines[i].detail));
        office_weight(lines[i].weight, cell[3], VIEW_CELL_MAX);
        diameter(office, lines[i].diameter, cell[4]);
        rows_number(lines[i].revision, cell[5], VIEW_CELL_MAX);
    }
}

enum desk_result list_head_models(struct office *office, const struct desk_query *query,
                                  struct desk_table *table) {
    const char *const heads[] = {_("Model"), _("Kind"), _("Sole"),
                                 _("g"),     _("Bore"), _("Revision")};
    struct model_line lines[ROWS_ASKED];
    int count =
        store_head_models(office->store, query->find, query->after.key[0], lines, ROWS_ASKED);
    SET(table->set.title, _("Head models"));
    rows_head(table, heads, sizeof heads / sizeof *heads);
    model_rows(office, lines, count, table);
    return count < 0 ? DESK_FAILED : DESK_DONE;
}

enum desk_result list_shaft_models(struct office *office, const struct desk_query *query,
                                   struct desk_table *table) {
    const char *const heads[] = {_("Model"), _("Material"), _("Tip"),
                                 _("g"),     _("Diameter"), _("Revision")};
    struct model_line lines[ROWS_ASKED];
    int count =
        store_shaft_models(office->store, query->find, query->after.key[0], lines, ROWS_ASKED);
    SET(table->set.title, _("Shaft models"));
    rows_head(table, heads, sizeof heads / sizeof *heads);
    model_rows(office, lines, count, table);
    return count < 0 ? DESK_FAILED : DESK_DONE;
}

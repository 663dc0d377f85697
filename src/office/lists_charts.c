// Charts.

#include "office_inner.h"
#include "text.h"

#include <string.h>

enum desk_result list_charts(struct office *office, const struct desk_query *query,
                             struct desk_table *table) {
    const char *const heads[] = {_("Shaft model"), _("Flex"), _("For"), _("Columns"),
                                 _("Revision")};
    struct chart_line lines[ROWS_ASKED];
    struct chart_line after;
    memset(&after, 0, sizeof after);
    SET(after.model, query->after.key[0]);
    SET(after.flex, query->after.key[1]);
    SET(after.kind, query->after.key[2]);
    int count = store_charts(office->store, query->find, &after, lines, ROWS_ASKED);
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
            SET(cell[key], key == 2 ? csv_words(keys[key]) : keys[key]);
        }
        rows_number(lines[i].columns, cell[3], VIEW_CELL_MAX);
        rows_number(lines[i].revision, cell[4], VIEW_CELL_MAX);
    }
    return count < 0 ? DESK_FAILED : DESK_DONE;
}

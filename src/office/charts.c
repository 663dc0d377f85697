// What is odd in a chart that may well be right.

#include "office_inner.h"
#include "text.h"

#include <string.h>

// The trim of a column's cell, `210 1/2`; false: the maker does not offer it.
static bool trim_of(const char *value, length_nm *ret_trim) {
    const char *blank = strchr(value, ' ');
    struct length_error error;
    return blank != NULL &&
           length_parse(blank + 1, LENGTH_UNIT_INCH, ret_trim, &error) == LENGTH_OK;
}

// Columns stand from the lightest to the heaviest head.
static void compare_trims(const struct document *chart, struct desk_remarks *remarks) {
    const struct document_cell *last = NULL;
    length_nm last_trim = 0;
    for (size_t i = chart->keys; i < chart->count; i++) {
        const struct document_cell *cell = &chart->cell[i];
        length_nm trim;
        if (cell->name[0] != ':' || !trim_of(cell->value, &trim)) {
            continue;
        }
        if (last != NULL && trim < last_trim) {
            char words[VIEW_TEXT_MAX];
            struct text text = text_open(words, sizeof words);
            text_say(&text,
                     _("Column %1 is for heavier heads than column %2 and trims less. Compare with "
                       "the maker's chart."),
                     cell->name + 1, last->name + 1);
            office_note(remarks, TONE_CAUTION, words);
        }
        last = cell;
        last_trim = trim;
    }
}

void charts_consider(struct office *office, struct desk_draft *draft,
                     struct desk_remarks *remarks) {
    struct document chart;
    effects_consider(office, draft, remarks);
    sheets_document(draft, &draft->now, &chart);
    if (store_canonical(office->store, &chart) == STORE_OK) {
        compare_trims(&chart, remarks);
    }
}

#ifndef SHEET_H
#define SHEET_H

// Documents (change.h of core) of what the store knows, and changes of them. Private to src/store.
//
// The cells are the columns of the CSV files, read, checked and written by the import's own code;
// of a chart, whose file has a row a column, a cell `:NAME` holds `WEIGHT_G TRIM`, `-` for a trim
// the maker does not offer.
// Sheets: heads, shafts, head_models, shaft_models, charts, builds, orders, stock_levels.

#include "change.h"
#include "import_write.h"

// The kind and number of key cells of a sheet; false: there is no such sheet.
bool sheet_kind(const char *sheet, enum import_kind *ret_kind, size_t *ret_keys);

// Cells of a row; those of a chart are added by sheet_chart_cells.
bool sheet_row_cells(enum import_kind kind, const union import_row *row, struct document *document);
bool sheet_chart_cells(const struct chart *chart, struct document *document);

// Rows of a document, complained about to `say`. False: no memory.
bool sheet_rows(const struct document *document, enum import_kind kind, struct import_say *say,
                struct import_set *set);

// What the store has of the thing whose keys *document holds. STORE_NONE: nothing.
enum store_result sheet_load(struct store *store, enum import_kind kind, struct document *document);

// Carries out a change that is about to be logged, inside the write transaction. STORE_REFUSED
// with store_complaints: somebody changed it meanwhile, or a cell is wrong.
enum store_result sheet_change(struct store *store, const struct entry *entry);

#endif

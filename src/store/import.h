#ifndef IMPORT_H
#define IMPORT_H

// CSV files into the store: all of them or nothing. See db/demo/README.md for the columns.
//
// The kind of a file is told by its name (shaft_models.csv, charts.csv, profiles.csv,
// head_models.csv, heads.csv, shafts.csv, builds.csv, workers.csv, gtins.csv, orders.csv,
// stock_levels.csv; anything in front ending in - or _ is allowed) and checked against its header.
// Order among the files does not matter. Every bad cell is reported with file, line and column, not
// only the first.

#include "store.h"

#include <stdio.h>

struct import_source {
    const char *const *paths;
    size_t count;
    int due_shift_days; // added to every due day: the demo's orders are due about today
};

// Reads the files and imports them in one transaction, with one IMPORT entry in the log.
// A changed model, note, chart or profile becomes a new revision; nothing is overwritten. What a
// GTIN names is changed in place.
// Complaints and remarks go to `messages`, one a line. STORE_REFUSED: bad cells, nothing imported.
// `entry` carries bench, worker, times and confirm id of the import; its note comes back as what
// was new and changed, its seq is left 0 when nothing was and nothing was written.
enum store_result import_files(struct store *store, const struct import_source *source,
                               struct entry *entry, FILE *messages);

#endif

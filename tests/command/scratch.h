#ifndef SCRATCH_H
#define SCRATCH_H

// A folder with a database and CSV files, for tests of what the command line does with them.

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "store.h"

#define SCRATCH_TEXT_MAX 65536

struct scratch {
    char folder[64];
    char db[96];
    struct store *store;
    char messages[SCRATCH_TEXT_MAX]; // of the last import
};

// A new folder and an empty database in it. To be released.
void scratch_init(struct scratch *scratch);
void scratch_release(struct scratch *scratch);

// Path of a file in the folder, valid until the next call but three.
const char *scratch_path(const struct scratch *scratch, const char *name);
void scratch_write(const struct scratch *scratch, const char *name, const char *text);
void scratch_write_bytes(const struct scratch *scratch, const char *name, const void *bytes,
                         size_t size);

// Imports the named files of the folder, NULL at the end; the messages say `file.csv:...`.
enum store_result scratch_import(struct scratch *scratch, ...);
// Writes one file and imports it.
enum store_result scratch_import_text(struct scratch *scratch, const char *name, const char *text);

// Every row of every table as one text, to be freed: equal before and after means unchanged.
char *scratch_dump(const struct scratch *scratch);
// One number from one SELECT.
int64_t scratch_ask(const struct scratch *scratch, const char *sql);

// A small workshop: shaft models, charts, head models, heads, shafts, one build, workers.
void scratch_import_workshop(struct scratch *scratch);

#endif

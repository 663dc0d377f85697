#ifndef DESK_H
#define DESK_H

// A folder with a database and CSV files, for tests of what the command line does with them.

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "store.h"

#define DESK_TEXT_MAX 65536

struct desk {
    char folder[64];
    char db[96];
    struct store *store;
    char messages[DESK_TEXT_MAX]; // of the last import
};

// A new folder and an empty database in it. To be released.
void desk_init(struct desk *desk);
void desk_release(struct desk *desk);

// Path of a file in the folder, valid until the next call but three.
const char *desk_path(const struct desk *desk, const char *name);
void desk_write(const struct desk *desk, const char *name, const char *text);
void desk_write_bytes(const struct desk *desk, const char *name, const void *bytes, size_t size);

// Imports the named files of the folder, NULL at the end; the messages say `file.csv:...`.
enum store_result desk_import(struct desk *desk, ...);
// Writes one file and imports it.
enum store_result desk_import_text(struct desk *desk, const char *name, const char *text);

// Every row of every table as one text, to be freed: equal before and after means unchanged.
char *desk_dump(const struct desk *desk);
// One number from one SELECT.
int64_t desk_ask(const struct desk *desk, const char *sql);

// A small workshop: shaft models, charts, head models, heads, shafts, one build, workers.
void desk_import_workshop(struct desk *desk);

#endif

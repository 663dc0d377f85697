#ifndef SCHEMA_H
#define SCHEMA_H

// Numbered migrations, db/NNNN_name.sql, compiled in at build time. Private to src/store.

#include <stddef.h>

struct migration {
    int number; // user_version after it
    const char *name;
    const char *sql;
};
extern const struct migration schema_migrations[];
extern const size_t schema_migration_count;

#define SCHEMA_APPLICATION_ID 0x4b455246 // "KERF"

#endif

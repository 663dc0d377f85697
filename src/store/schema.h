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
// Of a copy to practise on. It is the database's own mark: no name of a file and no table tells it,
// copies of the copy keep it, and a program that does not know it refuses the file.
#define SCHEMA_PRACTICE_ID 0x4b455250 // "KERP"

#endif

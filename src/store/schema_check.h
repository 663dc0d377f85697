#ifndef SCHEMA_CHECK_H
#define SCHEMA_CHECK_H

// Whether a database has the tables, indexes, triggers and views that the migrations make, and no
// others: a trigger somebody planted would run with every entry that is written. Private to
// src/store.

#include "connection.h"
#include "digest.h"

// STORE_REFUSED: the message names the first object that is too many, missing or another.
// `version` is the schema's of the file, from 0 to schema_migration_count.
enum store_result schema_check(struct store *store, int64_t version);

// SHA-256 over type, name, table and text of every object, each with a NUL behind it, by type and
// name.
enum store_result schema_digest(struct store *store, uint8_t ret_hash[DIGEST_SIZE]);

// Whether it is that of a version's schema.
bool schema_known(int64_t version, const uint8_t hash[DIGEST_SIZE]);

#endif

#ifndef DATABASE_H
#define DATABASE_H

// Where the database is, and opening it for a subcommand.

#include "store.h"

#define DATABASE_PATH_MAX 1000
#define DATABASE_BENCH "desk" // names entries that no bench made

// `given` (from --db, may be NULL), else $KERFSIDE_DB, else kerfside/kerfside.db in
// $XDG_DATA_HOME or ~/.local/share. False, and stderr says why, when there is no such place.
bool database_path(const char *given, char buffer[DATABASE_PATH_MAX]);

// Makes the folders that `path` lies in. False, and stderr says why, when that fails.
bool database_folders(const char *command, const char *path);

// Opens what database_path says. STORE_CREATE makes it and its folders. False: stderr says why.
bool database_open(const char *command, const char *given, enum store_mode mode,
                   struct store **ret_store);

// Removes a closed database that was just made and came to nothing, with the files beside it.
void database_take_away(const char *path);

// `kerfside COMMAND: what the store says` to stderr.
void database_complain(const char *command, const struct store *store);

// Times, boot and a fresh confirm id into an entry of no bench's.
void database_stamp(struct entry *entry);

#endif

#ifndef CONNECTION_H
#define CONNECTION_H

// The open database behind a struct store, and its transactions. Private to src/store.
//
// Everything that writes goes between connection_begin and connection_commit: an exclusive flock
// on "<database>.lock", then BEGIN IMMEDIATE. What is read in there is what holds.

#include "statements.h"
#include "store.h"
#include "tongue.h"

#include <sqlite3.h>

#define STORE_MESSAGE_MAX 512
#define STORE_PATH_MAX 1000
#define STORE_SUFFIX_MAX 16 // ".lock" and others

// Time since boot, sleep included, and the boot it counts from; replaced by tests.
struct store_clock {
    int64_t (*since_boot_ms)(void);
    void (*boot)(char ret_boot[ENTRY_BOOT_MAX]);
};

struct pin_pepper;
struct store {
    sqlite3 *db; // NULL after a failed reopen
    sqlite3_stmt *statement[STATEMENT_COUNT];
    enum store_mode mode;
    int lock_fd; // -1 in STORE_READ
    int lock_wait_ms;
    int64_t shared_from; // logs of so many entries are checked by two threads
    bool reading;        // between connection_read_begin and _end
    bool unknown;        // a commit's fate is open: nothing more until store_reopen
    bool older;          // an older schema may be read as it is; only to check a copy
    bool practice;       // a copy to practise on
    struct store_clock clock;
    struct pin_rules pin_rules;
    struct pin_pepper *pepper; // NULL: none; sodium_malloc
    struct store_watch *watch; // NULL: none
    char path[STORE_PATH_MAX];
    char bench[ENTRY_BENCH_MAX];
    char message[STORE_MESSAGE_MAX];
    size_t complaint_count; // of the newest change
    struct store_complaint complaint[STORE_COMPLAINTS_MAX];
};

// store_open, and with `older` in STORE_READ the one way to read a database before it is migrated.
enum store_result connection_open(const char *path, enum store_mode mode, const char *bench,
                                  bool older, struct store **ret_store, char *message, size_t size);

// The path with its folder made real, so that SQLITE_OPEN_NOFOLLOW looks at the file alone and a
// later change of folder does not matter. False and errno when there is no such folder.
bool connection_resolve(const char *path, char ret_path[STORE_PATH_MAX]);

// False, and a message, when nothing can be done: the last reopen failed, or one is due.
bool connection_ready(struct store *store, const char *doing);

// Lock and BEGIN IMMEDIATE. STORE_BUSY, STORE_FAILED.
enum store_result connection_begin(struct store *store);
// COMMIT and unlock. On failure the transaction is over too: STORE_FULL, nothing was written;
// STORE_UNKNOWN, it may be on disk or not.
enum store_result connection_commit(struct store *store);
// Undoes and unlocks. Keeps the message.
void connection_rollback(struct store *store);

// One snapshot for several reads; does nothing inside a write transaction.
enum store_result connection_read_begin(struct store *store);
void connection_read_end(struct store *store);

// Puts the connection's last SQLite error into the message, "Could not <doing> ...", and returns
// what it means. `doing`, here and in query.h, is a text marked with N_ ("read the log"), in other
// languages the form that stands well in the sentence.
enum store_result connection_fail(struct store *store, const char *doing);
// Sets the message, printf style, and returns `result`.
enum store_result connection_say(struct store *store, enum store_result result, const char *format,
                                 ...) __attribute__((format(printf, 3, 4)));

#endif

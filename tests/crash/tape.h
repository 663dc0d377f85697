#ifndef TAPE_H
#define TAPE_H

// A VFS over the system's own that writes down what SQLite does to the files of one database, and
// that can fail on purpose. Registered as the default; one tape at a time.

#include <sqlite3.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum tape_kind {
    TAPE_CREATE,
    TAPE_WRITE,
    TAPE_TRUNCATE, // to `offset`
    TAPE_SYNC,
    TAPE_LOST_SYNC, // failed: what was not yet synced may never be, whatever a later sync says
    TAPE_UNLINK,
    TAPE_FOLDER_SYNC,
};

struct tape_op {
    enum tape_kind kind;
    int file; // 0 the database, 1 its -wal, 2 its -journal
    int64_t offset;
    int size;
    uint8_t *bytes;
};

#define TAPE_FILES 3
extern const char *const tape_suffix[TAPE_FILES];

// Begins a tape for the database at `path` and makes the VFS the default one. The files must not
// exist yet if the tape is to be replayed.
void tape_begin(const char *path);
// Unregisters and forgets everything.
void tape_end(void);

size_t tape_count(void);
const struct tape_op *tape_op(size_t index);

// What fails: the k-th (from 1) call of a kind that can fail, counted from now; once or from then
// on. A full disk fails writes only. 0: nothing fails.
enum tape_error { TAPE_IO, TAPE_FULL };
void tape_fail(int64_t call, bool for_ever, enum tape_error error);
// As above, but only syncs count.
void tape_fail_sync(int64_t call);
int64_t tape_calls(void); // that could have failed since tape_fail

#endif

#ifndef TAPE_H
#define TAPE_H

// A VFS over the system's own that writes down what SQLite does to the files of one database, and
// that can fail on purpose. Registered as the default; one tape at a time. With tape_all, what the
// store itself does to copies beside the database is on it too: fsync, link, rename and unlink are
// wrapped by the linker (tests/crash/CMakeLists.txt).

#include <sqlite3.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum tape_kind {
    TAPE_CREATE, // `file` gets `name`; a second name too, by link
    TAPE_RENAME, // from `name` to `to`
    TAPE_WRITE,
    TAPE_TRUNCATE, // to `offset`
    TAPE_SYNC,
    TAPE_LOST_SYNC, // failed: what was not yet synced may never be, whatever a later sync says
    TAPE_UNLINK,    // of `name`
    TAPE_FOLDER_SYNC,
};

struct tape_op {
    enum tape_kind kind;
    int file; // each made anew is another one, whatever its name
    int name;
    int to;
    int64_t offset;
    int size;
    uint8_t *bytes;
};

#define TAPE_MAX 64 // files, and names
#define TAPE_SUFFIXES 3
// The names of a database's own files, behind its path; tape_name 0 to 2.
extern const char *const tape_suffix[TAPE_SUFFIXES];

// Begins a tape for the database at `path` and makes the VFS the default one. The files must not
// exist yet if the tape is to be replayed.
void tape_begin(const char *path);
// Follows every file whose path begins with that of the database, but for locks and what begins
// with ".cut".
void tape_all(void);
// A name, without the path of the database; NULL: there are no more.
const char *tape_name(int name);
// Unregisters and forgets everything.
void tape_end(void);

size_t tape_count(void);
const struct tape_op *tape_op(size_t index);

// What fails: the k-th (from 1) call of a kind that can fail, counted from now; once or from then
// on. A full disk fails writes only. 0: nothing fails.
enum tape_error { TAPE_IO, TAPE_FULL };
void tape_fail(int64_t call, bool for_ever, enum tape_error error);
// As above, but only calls of these kinds count.
#define TAPE_ON_WRITE 1u
#define TAPE_ON_SYNC 2u
#define TAPE_ON_OPEN 4u
#define TAPE_ON_TRUNCATE 8u
#define TAPE_ON_UNLINK 16u // and a second name, or another
void tape_fail_only(unsigned kinds, int64_t call, bool for_ever, enum tape_error error);
int64_t tape_calls(void); // that could have failed since tape_fail

#endif

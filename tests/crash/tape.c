#include "tape.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

const char *const tape_suffix[TAPE_SUFFIXES] = {"", "-wal", "-journal"};

struct file {
    sqlite3_file base;
    int id;           // -1: none of ours
    bool folder_sync; // due with the next sync, as os_unix.c does for a new journal or WAL
    sqlite3_file *real;
};

static struct {
    sqlite3_vfs vfs;
    sqlite3_vfs *real; // NULL: no tape
    char path[160];
    bool all;
    char name[TAPE_MAX][64];
    int file_of[TAPE_MAX]; // -1: no file has the name
    int names;
    int files;
    struct tape_op *ops;
    size_t count;
    size_t room;
    int64_t calls;
    int64_t fail_at;
    bool for_ever;
    unsigned kinds;
    enum tape_error error;
} tape;

static bool starts(const char *text, const char *with) {
    return strncmp(text, with, strlen(with)) == 0;
}

// -1: none of ours.
static int name_of(const char *path) {
    if (tape.real == NULL || path == NULL || !starts(path, tape.path)) {
        return -1;
    }
    const char *suffix = path + strlen(tape.path);
    for (int i = 0; i < tape.names; i++) {
        if (strcmp(suffix, tape.name[i]) == 0) {
            return i;
        }
    }
    if (!tape.all || starts(suffix, ".cut") || strstr(suffix, ".lock") != NULL ||
        strstr(suffix, ".ballast") != NULL || strstr(suffix, "-shm") != NULL) {
        return -1;
    }
    if (tape.names == TAPE_MAX) {
        abort();
    }
    snprintf(tape.name[tape.names], sizeof tape.name[0], "%s", suffix);
    tape.file_of[tape.names] = -1;
    return tape.names++;
}

static int new_file(int name) {
    if (tape.files == TAPE_MAX) {
        abort();
    }
    tape.file_of[name] = tape.files;
    return tape.files++;
}

static void push(struct tape_op op, const void *bytes) {
    if (tape.count == tape.room) {
        tape.room = tape.room == 0 ? 1024 : 2 * tape.room;
        tape.ops = realloc(tape.ops, tape.room * sizeof tape.ops[0]);
    }
    if (op.size > 0) {
        op.bytes = malloc((size_t)op.size);
        memcpy(op.bytes, bytes, (size_t)op.size);
    }
    tape.ops[tape.count++] = op;
}

static void record(enum tape_kind kind, int file, int64_t offset, const void *bytes, int size) {
    if (file >= 0) {
        push((struct tape_op){.kind = kind, .file = file, .offset = offset, .size = size}, bytes);
    }
}

static void record_name(enum tape_kind kind, int name, int file, int to) {
    push((struct tape_op){.kind = kind, .name = name, .file = file, .to = to}, NULL);
}

// Whether this call, of one kind, is the one to fail.
static bool fails(int file, unsigned kind) {
    if (file < 0 || (tape.kinds & kind) == 0) {
        return false;
    }
    tape.calls++;
    return tape.fail_at > 0 &&
           (tape.calls == tape.fail_at || (tape.for_ever && tape.calls > tape.fail_at));
}

static sqlite3_file *real(sqlite3_file *file) {
    return ((struct file *)file)->real;
}

static int id(sqlite3_file *file) {
    return ((struct file *)file)->id;
}

static int close_file(sqlite3_file *file) {
    int code = real(file)->pMethods->xClose(real(file));
    free(real(file));
    return code;
}

static int read_file(sqlite3_file *file, void *bytes, int size, sqlite3_int64 offset) {
    return real(file)->pMethods->xRead(real(file), bytes, size, offset);
}

static int write_file(sqlite3_file *file, const void *bytes, int size, sqlite3_int64 offset) {
    if (fails(id(file), TAPE_ON_WRITE)) {
        int part = size / 2; // a write may stop half way
        if (real(file)->pMethods->xWrite(real(file), bytes, part, offset) == SQLITE_OK) {
            record(TAPE_WRITE, id(file), offset, bytes, part);
        }
        return tape.error == TAPE_FULL ? SQLITE_FULL : SQLITE_IOERR_WRITE;
    }
    int code = real(file)->pMethods->xWrite(real(file), bytes, size, offset);
    if (code == SQLITE_OK) {
        record(TAPE_WRITE, id(file), offset, bytes, size);
    }
    return code;
}

static int truncate_file(sqlite3_file *file, sqlite3_int64 size) {
    if (fails(id(file), TAPE_ON_TRUNCATE)) {
        return SQLITE_IOERR_TRUNCATE;
    }
    record(TAPE_TRUNCATE, id(file), size, NULL, 0);
    return real(file)->pMethods->xTruncate(real(file), size);
}

static int sync_file(sqlite3_file *file, int flags) {
    if (fails(id(file), TAPE_ON_SYNC)) {
        record(TAPE_LOST_SYNC, id(file), 0, NULL, 0);
        return SQLITE_IOERR_FSYNC;
    }
    record(TAPE_SYNC, id(file), 0, NULL, 0);
    if (((struct file *)file)->folder_sync) {
        ((struct file *)file)->folder_sync = false;
        record(TAPE_FOLDER_SYNC, id(file), 0, NULL, 0);
    }
    (void)flags; // the tests run faster without, and the tape is the disk
    return SQLITE_OK;
}

static int size_of_file(sqlite3_file *file, sqlite3_int64 *ret_size) {
    return real(file)->pMethods->xFileSize(real(file), ret_size);
}

static int lock_file(sqlite3_file *file, int lock) {
    return real(file)->pMethods->xLock(real(file), lock);
}

static int unlock_file(sqlite3_file *file, int lock) {
    return real(file)->pMethods->xUnlock(real(file), lock);
}

static int reserved_file(sqlite3_file *file, int *ret_reserved) {
    return real(file)->pMethods->xCheckReservedLock(real(file), ret_reserved);
}

static int control_file(sqlite3_file *file, int op, void *argument) {
    return real(file)->pMethods->xFileControl(real(file), op, argument);
}

static int sector_size(sqlite3_file *file) {
    return real(file)->pMethods->xSectorSize(real(file));
}

static int characteristics(sqlite3_file *file) {
    return real(file)->pMethods->xDeviceCharacteristics(real(file));
}

static int shm_map(sqlite3_file *file, int page, int size, int extend, void volatile **ret_page) {
    return real(file)->pMethods->xShmMap(real(file), page, size, extend, ret_page);
}

static int shm_lock(sqlite3_file *file, int offset, int count, int flags) {
    return real(file)->pMethods->xShmLock(real(file), offset, count, flags);
}

static void shm_barrier(sqlite3_file *file) {
    real(file)->pMethods->xShmBarrier(real(file));
}

static int shm_unmap(sqlite3_file *file, int remove) {
    return real(file)->pMethods->xShmUnmap(real(file), remove);
}

static const sqlite3_io_methods methods = {
    .iVersion = 2, // no memory-mapped reading
    .xClose = close_file,
    .xRead = read_file,
    .xWrite = write_file,
    .xTruncate = truncate_file,
    .xSync = sync_file,
    .xFileSize = size_of_file,
    .xLock = lock_file,
    .xUnlock = unlock_file,
    .xCheckReservedLock = reserved_file,
    .xFileControl = control_file,
    .xSectorSize = sector_size,
    .xDeviceCharacteristics = characteristics,
    .xShmMap = shm_map,
    .xShmLock = shm_lock,
    .xShmBarrier = shm_barrier,
    .xShmUnmap = shm_unmap,
};

static int open_file(sqlite3_vfs *vfs, const char *name, sqlite3_file *base, int flags,
                     int *ret_flags) {
    struct file *file = (struct file *)base;
    int known = name_of(name);
    int there = 1;
    (void)vfs;
    memset(file, 0, sizeof *file);
    if (fails(known, TAPE_ON_OPEN)) {
        return SQLITE_CANTOPEN;
    }
    if (known >= 0) {
        tape.real->xAccess(tape.real, name, SQLITE_ACCESS_EXISTS, &there);
    }
    file->real = calloc(1, (size_t)tape.real->szOsFile);
    int code = tape.real->xOpen(tape.real, name, file->real, flags, ret_flags);
    if (code != SQLITE_OK) {
        free(file->real);
        return code;
    }
    file->base.pMethods = &methods;
    file->id = known < 0                           ? -1
               : there && tape.file_of[known] >= 0 ? tape.file_of[known]
                                                   : new_file(known);
    if (!there) {
        record_name(TAPE_CREATE, known, file->id, 0);
        file->folder_sync = (flags & (SQLITE_OPEN_WAL | SQLITE_OPEN_MAIN_JOURNAL)) != 0;
    }
    return SQLITE_OK;
}

static void unlinked(int name) {
    if (name >= 0 && tape.file_of[name] >= 0) {
        record_name(TAPE_UNLINK, name, tape.file_of[name], 0);
        tape.file_of[name] = -1;
    }
}

static int delete_file(sqlite3_vfs *vfs, const char *name, int sync_folder) {
    int known = name_of(name);
    (void)vfs;
    if (fails(known, TAPE_ON_UNLINK)) {
        return SQLITE_IOERR_DELETE;
    }
    int code = tape.real->xDelete(tape.real, name, 0);
    if (code == SQLITE_OK) {
        unlinked(known);
        if (sync_folder) {
            record(TAPE_FOLDER_SYNC, known, 0, NULL, 0);
        }
    }
    return code;
}

// --- what the store does without SQLite ----------------------------------------------------------

int __real_unlink(const char *path);
int __real_link(const char *from, const char *to);
int __real_renameat2(int from_folder, const char *from, int to_folder, const char *to,
                     unsigned flags);
int __real_fsync(int fd);
int __wrap_unlink(const char *path);
int __wrap_link(const char *from, const char *to);
int __wrap_renameat2(int from_folder, const char *from, int to_folder, const char *to,
                     unsigned flags);
int __wrap_fsync(int fd);

static int refuse(void) {
    errno = tape.error == TAPE_FULL ? ENOSPC : EIO;
    return -1;
}

int __wrap_unlink(const char *path) {
    int name = tape.all ? name_of(path) : -1;
    if (name >= 0 && tape.file_of[name] >= 0 && fails(name, TAPE_ON_UNLINK)) {
        return refuse();
    }
    int result = __real_unlink(path);
    if (result == 0) {
        unlinked(name);
    }
    return result;
}

int __wrap_link(const char *from, const char *to) {
    int old = tape.all ? name_of(from) : -1;
    int new = tape.all ? name_of(to) : -1;
    if (fails(old, TAPE_ON_UNLINK)) {
        return refuse();
    }
    int result = __real_link(from, to);
    if (result == 0 && old >= 0 && new >= 0) {
        tape.file_of[new] = tape.file_of[old];
        record_name(TAPE_CREATE, new, tape.file_of[old], 0);
    }
    return result;
}

int __wrap_renameat2(int from_folder, const char *from, int to_folder, const char *to,
                     unsigned flags) {
    int old = tape.all ? name_of(from) : -1;
    int new = tape.all ? name_of(to) : -1;
    if (fails(old, TAPE_ON_UNLINK)) {
        return refuse();
    }
    int result = __real_renameat2(from_folder, from, to_folder, to, flags);
    if (result == 0 && old >= 0 && new >= 0) {
        tape.file_of[new] = tape.file_of[old];
        tape.file_of[old] = -1;
        record_name(TAPE_RENAME, old, tape.file_of[new], new);
    }
    return result;
}

int __wrap_fsync(int fd) {
    char link[32];
    char path[200] = "";
    if (!tape.all) {
        return __real_fsync(fd);
    }
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    ssize_t size = readlink(link, path, sizeof path - 1);
    if (size > 0 && starts(tape.path, path) && tape.path[size] == '/') {
        if (fails(0, TAPE_ON_SYNC)) {
            return refuse();
        }
        record(TAPE_FOLDER_SYNC, 0, 0, NULL, 0);
        return 0;
    }
    int name = name_of(path);
    int file = name >= 0 ? tape.file_of[name] : -1;
    if (fails(file, TAPE_ON_SYNC)) {
        record(TAPE_LOST_SYNC, file, 0, NULL, 0);
        return refuse();
    }
    record(TAPE_SYNC, file, 0, NULL, 0);
    return file >= 0 ? 0 : __real_fsync(fd);
}

void tape_begin(const char *path) {
    memset(&tape, 0, sizeof tape);
    tape.real = sqlite3_vfs_find(NULL);
    snprintf(tape.path, sizeof tape.path, "%s", path);
    tape.vfs = *tape.real; // the rest of its methods serve as they are
    tape.vfs.iVersion = 1;
    tape.vfs.szOsFile = sizeof(struct file);
    tape.vfs.zName = "tape";
    tape.vfs.pNext = NULL;
    tape.vfs.xOpen = open_file;
    tape.vfs.xDelete = delete_file;
    for (int i = 0; i < TAPE_SUFFIXES; i++) {
        snprintf(tape.name[i], sizeof tape.name[0], "%s", tape_suffix[i]);
        tape.file_of[i] = -1;
    }
    tape.names = TAPE_SUFFIXES;
    sqlite3_vfs_register(&tape.vfs, 1);
}

void tape_all(void) {
    tape.all = true;
}

const char *tape_name(int name) {
    return name < tape.names ? tape.name[name] : NULL;
}

void tape_end(void) {
    sqlite3_vfs_unregister(&tape.vfs);
    for (size_t i = 0; i < tape.count; i++) {
        free(tape.ops[i].bytes);
    }
    free(tape.ops);
    memset(&tape, 0, sizeof tape);
}

size_t tape_count(void) {
    return tape.count;
}

const struct tape_op *tape_op(size_t index) {
    return &tape.ops[index];
}

void tape_fail_only(unsigned kinds, int64_t call, bool for_ever, enum tape_error error) {
    tape.calls = 0;
    tape.fail_at = call;
    tape.for_ever = for_ever;
    tape.error = error;
    tape.kinds = kinds;
}

void tape_fail(int64_t call, bool for_ever, enum tape_error error) {
    tape_fail_only(error == TAPE_FULL ? TAPE_ON_WRITE : ~0u, call, for_ever, error);
}

int64_t tape_calls(void) {
    return tape.calls;
}

#include "tape.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const char *const tape_suffix[TAPE_FILES] = {"", "-wal", "-journal"};

struct file {
    sqlite3_file base;
    int id;           // -1: none of ours
    bool folder_sync; // due with the next sync, as os_unix.c does for a new journal or WAL
    sqlite3_file *real;
};

static struct {
    sqlite3_vfs vfs;
    sqlite3_vfs *real;
    char path[160];
    struct tape_op *ops;
    size_t count;
    size_t room;
    int64_t calls;
    int64_t fail_at;
    bool for_ever;
    bool syncs_only;
    enum tape_error error;
} tape;

static int id_of(const char *name) {
    size_t size = strlen(tape.path);
    if (name == NULL || strncmp(name, tape.path, size) != 0) {
        return -1;
    }
    for (int i = 0; i < TAPE_FILES; i++) {
        if (strcmp(name + size, tape_suffix[i]) == 0) {
            return i;
        }
    }
    return -1;
}

static void record(enum tape_kind kind, int file, int64_t offset, const void *bytes, int size) {
    if (file < 0) {
        return;
    }
    if (tape.count == tape.room) {
        tape.room = tape.room == 0 ? 1024 : 2 * tape.room;
        tape.ops = realloc(tape.ops, tape.room * sizeof tape.ops[0]);
    }
    struct tape_op op = {.kind = kind, .file = file, .offset = offset, .size = size};
    if (size > 0) {
        op.bytes = malloc((size_t)size);
        memcpy(op.bytes, bytes, (size_t)size);
    }
    tape.ops[tape.count++] = op;
}

// Whether this call is the one to fail.
static bool fails(int file, bool sync, bool write) {
    if (file < 0 || (tape.syncs_only && !sync) || (tape.error == TAPE_FULL && !write)) {
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
    if (fails(id(file), false, true)) {
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
    if (fails(id(file), false, false)) {
        return SQLITE_IOERR_TRUNCATE;
    }
    record(TAPE_TRUNCATE, id(file), size, NULL, 0);
    return real(file)->pMethods->xTruncate(real(file), size);
}

static int sync_file(sqlite3_file *file, int flags) {
    if (fails(id(file), true, false)) {
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
    int there = 1;
    (void)vfs;
    memset(file, 0, sizeof *file);
    file->id = id_of(name);
    if (fails(file->id, false, false)) {
        return SQLITE_CANTOPEN;
    }
    if (file->id >= 0) {
        tape.real->xAccess(tape.real, name, SQLITE_ACCESS_EXISTS, &there);
    }
    file->real = calloc(1, (size_t)tape.real->szOsFile);
    int code = tape.real->xOpen(tape.real, name, file->real, flags, ret_flags);
    if (code != SQLITE_OK) {
        free(file->real);
        return code;
    }
    file->base.pMethods = &methods;
    if (!there) {
        record(TAPE_CREATE, file->id, 0, NULL, 0);
        file->folder_sync = file->id > 0;
    }
    return SQLITE_OK;
}

static int delete_file(sqlite3_vfs *vfs, const char *name, int sync_folder) {
    (void)vfs;
    if (fails(id_of(name), false, false)) {
        return SQLITE_IOERR_DELETE;
    }
    int code = tape.real->xDelete(tape.real, name, 0);
    if (code == SQLITE_OK) {
        record(TAPE_UNLINK, id_of(name), 0, NULL, 0);
        if (sync_folder) {
            record(TAPE_FOLDER_SYNC, id_of(name), 0, NULL, 0);
        }
    }
    return code;
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
    sqlite3_vfs_register(&tape.vfs, 1);
}

void tape_end(void) {
    sqlite3_vfs_unregister(&tape.vfs);
    for (size_t i = 0; i < tape.count; i++) {
        free(tape.ops[i].bytes);
    }
    free(tape.ops);
    tape.ops = NULL;
    tape.count = 0;
}

size_t tape_count(void) {
    return tape.count;
}

const struct tape_op *tape_op(size_t index) {
    return &tape.ops[index];
}

void tape_fail(int64_t call, bool for_ever, enum tape_error error) {
    tape.calls = 0;
    tape.fail_at = call;
    tape.for_ever = for_ever;
    tape.error = error;
    tape.syncs_only = false;
}

void tape_fail_sync(int64_t call) {
    tape_fail(call, false, TAPE_IO);
    tape.syncs_only = true;
}

int64_t tape_calls(void) {
    return tape.calls;
}

#include "settle.h"

#include <sqlite3.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#define CHUNK 65536

static bool write_over(sqlite3_file *file) {
    static uint8_t bytes[CHUNK];
    sqlite3_int64 size = 0;
    if (file->pMethods->xFileSize(file, &size) != SQLITE_OK) {
        return false;
    }
    for (sqlite3_int64 at = 0; at < size; at += CHUNK) {
        int count = size - at < CHUNK ? (int)(size - at) : CHUNK;
        if (file->pMethods->xRead(file, bytes, count, at) != SQLITE_OK ||
            file->pMethods->xWrite(file, bytes, count, at) != SQLITE_OK) {
            return false;
        }
    }
    return file->pMethods->xSync(file, SQLITE_SYNC_NORMAL) == SQLITE_OK;
}

bool settle_wal(const char *path) {
    sqlite3_vfs *vfs = sqlite3_vfs_find(NULL);
    sqlite3_file *file = calloc(1, (size_t)vfs->szOsFile);
    char *wal = sqlite3_mprintf("%s-wal", path);
    sqlite3_filename name = wal == NULL ? NULL : sqlite3_create_filename(path, "", wal, 0, NULL);
    int there = 0;
    bool settled = false;
    if (file != NULL && name != NULL &&
        vfs->xAccess(vfs, wal, SQLITE_ACCESS_EXISTS, &there) == SQLITE_OK) {
        settled = !there;
        if (there && vfs->xOpen(vfs, sqlite3_filename_wal(name), file,
                                SQLITE_OPEN_READWRITE | SQLITE_OPEN_WAL, NULL) == SQLITE_OK) {
            settled = write_over(file);
            file->pMethods->xClose(file);
        }
    }
    sqlite3_free_filename(name);
    sqlite3_free(wal);
    free(file);
    return settled;
}

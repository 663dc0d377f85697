#ifndef WITNESS_DISK_H
#define WITNESS_DISK_H

// Writing small files so that they are there after a power cut. Private to src/store. errno says
// why something failed.

#include <stdbool.h>
#include <stddef.h>

bool witness_disk_write(int fd, const char *bytes, size_t size);
bool witness_disk_sync_folder(const char *path); // the folder that `path` lies in

#endif

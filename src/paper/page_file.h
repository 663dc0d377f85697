#ifndef PAGE_FILE_H
#define PAGE_FILE_H

// A file that appears whole or not at all: written under a name of its own beside `path`, synced
// and renamed. A path that is there and is no ordinary file (/dev/full, a pipe) is written as it
// is. The first error is kept.

#include <stdbool.h>
#include <stddef.h>

#define PAGE_PATH_MAX 1000

struct page_file {
    int fd;
    int error; // errno of the first failure, 0 none
    bool beside;
    char path[PAGE_PATH_MAX];
    char working[PAGE_PATH_MAX + 16];
};

// False: errno says why.
bool page_file_open(struct page_file *file, const char *path);
bool page_file_write(struct page_file *file, const void *bytes, size_t size);
// Puts the file in its place. False, and nothing is left of it: file->error says why.
bool page_file_keep(struct page_file *file);
// Throws away what was not kept.
void page_file_drop(struct page_file *file);

#endif

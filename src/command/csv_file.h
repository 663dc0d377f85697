#ifndef CSV_FILE_H
#define CSV_FILE_H

// A CSV that a command writes: a new file, or `-` for the terminal.

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

// Fills the open file. False: `message` says why.
typedef bool csv_file_fill(void *context, int fd, int64_t *ret_rows, char *message, size_t size);

// Makes the file, which may not be there yet, and says how many `things` are in it. False: said on
// stderr, and no file is left.
bool csv_file_write(const char *command, const char *path, const char *things, csv_file_fill *fill,
                    void *context);

#endif

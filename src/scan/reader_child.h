#ifndef READER_CHILD_H
#define READER_CHILD_H

// The decoder's process, from the side of who looks after it.

#include "reader_wire.h"

#include <sys/types.h>

struct reader_child {
    pid_t pid;  // 0: none
    int socket; // -1: none
};

// False when it cannot be started; *child is none then.
bool reader_child_start(struct reader_child *child, const char *program, int memory);
// Kills it, waits for it. Takes none.
void reader_child_end(struct reader_child *child);

#endif

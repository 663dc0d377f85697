#ifndef CHILD_H
#define CHILD_H

// A program run beside this one, mostly this one itself, so that whatever it meets does not hold
// the bench up. For one thread alone. What it says on stderr is kept for when it ends; its stdin
// and stdout are empty.

#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>

#define CHILD_TEXT_MAX 512

struct child {
    pid_t pid; // 0: none
    int said;  // what it says on stderr, -1
};
#define CHILD_NONE ((struct child){.said = -1})

// `arguments` with its own name first and NULL last. False: nothing was started.
bool child_start(struct child *child, const char *program, const char *const *arguments);
// Another program, found along PATH, with `input` (at most 4096 bytes) on its stdin.
bool child_say(struct child *child, const char *const *arguments, const char *input);
// True when it has ended: with 0 or otherwise, and what it said then. None is left.
bool child_ended(struct child *child, bool *ret_good, char ret_text[CHILD_TEXT_MAX]);
// Ends it and what it has started without waiting for that: child_ended tells.
void child_kill(const struct child *child);
// Ends it and what it has started, if there is one. What cannot be ended, as while it waits for a
// disk that does not answer, is not waited for.
void child_stop(struct child *child);

#endif

#include "child.h"

#include <fcntl.h>
#include <limits.h>
#include <signal.h>
#include <spawn.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#define GONE_MS 250 // by then what was killed has ended, unless it waits for a disk
#define STAYING_MAX 16

// Killed and not gone yet: taken note of when they are, so that nobody waits for them.
static pid_t staying[STAYING_MAX];
static size_t staying_count;

static void take_note(void) {
    for (size_t i = staying_count; i > 0; i--) {
        if (waitpid(staying[i - 1], NULL, WNOHANG) != 0) {
            staying[i - 1] = staying[--staying_count];
        }
    }
}

// An end of a pipe for what it says: nothing else of the bench goes to the child.
static bool files_for(posix_spawn_file_actions_t *files, int input, int said) {
    return (input < 0 ? posix_spawn_file_actions_addopen(files, 0, "/dev/null", O_RDONLY, 0)
                      : posix_spawn_file_actions_adddup2(files, input, 0)) == 0 &&
           posix_spawn_file_actions_addopen(files, 1, "/dev/null", O_WRONLY, 0) == 0 &&
           posix_spawn_file_actions_adddup2(files, said, 2) == 0 &&
           posix_spawn_file_actions_addclosefrom_np(files, 3) == 0;
}

// Signals as in a fresh program, and a group of its own, so that its children end with it.
static bool attributes_for(posix_spawnattr_t *attributes) {
    sigset_t all;
    sigset_t none;
    sigfillset(&all);
    sigemptyset(&none);
    return posix_spawnattr_setflags(attributes, POSIX_SPAWN_SETSIGDEF | POSIX_SPAWN_SETSIGMASK |
                                                    POSIX_SPAWN_SETPGROUP) == 0 &&
           posix_spawnattr_setsigdefault(attributes, &all) == 0 &&
           posix_spawnattr_setsigmask(attributes, &none) == 0;
}

static bool spawn(pid_t *pid, const char *program, const char *const *arguments, int input,
                  int said) {
    posix_spawn_file_actions_t files;
    posix_spawnattr_t attributes;
    bool done = false;
    if (posix_spawn_file_actions_init(&files) != 0) {
        return false;
    }
    if (posix_spawnattr_init(&attributes) == 0) {
        done =
            files_for(&files, input, said) && attributes_for(&attributes) &&
            posix_spawnp(pid, program, &files, &attributes, (char *const *)arguments, environ) == 0;
        posix_spawnattr_destroy(&attributes);
    }
    posix_spawn_file_actions_destroy(&files);
    return done;
}

static bool start(struct child *child, const char *program, const char *const *arguments,
                  int input) {
    int ends[2];
    bool started;
    take_note();
    if (pipe2(ends, O_CLOEXEC | O_NONBLOCK) != 0) {
        return false;
    }
    started = spawn(&child->pid, program, arguments, input, ends[1]);
    close(ends[1]);
    if (started) {
        child->said = ends[0];
    } else {
        child->pid = 0;
        close(ends[0]);
    }
    return started;
}

bool child_start(struct child *child, const char *program, const char *const *arguments) {
    return start(child, program, arguments, -1);
}

bool child_say(struct child *child, const char *const *arguments, const char *input) {
    int ends[2];
    size_t size = strlen(input);
    if (size > PIPE_BUF || pipe2(ends, O_CLOEXEC) != 0) {
        return false;
    }
    // It all goes into the pipe before anybody reads: nobody waits.
    bool started = write(ends[1], input, size) == (ssize_t)size &&
                   start(child, arguments[0], arguments, ends[0]);
    close(ends[0]);
    close(ends[1]);
    return started;
}

static void forget(struct child *child) {
    close(child->said);
    *child = CHILD_NONE;
}

bool child_ended(struct child *child, bool *ret_good, char ret_text[CHILD_TEXT_MAX]) {
    int status;
    ssize_t size;
    if (child->pid == 0 || waitpid(child->pid, &status, WNOHANG) != child->pid) {
        return false;
    }
    size = read(child->said, ret_text, CHILD_TEXT_MAX - 1);
    ret_text[size > 0 ? size : 0] = '\0';
    *ret_good = status == 0;
    forget(child);
    return true;
}

void child_kill(const struct child *child) {
    if (child->pid != 0) {
        kill(-child->pid, SIGKILL);
    }
}

void child_stop(struct child *child) {
    const struct timespec moment = {.tv_nsec = 1000000};
    bool gone = false;
    if (child->pid == 0) {
        return;
    }
    child_kill(child);
    for (int i = 0; i < GONE_MS && !gone; i++) {
        gone = waitpid(child->pid, NULL, WNOHANG) != 0;
        if (!gone) {
            nanosleep(&moment, NULL);
        }
    }
    if (!gone && staying_count < STAYING_MAX) {
        staying[staying_count++] = child->pid;
    }
    forget(child);
}

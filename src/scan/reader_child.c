#include "reader_child.h"

#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

// Out of the way of the numbers they get in the child.
static int move_up(int fd) {
    int higher = fcntl(fd, F_DUPFD_CLOEXEC, 10);
    close(fd);
    return higher;
}

static bool lay_files(posix_spawn_file_actions_t *files, int memory, int socket) {
    return posix_spawn_file_actions_addopen(files, 0, "/dev/null", O_RDONLY, 0) == 0 &&
           posix_spawn_file_actions_addopen(files, 1, "/dev/null", O_WRONLY, 0) == 0 &&
           posix_spawn_file_actions_adddup2(files, memory, READER_WIRE_MEMORY) == 0 &&
           posix_spawn_file_actions_adddup2(files, socket, READER_WIRE_SOCKET) == 0 &&
           posix_spawn_file_actions_addclosefrom_np(files, READER_WIRE_SOCKET + 1) == 0;
}

// Its own process group: what the terminal sends the bench is not meant for it.
static bool lay_attributes(posix_spawnattr_t *attributes) {
    sigset_t all;
    sigset_t none;
    sigfillset(&all);
    sigemptyset(&none);
    return posix_spawnattr_setflags(attributes, POSIX_SPAWN_SETSIGDEF | POSIX_SPAWN_SETSIGMASK |
                                                    POSIX_SPAWN_SETPGROUP) == 0 &&
           posix_spawnattr_setsigdefault(attributes, &all) == 0 &&
           posix_spawnattr_setsigmask(attributes, &none) == 0;
}

static bool spawn(const char *program, int memory, int socket, pid_t *ret_pid) {
    char *const arguments[] = {"kerfside", "decoder", NULL};
    posix_spawn_file_actions_t files;
    posix_spawnattr_t attributes;
    bool done = false;
    if (posix_spawn_file_actions_init(&files) != 0) {
        return false;
    }
    if (posix_spawnattr_init(&attributes) == 0) {
        done = lay_files(&files, memory, socket) && lay_attributes(&attributes) &&
               posix_spawn(ret_pid, program, &files, &attributes, arguments, environ) == 0;
        posix_spawnattr_destroy(&attributes);
    }
    posix_spawn_file_actions_destroy(&files);
    return done;
}

bool reader_child_start(struct reader_child *child, const char *program, int memory) {
    int pair[2];
    int theirs;
    pid_t pid;
    bool done;
    *child = (struct reader_child){.socket = -1};
    if (socketpair(AF_UNIX, SOCK_SEQPACKET | SOCK_CLOEXEC, 0, pair) != 0) {
        return false;
    }
    theirs = move_up(pair[1]);
    done = theirs >= 0 && spawn(program, memory, theirs, &pid);
    if (theirs >= 0) {
        close(theirs);
    }
    if (!done) {
        close(pair[0]);
        return false;
    }
    *child = (struct reader_child){.pid = pid, .socket = pair[0]};
    return true;
}

void reader_child_end(struct reader_child *child) {
    if (child->pid > 0) {
        close(child->socket);
        kill(child->pid, SIGKILL);
        waitpid(child->pid, NULL, 0);
    }
    *child = (struct reader_child){.socket = -1};
}

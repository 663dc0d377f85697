#include "print.h"

#include "tongue.h"

#include <errno.h>
#include <spawn.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>

extern char **environ;

static bool wait_for(pid_t child, int *ret_status) {
    pid_t got;
    do {
        got = waitpid(child, ret_status, 0);
    } while (got < 0 && errno == EINTR);
    return got == child;
}

bool print_pdf(const char *path, const char *media, const char *queue, char *message, size_t size) {
    char paper[64];
    char copy[1024];
    char to[256] = "";
    char *arguments[12] = {"lp", "-o", "print-scaling=none", "-o", paper};
    int count = 5;
    pid_t child;
    int status = 0;
    snprintf(paper, sizeof paper, "media=%s", media);
    if (snprintf(copy, sizeof copy, "%s", path) >= (int)sizeof copy ||
        (queue != NULL && snprintf(to, sizeof to, "%s", queue) >= (int)sizeof to)) {
        snprintf(message, size, _("The name is too long for lp."));
        return false;
    }
    if (queue != NULL) {
        arguments[count++] = "-d";
        arguments[count++] = to;
    }
    arguments[count++] = "--"; // a path may begin with a hyphen
    arguments[count] = copy;
    fflush(stdout); // lp writes there too
    int error = posix_spawnp(&child, "lp", NULL, NULL, arguments, environ);
    if (error == ENOENT) {
        snprintf(message, size,
                 _("There is no lp here to print with (package cups-client). Print %.400s with "
                   "another program, at 100 %%."),
                 path);
        return false;
    }
    if (error != 0) {
        snprintf(message, size, _("Cannot start lp: %s. Print %.400s yourself, at 100 %%."),
                 strerror(error), path);
        return false;
    }
    if (!wait_for(child, &status) || !WIFEXITED(status) || WEXITSTATUS(status) != 0) {
        snprintf(message, size,
                 _("lp did not take %.400s. Look at what it said and at the printer, or print it "
                   "yourself, at 100 %%."),
                 path);
        return false;
    }
    return true;
}

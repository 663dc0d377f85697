// The bench's options, and handing them on to the program that comes next.

#include "bench_run.h"
#include "options.h"
#include "tongue.h"

#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define OPTIONS_MAX 20

// What is read from the command line, and what the next program is given.
static size_t list_options(struct bench_options *to, struct option list[OPTIONS_MAX]) {
    const struct option options[] = {
        {"--db", &to->db, NULL},
        {"--size", &to->size, NULL},
        {"--settings", &to->settings, NULL},
        {"--script", &to->script, NULL},
        {"--shots", &to->shots, NULL},
        {"--scanner", &to->scanner, NULL},
        {"--button", &to->button, NULL},
        {"--pepper", &to->pepper, NULL},
        {"--windowed", NULL, &to->windowed},
        {"--trace", NULL, &to->trace},
        {"--skip", &to->skip, NULL},
        {"--tour", NULL, &to->tour},
        {"--copy", NULL, &to->copy},
        {"--copied", NULL, &to->copied},
        {"--back", NULL, &to->back},
        {"--badge", &to->badge, NULL},
        {"--resume", &to->resume, NULL},
    };
    memcpy(list, options, sizeof options);
    return sizeof options / sizeof options[0];
}
#define OF_THE_BENCH 11 // the first of them

bool bench_options_read(int argc, char **argv, struct bench_options *to) {
    struct option list[OPTIONS_MAX];
    size_t all = list_options(to, list);
    int count;
    return options_read_plain(argc, argv, list, strcmp(argv[0], "bench") == 0 ? OF_THE_BENCH : all,
                              0, 0, "", &count);
}

void bench_become(const char *command, const struct bench_options *options) {
    struct bench_options now = *options;
    struct option list[OPTIONS_MAX];
    const char *arguments[2 * OPTIONS_MAX + 3] = {"kerfside", command};
    bool bench = strcmp(command, "bench") == 0;
    size_t all = list_options(&now, list);
    size_t count = 2;
    sigset_t none;
    for (size_t i = 0; i < (bench ? OF_THE_BENCH : all); i++) {
        if (list[i].value != NULL && *list[i].value != NULL) {
            arguments[count++] = list[i].name;
            arguments[count++] = *list[i].value;
        } else if (list[i].flag != NULL && *list[i].flag) {
            arguments[count++] = list[i].name;
        }
    }
    fflush(stdout);
    sigemptyset(&none);
    sigprocmask(SIG_SETMASK, &none, NULL);
    close_range(3, ~0U, CLOSE_RANGE_CLOEXEC);
    execv("/proc/self/exe", (char *const *)arguments);
    fprintf(stderr, _("kerfside %s: the program could not be started again: %s.\n"), command,
            strerror(errno));
}

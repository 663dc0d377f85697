// The bench itself: the kiosk's window, or a script of events for tests.

#include "bench_run.h"
#include "command.h"
#include "practice.h"

#include <stdio.h>

int command_bench(int argc, char **argv) {
    struct bench_options options = {0};
    enum bench_leaves leaves = BENCH_STAYS;
    char path[DATABASE_PATH_MAX];
    if (!bench_options_read(argc, argv, &options)) {
        return COMMAND_USAGE;
    }
    if (!database_path(options.db, path)) {
        return COMMAND_REFUSED;
    }
    practice_sweep(path);
    int status = bench_run(&options, path, path, &leaves);
    if (leaves == BENCH_TO_PRACTICE || leaves == BENCH_TO_TOUR) {
        options.copied = leaves == BENCH_TO_PRACTICE;
        options.back = true;
        bench_become("practice", &options);
        return COMMAND_REFUSED;
    }
    if (leaves == BENCH_AGAIN) {
        bench_become("bench", &options);
        return COMMAND_REFUSED;
    }
    if (leaves == BENCH_POWER_LOST) { // of a practice that was begun by its own name
        bench_become("bench", &options);
        return COMMAND_REFUSED;
    }
    return status;
}

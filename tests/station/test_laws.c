// Laws 1 to 8 over every event sequence of a bench with two clubs, a third of another bench, two
// workers and a supervisor, with one fault anywhere; then a long random shift with many.

#include "cmocka_all.h"
#include "explore.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

// Sanitizers cost about ten times the time: one event less. KERFSIDE_LAWS_DEPTH asks for more.
#if defined(__SANITIZE_ADDRESS__)
#define DEPTH 10
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define DEPTH 10
#endif
#endif
#ifndef DEPTH
#define DEPTH 11
#endif
#define DEPTH_ONE_BUTTON (DEPTH - 3)

static void try_to(int least) {
    static struct explore_report report;
    const char *depth = getenv("KERFSIDE_LAWS_DEPTH");
    const char *seconds = getenv("KERFSIDE_LAWS_SECONDS");
    struct explore_limits limits = {
        .depth = depth != NULL ? atoi(depth) : least,
        .faults = 1,
        .max_states = 4000000,
        .seconds = seconds != NULL ? atof(seconds) : 600,
    };
    explore(&limits, &report);
    printf("laws: depth %d, %zu states, %zu transitions, %.3g sequences, %zu restarts tried, "
           "%zu states with a club logged%s\n",
           report.depth, report.states, report.transitions, report.paths, report.restarts,
           report.logged, report.complete ? ", nothing left to find" : "");
    for (int i = 1; i <= report.depth; i++) {
        printf(" %zu", report.at_depth[i]);
    }
    printf(" new states by depth\n");
    if (report.broken != NULL) {
        printf("BROKEN: %s\n%s", report.broken, report.path);
    }
    assert_null(report.broken);
    assert_true(report.depth == limits.depth || report.complete);
    assert_true(report.logged > 0 || limits.depth < 10);
}

static void every_sequence(void **state) {
    (void)state;
    try_to(DEPTH);
}

// With choices made by the button alone.
static void every_sequence_with_one_button(void **state) {
    (void)state;
    shop_one_button = true;
    try_to(DEPTH_ONE_BUTTON);
    shop_one_button = false;
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_sequence),
        cmocka_unit_test(every_sequence_with_one_button),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

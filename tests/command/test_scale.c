// A scale at the real bench: its lines in the scanner check, and that it moves nothing else.

#include "run.h"
#include "scratch.h"

#include <stdlib.h>

static struct scratch scratch;
static struct ran ran;

static int opened(void **state) {
    (void)state;
    scratch_init(&scratch);
    scratch_import_workshop(&scratch);
    scratch_write(&scratch, "bench.ini", "[scale]\ndevice = none\nunit = kg\n");
    setenv("SDL_VIDEODRIVER", "dummy", 1);
    setenv("SDL_AUDIODRIVER", "dummy", 1);
    return 0;
}

static int closed(void **state) {
    (void)state;
    scratch_release(&scratch);
    return 0;
}

static void play(const char *steps) {
    scratch_write(&scratch, "steps", steps);
    run_expect(&scratch, &ran, 0,
               "bench --windowed --size 1024x600 --settings bench.ini --script steps");
}

static void test_check(void **state) {
    (void)state;
    play("scan W-0001B\nsee Scale\naction CHECK\nexpect CHECK\n"
         "weigh ST,GS,+  0.2034\nsee 203.4 g, gross, stable.\n"
         "weigh 203.4 ozt\nsee The unit is none of g, kg, oz and lb.\n"
         "weigh US,NT,-0001.2 g\nsee -1.2 g, net, not stable.\n"
         "scan S-0001S\nsee Keyboard\nweigh ST,7 g\nsee Keyboard\n" // a scan is looked at
         "wait 5000\nweigh ST,8 g\nsee 8 g, stable.\npress\nexpect READY\n");
}

static void test_elsewhere(void **state) {
    (void)state;
    play("scan W-0001B\nexpect READY\nweigh ST,203.4 g\nweigh OL\nweigh x\nexpect READY\n"
         "device scale gone\nexpect READY\nscan S-0001S\nexpect PAIR\nweigh ST,5 g\nexpect PAIR\n");
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_check),
                                       cmocka_unit_test(test_elsewhere)};
    return cmocka_run_group_tests(tests, opened, closed);
}

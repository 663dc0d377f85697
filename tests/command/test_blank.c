// The screen of the real bench goes dark while nobody is there, and light again for whoever comes:
// a scan or a typed ticket counts at once, a press or a key only makes it light.

#include "run.h"

#include <stdio.h>
#include <stdlib.h>

static struct scratch scratch;
static struct ran ran;

static int opened(void **state) {
    (void)state;
    scratch_init(&scratch);
    setenv("SDL_VIDEODRIVER", "dummy", 1);
    setenv("SDL_AUDIODRIVER", "dummy", 1);
    run_expect(&scratch, &ran, 0, "demo --db blank.db");
    return 0;
}

static int closed(void **state) {
    (void)state;
    scratch_release(&scratch);
    return 0;
}

static void goes(const char *settings, const char *steps) {
    scratch_write(&scratch, "bench.ini", settings);
    scratch_write(&scratch, "steps", steps);
    run(&scratch, &ran, "bench --db blank.db --settings bench.ini --script steps --size 800x600");
    if (ran.status != 0) {
        fail_msg("%s%s", steps, ran.err);
    }
}

#define AFTER_2 "[screen]\nblank_after = 2\n[bench]\nidle_sign_off = 0\n"

static void nobody_there(void **state) {
    (void)state;
    goes(AFTER_2, "wait 110000\nexpect SIGNED_OUT\nwait 20000\nexpect SIGNED_OUT dark\n"
                  "wait 9000000\nexpect SIGNED_OUT dark\n");
}

static void never_unless_asked(void **state) {
    (void)state;
    goes("[bench]\nname = B\n", "wait 9000000\nexpect SIGNED_OUT\n");
}

static void a_scan_counts(void **state) {
    (void)state;
    goes(AFTER_2, "wait 200000\nexpect SIGNED_OUT dark\nscan W-00029\nexpect READY\n");
    goes(AFTER_2, "wait 200000\ntype W-00029\nenter\nexpect READY\n");
}

static void a_press_makes_light(void **state) {
    (void)state;
    goes(AFTER_2, "wait 200000\npress\nexpect SIGNED_OUT\nwait 110000\nexpect SIGNED_OUT\n"
                  "wait 20000\nexpect SIGNED_OUT dark\n");
    // Held down it wakes as well, and nothing comes of it when it is let go.
    goes(AFTER_2, "wait 200000\nhold\nexpect SIGNED_OUT\npress\nexpect SIGNED_OUT\n");
}

static void never_while_somebody_works(void **state) {
    (void)state;
    goes(AFTER_2, "scan W-00029\nwait 9000000\nexpect READY\n");
    goes(AFTER_2, "scan W-00029\nscan H-0001A\nwait 9000000\nexpect PAIR\n");
}

static void dark_when_signed_off_for_want_of_anybody(void **state) {
    (void)state;
    goes("[screen]\nblank_after = 2\n[bench]\nidle_sign_off = 5\n",
         "scan W-00029\nwait 200000\nexpect READY\nwait 120000\nexpect SIGNED_OUT dark\n");
}

// What a dark screen shows is black, all of it.
static void it_is_black(void **state) {
    (void)state;
    scratch_write(&scratch, "bench.ini", AFTER_2);
    scratch_write(&scratch, "steps", "wait 200000\nshot dark\npress\nshot light\n");
    run_expect(&scratch, &ran, 0,
               "bench --db blank.db --settings bench.ini --script steps --size 800x600 --shots .");
    long sizes[2];
    static const char *const names[] = {"dark.png", "light.png"};
    for (int i = 0; i < 2; i++) {
        FILE *file = fopen(scratch_path(&scratch, names[i]), "rb");
        assert_non_null(file);
        fseek(file, 0, SEEK_END);
        sizes[i] = ftell(file);
        fclose(file);
    }
    assert_true(sizes[0] < 5000); // one colour packs to next to nothing
    assert_true(sizes[1] > 10000);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nobody_there),
        cmocka_unit_test(never_unless_asked),
        cmocka_unit_test(a_scan_counts),
        cmocka_unit_test(a_press_makes_light),
        cmocka_unit_test(never_while_somebody_works),
        cmocka_unit_test(dark_when_signed_off_for_want_of_anybody),
        cmocka_unit_test(it_is_black),
    };
    return cmocka_run_group_tests(tests, opened, closed);
}

#include "button.h"
#include "check.h"

#define HOLD_US 2000000

static struct button b;

static int set_up(void **state) {
    (void)state;
    button_init(&b, HOLD_US);
    return 0;
}

static void test_short_press(void **state) {
    (void)state;
    assert_int_equal(button_deadline(&b), -1);
    assert_int_equal(button_key(&b, true, 100), BUTTON_NOTHING);
    assert_int_equal(button_deadline(&b), 100 + HOLD_US);
    assert_int_equal(button_tick(&b, 99 + HOLD_US), BUTTON_NOTHING);
    assert_int_equal(button_key(&b, false, 99 + HOLD_US), BUTTON_PRESS);
    assert_int_equal(button_deadline(&b), -1);
    assert_int_equal(button_tick(&b, 10 * HOLD_US), BUTTON_NOTHING);
}

static void test_held_once(void **state) {
    (void)state;
    button_key(&b, true, 0);
    assert_int_equal(button_tick(&b, HOLD_US), BUTTON_HELD);
    assert_int_equal(button_deadline(&b), -1);
    assert_int_equal(button_tick(&b, 5 * HOLD_US), BUTTON_NOTHING);
    assert_int_equal(button_key(&b, false, 6 * HOLD_US), BUTTON_NOTHING);
    assert_int_equal(button_key(&b, true, 7 * HOLD_US), BUTTON_NOTHING);
    assert_int_equal(button_key(&b, false, 7 * HOLD_US + 1), BUTTON_PRESS);
}

static void test_held_though_nobody_looked(void **state) {
    (void)state;
    button_key(&b, true, 0);
    assert_int_equal(button_key(&b, false, HOLD_US), BUTTON_HELD);
    assert_int_equal(button_tick(&b, 2 * HOLD_US), BUTTON_NOTHING);
}

static void test_repeats_and_stray_releases(void **state) {
    (void)state;
    assert_int_equal(button_key(&b, false, 5), BUTTON_NOTHING);
    button_key(&b, true, 10);
    for (int i = 0; i < 50; i++) { // a keyboard's own repeats
        assert_int_equal(button_key(&b, true, 20 + i), BUTTON_NOTHING);
    }
    assert_int_equal(button_deadline(&b), 10 + HOLD_US);
    assert_int_equal(button_key(&b, false, 100), BUTTON_PRESS);
    assert_int_equal(button_key(&b, false, 101), BUTTON_NOTHING);
}

static void test_unplugged_while_down(void **state) {
    (void)state;
    button_key(&b, true, 0);
    button_forget(&b);
    assert_int_equal(button_deadline(&b), -1);
    assert_int_equal(button_tick(&b, HOLD_US), BUTTON_NOTHING);
    assert_int_equal(button_key(&b, false, HOLD_US), BUTTON_NOTHING);
}

// Every sequence of up to 7 of down, up and ticks: never more presses than times it was let go,
// never both a press and a hold for one time down.
static void test_all_sequences(void **state) {
    (void)state;
    int sequences = 0;
    for (int size = 1; size <= 7; size++) {
        int all = 1;
        for (int i = 0; i < size; i++) {
            all *= 4;
        }
        for (int n = 0; n < all; n++, sequences++) {
            int64_t now = 0;
            int given = 0; // since it went down
            bool down = false;
            button_init(&b, HOLD_US);
            for (int i = 0, rest = n; i < size; i++, rest /= 4) {
                enum button_output output;
                int step = rest % 4;
                now += step == 3 ? HOLD_US : 1000;
                if (step < 2) {
                    given = step == 1 && !down ? 0 : given;
                    output = button_key(&b, step == 1, now);
                    assert_true(output == BUTTON_NOTHING || (down && step == 0));
                    down = step == 1;
                } else {
                    output = button_tick(&b, now);
                    assert_int_not_equal(output, BUTTON_PRESS);
                    assert_true(output == BUTTON_NOTHING || down);
                }
                given += output != BUTTON_NOTHING;
                assert_true(given <= 1);
            }
        }
    }
    assert_int_equal(sequences, 4 + 16 + 64 + 256 + 1024 + 4096 + 16384);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(test_short_press, set_up),
        cmocka_unit_test_setup(test_held_once, set_up),
        cmocka_unit_test_setup(test_held_though_nobody_looked, set_up),
        cmocka_unit_test_setup(test_repeats_and_stray_releases, set_up),
        cmocka_unit_test_setup(test_unplugged_while_down, set_up),
        cmocka_unit_test_setup(test_all_sequences, set_up),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

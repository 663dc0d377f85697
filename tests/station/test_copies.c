// What the screen says of the copies that the bench makes by itself.

#include "bench.h"
#include "cmocka_all.h"

#include <string.h>

#define HOUR_MS ((int64_t)3600 * 1000)

static struct bench bench;

static int fresh(void **state) {
    *state = &bench;
    bench_init(&bench);
    bench.shop.copies.wanted = true;
    return 0;
}

static int health(const struct bench *b) {
    for (size_t i = 0; i < b->view.status_count; i++) {
        if (strcmp(b->view.status[i].label, "Copies") == 0) {
            return (int)b->view.status[i].health;
        }
    }
    return -1;
}

static void age(struct bench *b, int64_t ms, const char *words) {
    b->shop.copies.last_ms = b->ops.wall_ms(b->ops.ctx) - ms;
    bench_wait(b, 0);
    assert_string_equal(b->view.band_hint, words);
}

static void the_supervisor_sees_their_age(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    bench_to_review(b);
    assert_string_equal(b->view.band_hint, "No copy of the log yet");
    age(b, HOUR_MS / 2, "Last copy within the hour");
    age(b, HOUR_MS, "Last copy an hour ago");
    age(b, 47 * HOUR_MS, "Last copy 47 hours ago");
    age(b, 50 * HOUR_MS, "Last copy 2 days ago");
    assert_int_equal(health(b), HEALTH_GOOD);
    b->shop.copies.wanted = false;
    bench_wait(b, 0);
    assert_string_equal(b->view.band_hint, "No copies of the log are set up");
    assert_int_equal(health(b), -1);
}

static void everybody_sees_when_they_fail(void **state) {
    struct bench *b = *state;
    bench_sign_on(b);
    assert_int_equal(health(b), HEALTH_GOOD);
    b->shop.copies.failing = true;
    strcpy(b->shop.copies.why, "no room");
    bench_wait(b, 0);
    assert_int_equal(health(b), HEALTH_WARN);
    assert_string_not_equal(b->view.subtitle, "The log has no fresh copy. Tell a supervisor.");
    b->shop.copies.late = true;
    bench_wait(b, 0);
    assert_int_equal(health(b), HEALTH_BAD);
    assert_string_equal(b->view.subtitle, "The log has no fresh copy. Tell a supervisor.");
    bench_to_review(b);
    assert_string_equal(b->view.band, "No copy of the log: no room");
    assert_int_equal(b->view.band_tone, TONE_CAUTION);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(the_supervisor_sees_their_age, fresh),
        cmocka_unit_test_setup(everybody_sees_when_they_fail, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// The bench's own copies: begun when they are due, by the real program beside the bench, and what
// the station is told of them.

#include "bench_backup.h"
#include "scratch.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#define SECOND_US ((int64_t)1000000)
#define HOUR_US (3600 * SECOND_US)
#define HOUR_MS ((int64_t)3600 * 1000)

static struct scratch scratch;
static struct bench_settings settings;
static struct bench_backup backup;
static int64_t now_us;

static int64_t wall_ms(void) {
    return (int64_t)time(NULL) * 1000;
}

static int set_up(void **state) {
    (void)state;
    scratch_init(&scratch);
    scratch_import_workshop(&scratch);
    settings = bench_settings_default();
    snprintf(settings.backup, sizeof settings.backup, "%s", scratch_path(&scratch, "copies"));
    settings.backup_hours = 2;
    now_us = HOUR_US;
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    bench_backup_stop(&backup);
    scratch_release(&scratch);
    return 0;
}

static void begin(void) {
    bench_backup_init(&backup, &settings, KERFSIDE_PROGRAM, scratch.db, now_us, wall_ms());
}

// Lets time pass until something happens, and then until the copy has ended.
static void pass(int64_t us) {
    now_us += us;
    assert_true(bench_backup_tick(&backup, now_us, wall_ms()));
    for (int i = 0; i < 600 && backup.child.pid != 0; i++) {
        struct timespec moment = {.tv_nsec = 50000000};
        assert_true(bench_backup_patience(&backup, now_us) <= SECOND_US);
        nanosleep(&moment, NULL);
        bench_backup_tick(&backup, now_us, wall_ms());
    }
    assert_int_equal(backup.child.pid, 0);
}

static struct station_copies told(int64_t wall) {
    struct station_copies copies;
    bench_backup_tell(&backup, wall, &copies);
    return copies;
}

static void makes_them_when_due(void **state) {
    (void)state;
    assert_int_equal(mkdir(settings.backup, 0700), 0);
    begin();
    assert_int_equal(told(wall_ms()).last_ms, 0);
    assert_false(bench_backup_tick(&backup, now_us, wall_ms())); // not in the midst of the start
    assert_int_equal(bench_backup_patience(&backup, now_us), 30 * SECOND_US);
    pass(30 * SECOND_US);
    assert_false(told(wall_ms()).failing);
    assert_in_range(told(wall_ms()).last_ms, wall_ms() - 60000, wall_ms());
    assert_int_equal(bench_backup_patience(&backup, now_us), 2 * HOUR_US);
    // After a restart it is not due before its time.
    begin();
    assert_in_range(bench_backup_patience(&backup, now_us), HOUR_US, 2 * HOUR_US);
    assert_true(told(wall_ms()).wanted);
}

static void says_that_it_fails_and_tries_again(void **state) {
    (void)state;
    begin();
    pass(30 * SECOND_US);
    struct station_copies copies = told(wall_ms());
    assert_true(copies.failing && copies.late); // there never was one
    assert_int_equal(strncmp(copies.why, "The folder ", 11), 0);
    assert_non_null(strstr(copies.why, "No such file or directory"));
    assert_int_equal(bench_backup_patience(&backup, now_us), 600 * SECOND_US);
    assert_int_equal(mkdir(settings.backup, 0700), 0);
    pass(600 * SECOND_US);
    assert_false(told(wall_ms()).failing);
    assert_true(told(wall_ms()).last_ms > 0);
    // Failing again is late only when the last good one is older than two of them should be.
    assert_int_equal(rename(settings.backup, scratch_path(&scratch, "away")), 0);
    pass(2 * HOUR_US);
    assert_true(told(wall_ms()).failing);
    assert_false(told(wall_ms()).late);
    assert_true(told(wall_ms() + 5 * HOUR_MS).late);
}

static void gives_up_what_takes_too_long(void **state) {
    (void)state;
    begin();
    backup.program = KERFSIDE_STUCK;
    now_us += 30 * SECOND_US;
    assert_true(bench_backup_tick(&backup, now_us, wall_ms()));
    assert_true(backup.child.pid > 0);
    now_us += 2 * HOUR_US;
    assert_true(bench_backup_tick(&backup, now_us, wall_ms()));
    assert_int_equal(backup.child.pid, 0);
    assert_string_equal(told(wall_ms()).why, "it took longer than 2 hours");
    backup.program = "/nowhere/kerfside";
    pass(600 * SECOND_US);
    assert_string_equal(told(wall_ms()).why, "the program could not be started");
}

static void makes_none_unless_told_to(void **state) {
    (void)state;
    settings.backup[0] = '\0';
    begin();
    assert_false(bench_backup_tick(&backup, now_us + 9 * HOUR_US, wall_ms()));
    assert_int_equal(bench_backup_patience(&backup, now_us), -1);
    assert_false(told(wall_ms()).wanted);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(makes_them_when_due, set_up, tear_down),
        cmocka_unit_test_setup_teardown(says_that_it_fails_and_tries_again, set_up, tear_down),
        cmocka_unit_test_setup_teardown(gives_up_what_takes_too_long, set_up, tear_down),
        cmocka_unit_test_setup_teardown(makes_none_unless_told_to, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

#include "bench_clock.h"
#include "check.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static void in(const char *zone) {
    setenv("TZ", zone, 1);
    tzset();
}

static int64_t at(const char *text) {
    struct bench_clock clock = {.simulated = true};
    assert_true(bench_clock_set(&clock, text));
    return bench_clock_wall_ms(&clock);
}

// `date -u -d 2026-03-31T08:15 +%s` and so on, GNU coreutils.
static void test_known_times(void **state) {
    (void)state;
    in("UTC");
    assert_int_equal(at("2026-03-31T08:15"), 1774944900000);
    assert_int_equal(at("2026-03-31T08:15:07"), 1774944907000);
    assert_int_equal(at("2024-02-29T00:00"), 1709164800000);
    in("Europe/Berlin");
    assert_int_equal(at("2026-03-31T08:15"), 1774944900000 - 2 * 3600000);
}

static void test_no_times(void **state) {
    (void)state;
    static const char *const texts[] = {"",
                                        "08:15",
                                        "2026-03-31",
                                        "2026-13-01T00:00",
                                        "2026-02-30T00:00",
                                        "2026-03-31",
                                        "2026-03-31 08:15",
                                        "2026-03-31T25:00",
                                        "2026-03-31T08:60",
                                        "2026-03-31T08:15x"};
    in("UTC");
    for (size_t i = 0; i < COUNT(texts); i++) {
        struct bench_clock clock = {.simulated = true, .wall_ms = 5};
        assert_false(bench_clock_set(&clock, texts[i]));
        assert_int_equal(clock.wall_ms, 5);
    }
}

// The days on which summer time begins and ends in the EU (Directive 2000/84/EC: last Sundays of
// March and October) have 23 and 25 hours.
static void test_days_of_23_and_25_hours(void **state) {
    (void)state;
    static const struct {
        const char *day;
        int hours;
    } rows[] = {{"2026-03-28", 24}, {"2026-03-29", 23}, {"2026-10-25", 25}, {"2026-10-26", 24}};
    in("Europe/Berlin");
    for (size_t i = 0; i < COUNT(rows); i++) {
        char text[32];
        char noon[32];
        snprintf(text, sizeof text, "%sT00:00", rows[i].day);
        snprintf(noon, sizeof noon, "%sT12:00", rows[i].day);
        int64_t start = bench_clock_day_start(at(noon));
        assert_int_equal(start, at(text));
        assert_int_equal(bench_clock_day_start(start), start);
        assert_int_equal(bench_clock_day_start(start + 30 * 3600000LL) - start,
                         rows[i].hours * 3600000LL);
        assert_int_equal(bench_clock_day_start(start - 1 + rows[i].hours * 3600000LL), start);
    }
}

static void test_texts(void **state) {
    (void)state;
    char text[16];
    in("UTC");
    bench_clock_text(at("2026-11-05T07:04"), true, text, sizeof text);
    assert_string_equal(text, "5 Nov");
    bench_clock_text(at("2026-11-05T07:04"), false, text, sizeof text);
    assert_string_equal(text, "07:04");
    bench_clock_text(at("2026-12-31T23:59:59"), true, text, sizeof text);
    assert_string_equal(text, "31 Dec");
}

static void test_a_simulated_clock_stands(void **state) {
    (void)state;
    struct bench_clock clock = bench_clock_simulated();
    struct bench_clock live = {.simulated = false};
    int64_t us = bench_clock_us(&clock);
    int64_t wall = bench_clock_wall_ms(&clock);
    assert_true(llabs(wall - bench_clock_wall_ms(&live)) < 2000);
    bench_clock_pass(&clock, 1500000);
    assert_int_equal(bench_clock_us(&clock), us + 1500000);
    assert_int_equal(bench_clock_boot_ms(&clock), (us + 1500000) / 1000);
    assert_int_equal(bench_clock_wall_ms(&clock), wall + 1500);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_known_times),
        cmocka_unit_test(test_no_times),
        cmocka_unit_test(test_days_of_23_and_25_hours),
        cmocka_unit_test(test_texts),
        cmocka_unit_test(test_a_simulated_clock_stands),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

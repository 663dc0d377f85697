// The charts of the review and the report of the same day count the same.

#include "bench.h"
#include "busy.h"
#include "day_facts.h"
#include "days.h"

#include <stdlib.h>

#define DAY "2026-03-31"

static struct scratch scratch;
static int64_t from;
static int64_t to;

static int opened(void **state) {
    (void)state;
    scratch_init(&scratch);
    assert_true(days_midnight(DAY, 0, &from));
    to = from + (int64_t)24 * 3600 * 1000;
    busy_day(&scratch, 60, false, from + (int64_t)7 * 3600 * 1000, 11);
    return 0;
}

static int closed(void **state) {
    (void)state;
    scratch_release(&scratch);
    return 0;
}

// As the report does it: withdrawn facts are left out.
static struct cut_stats of_the_report(void) {
    struct cut_stats stats = {0};
    struct day_facts facts;
    assert_int_equal(day_facts_read(scratch.store, from, to, &facts), STORE_OK);
    for (size_t i = 0; i < facts.count; i++) {
        const struct day_fact *fact = &facts.fact[i];
        struct cut_fact one = {.kind = fact->kind,
                               .planned = fact->planned,
                               .made = fact->made,
                               .cause = fact->cause,
                               .hour = bench_clock_hour(fact->wall_ms)};
        if (!fact->withdrawn) {
            cut_stats_add(&stats, &one);
        }
    }
    day_facts_release(&facts);
    return stats;
}

static void agree_with_the_report(void **state) {
    struct bench *bench = calloc(1, sizeof *bench);
    struct review_filter filter = {.from_ms = from, .to_ms = to};
    struct cut_stats charts = {0};
    (void)state;
    assert_non_null(bench);
    bench->store = scratch.store;
    assert_int_equal(bench_stats(bench, &filter, &charts), STATION_FOUND);
    struct cut_stats report = of_the_report();
    int64_t all = scratch_ask(&scratch, "SELECT count(*) FROM log WHERE kind GLOB '*_cut'");
    assert_true(charts.cuts > 50 && charts.cuts < all); // some were taken back
    assert_int_equal(charts.cuts, report.cuts);
    assert_int_equal(charts.measured, report.measured);
    assert_int_equal(charts.holds, report.holds);
    assert_int_equal(charts.scrapped, report.scrapped);
    assert_memory_equal(charts.by_hour, report.by_hour, sizeof charts.by_hour);
    assert_int_equal(charts.count, report.count);
    assert_memory_equal(charts.off, report.off, charts.count * sizeof charts.off[0]);
    struct review_filter none = {.from_ms = from - 7 * (to - from),
                                 .to_ms = from - 6 * (to - from)};
    charts = (struct cut_stats){0};
    assert_int_equal(bench_stats(bench, &none, &charts), STATION_FOUND);
    assert_int_equal(charts.facts, 0);
    free(bench);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(agree_with_the_report, opened, closed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

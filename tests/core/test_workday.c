// What a day came to, counted from entries made by hand: each row is one entry, and what it adds.

#include "workday.h"

#include "check.h"

#include <string.h>

static struct workday day;

static int fresh(void **state) {
    (void)state;
    memset(&day, 0, sizeof day);
    return 0;
}

static void add(enum entry_kind kind, enum verdict verdict, struct workday_later later) {
    struct entry entry = entry_init(kind);
    entry.verdict = verdict;
    entry.planned = LENGTH_INCH;
    entry.made = LENGTH_INCH;
    later.decided = later.decided == NULL ? "" : later.decided;
    workday_add(&day, &entry, NULL, &later);
}

static void expect(int64_t done, int64_t cuts, int64_t out, int64_t open) {
    assert_int_equal(day.done, done);
    assert_int_equal(day.cuts, cuts);
    assert_int_equal(day.out, out);
    assert_int_equal(day.open, open);
}

static void counts_what_stands(void **state) {
    (void)state;
    add(ENTRY_TIP_CUT, VERDICT_IN, (struct workday_later){.hour = 9});
    expect(0, 1, 0, 0);
    add(ENTRY_BUTT_CUT, VERDICT_NONE, (struct workday_later){.hour = 9});
    expect(0, 2, 0, 0);
    add(ENTRY_MEASURE, VERDICT_LONG, (struct workday_later){.hour = 9});
    expect(0, 2, 0, 0);
    add(ENTRY_MEASURE, VERDICT_IN, (struct workday_later){.hour = 9});
    expect(1, 2, 0, 0);
    add(ENTRY_TIP_CUT, VERDICT_SHORT, (struct workday_later){.hour = 10, .decided = "use"});
    expect(1, 3, 1, 0); // the club is not done by that
    add(ENTRY_MEASURE, VERDICT_SHORT, (struct workday_later){.hour = 10, .decided = "use"});
    expect(2, 3, 2, 0);
    add(ENTRY_MEASURE, VERDICT_SHORT, (struct workday_later){.hour = 10, .open = true});
    expect(2, 3, 3, 1);
    add(ENTRY_MEASURE, VERDICT_SHORT, (struct workday_later){.hour = 10, .decided = "scrap"});
    expect(2, 3, 4, 1);
    assert_int_equal(day.cut.measured, 5);
    assert_int_equal(day.cut.by_hour[9], 2);
    assert_int_equal(day.cut.by_hour[10], 1);
}

static void leaves_out_what_was_withdrawn(void **state) {
    const struct workday_later withdrawn = {.withdrawn = true, .hour = 11};
    (void)state;
    add(ENTRY_TIP_CUT, VERDICT_SHORT, withdrawn);
    add(ENTRY_BUTT_CUT, VERDICT_NONE, withdrawn);
    add(ENTRY_MEASURE, VERDICT_IN, withdrawn);
    expect(0, 0, 0, 0);
    assert_int_equal(day.cut.measured, 0);
    assert_int_equal(day.cut.by_hour[11], 0);
}

static void decision(const char *cause, enum entry_kind about_kind) {
    struct entry entry = entry_init(ENTRY_DECIDE);
    struct entry about = entry_init(about_kind);
    struct workday_later later = {.decided = ""};
    strcpy(entry.cause, cause);
    workday_add(&day, &entry, &about, &later);
}

static void counts_lost_shafts(void **state) {
    (void)state;
    decision("use", ENTRY_MEASURE);
    decision("recut", ENTRY_MEASURE);
    decision("scrap", ENTRY_TIP_CUT);
    decision("scrap", ENTRY_TIP_CUT);
    decision("recut", ENTRY_TIP_CUT);
    workday_sort(&day);
    assert_int_equal(day.cut.scrapped, 4);
    assert_int_equal(day.scrap_count, 3);
    assert_string_equal(day.scrap[0].word, "tip past mark, scrap");
    assert_int_equal(day.scrap[0].count, 2);
    assert_string_equal(day.scrap[1].word, "too short, recut");
    assert_string_equal(day.scrap[2].word, "tip past mark, recut");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(counts_what_stands, fresh),
        cmocka_unit_test_setup(leaves_out_what_was_withdrawn, fresh),
        cmocka_unit_test_setup(counts_lost_shafts, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

#include "check.h"
#include "pace.h"

#define MINUTE 60000

static size_t clubs_at(const int *minutes, size_t count, struct pace_club *clubs) {
    for (size_t i = 0; i < count; i++) {
        clubs[i] = (struct pace_club){.mono_ms = (int64_t)minutes[count - 1 - i] * MINUTE};
    }
    return count;
}

static void the_middle_of_the_times(void **state) {
    // 8, 9, 7, 25, 8 and 10 minutes, a lunch of an hour between: 7 8 8 9 10 25, the middle 8.5.
    static const int minutes[] = {0, 8, 17, 24, 49, 109, 117, 127};
    struct pace_club clubs[16];
    int64_t pace = -1;
    (void)state;
    assert_true(pace_median(clubs, clubs_at(minutes, COUNT(minutes), clubs), &pace));
    assert_int_equal(pace, 8 * MINUTE + MINUTE / 2);
}

static void an_odd_count_has_a_middle(void **state) {
    static const int minutes[] = {0, 5, 10, 16, 23, 31};
    struct pace_club clubs[16];
    int64_t pace = -1;
    (void)state;
    assert_true(pace_median(clubs, clubs_at(minutes, COUNT(minutes), clubs), &pace));
    assert_int_equal(pace, 6 * MINUTE);
}

static void of_few_it_is_not_known(void **state) {
    static const int minutes[] = {0, 5, 10, 15, 20, 25};
    struct pace_club clubs[16];
    int64_t pace = -1;
    (void)state;
    assert_false(pace_median(clubs, clubs_at(minutes, 5, clubs), &pace)); // four times
    assert_false(pace_median(clubs, 0, &pace));
    assert_int_equal(pace, -1);
    assert_true(pace_median(clubs, clubs_at(minutes, 6, clubs), &pace));
    clubs[3].boot = 2; // two times less
    assert_false(pace_median(clubs, 6, &pace));
}

static void a_break_counts_from_beyond_half_an_hour(void **state) {
    static const int at[] = {0, 30, 60, 90, 120, 150};
    static const int beyond[] = {0, 31, 62, 93, 124, 155};
    struct pace_club clubs[16];
    int64_t pace = -1;
    (void)state;
    assert_false(pace_median(clubs, clubs_at(beyond, 6, clubs), &pace));
    assert_true(pace_median(clubs, clubs_at(at, 6, clubs), &pace));
    assert_int_equal(pace, 30 * MINUTE);
}

static void says_it_roundly(void **state) {
    static const struct {
        int minutes;
        const char *words;
    } rows[] = {
        {0, "about 5 min"},       {7, "about 5 min"},       {8, "about 10 min"},
        {57, "about 55 min"},     {59, "about 1 h"},        {80, "about 1 h 20 min"},
        {84, "about 1 h 20 min"}, {86, "about 1 h 30 min"}, {115, "about 2 h"},
        {600, "about 10 h"},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        char words[PACE_TEXT_MAX];
        pace_text((int64_t)rows[i].minutes * MINUTE, words);
        assert_string_equal(words, rows[i].words);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_middle_of_the_times),
        cmocka_unit_test(an_odd_count_has_a_middle),
        cmocka_unit_test(of_few_it_is_not_known),
        cmocka_unit_test(a_break_counts_from_beyond_half_an_hour),
        cmocka_unit_test(says_it_roundly),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// Estimates: beside the mark, at a cut off its mark, in the log's record and in the review, the
// same words everywhere; none where the shaft's stiffness is not known.

#include "bench.h"
#include "cmocka_all.h"
#include "record.h"
#include "words.h"

#include <string.h>

static struct bench bench;
static char plan[ENTRY_PLAN_MAX];

// Club 1 with a shaft and a grip that are known well enough.
static int fresh(void **state) {
    *state = &bench;
    bench_init(&bench);
    struct club *club = &bench.catalogue.club[0];
    club->model.tip_diameter = LENGTH_INCH * 37 / 100;
    club->model.butt_diameter = LENGTH_INCH * 60 / 100;
    club->model.tip_wall = LENGTH_INCH * 18 / 1000;
    club->model.butt_wall = LENGTH_INCH * 13 / 1000;
    club->shaft.weight = 120 * MASS_GRAM;
    club->order.grip_weight = 50 * MASS_GRAM;
    bench.shop.plan_text = plan;
    return 0;
}

static struct record logged_record(void) {
    struct record record;
    assert_true(record_read(plan, &record));
    return record;
}

static void shown_is_logged(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    struct record record = logged_record();
    assert_true(b->view.cut.estimate_count > 0);
    assert_int_equal(record.estimates.count, b->view.cut.estimate_count);
    for (size_t i = 0; i < record.estimates.count; i++) {
        assert_string_equal(b->view.cut.estimate[i], record.estimates.line[i]);
    }
    assert_non_null(strstr(b->view.cut.estimate[0], "swingweight about "));
    assert_non_null(strstr(b->view.cut.estimate[0], " cpm"));
    bench_press(b);
    assert_true(b->view.cut.butt);
    assert_true(b->view.cut.estimate_count > 0);
}

static void past_the_mark_is_stiffer(void **state) {
    struct bench *b = *state;
    char expected[VIEW_TEXT_MAX];
    bench_to_mark(b, "1");
    bench_held(b);
    bench_act(b, ACTION_WRONG_MISCUT, 0);
    bench_type(b, "1 3/4");
    const char *said = strstr(b->view.number.result, "As cut: about ");
    assert_non_null(said);
    assert_non_null(strstr(said, " cpm stiffer (estimate)."));
    words_copy(expected, sizeof expected, said);
    bench_press(b);
    assert_int_equal(b->station.hold.cause, HOLD_TIP_PAST);
    assert_string_equal(b->view.notice.line[1], expected);
    expected[strlen(expected) - 1] = '\0';
    assert_string_equal(logged_record().outcome, expected);
}

static void short_changes_the_balance(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "1");
    bench_press(b);
    bench_press(b);
    bench_type(b, "36 3/8");
    bench_press(b);
    assert_int_equal(b->station.hold.cause, HOLD_BUTT_SHORT);
    assert_ptr_equal(strstr(b->view.notice.line[2], "As measured: swingweight about "),
                     b->view.notice.line[2]);
    assert_memory_equal(logged_record().outcome, b->view.notice.line[2],
                        strlen(b->view.notice.line[2]) - 1);
}

static void nothing_is_made_up(void **state) {
    struct bench *b = *state;
    b->catalogue.club[0].model.tip_wall = LENGTH_UNKNOWN;
    b->catalogue.club[0].shaft.weight = MASS_UNKNOWN;
    bench_to_mark(b, "1");
    assert_int_equal(b->view.cut.estimate_count, 0);
    bench_held(b);
    bench_act(b, ACTION_WRONG_MISCUT, 0);
    bench_type(b, "1 3/4");
    assert_string_equal(b->view.number.result, "1/4 in past the mark: a supervisor decides.");
    bench_press(b);
    assert_string_equal(b->view.notice.line[1], "The shaft will play stiffer than planned.");
    assert_string_equal(logged_record().outcome, "");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(shown_is_logged, fresh),
        cmocka_unit_test_setup(past_the_mark_is_stiffer, fresh),
        cmocka_unit_test_setup(short_changes_the_balance, fresh),
        cmocka_unit_test_setup(nothing_is_made_up, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// What repairs ask of the bench: a trim given for want of a chart, a butt to be extended, a shaft
// that passes the sole; and loft, lie and the judging of what is measured at last.

#include "bench.h"
#include "cmocka_all.h"

#include <string.h>

static struct bench bench;

static int fresh(void **state) {
    *state = &bench;
    bench_init(&bench);
    return 0;
}

static void supervise(struct bench *b) {
    bench_act(b, ACTION_CONSENT, 0);
    bench_scan(b, TICKET_WORKER, "3");
    bench_type(b, "4711");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_CONSENT);
}

static void expect_words(const char *text, const char *words) {
    if (strstr(text, words) == NULL) {
        fail_msg("no \"%s\" in \"%s\"", words, text);
    }
}

// No chart: a supervisor types the trim, which is judged like any before it is logged.
static void a_trim_for_want_of_a_chart(void **state) {
    struct bench *b = *state;
    b->catalogue.club[0].chart.count = 0;
    bench_pair(b, "1");
    assert_int_equal(b->station.state, STATION_HOLD);
    expect_words(b->view.notice.line[0], "No chart of ");
    assert_true(bench_can(b, ACTION_CONSENT));
    supervise(b);
    assert_int_equal(b->view.body, VIEW_NUMBER);
    expect_words(b->view.number.question, "how much comes off the tip, in all?");
    expect_words(b->view.number.help, "No chart of ");
    bench_press(b);
    expect_words(b->view.number.error, "Nothing is entered yet");
    bench_type(b, "9"); // more than the tip may lose
    assert_int_equal(b->view.number.result_tone, TONE_STOP);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_CONSENT);
    expect_words(b->view.number.error, "ip"); // why, in the plan's own words
    assert_int_equal(shop_count(&b->shop, ENTRY_CONSENT), 0);
    bench_type(b, "\b1 1/4");
    assert_int_equal(b->view.number.result_tone, TONE_FINE);
    expect_words(b->view.number.result, "The tip mark is 1 1/4 in then");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_CARE);
    const struct shop_entry *entry = shop_last(&b->shop, ENTRY_CONSENT);
    assert_string_equal(entry->cause, "trim");
    assert_string_equal(entry->worker, shop_ticket(TICKET_WORKER, "3"));
    assert_true(b->shop.club[0].trim_given);
    assert_int_equal(b->shop.club[0].trim, 5 * LENGTH_INCH / 4);
    assert_string_equal(b->station.supervisor.badge, "");
    bench_press(b);
    assert_int_equal(b->view.cut.mark.value, 5 * LENGTH_INCH / 4);
    assert_string_equal(b->view.cut.receipt[0].text, "Given by a supervisor");
    assert_string_equal(b->view.cut.receipt[0].amount, "1 1/4");
}

// A cell its maker left empty asks the same; a way back gives nothing.
static void an_empty_cell_and_a_way_back(void **state) {
    struct bench *b = *state;
    b->catalogue.club[0].chart.column[1].tip_trim = LENGTH_UNKNOWN;
    bench_pair(b, "1");
    expect_words(b->view.notice.line[0], "does not offer");
    supervise(b);
    assert_int_equal(b->view.body, VIEW_NUMBER);
    bench_type(b, "1");
    bench_act(b, ACTION_BACK, 0);
    assert_int_equal(b->station.state, STATION_READY);
    assert_int_equal(shop_count(&b->shop, ENTRY_CONSENT), 0);
    assert_false(b->shop.club[0].trim_given);
}

// Three eighths missing: nothing is cut off the butt, the extension is said before the measure, and
// what is measured is the shaft with it.
static void a_butt_is_extended(void **state) {
    struct bench *b = *state;
    b->catalogue.club[0].shaft.raw_length = 38 * LENGTH_INCH; // 1 1/2 + 36 7/8
    bench_pair(b, "1");
    expect_words(b->view.notice.line[0], "too short by 3/8 in");
    assert_true(bench_can(b, ACTION_CONSENT));
    supervise(b);
    assert_string_equal(b->view.action[0].label, "Agree to an extension of the butt");
    bench_act(b, ACTION_ROW, 0);
    assert_int_equal(b->station.state, STATION_CARE);
    assert_true(b->shop.club[0].extension);
    assert_string_equal(shop_last(&b->shop, ENTRY_CONSENT)->cause, "extension");
    bench_press(b);
    assert_int_equal(b->view.cut.mark.value, 3 * LENGTH_INCH / 2);
    bool said = false;
    for (size_t i = 0; i < b->view.cut.warning_count; i++) {
        said = said || strstr(b->view.cut.warning[i], "extend the butt by 3/8 in") != NULL;
    }
    assert_true(said);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_MEASURE); // no butt cut
    expect_words(b->view.number.help, "Extend the butt by 3/8 in first");
    bench_type(b, "37 1/8"); // longer than shaft and extension can be
    bench_press(b);
    expect_words(b->view.number.error, "36 7/8 in");
    bench_type(b, "\b\b\b\b"); // 1/8 too long: made shorter and measured again, no mark
    bench_press(b);
    assert_int_equal(b->station.state, STATION_MEASURE);
    expect_words(b->view.number.result, "1/8 in too long");
    bench_type(b, "36 7/8");
    assert_int_equal(b->view.number.result_tone, TONE_FINE);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_LOGGED);
    assert_int_equal(b->shop.club[0].progress.stage, STAGE_DONE);
    assert_int_equal(shop_count(&b->shop, ENTRY_BUTT_CUT), 0);
    assert_int_equal(shop_count(&b->shop, ENTRY_BUTT_SHOWN), 0);
    bench_wait(b, 8000);
}

static void no_extension_beyond_what_may_be(void **state) {
    struct bench *b = *state;
    b->catalogue.club[0].shaft.raw_length = 37 * LENGTH_INCH + 3 * EIGHTH; // 1 in missing
    bench_pair(b, "1");
    assert_true(bench_can(b, ACTION_CONSENT));
    bench_init(b);
    b->catalogue.club[0].shaft.raw_length = 37 * LENGTH_INCH + 3 * EIGHTH - 1;
    bench_pair(b, "1");
    expect_words(b->view.notice.line[0], "too short by");
    assert_false(bench_can(b, ACTION_CONSENT));
}

// 38 - 1/8 + 1/4 to be ground off; nobody is asked for a dry fit.
static void a_shaft_passes_the_sole(void **state) {
    struct bench *b = *state;
    b->catalogue.club[0].head.bore = BORE_THROUGH;
    b->shop.club[0].bore_height = LENGTH_UNKNOWN;
    bench_to_mark(b, "1");
    bench_press(b);
    assert_true(b->view.cut.butt);
    assert_int_equal(b->view.cut.mark.value, 38 * LENGTH_INCH + EIGHTH);
    assert_string_equal(b->view.cut.receipt[1].text, "Bore height");
    assert_string_equal(b->view.cut.receipt[1].amount, "");
    assert_string_equal(b->view.cut.receipt[3].text, "Ground off at the sole");
    assert_string_equal(b->view.cut.receipt[3].amount, "+1/4");
    assert_false(bench_can(b, ACTION_DRY_FIT));
    bench_held(b);
    assert_false(bench_can(b, ACTION_DRY_FIT));
    bench_act(b, ACTION_BACK, 0);
    bench_press(b);
    bench_type(b, "37 7/8"); // 1/4 short: the club comes out at 37 3/4
    bench_press(b);
    assert_int_equal(b->station.state, STATION_HOLD);
    expect_words(b->view.notice.line[1], "The playing length becomes 37 3/4 in");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(a_trim_for_want_of_a_chart, fresh),
        cmocka_unit_test_setup(an_empty_cell_and_a_way_back, fresh),
        cmocka_unit_test_setup(a_butt_is_extended, fresh),
        cmocka_unit_test_setup(no_extension_beyond_what_may_be, fresh),
        cmocka_unit_test_setup(a_shaft_passes_the_sole, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

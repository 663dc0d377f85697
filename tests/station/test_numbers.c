// Lengths put in by keys, picks and a tape that types; what cannot be is an error and does nothing.

#include "bench.h"
#include "cmocka_all.h"

#include <string.h>

static struct bench bench;

static int fresh(void **state) {
    *state = &bench;
    bench_init(&bench);
    return 0;
}

static void to_measure(struct bench *b) {
    bench_to_mark(b, "1");
    bench_press(b);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_MEASURE);
}

static void keys(void **state) {
    struct bench *b = *state;
    to_measure(b);
    bench_type(b, "36");
    bench_act(b, ACTION_KEY, VIEW_KEY_SIXTEENTH + 14);
    assert_string_equal(b->view.number.field[0].text, "36 7/8");
    bench_act(b, ACTION_KEY, VIEW_KEY_SIXTEENTH + 1);
    assert_string_equal(b->view.number.field[0].text, "36 1/16");
    bench_act(b, ACTION_KEY, '\b');
    assert_string_equal(b->view.number.field[0].text, "36 1/1");
    bench_act(b, ACTION_PICK, 36 * LENGTH_INCH + 7 * EIGHTH);
    assert_string_equal(b->view.number.field[0].text, "36 7/8");
    assert_true(b->view.number.pick[2].chosen);
    assert_true(b->view.number.pick[2].planned);
    assert_int_equal(b->view.number.result_tone, TONE_FINE);
    bench_type(b, "\b\b\b\b\b\b\b\b");
    bench_act(b, ACTION_KEY, VIEW_KEY_SIXTEENTH + 8);
    assert_string_equal(b->view.number.field[0].text, "1/2");
    bench_act(b, ACTION_KEY, VIEW_KEY_SIXTEENTH + 4);
    assert_string_equal(b->view.number.field[0].text, "1/4");
    bench_type(b, "!$x"); // belongs to no length
    assert_string_equal(b->view.number.field[0].text, "1/4");
    bench_type(b, "1111111111111111111111111111111111111111");
    assert_int_equal(strlen(b->view.number.field[0].text), NUMBER_TEXT_MAX - 1);
}

static void a_tape_types_but_never_confirms(void **state) {
    struct bench *b = *state;
    to_measure(b);
    bench_scan_text(b, "936.6 mm");
    assert_string_equal(b->view.number.field[0].text, "936.6 mm");
    assert_int_equal(shop_count(&b->shop, ENTRY_MEASURE), 0);
    bench_scan(b, TICKET_SHAFT, "1");
    assert_int_equal(b->station.state, STATION_MEASURE);
    bench_press(b);
    assert_int_equal(b->station.state, STATION_LOGGED);
    assert_int_equal(shop_last(&b->shop, ENTRY_MEASURE)->made, 9366 * (LENGTH_MM / 10));
}

static void expect_error(struct bench *b, const char *typed, const char *part_of_error) {
    bench_type(b, "\b\b\b\b\b\b\b\b\b\b\b\b\b\b");
    bench_type(b, typed);
    bench_press(b);
    if (strstr(b->view.number.error, part_of_error) == NULL) {
        fail_msg("\"%s\" gives \"%s\"", typed, b->view.number.error);
    }
    assert_int_equal(b->station.state, STATION_MEASURE);
    assert_int_equal(shop_count(&b->shop, ENTRY_MEASURE), 0);
}

static void bad_numbers(void **state) {
    struct bench *b = *state;
    to_measure(b);
    expect_error(b, "", "Nothing is entered yet");
    expect_error(b, "36 7/9", "7/9");
    expect_error(b, "36..", "36..");
    expect_error(b, "-36", "below zero");
    expect_error(b, "0", "has a length");
    expect_error(b, "39 3/4", "longer than the piece on the saw, 39 1/2 in");
    expect_error(b, "99999", "");
}

static void dry_fit(void **state) {
    struct bench *b = *state;
    bench_pair(b, "9");
    assert_int_equal(b->station.state, STATION_DRY_FIT);
    assert_string_equal(b->view.number.field[1].text, "41");
    bench_press(b);
    assert_true(b->view.number.error[0] != '\0');
    bench_type(b, "40");
    bench_press(b);
    assert_true(strstr(b->view.number.error, "less than the shaft alone") != NULL);
    bench_type(b, "\b\b44");
    assert_int_equal(b->view.number.result_tone, TONE_STOP);
    bench_press(b);
    assert_true(strstr(b->view.number.error, "between 0 and 2 in") != NULL);
    // raw 46, overall 47 is 1 [cp]; here raw 41, overall 42.
    bench_type(b, "\b\b42");
    assert_string_equal(b->view.number.result, "Bore height 1 in");
    bench_press(b);
    assert_int_equal(shop_last(&b->shop, ENTRY_DRY_FIT)->made, LENGTH_INCH);
    assert_int_equal(b->station.state, STATION_CARE);
}

static void dry_fit_with_another_shaft(void **state) {
    struct bench *b = *state;
    bench_pair(b, "9");
    bench_act(b, ACTION_FIELD, 1);
    bench_type(b, "46");
    assert_string_equal(b->view.number.field[1].text, "46"); // typed over what was prefilled
    bench_act(b, ACTION_FIELD, 0);
    bench_scan_text(b, "47 1/4");
    bench_press(b);
    assert_int_equal(shop_last(&b->shop, ENTRY_DRY_FIT)->made, LENGTH_INCH + LENGTH_INCH / 4);
}

static void dry_fit_again_replans_the_butt(void **state) {
    struct bench *b = *state;
    bench_to_mark(b, "2");
    bench_press(b);
    length_nm before = b->view.cut.mark.value;
    bench_scan(b, TICKET_COMMAND, "FIT");
    assert_int_equal(b->station.state, STATION_DRY_FIT);
    assert_string_equal(b->view.number.field[1].text, "43 3/8");
    bench_act(b, ACTION_BACK, 0);
    assert_int_equal(b->view.cut.mark.value, before);
    bench_act(b, ACTION_DRY_FIT, 0);
    bench_type(b, "44 3/4");
    bench_press(b);
    // Bore height 1 3/8 instead of 1 1/8: the shaft is kept 1/4 shorter.
    assert_int_equal(b->station.state, STATION_BUTT_CUT);
    assert_int_equal(b->view.cut.mark.value, before - LENGTH_INCH / 4);
    assert_int_equal(b->view.cut.warning_count, 1);
    assert_string_equal(b->view.cut.warning[0],
                        "The tip mark would be 2 7/8 in now, 2 5/8 in is cut off already.");
    assert_int_equal(shop_count(&b->shop, ENTRY_BUTT_SHOWN), 2);
}

static void metric(void **state) {
    struct bench *b = *state;
    b->station.settings.metric_first = true;
    bench_to_mark(b, "2");
    assert_false(b->view.cut.mark.fraction);
    assert_string_equal(b->view.cut.mark.large, "66.7");
    assert_string_equal(b->view.cut.mark.unit, "mm");
    bench_press(b);
    bench_press(b);
    bench_type(b, "1086");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_LOGGED);
    assert_int_equal(shop_last(&b->shop, ENTRY_MEASURE)->made, 1086 * LENGTH_MM);
}

#define T(name) cmocka_unit_test_setup(name, fresh)
int main(void) {
    const struct CMUnitTest tests[] = {
        T(keys),    T(a_tape_types_but_never_confirms), T(bad_numbers),
        T(dry_fit), T(dry_fit_with_another_shaft),      T(dry_fit_again_replans_the_butt),
        T(metric),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

#include "check.h"
#include "orders.h"

#include <stdlib.h>

// Common practice, no source: irons are half an inch apart, the 5-iron of a set about 38 in.
static void lengths_go_down_by_steps(void **state) {
    (void)state;
    length_nm lengths[8];
    assert_true(order_lengths(38 * LENGTH_INCH, LENGTH_INCH / 2, 6, lengths));
    assert_int_equal(lengths[0], 38 * LENGTH_INCH);
    assert_int_equal(lengths[1], 37 * LENGTH_INCH + LENGTH_INCH / 2);
    assert_int_equal(lengths[5], 35 * LENGTH_INCH + LENGTH_INCH / 2);
    assert_true(order_lengths(38 * LENGTH_INCH, 3 * LENGTH_INCH / 8, 3, lengths));
    assert_int_equal(lengths[2], 37 * LENGTH_INCH + LENGTH_INCH / 4);
    assert_true(order_lengths(35 * LENGTH_INCH, -LENGTH_INCH, 2, lengths)); // longer and longer
    assert_int_equal(lengths[1], 36 * LENGTH_INCH);
    assert_true(order_lengths(37 * LENGTH_INCH, 0, 2, lengths)); // all the same
    assert_int_equal(lengths[1], 37 * LENGTH_INCH);
}

static void lengths_are_those_of_clubs(void **state) {
    (void)state;
    length_nm lengths[4] = {-1, -1, -1, -1};
    assert_false(order_lengths(LENGTH_UNKNOWN, LENGTH_INCH, 2, lengths));
    assert_false(order_lengths(11 * LENGTH_INCH, LENGTH_INCH, 3, lengths)); // 9 in
    assert_false(order_lengths(70 * LENGTH_INCH, -1, 2, lengths));
    assert_false(order_lengths(38 * LENGTH_INCH, INT64_MAX, 2, lengths));
    assert_false(order_lengths(38 * LENGTH_INCH, LENGTH_UNKNOWN, 2, lengths));
    assert_int_equal(lengths[0], -1);
    assert_true(order_lengths(11 * LENGTH_INCH, LENGTH_INCH, 2, lengths));
}

static struct document line(void) {
    static const char *const cells[][2] = {
        {"build", "2041"},      {"club", "3"},         {"due", "2026-03-09"},
        {"head", "H-0001A"},    {"shaft", "S-0001S"},  {"playing_length", "43"},
        {"grip_cap", "1/4"},    {"swingweight", "D2"}, {"step", "-1"},
        {"uniform_flex", "no"}, {"shaft_model", ""},   {"flex", ""},
        {"cancelled", "no"}};
    struct document document = {.sheet = "builds", .keys = 2};
    for (size_t i = 0; i < COUNT(cells); i++) {
        assert_true(document_set(&document, cells[i][0], cells[i][1]));
    }
    return document;
}

static void copies_without_parts_and_day(void **state) {
    (void)state;
    struct document from = line();
    struct document copy;
    struct change change;
    assert_true(order_copy(&from, "2060", "Reed 60", "R", &change));
    assert_true(change.made);
    assert_null(change_apply(&change, NULL, &copy));
    assert_string_equal(document_value(&copy, "build"), "2060");
    assert_string_equal(document_value(&copy, "club"), "3");
    assert_string_equal(document_value(&copy, "head"), "");
    assert_string_equal(document_value(&copy, "shaft"), "");
    assert_string_equal(document_value(&copy, "due"), "");
    assert_string_equal(document_value(&copy, "playing_length"), "43");
    assert_string_equal(document_value(&copy, "step"), "-1");
    assert_string_equal(document_value(&copy, "shaft_model"), "Reed 60");
    assert_string_equal(document_value(&copy, "flex"), "R");
    assert_true(document_set(&from, "shaft_model", "Alder 110"));
    assert_true(document_set(&from, "flex", "S"));
    assert_true(order_copy(&from, "2060", "", "", &change)); // what it wished
    assert_null(change_apply(&change, NULL, &copy));
    assert_string_equal(document_value(&copy, "shaft_model"), "Alder 110");
    assert_false(order_copy(&from, "20-60", "", "", &change));
    assert_false(order_copy(&from, "1234567890123", "", "", &change)); // 12 at most
    assert_false(order_copy(&from, "", "", "", &change));
    assert_true(document_set(&from, "cancelled", "yes"));
    assert_false(order_copy(&from, "2060", "", "", &change));
}

static void begins_as_a_draft(void **state) {
    (void)state;
    struct document order;
    struct change change;
    assert_true(order_make("2060", &change));
    assert_null(change_apply(&change, NULL, &order));
    assert_string_equal(order.sheet, "orders");
    assert_string_equal(document_value(&order, "build"), "2060");
    assert_string_equal(document_value(&order, "status"), "draft");
    assert_string_equal(document_value(&order, "priority"), "3");
    assert_false(order_make("", &change));
    assert_false(order_make("b-1", &change));
}

static struct change changed(const char *cell, const char *after) {
    struct document before = line();
    struct document then = before;
    struct change change;
    assert_true(document_set(&then, cell, after));
    change_between(&before, &then, &change);
    assert_int_equal(change.count, 1);
    return change;
}

// Which cell may still be changed where a club stands: 1 yes.
static void what_comes_too_late(void **state) {
    static const struct {
        const char *cell, *after;
        int pending, shown, partly, tip, butt, done;
    } rows[] = {
        {"head", "", 1, 0, 0, 0, 0, 0},
        {"shaft", "", 1, 0, 0, 0, 0, 0},
        {"cancelled", "yes", 1, 0, 0, 0, 0, 0},
        {"step", "0", 1, 1, 0, 0, 0, 0},
        {"uniform_flex", "yes", 1, 1, 0, 0, 0, 0},
        {"shaft_model", "Reed 60", 1, 1, 0, 0, 0, 0},
        {"flex", "R", 1, 1, 0, 0, 0, 0},
        {"given_trim", "2", 1, 1, 0, 0, 0, 0},
        {"playing_length", "42", 1, 1, 1, 1, 0, 0},
        {"extension", "yes", 1, 1, 1, 1, 0, 0},
        {"grip_cap", "1/8", 1, 1, 1, 1, 0, 0},
        {"swingweight", "D4", 1, 1, 1, 1, 1, 0},
        {"due", "2026-04-01", 1, 1, 1, 1, 1, 0},
    };
    (void)state;
    const struct progress none = {.stage = STAGE_PENDING, .tip_made = LENGTH_UNKNOWN};
    struct progress shown = none, partly = none, tip = none, butt = none, done = none;
    shown.stage = STAGE_TIP_SHOWN;
    partly.stage = STAGE_TIP_SHOWN;
    partly.tip_made = LENGTH_INCH;
    tip = partly;
    tip.stage = STAGE_BUTT_SHOWN;
    tip.tip_seq = 7;
    butt = tip;
    butt.stage = STAGE_BUTT_CUT;
    butt.butt_seq = 8;
    done = butt;
    done.stage = STAGE_DONE;
    for (size_t i = 0; i < COUNT(rows); i++) {
        const struct {
            const struct progress *progress;
            int may;
            bool cut;
        } at[] = {
            {&none, rows[i].pending, false}, {&shown, rows[i].shown, false},
            {&partly, rows[i].partly, true}, {&tip, rows[i].tip, true},
            {&butt, rows[i].butt, true},     {&done, rows[i].done, true},
            {&none, rows[i].tip, true}, // withdrawn: pending with a cut shaft
        };
        struct change change = changed(rows[i].cell, rows[i].after);
        for (size_t j = 0; j < COUNT(at); j++) {
            const char *late = order_too_late(&change, at[j].progress, at[j].cut);
            if ((late == NULL) != (at[j].may == 1) ||
                (late != NULL && strcmp(late, rows[i].cell) != 0)) {
                fail_msg("%s at %zu: %s", rows[i].cell, j, late == NULL ? "may" : late);
            }
        }
    }
}

static void what_the_bench_must_hear(void **state) {
    (void)state;
    struct change change = changed("playing_length", "42");
    assert_true(order_change_tells(&change));
    change = changed("head", "");
    assert_true(order_change_tells(&change));
    change = changed("due", "2026-04-01");
    assert_false(order_change_tells(&change));
    struct document before = {.sheet = "shafts", .keys = 1}, after;
    assert_true(document_set(&before, "ticket", "S-0001S"));
    assert_true(document_set(&before, "rack", "A1"));
    after = before;
    assert_true(document_set(&after, "rack", "A2"));
    assert_true(document_set(&after, "lot", "March"));
    change_between(&before, &after, &change);
    assert_false(order_change_tells(&change));
    assert_true(document_set(&after, "raw_length", "46"));
    change_between(&before, &after, &change);
    assert_true(order_change_tells(&change));
    change_between(&before, &before, &change);
    assert_false(order_change_tells(&change));
}

static void orders_up_to_what_is_wanted(void **state) {
    (void)state;
    assert_int_equal(order_again(10, 0, 4, 12), 0);
    assert_int_equal(order_again(4, 0, 4, 12), 0); // the least itself is enough
    assert_int_equal(order_again(3, 0, 4, 12), 9);
    assert_int_equal(order_again(10, 8, 4, 12), 10); // 2 would be left
    assert_int_equal(order_again(2, 5, 0, 0), 3);    // 3 short, none kept
    assert_int_equal(order_again(0, 0, 0, 0), 0);
}

static void offcuts_are_long_enough(void **state) {
    (void)state;
    length_nm finished = 36 * LENGTH_INCH;
    length_nm trim = 2 * LENGTH_INCH;
    assert_true(order_offcut_fits(38 * LENGTH_INCH, finished, trim)); // to the hair
    assert_false(order_offcut_fits(38 * LENGTH_INCH - 1, finished, trim));
    assert_true(order_offcut_fits(36 * LENGTH_INCH, finished, 0));
    assert_false(order_offcut_fits(LENGTH_UNKNOWN, finished, trim));
    assert_false(order_offcut_fits(40 * LENGTH_INCH, LENGTH_UNKNOWN, trim));
    assert_false(order_offcut_fits(40 * LENGTH_INCH, finished, LENGTH_UNKNOWN));
    assert_false(order_offcut_fits(40 * LENGTH_INCH, 0, 0));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lengths_go_down_by_steps),
        cmocka_unit_test(lengths_are_those_of_clubs),
        cmocka_unit_test(copies_without_parts_and_day),
        cmocka_unit_test(begins_as_a_draft),
        cmocka_unit_test(what_comes_too_late),
        cmocka_unit_test(what_the_bench_must_hear),
        cmocka_unit_test(orders_up_to_what_is_wanted),
        cmocka_unit_test(offcuts_are_long_enough),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

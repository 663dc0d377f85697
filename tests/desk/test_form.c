// What is typed into a form, chosen, scanned and rubbed out, and the way from field to field.

#include "fake.h"

#include <stdio.h>

static struct bench bench;

static int opened(void **state) {
    (void)state;
    bench_begin(&bench, true);
    return 0;
}

static void expect_cell(const char *cell, const char *value) {
    if (strcmp(bench_cell(&bench, cell), value) != 0) {
        fail_msg("%s: \"%s\", not \"%s\"", cell, bench_cell(&bench, cell), value);
    }
}

// --- typing --------------------------------------------------------------------------------------

static void what_is_typed_first_takes_the_place_of_what_was_there(void **state) {
    (void)state;
    bench_open(&bench, DESK_FORM_HEAD);
    struct view view = bench_view(&bench);
    assert_true(view.form.field[1].selected && view.form.active == 1);
    bench_type(&bench, "Pl");
    expect_cell("model", "Pl");
    view = bench_view(&bench);
    assert_true(view.form.field[1].changed && !view.form.field[1].selected);
    bench_type(&bench, "over 7");
    expect_cell("model", "Plover 7");
}

static void rubs_out_whole_characters(void **state) {
    (void)state;
    bench_open(&bench, DESK_FORM_HEAD);
    bench_type(&bench, "\b"); // of what was there, the last one
    expect_cell("model", "was ");
    bench_scan(&bench, "Größe 7é");
    bench_touch(&bench, ACTION_FIELD, 1);
    bench_type(&bench, "\b");
    expect_cell("model", "Größe 7");
    bench_type(&bench, "\b\b\b\b");
    expect_cell("model", "Grö");
    bench_type(&bench, "\b");
    expect_cell("model", "Gr");
    bench_type(&bench, "\b\b\b\b\b");
    expect_cell("model", "");
    bench_type(&bench, "x");
    expect_cell("model", "x");
}

static void what_is_no_text_is_not_typed(void **state) {
    (void)state;
    for (int form = 0; form < 2; form++) {
        bench_begin(&bench, true);
        bench_open(&bench, form == 0 ? DESK_FORM_HEAD : DESK_FORM_CHART);
        if (form == 1) {
            bench_touch(&bench, ACTION_FIELD, 4 + FAKE_COLUMNS);
        }
        bench_type(&bench, "a");
        struct desk_work before = bench.desk.work;
        static const int64_t codes[] = {1, 7, 27, 127, 128, 255, 999, VIEW_KEY_SIXTEENTH + 5, -4};
        for (size_t i = 0; i < COUNT(codes); i++) {
            bench_touch(&bench, ACTION_KEY, codes[i]);
            assert_memory_equal(&bench.desk.work, &before, sizeof before);
        }
        bench_type(&bench, "\x7f\xc3");
        assert_memory_equal(&bench.desk.work, &before, sizeof before);
    }
}

// A number alone never changes its unit on the way to the store.
static void a_bare_length_is_what_the_bench_goes_by(void **state) {
    (void)state;
    for (int metric = 0; metric < 2; metric++) {
        bench_begin(&bench, true);
        bench.ops.metric = metric == 1;
        bench_open(&bench, DESK_FORM_HEAD);
        bench_touch(&bench, ACTION_FIELD, 5); // bore height
        bench_type(&bench, "25.4");
        bench_touch(&bench, ACTION_FIELD, 1);
        expect_cell("bore_height", metric == 1 ? "25.4 mm" : "25.4");
        bench_touch(&bench, ACTION_FIELD, 5); // looked at and left as it is
        bench_touch(&bench, ACTION_FIELD, 1);
        expect_cell("bore_height", metric == 1 ? "25.4 mm" : "25.4");
        bench_touch(&bench, ACTION_FIELD, 5);
        bench_scan(&bench, "1 1/8");
        expect_cell("bore_height", metric == 1 ? "1 1/8 mm" : "1 1/8");
        bench_touch(&bench, ACTION_FIELD, 5);
        bench_type(&bench, "12,7"); // with a decimal comma
        bench_touch(&bench, ACTION_FIELD, 1);
        expect_cell("bore_height", metric == 1 ? "12,7 mm" : "12,7");
        bench_touch(&bench, ACTION_FIELD, 5);
        bench_type(&bench, "1 in");
        bench_touch(&bench, ACTION_FIELD, 2); // a weight
        expect_cell("bore_height", "1 in");
        bench_type(&bench, "203");
        bench_touch(&bench, ACTION_FIELD, 1);
        expect_cell("weight_g", "203");
    }
}

// Pieces are typed bare in what the bench goes by: the hint holds for both.
static void the_hint_for_pieces_is_true_of_millimetres(void **state) {
    (void)state;
    bench.ops.metric = true;
    bench_open(&bench, DESK_FORM_REPAIR);
    struct view view = bench_view(&bench);
    const char *hint = NULL;
    for (size_t i = 0; i < view.form.field_count; i++) {
        if (strcmp(view.form.field[i].label, "Broken pieces") == 0) {
            hint = view.form.field[i].unit;
        }
    }
    assert_non_null(hint);
    assert_non_null(strstr(hint, "mm"));
    assert_null(strstr(hint, "1/4"));
}

static void keys_on_the_screen_type_the_same(void **state) {
    (void)state;
    bench_open(&bench, DESK_FORM_HEAD);
    bench_press(&bench, "Keys");
    struct view view = bench_view(&bench);
    assert_true(view.form.keys);
    bench_touch(&bench, ACTION_KEY, 'Q');
    bench_touch(&bench, ACTION_KEY, ' ');
    bench_touch(&bench, ACTION_KEY, '9');
    bench_touch(&bench, ACTION_KEY, '\b');
    expect_cell("model", "Q ");
    bench_touch(&bench, ACTION_KEY, '\n');
    bench_expect(&bench, "FORM HEAD weight_g");
    bench_press(&bench, "No keys");
    view = bench_view(&bench);
    assert_false(view.form.keys);
}

static void a_scan_fills_the_field_and_goes_on(void **state) {
    (void)state;
    bench_open(&bench, DESK_FORM_CLUB);
    bench_touch(&bench, ACTION_FIELD, 3);
    bench_expect(&bench, "FORM CLUB head");
    bench_scan(&bench, "H-00036");
    expect_cell("head", "H-00036");
    bench_expect(&bench, "FORM CLUB shaft");
    // What no cell can hold is refused and harms nothing.
    bench_scan(&bench, "a\tb");
    expect_cell("shaft", "was 4");
    bench_expect(&bench, "FORM CLUB shaft");
    bench_expect_message(&bench, "That cannot stand here.");
}

// Into the last field too: a scan alone never saves.
static void a_scan_saves_nothing(void **state) {
    (void)state;
    bench_open(&bench, DESK_FORM_HEAD);
    bench_touch(&bench, ACTION_FIELD, 6);
    bench_expect(&bench, "FORM HEAD why");
    bench_scan(&bench, "because");
    assert_int_equal(bench.fake.saves, 0);
    bench_expect(&bench, "FORM HEAD why");
    expect_cell("why", "because");
    bench_expect_message(&bench, "Enter saves it.");
}

// --- the way through -----------------------------------------------------------------------------

static void enter_goes_from_field_to_field(void **state) {
    static const char *const order[] = {"weight_g", "dry_fit_overall", "dry_fit_raw", "bore_height",
                                        "why"};
    (void)state;
    bench_open(&bench, DESK_FORM_HEAD);
    bench_expect(&bench, "FORM HEAD model"); // the ticket is fixed
    for (size_t i = 0; i < COUNT(order); i++) {
        char words[48];
        unsigned considered = bench.fake.considered;
        bench_type(&bench, i % 2 == 0 ? "\n" : "\t");
        snprintf(words, sizeof words, "FORM HEAD %s", order[i]);
        bench_expect(&bench, words);
        assert_int_equal(bench.fake.considered, considered + 1); // each time one is left
    }
    assert_int_equal(bench.fake.saves, 0);
    bench_enter(&bench); // the last one saves
    assert_int_equal(bench.fake.saves, 1);
}

static void fixed_fields_are_passed_over(void **state) {
    (void)state;
    bench_open(&bench, DESK_FORM_CLUB);
    bench_expect(&bench, "FORM CLUB due");
    bench_touch(&bench, ACTION_FIELD, 1); // up from the first that is free
    bench_expect(&bench, "FORM CLUB due");
    bench_type(&bench, "x");
    expect_cell("club", "was 1");
    bench_touch(&bench, ACTION_FIELD, 5);
    bench_touch(&bench, ACTION_FIELD, 4); // up
    bench_expect(&bench, "FORM CLUB shaft");
    // A new one has none.
    bench_begin(&bench, true);
    bench_open(&bench, DESK_FORM_NEW_SHAFT_MODEL);
    struct view view = bench_view(&bench);
    assert_true(view.form.field_count == 16);
}

// --- choices -------------------------------------------------------------------------------------

static void expect_choices(const char *a, const char *b, const char *c, const char *d) {
    const char *const wanted[] = {a, b, c, d};
    struct view view = bench_view(&bench);
    size_t count = 0;
    while (count < COUNT(wanted) && wanted[count] != NULL) {
        count++;
    }
    assert_int_equal(view.form.choice_count, count);
    for (size_t i = 0; i < count; i++) {
        assert_string_equal(view.form.choice[i], wanted[i]);
    }
}

static void choices_follow_what_is_typed(void **state) {
    (void)state;
    bench_open(&bench, DESK_FORM_SHAFT_MODEL);
    bench_expect(&bench, "FORM SHAFT_MODEL material");
    expect_choices("steel", "graphite", "graphene", "Greenheart");
    bench_type(&bench, "G");
    expect_choices("graphite", "graphene", "Greenheart", NULL);
    bench_type(&bench, "raphE");
    expect_choices("graphene", NULL, NULL, NULL);
    bench_type(&bench, "x");
    expect_choices(NULL, NULL, NULL, NULL);
    bench_type(&bench, "\b");
    bench_enter(&bench);
    expect_cell("material", "graphene"); // a choice begun is meant as a whole
    bench_expect(&bench, "FORM SHAFT_MODEL tip");
    expect_choices(NULL, NULL, NULL, NULL);
}

// A shaft of a flex that the shop does not know yet is not taken for one whose name goes on.
static void a_new_name_may_begin_like_one_that_is_there(void **state) {
    (void)state;
    bench_open(&bench, DESK_FORM_SHAFT);
    bench_touch(&bench, ACTION_FIELD, 2); // flex
    expect_choices("Stiff", "S", NULL, NULL);
    bench_type(&bench, "s\n");
    expect_cell("flex", "S");
    bench_touch(&bench, ACTION_FIELD, 2);
    bench_type(&bench, "St\n");
    expect_cell("flex", "St");
}

static void what_begins_no_choice_stays(void **state) {
    (void)state;
    bench_open(&bench, DESK_FORM_SHAFT_MODEL);
    bench_type(&bench, "copper\n");
    expect_cell("material", "copper");
    bench_touch(&bench, ACTION_FIELD, 1);
    bench_enter(&bench); // nothing was typed: nothing is completed
    expect_cell("material", "copper");
    bench_touch(&bench, ACTION_FIELD, 1);
    bench_type(&bench, "x\b\n"); // emptied
    expect_cell("material", "");
}

static void a_choice_is_touched(void **state) {
    (void)state;
    bench_open(&bench, DESK_FORM_SHAFT_MODEL);
    bench_type(&bench, "gr");
    bench_touch(&bench, ACTION_CHOICE, 1); // of those that are left
    expect_cell("material", "graphene");
    bench_expect(&bench, "FORM SHAFT_MODEL tip");
    bench_type(&bench, "x");
    bench_touch(&bench, ACTION_FIELD, 1);
    bench_type(&bench, "st");
    bench_touch(&bench, ACTION_FIELD, 3); // left by touch, completed all the same
    expect_cell("material", "steel");
}

// --- columns of a chart --------------------------------------------------------------------------

static void columns_come_one_after_the_other(void **state) {
    (void)state;
    bench_open(&bench, DESK_FORM_CHART);
    bench_touch(&bench, ACTION_FIELD, 4 + FAKE_COLUMNS);
    bench_expect(&bench, "FORM CHART :");
    bench_type(&bench, "9 240 2\n");
    expect_cell(":9", "240 2");
    bench_expect(&bench, "FORM CHART :"); // for the next one
    bench_type(&bench, "11 250 -\n");
    expect_cell(":11", "250 -");
    bench_expect(&bench, "FORM CHART :");
    bench_enter(&bench); // no more
    bench_expect(&bench, "FORM CHART why");
}

static void what_is_no_column_is_not_left(void **state) {
    static const char *const wrong[] = {"9", "9 ", "3 240 2", "  7 1 1"};
    (void)state;
    for (size_t i = 0; i < COUNT(wrong); i++) {
        bench_begin(&bench, true);
        bench_open(&bench, DESK_FORM_CHART);
        bench_touch(&bench, ACTION_FIELD, 4 + FAKE_COLUMNS);
        bench_type(&bench, wrong[i]);
        bench_enter(&bench);
        bench_expect(&bench, "FORM CHART :");
        bench_expect_message(&bench, "A column is a name not there yet");
        assert_string_equal(bench.desk.work.extra, wrong[i]);
        bench_touch(&bench, ACTION_FIELD, 4);
        bench_expect(&bench, "FORM CHART :");
        bench_press(&bench, "Save");
        assert_int_equal(bench.fake.saves, 0);
        expect_cell(":3", "210 1/2");
    }
}

static void an_emptied_column_goes(void **state) {
    (void)state;
    bench_open(&bench, DESK_FORM_CHART);
    bench_touch(&bench, ACTION_FIELD, 5);
    bench_expect(&bench, "FORM CHART :5");
    bench_type(&bench, "x\b");
    bench_enter(&bench);
    struct view view = bench_view(&bench);
    assert_int_equal(view.form.field_count, 4 + FAKE_COLUMNS - 1 + 2);
    expect_cell(":5", "");
    bench_expect(&bench, "FORM CHART :7"); // the one behind it, not the one behind that
    bench_touch(&bench, ACTION_FIELD, 4);
    bench_type(&bench, "x\b");
    bench_touch(&bench, ACTION_FIELD, 5); // the one that was touched, wherever it stands now
    bench_expect(&bench, "FORM CHART :7");
}

// --- a run ---------------------------------------------------------------------------------------

static void a_run_asks_only_for_what_is_empty(void **state) {
    (void)state;
    bench_open(&bench, DESK_FORM_TAKE_SHAFTS);
    bench_expect(&bench, "FORM TAKE_SHAFTS model");
    bench_touch(&bench, ACTION_FIELD, 1);
    bench_type(&bench, "R");
    bench_touch(&bench, ACTION_FIELD, 0);
    bench_type(&bench, "Reed\n");
    bench_expect(&bench, "FORM TAKE_SHAFTS lot");
}

static void a_weight_comes_from_the_scale(void **state) {
    (void)state;
    bench_open(&bench, DESK_FORM_TAKE_SHAFTS);
    bench_touch(&bench, ACTION_FIELD, 5);
    bench_expect(&bench, "FORM TAKE_SHAFTS weight_g");
    assert_true(desk_weigh(&bench.desk, 62300, true));
    expect_cell("weight_g", "62.3");
    bench_enter(&bench);
    bench_touch(&bench, ACTION_FIELD, 5);
    assert_string_equal(bench_cell(&bench, "weight_g"), "62.3");
    assert_true(desk_weigh(&bench.desk, MASS_UNKNOWN, false));
    expect_cell("weight_g", "62.3"); // it is the part's now
}

#define TEST(name) cmocka_unit_test_setup(name, opened)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(what_is_typed_first_takes_the_place_of_what_was_there),
        TEST(rubs_out_whole_characters),
        TEST(what_is_no_text_is_not_typed),
        TEST(a_bare_length_is_what_the_bench_goes_by),
        TEST(the_hint_for_pieces_is_true_of_millimetres),
        TEST(keys_on_the_screen_type_the_same),
        TEST(a_scan_fills_the_field_and_goes_on),
        TEST(a_scan_saves_nothing),
        TEST(enter_goes_from_field_to_field),
        TEST(fixed_fields_are_passed_over),
        TEST(choices_follow_what_is_typed),
        TEST(a_new_name_may_begin_like_one_that_is_there),
        TEST(what_begins_no_choice_stays),
        TEST(a_choice_is_touched),
        TEST(columns_come_one_after_the_other),
        TEST(what_is_no_column_is_not_left),
        TEST(an_emptied_column_goes),
        TEST(a_run_asks_only_for_what_is_empty),
        TEST(a_weight_comes_from_the_scale),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

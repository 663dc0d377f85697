// Saving a form: what was saved is gone from the screen, what was not stays to the last letter, and
// nothing is said that is not so.

#include "fake.h"

static struct bench bench;

static int opened(void **state) {
    (void)state;
    bench_begin(&bench, true);
    return 0;
}

static void fill_in(enum desk_form form) {
    bench_open(&bench, form);
    bench_type(&bench, "typed");
}

static void a_saved_form_is_left(void **state) {
    (void)state;
    bench_press(&bench, "Heads");
    bench_touch(&bench, ACTION_ROW, 1);
    bench_press(&bench, "Change");
    bench_type(&bench, "typed");
    bench_press(&bench, "Save");
    bench_expect(&bench, "LIST HEADS");
    struct view view = bench_view(&bench);
    assert_string_equal(view.band, "Saved, entry 7.");
    assert_int_equal(view.band_tone, TONE_FINE);
    assert_int_equal(bench.fake.saves, 1);
    assert_string_equal(bench.fake.saver, fake_supervisor.badge);
    assert_string_equal(document_value(&bench.fake.draft.now, "model"), "typed");
    assert_string_equal(document_value(&bench.fake.draft.before, "model"), "was 1");
    assert_string_equal(bench.fake.draft.of.key[0], "row 1");
    bench_press(&bench, "Back"); // and the words go with the next step
    view = bench_view(&bench);
    assert_null(strstr(view.band, "Saved"));
}

static void goes_where_the_save_leads(void **state) {
    (void)state;
    bench.fake.answer.next = (struct desk_place){.goes = GOES_LIST, .which = DESK_LIST_CLUBS};
    fill_in(DESK_FORM_NEW_ORDER);
    bench_press(&bench, "Save");
    bench_expect(&bench, "LIST CLUBS");
    bench_expect_message(&bench, "Saved, entry 7.");
    bench_press(&bench, "Back");
    bench_expect(&bench, "MENU");
}

static void a_run_begins_the_next_one(void **state) {
    (void)state;
    fill_in(DESK_FORM_TAKE_HEADS);
    char id[CONFIRM_ID_MAX];
    strcpy(id, bench.desk.work.draft.id);
    bench_press(&bench, "Save");
    bench_expect(&bench, "FORM TAKE_HEADS model");
    bench_expect_message(&bench, "Saved, entry 7.");
    assert_string_equal(bench_cell(&bench, "model"), "");
    assert_string_not_equal(bench.desk.work.draft.id, id); // another thing
    bench_press(&bench, "Back");                           // nothing is unsaved
    bench_expect(&bench, "MENU");
}

static void a_run_that_cannot_go_on_ends(void **state) {
    (void)state;
    fill_in(DESK_FORM_TAKE_HEADS);
    bench.fake.answer.begin = DESK_FAILED;
    bench_press(&bench, "Save");
    bench_expect(&bench, "MENU");
    bench_expect_message(&bench, "Saved, entry 7.");
}

static void what_is_not_saved_stays_and_is_said(void **state) {
    static const struct {
        enum desk_result result;
        const char *words;
    } rows[] = {{DESK_REFUSED, "A rule says no."},
                {DESK_FAILED, "NOT SAVED: the disk is full."},
                {DESK_NONE, "There is no such thing."}};
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        bench_begin(&bench, true);
        fill_in(DESK_FORM_HEAD);
        bench.fake.answer.save = rows[i].result;
        bench_press(&bench, "Save");
        struct desk_draft first = bench.fake.draft;
        bench_expect(&bench, "FORM HEAD model");
        assert_string_equal(bench_cell(&bench, "model"), "typed");
        struct view view = bench_view(&bench);
        assert_string_equal(view.band, rows[i].words);
        assert_int_equal(view.band_tone, TONE_STOP);
        bench_press(&bench, "Back"); // it still is not saved
        bench_expect_message(&bench, "Not saved");
        // The second try is the same thing, so that nothing is written twice.
        bench.fake.answer.save = DESK_DONE;
        bench_press(&bench, "Save");
        bench_expect(&bench, "MENU");
        assert_string_equal(bench.fake.draft.id, first.id);
        assert_memory_equal(&bench.fake.draft.now, &first.now, sizeof first.now);
        assert_int_equal(bench.fake.saved, 1);
    }
}

static void a_complaint_is_mended_first(void **state) {
    (void)state;
    fill_in(DESK_FORM_HEAD);
    strcpy(bench.fake.answer.wrong, "bore_height");
    bench_press(&bench, "Save");
    assert_int_equal(bench.fake.saves, 0);
    bench_expect(&bench, "FORM HEAD bore_height"); // there
    struct view view = bench_view(&bench);
    assert_string_equal(view.band, "Bore height: is wrong");
    assert_int_equal(view.band_tone, TONE_STOP);
    assert_int_equal(view.form.field[5].tone, TONE_STOP);
    assert_string_equal(view.form.note[0], "Bore height: is wrong");
    bench.fake.answer.wrong[0] = '\0';
    bench_press(&bench, "Save");
    assert_int_equal(bench.fake.saved, 1);
}

// What is still to be filled in is no mistake before somebody wants to save.
static void what_is_empty_is_wrong_only_then(void **state) {
    (void)state;
    strcpy(bench.fake.answer.wrong, "why");
    bench.fake.answer.wrong_when_empty = true;
    fill_in(DESK_FORM_HEAD);
    bench_enter(&bench);
    struct view view = bench_view(&bench);
    assert_int_equal(view.form.note_count, 0);
    assert_int_equal(view.form.field[6].tone, TONE_PLAIN);
    bench_press(&bench, "Save");
    view = bench_view(&bench);
    assert_string_equal(view.form.note[0], "Why: is wrong");
    assert_int_equal(view.form.field[6].tone, TONE_STOP);
    bench_expect(&bench, "FORM HEAD why");
    bench_type(&bench, "because");
    bench_press(&bench, "Save");
    assert_int_equal(bench.fake.saved, 1);
    assert_string_equal(document_value(&bench.fake.draft.now, "why"), "because");
}

// One about the whole, or about no field of this form, hides nowhere.
static void a_complaint_about_no_field_is_shown_at_once(void **state) {
    (void)state;
    strcpy(bench.fake.answer.wrong, "column_weight_g");
    bench_open(&bench, DESK_FORM_CHART);
    struct view view = bench_view(&bench);
    assert_string_equal(view.form.note[0], "is wrong");
}

static void rights_that_ended_are_asked_for_again(void **state) {
    (void)state;
    fill_in(DESK_FORM_CHART);
    desk_enter(&bench.desk, &fake_builder, &fake_nobody);
    bench_press(&bench, "Save");
    assert_int_equal(bench.wish, DESK_WANTS_SUPERVISOR);
    assert_int_equal(bench.fake.saves, 0);
    assert_string_equal(bench_cell(&bench, "try"), "typed");
    desk_enter(&bench.desk, &fake_builder, &fake_supervisor);
    bench_expect(&bench, "FORM CHART try");
    bench_press(&bench, "Save");
    assert_int_equal(bench.fake.saved, 1);
}

static void one_filled_cell_may_be_a_supervisors(void **state) {
    (void)state;
    bench_begin(&bench, false);
    fill_in(DESK_FORM_MEASURED);
    strcpy(bench.fake.answer.wrong, "accept"); // as long as there is none
    document_set(&bench.desk.work.draft.now, "accept", "it is a loaner");
    bench_press(&bench, "Save");
    assert_int_equal(bench.wish, DESK_WANTS_SUPERVISOR);
    assert_int_equal(bench.fake.saves, 0);
    bench.fake.answer.wrong[0] = '\0';
    desk_enter(&bench.desk, &fake_builder, &fake_supervisor);
    assert_int_equal(bench.desk.work.remarks.complaint_count, 0);
    bench_press(&bench, "Save");
    assert_string_equal(bench.fake.saver, fake_supervisor.badge);
    bench_begin(&bench, false);
    fill_in(DESK_FORM_MEASURED);
    document_set(&bench.desk.work.draft.now, "accept", ""); // then it is anybody's
    bench_press(&bench, "Save");
    assert_string_equal(bench.fake.saver, fake_builder.badge);
}

static void a_builder_saves_as_a_builder(void **state) {
    (void)state;
    bench_begin(&bench, false);
    fill_in(DESK_FORM_HEAD);
    bench_press(&bench, "Save");
    assert_string_equal(bench.fake.saver, fake_builder.badge);
}

#define TEST(name) cmocka_unit_test_setup(name, opened)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(a_saved_form_is_left),
        TEST(goes_where_the_save_leads),
        TEST(a_run_begins_the_next_one),
        TEST(a_run_that_cannot_go_on_ends),
        TEST(what_is_not_saved_stays_and_is_said),
        TEST(a_complaint_is_mended_first),
        TEST(what_is_empty_is_wrong_only_then),
        TEST(a_complaint_about_no_field_is_shown_at_once),
        TEST(rights_that_ended_are_asked_for_again),
        TEST(one_filled_cell_may_be_a_supervisors),
        TEST(a_builder_saves_as_a_builder),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// Menu, lists and forms lie on each other: every one of them can be reached and left again.

#include "fake.h"

#include <stdio.h>
#include <stdlib.h>

static struct bench bench;

static int opened(void **state) {
    (void)state;
    bench_begin(&bench, true);
    return 0;
}

// --- everything is there -------------------------------------------------------------------------

struct reached {
    bool list[DESK_LIST_COUNT], form[DESK_FORM_COUNT], deed[DESK_DEED_COUNT];
};

static void expect_top(enum desk_goes goes, int which) {
    const struct desk_place *place = &desk_top(&bench.desk)->place;
    assert_int_equal(place->goes, goes);
    assert_int_equal(place->which, which);
}

static void follow(struct reached *reached, enum desk_list list);

// Presses one button of the list on top, and comes back.
static void try_button(struct reached *reached, const struct desk_button *button, int at) {
    struct bench before = bench; // the same desk and answers at the same place
    bench_touch(&bench, ACTION_ROW, 1);
    struct desk_page *page = desk_top(&bench.desk);
    assert_string_equal(page->selected.key[0], "row 1");
    assert_true(bench_offers(&bench, button->label));
    bench_touch(&bench, ACTION_DESK_BUTTON, at);
    assert_int_equal(bench.wish, DESK_STAYS);
    struct desk_ref of = desk_top(&before.desk)->place.of;
    if (button->row) {
        memset(&of, 0, sizeof of);
        strcpy(of.key[0], "row 1");
    }
    if (button->goes == GOES_DEED) {
        assert_int_equal(bench.fake.deed, button->which);
        assert_int_equal(bench.fake.deeds, before.fake.deeds + 1);
        assert_memory_equal(&bench.fake.deed_of, &of, sizeof of);
        reached->deed[button->which] = true;
    } else {
        expect_top(button->goes, button->which);
        assert_memory_equal(&desk_top(&bench.desk)->place.of, &of, sizeof of);
        assert_int_equal(bench.desk.depth, before.desk.depth + 1);
        if (button->goes == GOES_FORM) {
            reached->form[button->which] = true;
        } else if (!reached->list[button->which]) {
            follow(reached, (enum desk_list)button->which);
        }
        bench_press(&bench, "Back");
        assert_int_equal(bench.desk.depth, before.desk.depth);
        expect_top(desk_top(&before.desk)->place.goes, desk_top(&before.desk)->place.which);
    }
    bench = before;
}

static void follow(struct reached *reached, enum desk_list list) {
    const struct list_spec *spec = list_spec(list);
    reached->list[list] = true;
    for (size_t i = 0; i < spec->count && bench.desk.depth < DESK_DEPTH - 1; i++) {
        try_button(reached, &spec->button[i], (int)i);
    }
}

static void everything_can_be_reached(void **state) {
    struct reached reached = {0};
    size_t count;
    const struct tile_spec *tiles = tile_specs(&count);
    (void)state;
    for (size_t i = 0; i < count; i++) {
        bench_begin(&bench, true);
        bench_expect(&bench, "MENU");
        bench_press(&bench, tiles[i].label);
        if (tiles[i].goes == GOES_DEED) { // done at once, from the menu
            bench_expect(&bench, "MENU");
            reached.deed[tiles[i].which] = true;
            continue;
        }
        expect_top(tiles[i].goes, tiles[i].which);
        if (tiles[i].goes == GOES_FORM) {
            reached.form[tiles[i].which] = true;
        } else {
            follow(&reached, (enum desk_list)tiles[i].which);
        }
        bench_press(&bench, "Back");
        bench_expect(&bench, "MENU");
    }
    for (int i = 0; i < DESK_LIST_COUNT; i++) {
        if (!reached.list[i]) {
            fail_msg("nothing leads to list %d", i);
        }
    }
    for (int i = 0; i < DESK_FORM_COUNT; i++) {
        if (!reached.form[i]) {
            fail_msg("nothing leads to form %d", i);
        }
    }
    for (int i = 0; i < DESK_DEED_COUNT; i++) {
        if (!reached.deed[i]) {
            fail_msg("nothing leads to deed %d", i);
        }
    }
}

// No two buttons on one screen have the same key, and all of them fit into a view.
static void expect_keys_apart(const struct view *view) {
    for (size_t i = 0; i < view->action_count; i++) {
        for (size_t j = 0; j < i && view->action[i].key[0] != '\0'; j++) {
            if (strcmp(view->action[i].key, view->action[j].key) == 0) {
                fail_msg("\"%s\" and \"%s\" are both on %s", view->action[i].label,
                         view->action[j].label, view->action[i].key);
            }
        }
    }
    assert_true(view->action_count < VIEW_ACTIONS_MAX);
}

static void every_key_is_one_buttons(void **state) {
    (void)state;
    for (int supervised = 0; supervised < 2; supervised++) {
        bench_begin(&bench, supervised != 0);
        bench.fake.answer.rows = 30;
        struct view view = bench_view(&bench);
        expect_keys_apart(&view);
        for (int list = 0; list < DESK_LIST_COUNT; list++) {
            struct desk_place place = {.goes = GOES_LIST, .which = list};
            bench_begin(&bench, supervised != 0);
            bench.fake.answer.rows = 30;
            desk_open(&bench.desk, &place);
            bench_touch(&bench, ACTION_OLDER, 0);
            bench_scan(&bench, "something");
            bench_touch(&bench, ACTION_OLDER, 0);
            bench_touch(&bench, ACTION_ROW, 0);
            view = bench_view(&bench);
            expect_keys_apart(&view);
        }
        for (int form = 0; form < DESK_FORM_COUNT; form++) {
            bench_begin(&bench, true);
            bench_open(&bench, (enum desk_form)form);
            view = bench_view(&bench);
            expect_keys_apart(&view);
        }
    }
}

// --- back ----------------------------------------------------------------------------------------

static void back_leads_to_the_saw_in_the_end(void **state) {
    (void)state;
    bench_press(&bench, "Charts and models");
    bench_press(&bench, "Shaft models");
    bench_press(&bench, "New model");
    bench_expect(&bench, "FORM NEW_SHAFT_MODEL model");
    bench_press(&bench, "Back");
    bench_expect(&bench, "LIST SHAFT_MODELS");
    bench_press(&bench, "Back");
    bench_expect(&bench, "LIST CHARTS");
    bench_press(&bench, "Back");
    bench_expect(&bench, "MENU");
    assert_int_equal(bench.wish, DESK_STAYS);
    bench_press(&bench, "Back to the saw");
    assert_int_equal(bench.wish, DESK_LEAVES);
}

static void what_is_not_saved_is_left_twice(void **state) {
    (void)state;
    bench_open(&bench, DESK_FORM_HEAD);
    bench_type(&bench, "x");
    bench_press(&bench, "Back");
    bench_expect(&bench, "FORM HEAD model");
    bench_expect_message(&bench, "Not saved. Back once more");
    assert_string_equal(bench_cell(&bench, "model"), "x");
    bench_press(&bench, "Back");
    bench_expect(&bench, "MENU");
    bench_open(&bench, DESK_FORM_HEAD); // as it was
    assert_string_equal(bench_cell(&bench, "model"), "was 1");
    bench_press(&bench, "Back"); // nothing was typed
    bench_expect(&bench, "MENU");
}

static void going_on_asks_again(void **state) {
    (void)state;
    bench_open(&bench, DESK_FORM_HEAD);
    bench_type(&bench, "x");
    bench_press(&bench, "Back");
    bench_type(&bench, "y");
    bench_press(&bench, "Back");
    bench_expect(&bench, "FORM HEAD model");
    bench_enter(&bench);
    bench_press(&bench, "Back");
    bench_expect(&bench, "FORM HEAD weight_g");
    bench_expect_message(&bench, "Not saved");
}

static void a_column_begun_is_not_saved_either(void **state) {
    (void)state;
    bench_open(&bench, DESK_FORM_CHART);
    bench_touch(&bench, ACTION_FIELD, 4 + FAKE_COLUMNS);
    bench_expect(&bench, "FORM CHART :");
    bench_type(&bench, "9");
    bench_press(&bench, "Back");
    bench_expect_message(&bench, "Not saved");
}

// To try a chart on a club changes nothing.
static void what_is_only_tried_is_left_at_once(void **state) {
    (void)state;
    bench_open(&bench, DESK_FORM_CHART);
    bench_expect(&bench, "FORM CHART try");
    bench_type(&bench, "2041-3");
    bench_enter(&bench);
    bench_press(&bench, "Back");
    bench_expect(&bench, "MENU");
}

// --- who -----------------------------------------------------------------------------------------

static void a_supervisor_is_asked_for(void **state) {
    (void)state;
    bench_begin(&bench, false);
    bench_press(&bench, "Charts and models");
    bench_press(&bench, "New chart");
    assert_int_equal(bench.wish, DESK_WANTS_SUPERVISOR);
    bench_expect(&bench, "LIST CHARTS");
    desk_enter(&bench.desk, &fake_builder, &fake_supervisor);
    bench_expect(&bench, "FORM NEW_CHART model"); // what was wanted
    bench_begin(&bench, false);
    bench_press(&bench, "Charts and models");
    bench_press(&bench, "New chart");
    desk_enter(&bench.desk, &fake_builder, &fake_nobody); // no PIN after all
    bench_expect(&bench, "LIST CHARTS");
    bench_press(&bench, "Supervisor");
    assert_int_equal(bench.wish, DESK_WANTS_SUPERVISOR);
    desk_enter(&bench.desk, &fake_builder, &fake_supervisor);
    bench_expect(&bench, "LIST CHARTS"); // forgotten
    assert_false(bench_offers(&bench, "Supervisor"));
}

static void every_form_knows_who_may(void **state) {
    (void)state;
    for (int form = 0; form < DESK_FORM_COUNT; form++) {
        bool supervisors = form_spec((enum desk_form)form)->supervisor;
        bench_begin(&bench, false);
        bench_open(&bench, (enum desk_form)form);
        assert_int_equal(bench.wish, supervisors ? DESK_WANTS_SUPERVISOR : DESK_STAYS);
        assert_int_equal(bench.desk.depth, supervisors ? 1 : 2);
    }
}

static void somebody_else_begins_at_the_menu(void **state) {
    (void)state;
    bench_open(&bench, DESK_FORM_HEAD);
    bench_type(&bench, "x");
    desk_enter(&bench.desk, &fake_builder, &fake_nobody);
    bench_expect(&bench, "FORM HEAD model"); // the same one finds it as it was left
    assert_string_equal(bench_cell(&bench, "model"), "x");
    desk_enter(&bench.desk, &fake_other, &fake_nobody);
    bench_expect(&bench, "MENU");
    bench_open(&bench, DESK_FORM_HEAD);
    assert_string_equal(bench_cell(&bench, "model"), "was 1");
}

// --- lists ---------------------------------------------------------------------------------------

static void a_row_is_chosen_then_opened(void **state) {
    (void)state;
    bench_press(&bench, "Heads");
    assert_false(bench_offers(&bench, "Change"));
    bench_touch(&bench, ACTION_ROW, 2);
    struct view view = bench_view(&bench);
    assert_int_equal(view.set.selected, 2);
    assert_true(bench_offers(&bench, "Change"));
    bench_touch(&bench, ACTION_ROW, 2);
    bench_expect(&bench, "FORM HEAD model");
    assert_string_equal(bench.desk.work.draft.of.key[0], "row 2");
    bench_press(&bench, "Back");
    view = bench_view(&bench);
    assert_int_equal(view.set.selected, 2); // still
}

static void enter_opens_too(void **state) {
    (void)state;
    bench_press(&bench, "Heads");
    bench_enter(&bench);
    struct view view = bench_view(&bench);
    assert_int_equal(view.set.selected, 0);
    bench_enter(&bench);
    bench_expect(&bench, "FORM HEAD model");
}

static void pages_are_turned(void **state) {
    (void)state;
    bench.fake.answer.rows = 2 * VIEW_ROWS_MAX + 1;
    bench_press(&bench, "Heads");
    assert_false(bench_offers(&bench, "Page before"));
    bench_press(&bench, "Next page");
    bench_press(&bench, "Next page");
    struct view view = bench_view(&bench);
    assert_int_equal(view.set.row_count, 1);
    assert_false(bench_offers(&bench, "Next page"));
    bench_touch(&bench, ACTION_OLDER, 0); // stale
    view = bench_view(&bench);
    assert_int_equal(view.set.row_count, 1);
    bench_press(&bench, "Page before");
    bench_press(&bench, "Page before");
    assert_false(bench_offers(&bench, "Page before"));
    assert_string_equal(bench.fake.asked.after.key[0], "");
}

static void turns_as_many_pages_as_it_can(void **state) {
    (void)state;
    bench.fake.answer.rows = VIEW_ROWS_MAX * (DESK_PAGES + 5);
    bench_press(&bench, "Heads");
    for (int i = 0; i < DESK_PAGES + 3; i++) {
        bench_touch(&bench, ACTION_OLDER, 0);
        assert_true(desk_top(&bench.desk)->page < DESK_PAGES);
    }
    for (int i = 0; i < DESK_PAGES + 3; i++) {
        bench_touch(&bench, ACTION_NEWER, 0);
    }
    assert_int_equal(desk_top(&bench.desk)->page, 0);
}

static void is_looked_through(void **state) {
    (void)state;
    bench_press(&bench, "Heads");
    bench_scan(&bench, "Plover");
    assert_true(bench_offers(&bench, "Show all"));
    struct view view = bench_view(&bench);
    assert_string_equal(bench.fake.asked.find, "Plover");
    assert_string_equal(view.set.subtitle, "Only those with Plover");
    bench_touch(&bench, ACTION_ROW, 0);
    bench_press(&bench, "Show all");
    bench_view(&bench);
    assert_string_equal(bench.fake.asked.find, "");
    assert_false(
        bench.fake.asked.has_selected); // it need not be on this page: Enter opens no row unseen
    bench_scan(&bench, "H-0001A");      // something known leads there
    bench_expect(&bench, "FORM HEAD model");
}

static void nothing_is_looked_for_where_it_would_not_be(void **state) {
    struct desk_place place = {.goes = GOES_LIST, .which = DESK_LIST_REVISIONS};
    (void)state;
    desk_open(&bench.desk, &place);
    bench_scan(&bench, "Plover");
    bench_expect_message(&bench, "Nothing here is called Plover.");
    assert_false(bench_offers(&bench, "Show all"));
    bench_press(&bench, "Back");
    bench_scan(&bench, "Plover"); // nor on the menu
    bench_expect_message(&bench, "Nothing here is called Plover.");
}

static void says_when_a_list_cannot_be_read(void **state) {
    (void)state;
    bench_press(&bench, "Heads");
    bench.fake.answer.list = DESK_FAILED;
    bench_expect_message(&bench, "The database cannot be read.");
    bench_enter(&bench); // and is not opened
    bench_expect(&bench, "LIST HEADS");
    bench.fake.answer.list = DESK_NONE;
    bench_expect_message(&bench, "There is nothing of the kind any more.");
}

static void says_when_a_form_cannot_be_opened(void **state) {
    (void)state;
    bench_press(&bench, "Heads");
    bench.fake.answer.begin = DESK_NONE;
    bench_press(&bench, "Take in");
    bench_expect(&bench, "LIST HEADS");
    bench_expect_message(&bench, "There is nothing of the kind any more.");
    bench.fake.answer.begin = DESK_FAILED;
    bench_press(&bench, "Take in");
    bench_expect(&bench, "LIST HEADS");
    bench_expect_message(&bench, "The database cannot be read.");
}

static void a_deed_that_fails_is_said_to(void **state) {
    (void)state;
    bench_press(&bench, "Heads");
    bench_touch(&bench, ACTION_ROW, 0);
    bench_press(&bench, "Ticket");
    bench_expect_message(&bench, "It is done.");
    bench.fake.answer.deed = DESK_FAILED;
    bench_press(&bench, "Ticket");
    struct view view = bench_view(&bench);
    assert_string_equal(view.band, "It cannot be done.");
    assert_int_equal(view.band_tone, TONE_STOP);
}

static void too_many_pages_are_refused(void **state) {
    (void)state;
    for (int i = 0; i < 2 * DESK_DEPTH; i++) {
        struct desk_place place = {.goes = GOES_LIST, .which = DESK_LIST_REVISIONS};
        desk_open(&bench.desk, &place);
    }
    assert_int_equal(bench.desk.depth, DESK_DEPTH);
    bench_expect_message(&bench, "Too many pages are open");
    unsigned begun = bench.fake.begun;
    bench_open(&bench, DESK_FORM_HEAD);
    bench_expect(&bench, "LIST REVISIONS");
    bench_expect_message(&bench, "Too many pages are open");
    assert_int_equal(bench.fake.begun, begun); // nothing was begun that nobody sees
    bench_press(&bench, "Back");
    bench_open(&bench, DESK_FORM_HEAD);
    bench_expect(&bench, "FORM HEAD model");
}

// --- touches of what was there a moment ago ------------------------------------------------------

static void stale_touches_do_nothing(void **state) {
    static const int64_t wrong[] = {-1, 3, 40, 4096, INT64_MAX, INT64_MIN, INT64_C(1) << 32};
    static const enum view_action_id ids[] = {ACTION_ROW,    ACTION_DESK_BUTTON, ACTION_TILE,
                                              ACTION_CHOICE, ACTION_FIELD,       ACTION_NONE};
    (void)state;
    for (int where = 0; where < 3; where++) {
        bench_begin(&bench, true);
        if (where == 1) {
            bench_press(&bench, "Heads");
        } else if (where == 2) {
            bench_open(&bench, DESK_FORM_SHAFT_MODEL);
        }
        for (size_t id = 0; id < COUNT(ids); id++) {
            for (size_t i = 0; i < COUNT(wrong); i++) {
                bool meant = (where == 0 && ids[id] == ACTION_TILE && wrong[i] == 3) ||
                             (where == 1 && ids[id] == ACTION_DESK_BUTTON && wrong[i] == 3) ||
                             (where == 2 && ids[id] == ACTION_FIELD && wrong[i] == 3) ||
                             (where == 2 && ids[id] == ACTION_CHOICE && wrong[i] == 3);
                if (meant) {
                    continue;
                }
                struct desk before = bench.desk;
                struct fake fake = bench.fake;
                bench_touch(&bench, ids[id], wrong[i]);
                assert_int_equal(bench.wish, DESK_STAYS);
                bench.fake.asked = fake.asked; // looking at a list again is no harm
                if (memcmp(&before, &bench.desk, sizeof before) != 0 ||
                    memcmp(&fake, &bench.fake, sizeof fake) != 0) {
                    fail_msg("at %d, action %d with %lld", where, (int)ids[id],
                             (long long)wrong[i]);
                }
            }
        }
    }
}

// --- as long as it may be ------------------------------------------------------------------------

static void expect_ended(const char *text, size_t size) {
    assert_non_null(memchr(text, '\0', size));
}

static void texts_may_be_as_long_as_they_can_be(void **state) {
    (void)state;
    for (int form = 0; form < DESK_FORM_COUNT; form++) {
        bench_begin(&bench, true);
        bench.fake.answer.long_texts = true;
        bench.fake.answer.rows = 2 * VIEW_ROWS_MAX;
        bench_view(&bench);
        bench_press(&bench, "Heads");
        bench_scan(&bench,
                   "mmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmm");
        struct view view = bench_view(&bench);
        expect_ended(view.set.subtitle, sizeof view.set.subtitle);
        bench_open(&bench, (enum desk_form)form);
        for (int i = 0; i < 300; i++) {
            bench_type(&bench, "w");
        }
        view = bench_view(&bench);
        expect_ended(view.form.subtitle, sizeof view.form.subtitle);
        for (size_t i = 0; i < view.form.field_count; i++) {
            expect_ended(view.form.field[i].text, sizeof view.form.field[i].text);
            expect_ended(view.form.field[i].label, sizeof view.form.field[i].label);
            expect_ended(view.form.field[i].unit, sizeof view.form.field[i].unit);
        }
        assert_int_equal(view.form.note_count, VIEW_FORM_NOTES);
        assert_true(view.form.field_count <= VIEW_FORM_FIELDS);
    }
}

#define TEST(name) cmocka_unit_test_setup(name, opened)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(everything_can_be_reached),
        TEST(every_key_is_one_buttons),
        TEST(back_leads_to_the_saw_in_the_end),
        TEST(what_is_not_saved_is_left_twice),
        TEST(going_on_asks_again),
        TEST(a_column_begun_is_not_saved_either),
        TEST(what_is_only_tried_is_left_at_once),
        TEST(a_supervisor_is_asked_for),
        TEST(every_form_knows_who_may),
        TEST(somebody_else_begins_at_the_menu),
        TEST(a_row_is_chosen_then_opened),
        TEST(enter_opens_too),
        TEST(pages_are_turned),
        TEST(turns_as_many_pages_as_it_can),
        TEST(is_looked_through),
        TEST(nothing_is_looked_for_where_it_would_not_be),
        TEST(says_when_a_list_cannot_be_read),
        TEST(says_when_a_form_cannot_be_opened),
        TEST(a_deed_that_fails_is_said_to),
        TEST(too_many_pages_are_refused),
        TEST(stale_touches_do_nothing),
        TEST(texts_may_be_as_long_as_they_can_be),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

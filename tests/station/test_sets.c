// A build as a set: what is shown, what stands out, what is measured afterwards, shafts from stock.

#include "bench.h"
#include "cmocka_all.h"
#include "words.h"

#include <stdio.h>
#include <string.h>

static struct bench bench;
static struct kit kit;
static struct set_measured measured[SHOP_CLUBS];

// One build of five clubs, every one with a shaft and a grip that are known well enough.
static int fresh(void **state) {
    *state = &bench;
    bench_init(&bench);
    for (size_t i = 0; i < 5; i++) {
        struct club *club = &bench.catalogue.club[i];
        int64_t id = club->id;
        *club = bench.catalogue.club[0];
        club->id = id;
        snprintf(club->order.build, sizeof club->order.build, "2041");
        snprintf(club->order.club, sizeof club->order.club, "%zu", i + 3);
        club->order.position = (int)i + 1;
        club->model.tip_diameter = LENGTH_INCH * 37 / 100;
        club->model.butt_diameter = LENGTH_INCH * 60 / 100;
        club->model.tip_wall = LENGTH_INCH * 18 / 1000;
        club->model.butt_wall = LENGTH_INCH * 13 / 1000;
        club->shaft.weight = 120 * MASS_GRAM;
        club->order.grip_weight = 50 * MASS_GRAM;
        bench.shop.club[i] = bench.shop.club[0];
    }
    memset(measured, 0, sizeof measured);
    bench.shop.finals = measured;
    return 0;
}

static void to_set(struct bench *b) {
    bench_sign_on(b);
    bench_to_review(b);
    bench_scan(b, TICKET_HEAD, "1"); // its life, and from there the set it belongs to
    assert_int_equal(b->station.state, STATION_REVIEW);
    bench_act(b, ACTION_SET, 0);
    assert_int_equal(b->station.state, STATION_SET);
}

static void a_set_is_shown(void **state) {
    struct bench *b = *state;
    to_set(b);
    const struct view_set *set = &b->view.set;
    assert_int_equal(b->view.body, VIEW_SET);
    assert_string_equal(set->title, "Build 2041 · 5 clubs");
    assert_int_equal(set->row_count, 5);
    assert_int_equal(set->plot_count, 4);
    assert_string_equal(set->row[1].cell[0], "4");
    assert_true(set->plot[0].line_known);
    assert_int_equal(set->plot[0].odd, -1); // all alike
    assert_string_equal(set->note[0], "No club stands out from the line of the others.");
    for (size_t i = 0; i < set->plot_count; i++) {
        for (size_t k = 0; k < set->plot[i].count; k++) {
            assert_true(set->plot[i].point[k].planned_known);
            assert_true(set->plot[i].point[k].planned >= set->plot[i].low);
            assert_true(set->plot[i].point[k].planned <= set->plot[i].high);
        }
    }
}

// The value says so, and its row has the sign.
static void what_is_out_is_marked(void **state) {
    struct bench *b = *state;
    for (size_t i = 0; i < 2; i++) {
        measured[i].known[SET_LENGTH] = true;
        measured[i].value[SET_LENGTH] = 40;
        measured[i].out[SET_LENGTH] = i == 1;
    }
    measured[2].out[SET_LENGTH] = true; // nothing measured: nothing is out
    to_set(b);
    const struct view_set *set = &b->view.set;
    assert_non_null(strstr(set->row[0].cell[3], "(40 in)"));
    assert_non_null(strstr(set->row[1].cell[3], "(40 in out)"));
    assert_null(strstr(set->row[2].cell[3], "out"));
    assert_int_equal(set->row[0].tone, TONE_PLAIN);
    assert_int_equal(set->row[1].tone, TONE_STOP);
    assert_int_equal(set->row[2].tone, TONE_PLAIN);
    assert_string_equal(set->note[0], "No club stands out from the line of the others.");
}

static void the_odd_one_is_named_before_it_is_cut(void **state) {
    struct bench *b = *state;
    b->catalogue.club[2].head.weight += 5 * MASS_GRAM; // about 2.5 points (common practice)
    to_set(b);
    assert_int_equal(b->view.set.plot[0].odd, 2);
    assert_int_equal(b->view.set.row[2].tone, TONE_CAUTION);
    assert_int_equal(b->view.set.row[1].tone, TONE_PLAIN);
    bool named = false;
    for (size_t i = 0; i < b->view.set.note_count; i++) {
        named = named || strstr(b->view.set.note[i], "Club 5: swingweight about ") != NULL;
    }
    assert_true(named);
    assert_int_equal(b->view.band_tone, TONE_CAUTION);
}

static void measured_values_stand_beside_the_plan(void **state) {
    struct bench *b = *state;
    measured[1].known[SET_FREQUENCY] = true;
    measured[1].value[SET_FREQUENCY] = 301.5;
    measured[1].known[SET_LENGTH] = true;
    measured[1].value[SET_LENGTH] = 38.5;
    to_set(b);
    assert_non_null(strstr(b->view.set.row[1].cell[6], " (301.5)"));
    assert_non_null(strstr(b->view.set.row[1].cell[3], " (38 1/2 in)"));
    assert_null(strstr(b->view.set.row[0].cell[6], "("));
    assert_true(b->view.set.plot[1].point[1].measured_known);
    assert_true(b->view.set.plot[1].high >= 301.5);
}

static void only_what_is_done_is_measured(void **state) {
    struct bench *b = *state;
    to_set(b);
    bench_act(b, ACTION_ROW, 1);
    assert_int_equal(b->view.set.selected, 1);
    assert_false(bench_can(b, ACTION_FINAL_LENGTH));
    b->shop.club[1].progress.stage = STAGE_DONE;
    bench_act(b, ACTION_ROW, 1);
    bench_act(b, ACTION_FINAL_SWINGWEIGHT, 0);
    assert_int_equal(b->station.state, STATION_FINAL);
    bench_type(b, "h2/5"); // belongs to no swingweight
    assert_string_equal(b->view.number.field[0].text, "25");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_FINAL);
    assert_true(b->view.number.error[0] != '\0');
    bench_type(b, "\b\bd2.3");
    assert_string_equal(b->view.number.field[0].text, "D2.3");
    bench_press(b);
    assert_int_equal(b->station.state, STATION_SET);
    assert_string_equal(b->view.band, "Logged.");
    const struct shop_entry *entry = shop_last(&b->shop, ENTRY_FINAL_SWINGWEIGHT);
    assert_int_equal(entry->club_id, 2);
    assert_string_equal(entry->worker, b->station.supervisor.badge);
    bench_act(b, ACTION_FINAL_FREQUENCY, 0);
    bench_type(b, "700");
    bench_press(b);
    assert_int_equal(shop_count(&b->shop, ENTRY_FINAL_FREQUENCY), 0);
    bench_type(b, "\b\b\b301.5");
    bench_press(b);
    assert_int_equal(shop_count(&b->shop, ENTRY_FINAL_FREQUENCY), 1);
    bench_act(b, ACTION_FINAL_LENGTH, 0);
    bench_scan_text(b, "38.5"); // a tape that types
    bench_press(b);
    entry = shop_last(&b->shop, ENTRY_FINAL_LENGTH);
    assert_int_equal(entry->made, LENGTH_INCH * 77 / 2);
    assert_int_equal(entry->planned, b->catalogue.club[1].order.playing_length);
}

static void expect_words(const char *text, const char *words) {
    if (strstr(text, words) == NULL) {
        fail_msg("no \"%s\" in \"%s\"", words, text);
    }
}

static void loft_and_lie_are_measured(void **state) {
    struct bench *b = *state;
    b->catalogue.club[1].head.loft = 33000;
    b->catalogue.club[1].order.lie = 62500;
    b->shop.club[1].progress.stage = STAGE_DONE;
    struct station *s = &b->station;
    to_set(b);
    bench_act(b, ACTION_ROW, 1);
    assert_true(bench_can(b, ACTION_FINAL_LOFT));
    bench_act(b, ACTION_FINAL_LOFT, 0);
    assert_int_equal(s->state, STATION_FINAL);
    expect_words(b->view.number.help, "Planned: 33 deg.");
    bench_type(b, "c34/.5"); // belongs to no angle
    assert_string_equal(b->view.number.field[0].text, "34.5");
    assert_string_equal(b->view.number.result, "Out: more than 1 deg off what was planned.");
    assert_int_equal(b->view.number.result_tone, TONE_CAUTION);
    bench_type(b, "\b\b\b\b90");
    bench_press(b);
    expect_words(b->view.number.error, "A loft is 0 to 75 degrees");
    bench_type(b, "\b\b33.5");
    assert_string_equal(b->view.number.result, "Within 1 deg of what was planned.");
    bench_press(b);
    assert_int_equal(s->state, STATION_SET);
    assert_int_equal(shop_last(&b->shop, ENTRY_FINAL_LOFT)->club_id, 2);
    bench_act(b, ACTION_FINAL_LIE, 0);
    expect_words(b->view.number.help, "Planned: 62.5 deg.");
    bench_type(b, "44");
    bench_press(b);
    expect_words(b->view.number.error, "A lie is 45 to 80 degrees");
    bench_type(b, "\b\b62");
    bench_press(b);
    assert_int_equal(shop_count(&b->shop, ENTRY_FINAL_LIE), 1);
}

static void the_length_says_how_it_is_taken(void **state) {
    struct bench *b = *state;
    b->shop.club[1].progress.stage = STAGE_DONE;
    to_set(b);
    bench_act(b, ACTION_ROW, 1);
    b->station.settings.length_method = LENGTH_METHOD_RULER;
    bench_act(b, ACTION_FINAL_LENGTH, 0);
    expect_words(b->view.number.question, "ground to end of grip cap");
    bench_type(b, "38 1/8");
    expect_words(b->view.number.result, "Within 1/8 in");
    bench_press(b);
    assert_string_equal(shop_last(&b->shop, ENTRY_FINAL_LENGTH)->cause, "ruler");
    b->station.settings.length_method = LENGTH_METHOD_RULES;
    bench_act(b, ACTION_FINAL_LENGTH, 0);
    expect_words(b->view.number.question, "60-degree plane");
    bench_type(b, "38 3/16");
    expect_words(b->view.number.result, "Out: more than 1/8 in");
    bench_press(b);
    assert_string_equal(shop_last(&b->shop, ENTRY_FINAL_LENGTH)->cause, "rules");
}

// Another program takes a club out of the build: the rows move, what was chosen stays chosen.
static void what_is_chosen_is_a_club_and_no_row(void **state) {
    struct bench *b = *state;
    words_copy(b->catalogue.club[1].shaft.ticket, TICKET_TEXT_MAX, "S-0098A");
    b->shop.club[1].progress.stage = STAGE_DONE;
    b->shop.club[2].progress.stage = STAGE_DONE;
    to_set(b);
    bench_act(b, ACTION_ROW, 1);
    words_copy(b->catalogue.club[0].order.build, PARTS_BUILD_MAX, "9999");
    bench_act(b, ACTION_FINAL_FREQUENCY, 0);
    bench_type(b, "301.5");
    bench_press(b);
    assert_int_equal(shop_last(&b->shop, ENTRY_FINAL_FREQUENCY)->club_id, 2);
    assert_int_equal(b->view.set.selected, 0);
    assert_string_equal(b->view.set.row[0].cell[2], "S-0098A");
    bench_act(b, ACTION_FINAL_LOFT, 0);
    bench_type(b, "30");
    words_copy(b->catalogue.club[1].order.build, PARTS_BUILD_MAX, "9999");
    bench_press(b);
    assert_int_equal(shop_count(&b->shop, ENTRY_FINAL_LOFT), 0);
    expect_words(b->view.number.error, "The set has changed");
    bench_act(b, ACTION_BACK, 0);
    assert_int_equal(b->view.set.selected, -1);
    assert_false(bench_can(b, ACTION_LIFE));
    expect_words(b->view.band, "The set has changed: the club that was chosen is not in it");
    bench_act(b, ACTION_ROW, 0);
    assert_int_equal(b->view.set.selected, 0);
    assert_null(strstr(b->view.band, "The set has changed"));
}

static void a_disk_that_refuses_logs_it_later(void **state) {
    struct bench *b = *state;
    b->shop.club[1].progress.stage = STAGE_DONE;
    to_set(b);
    bench_act(b, ACTION_ROW, 1);
    bench_act(b, ACTION_FINAL_FREQUENCY, 0);
    bench_type(b, "301.5");
    b->shop.broken = true;
    bench_press(b);
    assert_int_equal(b->station.saving, SAVING_REFUSED);
    b->shop.broken = false;
    bench_wait(b, 3000);
    assert_int_equal(b->station.state, STATION_SET);
    assert_int_equal(shop_count(&b->shop, ENTRY_FINAL_FREQUENCY), 1);
}

static void lay_kit(struct bench *b) {
    memset(&kit, 0, sizeof kit);
    words_copy(kit.build, sizeof kit.build, "2041");
    kit.stock = 9;
    kit.count = 2;
    kit.chosen = 1;
    kit.spread = 0.44;
    for (size_t i = 0; i < kit.count; i++) {
        kit.club[i].club_id = (int64_t)i + 1;
        snprintf(kit.club[i].club, sizeof kit.club[i].club, "%zu", i + 3);
        words_copy(kit.club[i].head, sizeof kit.club[i].head, b->catalogue.club[i].head.ticket);
        b->catalogue.club[i].shaft.ticket[0] = '\0';
    }
    words_copy(kit.club[0].shaft, sizeof kit.club[0].shaft, "S-0099C");
    kit.club[0].raw_length = 41 * LENGTH_INCH;
    kit.club[0].shaft_weight = 118 * MASS_GRAM;
    kit.club[0].value = 213.5;
    words_copy(kit.club[1].words, sizeof kit.club[1].words, "No shaft is long enough.");
    b->shop.kit = &kit;
}

static void a_kit_list_is_accepted(void **state) {
    struct bench *b = *state;
    lay_kit(b);
    to_set(b);
    assert_string_equal(b->view.set.row[0].cell[2], "to be chosen");
    bench_act(b, ACTION_KIT, 0);
    assert_string_equal(b->view.set.row[0].cell[2], "S-0099C");
    assert_string_equal(b->view.set.row[0].cell[6], "D0.0");
    assert_int_equal(b->view.set.row[1].tone, TONE_STOP);
    assert_string_equal(b->view.set.note[0],
                        "Spread 0.4 points: the least that this stock allows (estimate).");
    assert_string_equal(b->view.set.note[1], "No shaft is long enough.");
    bench_press(b); // the button chooses nothing
    assert_int_equal(shop_count(&b->shop, ENTRY_KIT), 0);
    bench_act(b, ACTION_KIT_ACCEPT, 0);
    assert_int_equal(shop_count(&b->shop, ENTRY_KIT), 1);
    const struct shop_entry *entry = shop_last(&b->shop, ENTRY_KIT);
    assert_int_equal(entry->club_id, 1);
    assert_string_equal(entry->cause, "swingweight");
    assert_int_equal(b->station.set.mode, SET_PLOTS);
}

static char accepted[TICKET_TEXT_MAX];

static enum station_save keep_shaft(void *ctx, struct entry *entries, size_t count) {
    words_copy(accepted, sizeof accepted, entries[0].shaft);
    return shop_save_all(ctx, entries, count);
}

// What was on the screen is accepted, or nothing.
static void a_list_that_has_changed_is_not_accepted(void **state) {
    struct bench *b = *state;
    lay_kit(b);
    b->ops.save_all = keep_shaft;
    to_set(b);
    bench_act(b, ACTION_KIT, 0);
    bench_act(b, ACTION_ROW, 0);
    words_copy(kit.club[0].shaft, sizeof kit.club[0].shaft, "S-0098A"); // the other is taken
    bench_act(b, ACTION_KIT_ACCEPT, 0);
    assert_int_equal(shop_count(&b->shop, ENTRY_KIT), 0);
    expect_words(b->view.band, "Not accepted: the stock or the build has changed.");
    assert_int_equal(b->station.set.mode, SET_KIT);
    assert_string_equal(b->view.set.row[0].cell[2], "S-0098A");
    kit.club[0].value += 0.5; // a head was weighed again
    bench_act(b, ACTION_KIT_ACCEPT, 0);
    assert_int_equal(shop_count(&b->shop, ENTRY_KIT), 0);
    bench_act(b, ACTION_KIT_ACCEPT, 0);
    assert_int_equal(shop_count(&b->shop, ENTRY_KIT), 1);
    assert_string_equal(accepted, "S-0098A");
}

static void no_list_is_left_to_accept(void **state) {
    struct bench *b = *state;
    lay_kit(b);
    to_set(b);
    bench_act(b, ACTION_KIT, 0);
    b->shop.kit = NULL; // nothing fits any more
    bench_act(b, ACTION_KIT_ACCEPT, 0);
    assert_int_equal(shop_count(&b->shop, ENTRY_KIT), 0);
    assert_int_equal(b->view.set.row_count, 0);
    expect_words(b->view.band, "Not accepted: the stock or the build has changed.");
}

static void a_list_the_disk_refuses_is_not_accepted(void **state) {
    struct bench *b = *state;
    lay_kit(b);
    to_set(b);
    bench_act(b, ACTION_KIT, 0);
    b->shop.fault = SHOP_FAIL;
    bench_act(b, ACTION_KIT_ACCEPT, 0);
    assert_int_equal(shop_count(&b->shop, ENTRY_KIT), 0);
    assert_ptr_equal(strstr(b->view.band, "NOT LOGGED"), b->view.band);
    assert_int_equal(b->station.set.mode, SET_KIT);
    bench_act(b, ACTION_KIT_FLEX, 0);
    bench_act(b, ACTION_KIT_ACCEPT, 0);
    assert_string_equal(shop_last(&b->shop, ENTRY_KIT)->cause, "flex");
}

static void ways_in_and_out(void **state) {
    struct bench *b = *state;
    to_set(b);
    bench_scan(b, TICKET_HEAD, "7");
    assert_string_equal(b->station.set.build, b->catalogue.club[6].order.build);
    bench_scan_text(b, "S-9999J");
    assert_non_null(strstr(b->view.band, "belongs to no build"));
    bench_act(b, ACTION_BUILD_BACK, 0);
    assert_true(strcmp(b->station.set.build, b->catalogue.club[6].order.build) < 0);
    bench_act(b, ACTION_BUILD_ON, 0);
    assert_string_equal(b->station.set.build, b->catalogue.club[6].order.build);
    bench_act(b, ACTION_BACK, 0);
    assert_int_equal(b->station.state, STATION_REVIEW);
    bench_act(b, ACTION_BACK, 0);
    assert_int_equal(b->station.state, STATION_READY);
}

static void tickets_are_printed(void **state) {
    struct bench *b = *state;
    to_set(b);
    bench_act(b, ACTION_TICKETS, 0);
    assert_string_equal(b->view.band, "Written to 2041");
    b->shop.broken = true;
    bench_act(b, ACTION_TICKETS, 0);
    assert_non_null(strstr(b->view.band, "could not be written"));
}

static void the_life_of_a_part(void **state) {
    struct bench *b = *state;
    to_set(b);
    assert_false(bench_can(b, ACTION_LIFE));
    bench_act(b, ACTION_ROW, 0);
    bench_act(b, ACTION_LIFE, 0);
    assert_int_equal(b->station.state, STATION_REVIEW);
    assert_string_equal(b->station.review.filter.ticket, b->catalogue.club[0].shaft.ticket);
    assert_int_equal(b->station.review.filter.from_ms, 0);
    assert_string_equal(b->view.log.subtitle, "Every day");
    assert_ptr_equal(strstr(b->view.log.filters, "The life of S-"), b->view.log.filters);
    bench_act(b, ACTION_DAY_BACK, 0); // from every day to today, still of this part
    assert_true(b->station.review.filter.from_ms > 0);
    assert_string_equal(b->station.review.filter.ticket, b->catalogue.club[0].shaft.ticket);
    bench_act(b, ACTION_FILTER_CLEAR, 0);
    assert_string_equal(b->station.review.filter.ticket, "");
    assert_true(b->station.review.filter.from_ms > 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(a_set_is_shown, fresh),
        cmocka_unit_test_setup(what_is_out_is_marked, fresh),
        cmocka_unit_test_setup(the_odd_one_is_named_before_it_is_cut, fresh),
        cmocka_unit_test_setup(measured_values_stand_beside_the_plan, fresh),
        cmocka_unit_test_setup(only_what_is_done_is_measured, fresh),
        cmocka_unit_test_setup(loft_and_lie_are_measured, fresh),
        cmocka_unit_test_setup(the_length_says_how_it_is_taken, fresh),
        cmocka_unit_test_setup(what_is_chosen_is_a_club_and_no_row, fresh),
        cmocka_unit_test_setup(a_disk_that_refuses_logs_it_later, fresh),
        cmocka_unit_test_setup(a_kit_list_is_accepted, fresh),
        cmocka_unit_test_setup(a_list_that_has_changed_is_not_accepted, fresh),
        cmocka_unit_test_setup(no_list_is_left_to_accept, fresh),
        cmocka_unit_test_setup(a_list_the_disk_refuses_is_not_accepted, fresh),
        cmocka_unit_test_setup(ways_in_and_out, fresh),
        cmocka_unit_test_setup(tickets_are_printed, fresh),
        cmocka_unit_test_setup(the_life_of_a_part, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// Orders made, copied, changed, released and looked through at the desk.

#include "shop.h"
#include "workshop.h"

#include <stdio.h>

static struct desk_said save(struct shop *shop, struct desk_draft *draft,
                             enum desk_result expected) {
    struct desk_said said;
    memset(&said, 0, sizeof said);
    assert_int_equal(shop->ops.save(shop->ops.ctx, &shop->who, draft, &said), expected);
    return said;
}

static struct desk_draft irons(struct shop *shop) {
    struct desk_draft draft = shop_draft(shop, DESK_FORM_NEW_ORDER, NULL, NULL, NULL);
    shop_set(&draft, "clubs", "4, 5 6 7");
    shop_set(&draft, "due", "2026-04-01");
    shop_set(&draft, "shaft_model", "Alder 110");
    shop_set(&draft, "flex", "S");
    shop_set(&draft, "first_length", "38.5");
    return draft;
}

static int queued(struct shop *shop, const char *build) {
    struct club_line lines[20];
    int count = store_clubs(shop->fixture.store, CLUBS_NEXT, lines, 20, NULL);
    int found = 0;
    for (int i = 0; i < count; i++) {
        found += strcmp(lines[i].build, build) == 0 ? 1 : 0;
    }
    return found;
}

// Half an inch from iron to iron: common practice, no source.
static void a_new_order_has_lengths_by_rule(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = irons(shop);
    int64_t before = shop_entries(shop);
    assert_string_equal(document_value(&draft.now, "build"), "2043"); // after 2042
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_notes(&remarks, 4);
    shop_expect_note(&remarks, 0, TONE_PLAIN, "Club 4: 38 1/2");
    shop_expect_note(&remarks, 3, TONE_PLAIN, "Club 7: 37");
    assert_int_equal(shop_entries(shop), before); // looking writes nothing
    struct desk_said said = save(shop, &draft, DESK_DONE);
    assert_int_equal(shop_entries(shop), before + 5);
    assert_int_equal(said.next.goes, GOES_LIST);
    assert_int_equal(said.next.which, DESK_LIST_CLUBS);
    assert_string_equal(said.next.of.key[0], "2043");
    int64_t id;
    struct club club;
    assert_int_equal(store_club_named(shop->fixture.store, "2043", "6", &id), STORE_OK);
    assert_int_equal(store_club(shop->fixture.store, id, &club), STORE_OK);
    assert_int_equal(club.order.playing_length, 75 * LENGTH_INCH / 2);
    assert_string_equal(club.order.wished_model, "Alder 110");
    assert_int_equal(club.order.status, ORDER_DRAFT);
    assert_int_equal(queued(shop, "2043"), 0);
}

static void released_it_is_for_the_bench(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = irons(shop);
    struct desk_ref of = {.key = {"2043"}};
    struct desk_said said = {0};
    save(shop, &draft, DESK_DONE);
    assert_int_equal(
        office_release(&shop->office, &shop->who, &of, "000000000000000000000000000000aa", &said),
        DESK_DONE);
    assert_string_equal(said.message, "Released to the bench. 4 of its clubs have no plan yet.");
    assert_int_equal(queued(shop, "2043"), 4);
    int64_t before = shop_entries(shop);
    assert_int_equal(
        office_release(&shop->office, &shop->who, &of, "000000000000000000000000000000ab", &said),
        DESK_DONE);
    assert_string_equal(said.message, "It is released already.");
    assert_int_equal(shop_entries(shop), before);
}

static void a_builder_releases_nothing(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = irons(shop);
    struct desk_ref of = {.key = {"2043"}};
    struct desk_said said = {0};
    struct worker builder;
    save(shop, &draft, DESK_DONE);
    assert_int_equal(store_worker(shop->fixture.store, BUILDER, &builder), STORE_OK);
    assert_int_equal(
        office_release(&shop->office, &builder, &of, "000000000000000000000000000000ac", &said),
        DESK_REFUSED);
    assert_non_null(strstr(said.message, "Only a supervisor"));
    assert_int_equal(queued(shop, "2043"), 0);
}

static void what_is_wrong_is_named_and_nothing_is_written(void **state) {
    static const struct {
        const char *cell, *value, *about, *words;
    } cases[] = {
        {"build", "2042", "build", "there is an order of this name"},
        {"build", "no name!", "build", ""},
        {"clubs", " , ", "clubs", "name the clubs"},
        {"clubs",
         "1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20 21 22 23 24 25 26 27 28 29 "
         "30 31 32",
         "clubs", "31 clubs at most"},
        {"clubs", "4 a-club-of-far-too-long-a-name", "clubs", "31 clubs at most"},
        {"clubs", "4 4", "clubs", "two of these have one name"},
        {"due", "1 April", "due", ""},
        {"shaft_model", "Elm 90", "shaft_model", "no shaft model"},
        {"first_length", "long", "first_length", "this is no length"},
        {"length_step", "x", "length_step", "this is no length"},
        {"first_length", "11", "length_step", "no club's length"}, // the last: 9 1/2 in
        {"swingweight", "Z9", "swingweight", ""},
        {"priority", "9", "priority", ""},
    };
    struct shop *shop = *state;
    int64_t before = shop_entries(shop);
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct desk_draft draft = irons(shop);
        shop_set(&draft, cases[i].cell, cases[i].value);
        struct desk_draft kept = draft;
        struct desk_remarks remarks = shop_consider(shop, &draft);
        shop_expect_complaint(&remarks, cases[i].about, cases[i].words);
        struct desk_said said = save(shop, &draft, DESK_REFUSED);
        assert_string_not_equal(said.message, "");
        assert_memory_equal(&kept.now, &draft.now, sizeof kept.now); // nothing typed is lost
    }
    assert_int_equal(shop_entries(shop), before);
}

static void a_copy_has_the_lines_without_the_parts(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = shop_draft(shop, DESK_FORM_COPY_ORDER, "2042", NULL, NULL);
    shop_set(&draft, "due", "2026-05-04");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_notes(&remarks, 4);
    shop_expect_note(&remarks, 1, TONE_PLAIN, "Club 7: 37");
    save(shop, &draft, DESK_DONE);
    int64_t id;
    struct club copy;
    assert_int_equal(store_club_named(shop->fixture.store, "2043", "4h", &id), STORE_OK);
    assert_int_equal(store_club(shop->fixture.store, id, &copy), STORE_OK);
    struct club first = fixture_club(&shop->fixture, 2);
    assert_int_equal(copy.order.playing_length, first.order.playing_length);
    assert_int_equal(copy.order.grip_cap, first.order.grip_cap);
    assert_true(copy.order.uniform_flex);
    assert_string_equal(copy.order.due, "2026-05-04");
    assert_string_equal(copy.head.ticket, "");
    assert_string_equal(copy.shaft.ticket, "");
    assert_string_equal(copy.order.wished_model, "Alder 110"); // the shaft that it has there
}

static void a_copy_of_nothing_is_refused(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = shop_draft(shop, DESK_FORM_COPY_ORDER, "1999", NULL, NULL);
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_complaint(&remarks, "from", "there is no such order");
    save(shop, &draft, DESK_REFUSED);
}

// 2042-7: 272.4 g reads 2 1/2 in; 37 - 1 - 1/4 = 35 3/4 in. An inch longer: 36 3/4 in.
static void a_club_shows_what_its_plan_would_be(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = shop_draft(shop, DESK_FORM_CLUB, "2042", "7", NULL);
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_note(&remarks, 0, TONE_FINE, "Tip mark 2 1/2, butt mark 35 3/4");
    shop_set(&draft, "playing_length", "38");
    remarks = shop_consider(shop, &draft);
    shop_expect_note(&remarks, 0, TONE_FINE, "Tip mark 2 1/2, butt mark 36 3/4");
    assert_int_equal(fixture_club(&shop->fixture, 3).order.playing_length, 37 * LENGTH_INCH);
    shop_save(shop, &draft);
    assert_int_equal(fixture_club(&shop->fixture, 3).order.playing_length, 38 * LENGTH_INCH);
}

// The same club waiting for its shaft needs 35 3/4 in and 2 1/2 in of tip: 38 1/4 in. What is left
// of a shaft, say, is 40 in long: it will do; 38 in would not.
static void left_over(struct shop *shop, length_nm remaining) {
    char sql[400];
    sqlite3 *db = fixture_raw(shop->fixture.path);
    snprintf(sql, sizeof sql,
             "INSERT INTO shaft (ticket, model, flex, raw_length, life, remaining) VALUES "
             "('S-0006I', 'Alder 110', 'S', 1041400000, 'scrap', %lld);"
             "UPDATE shaft SET club = NULL WHERE ticket = 'S-0003O';"
             "UPDATE club SET wished_model = 'Alder 110', wished_flex = 'S' WHERE id = 3",
             (long long)remaining);
    fixture_exec(db, sql);
    sqlite3_close(db);
}

static void a_left_over_that_is_long_enough_is_offered(void **state) {
    struct shop *shop = *state;
    left_over(shop, 40 * LENGTH_INCH);
    struct desk_draft draft = shop_draft(shop, DESK_FORM_CLUB, "2042", "7", NULL);
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_note(&remarks, 0, TONE_CAUTION, "no shaft yet");
    shop_expect_note(&remarks, 1, TONE_PLAIN, "Left over and long enough: S-0006I, 40");
    fixture_expect_file(shop->fixture.store);
    fixture_close(&shop->fixture);
}

static void one_that_is_too_short_is_not(void **state) {
    struct shop *shop = *state;
    left_over(shop, 38 * LENGTH_INCH);
    struct desk_draft draft = shop_draft(shop, DESK_FORM_CLUB, "2042", "7", NULL);
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_notes(&remarks, 1);
    fixture_close(&shop->fixture);
}

static void a_cut_club_keeps_what_was_cut_by(void **state) {
    struct shop *shop = *state;
    fixture_bring(&shop->fixture, 3, STAGE_TIP_CUT);
    struct desk_draft draft = shop_draft(shop, DESK_FORM_CLUB, "2042", "7", NULL);
    shop_set(&draft, "step", "1");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_complaint(&remarks, "step", "");
    struct desk_said said = save(shop, &draft, DESK_REFUSED);
    assert_string_not_equal(said.message, "");
    assert_int_equal(fixture_club(&shop->fixture, 3).order.step, 0);
}

// The answer to a commit is lost once; what is saved again is what was saved.
static bool lost;
static enum station_save forgetful(void *ctx, struct entry *all, size_t count) {
    struct shop *shop = ctx;
    assert_int_equal(store_append_all(shop->fixture.store, all, count), STORE_OK);
    if (lost) {
        lost = false;
        return STATION_SAVE_UNKNOWN;
    }
    return STATION_SAVED;
}

static void an_order_saved_twice_is_there_once(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = irons(shop);
    int64_t before = shop_entries(shop);
    shop->world.save_all = forgetful;
    lost = true;
    struct desk_said said = save(shop, &draft, DESK_FAILED);
    assert_non_null(strstr(said.message, "never saved twice"));
    struct desk_remarks remarks = shop_consider(shop, &draft);
    assert_int_equal(remarks.complaint_count, 0);
    assert_non_null(strstr(remarks.note[0], "The try before has saved it, entry "));
    said = save(shop, &draft, DESK_DONE);
    char words[64];
    snprintf(words, sizeof words, "has saved it, entry %lld.", (long long)before + 1);
    assert_non_null(strstr(said.message, words));
    assert_int_equal(said.next.which, DESK_LIST_CLUBS);
    assert_int_equal(shop_entries(shop), before + 5);
    struct desk_draft other = irons(shop); // another order of this name is none
    shop_set(&other, "build", document_value(&draft.now, "build"));
    save(shop, &other, DESK_REFUSED);
    assert_int_equal(shop_entries(shop), before + 5);
    struct desk_draft club = shop_draft(shop, DESK_FORM_CLUB, "2042", "7", NULL);
    shop_set(&club, "playing_length", "38");
    lost = true;
    save(shop, &club, DESK_FAILED);
    save(shop, &club, DESK_DONE);
    assert_int_equal(shop_entries(shop), before + 6);
}

static enum station_save full(void *ctx, struct entry *all, size_t count) {
    (void)ctx;
    (void)all;
    (void)count;
    return STATION_SAVE_FAILED;
}

#define LONG_WHY                                                                                   \
    "Not enough room on the disk for one more cut. Free some space there, look whether the log "   \
    "of "                                                                                          \
    "another bench or old copies can be moved away, and try again. Nothing was written."

static void say_why(void *ctx, char *buffer, size_t size) {
    (void)ctx;
    snprintf(buffer, size, "%s", LONG_WHY);
}

// What to do stands at the end of it.
static void a_long_reason_is_said_to_its_end(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = irons(shop);
    shop->world.save_all = full;
    shop->world.why = say_why;
    struct desk_said said = save(shop, &draft, DESK_FAILED);
    assert_string_equal(said.message, "NOT SAVED: " LONG_WHY);
}

static void what_was_changed_can_be_taken_back(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = shop_draft(shop, DESK_FORM_CLUB, "2042", "7", NULL);
    shop_set(&draft, "playing_length", "38");
    shop_set(&draft, "why", "asked for on the telephone");
    int64_t seq = shop_save(shop, &draft);
    char number[24];
    snprintf(number, sizeof number, "%lld", (long long)seq);
    struct desk_query query = {.list = DESK_LIST_CHANGES, .has_selected = true};
    struct desk_table table;
    snprintf(query.selected.key[0], DESK_KEY_MAX, "%s", number);
    memset(&table, 0, sizeof table);
    assert_int_equal(shop->ops.list(shop->ops.ctx, &query, &table), DESK_DONE);
    assert_string_equal(table.set.row[0].cell[4], "2042-7");
    assert_string_equal(table.set.note[0], "playing_length 37 to 38");
    assert_string_equal(table.set.note[1], "Why: asked for on the telephone");
    struct desk_draft back = shop_draft(shop, DESK_FORM_TAKE_BACK, number, NULL, NULL);
    struct desk_remarks remarks = shop_consider(shop, &back);
    shop_expect_complaint(&remarks, "why", "say why");
    shop_set(&back, "why", "a slip");
    remarks = shop_consider(shop, &back);
    shop_expect_notes(&remarks, 2);
    shop_expect_note(&remarks, 1, TONE_PLAIN, "playing_length 38 to 37");
    int64_t second = shop_save(shop, &back);
    struct entry entry;
    assert_int_equal(store_entry(shop->fixture.store, second, &entry), STORE_OK);
    assert_int_equal(entry.refers, seq);
    assert_int_equal(fixture_club(&shop->fixture, 3).order.playing_length, 37 * LENGTH_INCH);
    // Once more it is not as it was any more.
    back = shop_draft(shop, DESK_FORM_TAKE_BACK, number, NULL, NULL);
    shop_set(&back, "why", "again");
    remarks = shop_consider(shop, &back);
    assert_true(remarks.complaint_count > 0);
    save(shop, &back, DESK_REFUSED);
}

static void refusals_come_first_among_the_clubs(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = shop_draft(shop, DESK_FORM_CLUB, "2042", "8", NULL);
    shop_set(&draft, "playing_length", "60"); // longer than any shaft
    shop_save(shop, &draft);
    struct desk_query query = {.list = DESK_LIST_CLUBS, .of = {.key = {"2042"}}};
    struct desk_table table;
    memset(&table, 0, sizeof table);
    assert_int_equal(shop->ops.list(shop->ops.ctx, &query, &table), DESK_DONE);
    assert_int_equal(table.set.row_count, 4);
    assert_string_equal(table.set.row[0].cell[0], "4h"); // no chart for hybrids
    assert_string_equal(table.set.row[1].cell[0], "8");  // too long
    assert_int_equal(table.set.row[0].tone, TONE_STOP);
    assert_int_equal(table.set.row[1].tone, TONE_STOP);
    assert_string_equal(table.set.row[2].cell[0], "9"); // waits for its parts
    assert_int_equal(table.set.note_tone[0], TONE_STOP);
    assert_non_null(strstr(table.set.note[0], "No chart"));
    assert_string_equal(table.set.row[3].cell[4], "2 1/2");
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, shop_opened, shop_closed)
int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(a_new_order_has_lengths_by_rule),
        TEST(released_it_is_for_the_bench),
        TEST(a_builder_releases_nothing),
        TEST(what_is_wrong_is_named_and_nothing_is_written),
        TEST(a_copy_has_the_lines_without_the_parts),
        TEST(a_copy_of_nothing_is_refused),
        TEST(a_club_shows_what_its_plan_would_be),
        cmocka_unit_test_setup(a_left_over_that_is_long_enough_is_offered, shop_opened),
        cmocka_unit_test_setup(one_that_is_too_short_is_not, shop_opened),
        TEST(a_cut_club_keeps_what_was_cut_by),
        TEST(an_order_saved_twice_is_there_once),
        TEST(a_long_reason_is_said_to_its_end),
        TEST(what_was_changed_can_be_taken_back),
        TEST(refusals_come_first_among_the_clubs),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// What a chart or a model would do to open clubs is said before it is saved.
//
// The marks are worked out by hand beside each test, by the rules of DEVELOPERS.md (common practice
// of the trade: the tip trim is the chart's cell, finished = playing − bore height − grip cap).

#include "lock.h"
#include "shop.h"

#include <stdio.h>
#include <unistd.h>

static struct desk_draft irons(struct shop *shop) {
    return shop_draft(shop, DESK_FORM_CHART, "Alder 110", "S", "iron");
}

// 2042-7: 272.4 g is nearest 272 g, 2 1/2 in; 37 - 1 - 1/4 = 35 3/4 in. 2042-8: 279.1 g, 3 in;
// 36 1/2 - 1 - 1/4 = 35 1/4 in.
static void says_which_marks_change(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = irons(shop);
    shop_set(&draft, ":7", "272 2 5/8");
    shop_set(&draft, "why", "the maker's letter");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_note(&remarks, 0, TONE_CAUTION,
                     "Cut differently: 1 of the open clubs that go by it, 2");
    shop_expect_note(&remarks, 1, TONE_CAUTION, "2042-7: tip 2 1/2 to 2 5/8, butt 35 3/4 stays");
    shop_expect_notes(&remarks, 2);
    // Nothing was written by looking.
    assert_int_equal(fixture_club(&shop->fixture, 3).chart.revision, 1);
    int64_t seq = shop_save(shop, &draft);
    struct entry entry;
    assert_int_equal(store_entry(shop->fixture.store, seq, &entry), STORE_OK);
    assert_int_equal(entry.kind, ENTRY_CHANGE);
    assert_string_equal(entry.note, "the maker's letter");
    assert_string_equal(entry.worker, SUPERVISOR);
    struct club club = fixture_club(&shop->fixture, 3);
    struct plan_input input;
    struct plan plan;
    assert_true(club_plan(&club, &shop->settings.rules, &input, &plan));
    assert_int_equal(plan.tip_mark, 21 * LENGTH_INCH / 8);
    assert_int_equal(club.chart.revision, 2);
}

static void says_when_none_does(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = irons(shop);
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_notes(&remarks, 0); // nothing was typed
    shop_set(&draft, ":9", "286 3 1/2");
    remarks = shop_consider(shop, &draft);
    shop_expect_note(&remarks, 0, TONE_FINE,
                     "Open clubs that go by it: 2. None is cut differently.");
    shop_expect_notes(&remarks, 1);
    draft = shop_draft(shop, DESK_FORM_CHART, "Reed 60", "S", "wood");
    shop_set(&draft, ":1", "200 1/2");
    remarks = shop_consider(shop, &draft);
    shop_expect_note(&remarks, 0, TONE_FINE, "No open club goes by it.");
}

static void refusals_come_first(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = irons(shop);
    shop_set(&draft, ":7", "272 2 5/8");
    shop_set(&draft, ":8", "279 -");
    shop_set(&draft, "why", "x");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_note(&remarks, 0, TONE_CAUTION,
                     "Cut differently: 2 of the open clubs that go by it, 2");
    assert_int_equal(remarks.note_tone[1], TONE_STOP);
    assert_non_null(strstr(remarks.note[1], "2042-8: "));
    shop_expect_note(&remarks, 2, TONE_CAUTION, "2042-7: tip 2 1/2 to 2 5/8, butt 35 3/4 stays");
    shop_expect_notes(&remarks, 3);
}

static void wants_a_reason(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = irons(shop);
    shop_set(&draft, ":7", "272 2 5/8");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_complaint(&remarks, "why", "Say why");
    shop_set(&draft, "why", "the maker's letter");
    remarks = shop_consider(shop, &draft);
    shop_expect_notes(&remarks, 2);
}

// A chart where there was none: the hybrid of 2042 could not be planned. 231 g, 1 in; 39 1/2 - 3/4
// - 1/4 = 38 1/2 in. Its bore height is 1/4 in less than the build's irons have, and it wants
// uniform flex: 1 - 1/4 = 3/4 in.
static void a_new_chart_gives_plans(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = shop_draft(shop, DESK_FORM_NEW_CHART, NULL, NULL, NULL);
    shop_set(&draft, "model", "Alder 110");
    shop_set(&draft, "flex", "S");
    shop_set(&draft, "kind", "hybrid");
    shop_set(&draft, ":4", "231 1");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_note(&remarks, 0, TONE_FINE,
                     "Open clubs that go by it: 1. None is cut differently.");
    shop_expect_note(&remarks, 1, TONE_FINE, "2042-4h: tip 3/4, butt 38 1/2, had no plan");
    shop_expect_notes(&remarks, 2);
    shop_save(shop, &draft);
    assert_int_equal(fixture_club(&shop->fixture, 2).chart.count, 1);
}

// The tip of 2042-7 was cut at 1 in: the mark stays, but would be another one.
static void one_that_is_begun_is_said_to_be(void **state) {
    struct shop *shop = *state;
    fixture_bring(&shop->fixture, 3, STAGE_TIP_SHOWN);
    struct desk_draft draft = irons(shop);
    shop_set(&draft, ":7", "272 2 5/8");
    shop_set(&draft, "why", "x");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_note(&remarks, 1, TONE_CAUTION,
                     "2042-7 (begun): tip 2 1/2 to 2 5/8, butt 35 3/4 stays");
    struct entry entry = fixture_entry(&shop->fixture, ENTRY_TIP_CUT, 3);
    entry.planned = entry.made = 5 * LENGTH_INCH / 2;
    assert_int_equal(store_append(shop->fixture.store, &entry), STORE_OK);
    remarks = shop_consider(shop, &draft);
    shop_expect_note(&remarks, 1, TONE_CAUTION,
                     "2042-7 (begun): The tip mark would be 2 5/8 in now, 2 1/2 in is cut off "
                     "already.");
    shop_expect_notes(&remarks, 2);
    fixture_bring(&shop->fixture, 3, STAGE_DONE);
    remarks = shop_consider(shop, &draft);
    shop_expect_note(&remarks, 0, TONE_FINE,
                     "Open clubs that go by it: 1. None is cut differently.");
}

static void counts_those_there_is_no_room_for(void **state) {
    struct shop *shop = *state;
    char sql[512];
    assert_int_equal(connection_begin(shop->fixture.store), STORE_OK);
    for (int i = 0; i < 30; i++) {
        struct ticket head, shaft;
        char body[8];
        snprintf(body, sizeof body, "%d", 7000 + i);
        if (!ticket_make(TICKET_HEAD, body, &head) || !ticket_make(TICKET_SHAFT, body, &shaft)) {
            continue;
        }
        snprintf(sql, sizeof sql,
                 "INSERT INTO club (build, name, position, due, playing_length, grip_cap) VALUES "
                 "('2041', 'x%d', %d, '2026-04-01', 939800000, 6350000);"
                 "INSERT INTO head (ticket, model, weight, bore_height, club) VALUES "
                 "('%s', 'Plover 7', 272000, 25400000, last_insert_rowid());"
                 "INSERT INTO shaft (ticket, model, flex, raw_length, club) VALUES "
                 "('%s', 'Alder 110', 'S', 1041400000, (SELECT max(id) FROM club));",
                 i, 10 + i, head.text, shaft.text);
        fixture_exec(shop->fixture.store->db, sql);
    }
    int64_t sevens = fixture_number(shop->fixture.store->db,
                                    "SELECT count(*) FROM head WHERE model = 'Plover 7'");
    assert_int_equal(connection_commit(shop->fixture.store), STORE_OK);
    struct desk_draft draft = irons(shop);
    shop_set(&draft, ":7", "272 2 5/8");
    shop_set(&draft, "why", "x");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    char words[96];
    assert_true(remarks.note_count > 4 && remarks.note_count <= VIEW_FORM_NOTES);
    snprintf(words, sizeof words, "Cut differently: %d of the open clubs that go by it, %d",
             (int)sevens, (int)sevens + 1);
    shop_expect_note(&remarks, 0, TONE_CAUTION, words);
    snprintf(words, sizeof words, "and %d more are cut differently",
             (int)sevens - (int)(remarks.note_count - 2));
    shop_expect_note(&remarks, remarks.note_count - 1, TONE_CAUTION, words);
    // 2042 is due first.
    shop_expect_note(&remarks, 1, TONE_CAUTION, "2042-7: tip 2 1/2 to 2 5/8, butt 35 3/4 stays");
}

static void nothing_is_known_when_the_store_is_busy(void **state) {
    struct shop *shop = *state;
    char path[128];
    snprintf(path, sizeof path, "%s.lock", shop->fixture.path);
    int fd = lock_open(path);
    assert_true(fd >= 0 && lock_take(fd, 0));
    shop->fixture.store->lock_wait_ms = 20;
    struct desk_draft draft = irons(shop);
    shop_set(&draft, ":7", "272 2 5/8");
    shop_set(&draft, "why", "x");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_complaint(&remarks, "", "Another program");
    lock_release(fd);
    close(fd);
    remarks = shop_consider(shop, &draft);
    shop_expect_notes(&remarks, 2);
}

// --- models --------------------------------------------------------------------------------------

// 2041-1: 211.5 g is nearest 210 g, one soft is the column of 200 g, 0 in; its chart is written for
// a bore of 1 1/2 in, which this head has now. With all of the height added: 1 1/2 in. 43 - 1 1/2 -
// 1/4 = 41 1/4 in.
static void a_note_of_the_shaft_model_moves_marks(void **state) {
    struct shop *shop = *state;
    fixture_exec(shop->fixture.store->db,
                 "UPDATE head SET bore_height = 38100000 WHERE ticket = 'H-0001A'");
    struct desk_draft draft = shop_draft(shop, DESK_FORM_SHAFT_MODEL, "Reed 60", NULL, NULL);
    shop_set(&draft, "bore_note", "add_height");
    shop_set(&draft, "bore_reference", "");
    shop_set(&draft, "why", "x");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_note(&remarks, 0, TONE_CAUTION,
                     "Cut differently: 1 of the open clubs that go by it, 1");
    shop_expect_note(&remarks, 1, TONE_CAUTION, "2041-1: tip 0 to 1 1/2, butt 41 1/4 stays");
    shop_expect_notes(&remarks, 2);
}

// A hosel of 0.335 in takes no tip of 0.370 in.
static void a_hosel_of_the_head_model_refuses(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = shop_draft(shop, DESK_FORM_HEAD_MODEL, "Plover 7", NULL, NULL);
    shop_set(&draft, "hosel_bore", "0.335");
    shop_set(&draft, "why", "x");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    // Those of the build are looked at, since its bore height may be theirs too.
    shop_expect_note(&remarks, 0, TONE_CAUTION,
                     "Cut differently: 1 of the open clubs that go by it, 3");
    assert_int_equal(remarks.note_tone[1], TONE_STOP);
    assert_non_null(strstr(remarks.note[1], "2042-7: "));
    shop_expect_notes(&remarks, 2);
}

// Words that nobody would write as the files do are shown and read as people write them.
static void words_of_the_files_are_spelled_for_people(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = shop_draft(shop, DESK_FORM_SHAFT_MODEL, "Reed 60", NULL, NULL);
    assert_string_equal(document_value(&draft.now, "bore_note"), "above reference");
    assert_string_equal(document_value(&draft.now, "bore_note_kinds"),
                        "driver fairway not-through");
    shop_set(&draft, "bore_note", "add height");
    shop_set(&draft, "bore_reference", "");
    shop_set(&draft, "bore_note_kinds", "wood not-through");
    shop_set(&draft, "why", "x");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    assert_int_equal(remarks.complaint_count, 0);
    assert_string_equal(document_value(&draft.now, "bore_note_kinds"),
                        "driver fairway not-through");
    shop_save(shop, &draft);
    struct document document;
    const char *const keys[] = {"Reed 60"};
    assert_int_equal(store_document(shop->fixture.store, "shaft_models", keys, &document),
                     STORE_OK);
    assert_string_equal(document_value(&document, "bore_note"), "add_height");
    assert_string_equal(document_value(&document, "bore_note_kinds"), "driver fairway not_through");
}

static void names_a_heavier_column_that_trims_less(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = irons(shop);
    shop_set(&draft, ":9", "286 2 3/4"); // 8 has 3 in
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_note(&remarks, 1, TONE_CAUTION,
                     "Column 9 is for heavier heads than column 8 and trims less. Compare with the "
                     "maker's chart.");
    shop_set(&draft, ":9", "286 3");
    remarks = shop_consider(shop, &draft);
    shop_expect_notes(&remarks, 1);
}

static void a_model_that_is_not_there_is_said_plainly(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = shop_draft(shop, DESK_FORM_NEW_CHART, NULL, NULL, NULL);
    shop_set(&draft, "model", "Unheard of");
    shop_set(&draft, "flex", "S");
    shop_set(&draft, "kind", "iron");
    shop_set(&draft, ":7", "272 1");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_complaint(&remarks, "model", "choose one of the list");
    assert_null(strstr(remarks.complaint[0].text, "csv"));
}

// --- one club ------------------------------------------------------------------------------------

static void is_tried_on_one_club(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = irons(shop);
    shop_set(&draft, ":7", "272 2 5/8");
    shop_set(&draft, "why", "x");
    shop_set(&draft, "try", "2042-7");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_note(&remarks, 1, TONE_CAUTION, "2042-7: tip 2 1/2 to 2 5/8, butt 35 3/4 stays");
    shop_expect_note(&remarks, 2, TONE_FINE, "2042-7: tip 2 5/8, butt 35 3/4");
    shop_expect_note(&remarks, 3, TONE_PLAIN, "Chart, column 7 (272 g): 2 5/8");
    struct desk_remarks by_ticket;
    shop_set(&draft, "try", "S-0003O");
    by_ticket = shop_consider(shop, &draft);
    assert_memory_equal(&by_ticket, &remarks, sizeof remarks);
    // It is no part of the chart.
    shop_save(shop, &draft);
    struct document document;
    const char *const keys[] = {"Alder 110", "S", "iron"};
    assert_int_equal(store_document(shop->fixture.store, "charts", keys, &document), STORE_OK);
    assert_string_equal(document_value(&document, "try"), "");
    assert_int_equal(document.count, 5);
}

static void is_tried_as_it_stands(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = irons(shop);
    shop_set(&draft, "try", "2042-8");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_note(&remarks, 0, TONE_FINE, "2042-8: tip 3, butt 35 1/4");
    shop_set(&draft, "try", "2042-9");
    remarks = shop_consider(shop, &draft);
    shop_expect_note(&remarks, 0, TONE_CAUTION,
                     "The club to try it on lacks its head or its shaft.");
    shop_set(&draft, "try", "2041-1");
    remarks = shop_consider(shop, &draft);
    assert_non_null(strstr(remarks.note[0], "goes by another chart"));
    for (int i = 0; i < 4; i++) {
        static const char *const nobody[] = {"2042-99", "2042", "-", "S-0005K"};
        shop_set(&draft, "try", nobody[i]);
        remarks = shop_consider(shop, &draft);
        assert_non_null(strstr(remarks.note[0], "no club to try it on"));
        shop_expect_notes(&remarks, 1);
    }
}

// A model that is not there is missed once, however many columns the chart has.
static void the_same_is_said_once(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = shop_draft(shop, DESK_FORM_NEW_CHART, NULL, NULL, NULL);
    shop_set(&draft, "model", "Elm 90");
    shop_set(&draft, "flex", "S");
    shop_set(&draft, "kind", "iron");
    shop_set(&draft, ":6", "265 1");
    shop_set(&draft, ":7", "272 1 1/2");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_complaint(&remarks, "model", "Elm 90");
    assert_int_equal(remarks.complaint_count, 1);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, shop_opened, shop_closed)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(says_which_marks_change),
        TEST(says_when_none_does),
        TEST(refusals_come_first),
        TEST(wants_a_reason),
        TEST(a_new_chart_gives_plans),
        TEST(one_that_is_begun_is_said_to_be),
        TEST(counts_those_there_is_no_room_for),
        TEST(nothing_is_known_when_the_store_is_busy),
        TEST(a_note_of_the_shaft_model_moves_marks),
        TEST(a_hosel_of_the_head_model_refuses),
        TEST(words_of_the_files_are_spelled_for_people),
        TEST(names_a_heavier_column_that_trims_less),
        TEST(a_model_that_is_not_there_is_said_plainly),
        TEST(the_same_is_said_once),
        TEST(is_tried_on_one_club),
        TEST(is_tried_as_it_stands),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

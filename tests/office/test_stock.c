// Deliveries, stock and its levels, what to fetch, what is left and what is lost.

#include "stand.h"

#include <stdio.h>

static const char *cell(struct stand *stand, size_t row, size_t column) {
    const struct view *view = stand_view(stand);
    assert_true(row < view->set.row_count);
    return view->set.row[row].cell[column];
}

static void expect_row(struct stand *stand, size_t row, const char *const *cells, size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (strcmp(cell(stand, row, i), cells[i]) != 0) {
            fail_msg("row %d: %s, not %s", (int)row, cell(stand, row, i), cells[i]);
        }
    }
}
#define ROW(stand, row, ...)                                                                       \
    do {                                                                                           \
        const char *const cells[] = {__VA_ARGS__};                                                 \
        expect_row(stand, row, cells, COUNT(cells));                                               \
    } while (0)

static size_t rows(struct stand *stand) {
    return stand_view(stand)->set.row_count;
}

// --- deliveries ----------------------------------------------------------------------------------

static void take_in(struct stand *stand) {
    fixture_exec(
        stand->fixture.store->db,
        "INSERT INTO head (ticket, model, weight, bore_height, lot) VALUES "
        "('H-00060', 'Heron 3', 209000, 38100000, 'May'), ('H-0007Z', 'Heron 3', 211000, NULL, "
        "'May'), ('H-0008X', 'Heron 3', 217000, 38100000, 'May'), ('H-0009V', 'Plover 7', 272000, "
        "25400000, 'June');"
        "INSERT INTO shaft (ticket, model, flex, raw_length, weight, lot) VALUES "
        "('S-0008E', 'Reed 60', 'R', 1168400000, 62500, 'May'),"
        "('S-0009C', 'Reed 60', 'S', 1155700000, 62500, 'May'),"
        "('S-0010J', 'Alder 110', 'S', 1041400000, 112000, 'May')");
}

static void lists_deliveries_newest_first(void **state) {
    struct stand *stand = *state;
    stand_list(stand, DESK_LIST_LOTS, "", "", "");
    stand_see(stand, "Nothing was taken in with a delivery yet.");
    take_in(stand);
    assert_int_equal(rows(stand), 2);
    ROW(stand, 0, "June", "1", "0");
    ROW(stand, 1, "May", "3", "3");
    stand_action(stand, ACTION_ROW, 1);
    // 209, 211, 217: mean 212.33; squares 11.11 + 1.78 + 21.78, halved, root 4.16. By hand.
    stand_see(stand,
              "Weight of 3 heads: mean 212.3 g, standard deviation 4.16 g, 1 out of family.");
    stand_enter_key(stand);
    stand_at(stand, "LIST LOT");
    assert_int_equal(rows(stand), 6);
    ROW(stand, 0, "H-00060", "Heron 3", "", "209", "-1", "1 1/2", "0");
    ROW(stand, 1, "H-0007Z", "Heron 3", "", "211", "+1", "", "");
    ROW(stand, 2, "H-0008X", "Heron 3", "", "217", "+7", "1 1/2", "0");
    ROW(stand, 4, "S-0009C", "Reed 60", "S", "62.5", "0", "45 1/2", "-1/2");
    const struct view *view = stand_view(stand);
    assert_int_equal(view->set.row[0].tone, TONE_PLAIN);
    assert_int_equal(view->set.row[2].tone, TONE_CAUTION);
    assert_int_equal(view->set.row[4].tone, TONE_CAUTION);
    assert_int_equal(view->set.plot_count, 4);
    assert_string_equal(view->set.plot[0].title, "Weight, heads");
    assert_int_equal(view->set.plot[0].odd, 2); // the head of 217 g
    assert_true(view->set.plot[0].level[0] == 210);
    assert_true(view->set.plot[0].level[1] == 204);
    assert_true(view->set.plot[0].level[2] == 216);
    assert_string_equal(view->set.plot[3].title, "Raw length, shafts");
    assert_int_equal(view->set.plot[3].odd, 1);
    assert_true(view->set.plot[3].point[1].planned == -0.5); // two models: less each one's own
    stand_see(stand, "Shafts of several models");
}

static void a_delivery_goes_on_over_pages(void **state) {
    struct stand *stand = *state;
    char sql[256];
    for (int i = 0; i < 10; i++) {
        snprintf(sql, sizeof sql,
                 "INSERT INTO head (ticket, model, lot) VALUES ('H-%cA', 'Heron 3', 'L');"
                 "INSERT INTO shaft (ticket, model, flex, lot) VALUES ('S-%cA', 'Reed 60', 'R', "
                 "'L')",
                 'A' + i, 'A' + i);
        fixture_exec(stand->fixture.store->db, sql);
    }
    stand_list(stand, DESK_LIST_LOT, "L", "", "");
    assert_int_equal(rows(stand), 12);
    assert_string_equal(cell(stand, 11, 0), "S-BA");
    stand_key(stand, "PgDn");
    assert_int_equal(rows(stand), 8);
    assert_string_equal(cell(stand, 0, 0), "S-CA");
    stand_key(stand, "PgUp");
    assert_string_equal(cell(stand, 0, 0), "H-AA");
    stand_scan(stand, "s-"); // typed: only what begins so
    assert_int_equal(rows(stand), 10);
}

// --- stock ---------------------------------------------------------------------------------------

static void stock_says_what_is_short(void **state) {
    struct stand *stand = *state;
    fixture_wish(stand->fixture.store);
    stand_list(stand, DESK_LIST_STOCK, "", "", "");
    // Four clubs wish for what lies there three times.
    ROW(stand, 0, "Alder 110", "S", "3", "3", "4, 1 short", "", "1");
    ROW(stand, 1, "Reed 60", "R", "1", "1", "", "", "");
    ROW(stand, 2, "Heron 3", "head", "0", "1", "", "", "");
    assert_int_equal(stand_view(stand)->set.row[0].tone, TONE_CAUTION);
    assert_int_equal(stand_view(stand)->set.row[1].tone, TONE_PLAIN);
    struct desk_place place = {.goes = GOES_LIST, .which = DESK_LIST_STOCK};
    assert_int_equal(stand->ops.waiting(&stand->office, &place), 1);
    stand_scan(stand, "reed");
    assert_int_equal(rows(stand), 1);
}

static void a_level_is_set_and_changed(void **state) {
    struct stand *stand = *state;
    stand_enter(stand, true);
    stand_list(stand, DESK_LIST_STOCK, "", "", "");
    stand_action(stand, ACTION_ROW, 1);
    stand_key(stand, "F4");
    stand_at(stand, "FORM STOCK_LEVEL least");
    stand_see(stand, "Reed 60");
    stand_see(stand, "When fewer than the first are left free");
    stand_type(stand, "3\n");
    stand_type(stand, "2\n"); // fewer than the least
    stand_at(stand, "FORM STOCK_LEVEL wanted");
    assert_int_equal(stand_number(stand, "SELECT count(*) FROM stock_level"), 0);
    assert_string_equal(stand_cell(stand, "least"), "3");
    stand_fill(stand, "wanted", "x");
    stand_key(stand, "F4");
    assert_int_equal(stand_number(stand, "SELECT count(*) FROM stock_level"), 0);
    stand_fill(stand, "wanted", "10");
    stand->save = SAVE_UNKNOWN_THERE;
    stand_key(stand, "F4");
    stand_key(stand, "F4");
    stand_at(stand, "LIST STOCK");
    stand_see(stand, "Saved, entry ");
    assert_int_equal(stand_number(stand, "SELECT count(*) FROM log WHERE kind = 'change'"), 1);
    ROW(stand, 1, "Reed 60", "R", "1", "1", "", "3 to 10", "9");
    stand_key(stand, "F4");
    stand_fill(stand, "least", "1");
    stand_key(stand, "F4");
    ROW(stand, 1, "Reed 60", "R", "1", "1", "", "1 to 10", "");
    stand_key(stand, "F4");
    stand_key(stand, "F4");
    stand_see(stand, "Nothing was changed.");
}

static void a_head_has_a_level_too(void **state) {
    struct stand *stand = *state;
    stand_enter(stand, true);
    stand_form_of(stand, DESK_FORM_STOCK_LEVEL, "head", "Plover 8", "");
    stand_type(stand, "2\n4\n");
    assert_int_equal(stand_number(stand,
                                  "SELECT wanted FROM stock_level WHERE part = 'head' AND model = "
                                  "'Plover 8'"),
                     4);
}

// --- what to fetch -------------------------------------------------------------------------------

static void a_pick_list_by_rack(void **state) {
    struct stand *stand = *state;
    stand_list(stand, DESK_LIST_PICK, "2042", "", "");
    stand_see(stand, "Pick list of order 2042");
    assert_int_equal(rows(stand), 8);
    ROW(stand, 0, "", "head", "H-00028", "Plover 7", "", "2042-7", "2026-03-02");
    ROW(stand, 3, "B1", "shaft", "S-0002Q", "Alder 110", "S", "2042-4h", "2026-03-02");
    ROW(stand, 6, "", "no head yet", "", "", "", "2042-9", "");
    ROW(stand, 7, "", "no shaft yet", "", "Alder 110", "S", "2042-9", "");
    stand_see(stand, "Parts that no club has been given yet: 2.");
    stand_scan(stand, "B1");
    assert_int_equal(rows(stand), 3);
    stand_list(stand, DESK_LIST_PICK, "", "", "");
    assert_int_equal(rows(stand), 8); // of 2041 too; the club without a day is not in it
    stand_list(stand, DESK_LIST_PICK, "2099", "", "");
    stand_see(stand, "Nothing is to be fetched.");
}

static void a_long_pick_list_has_pages(void **state) {
    struct stand *stand = *state;
    fixture_wish(stand->fixture.store);
    fixture_exec(stand->fixture.store->db, "UPDATE club SET due = '2026-05-05'");
    stand_list(stand, DESK_LIST_PICK, "", "", "");
    assert_int_equal(rows(stand), 12);
    ROW(stand, 11, "", "no head yet", "", "", "", "2042-9", "2026-05-05");
    stand_key(stand, "PgDn");
    assert_int_equal(rows(stand), 4); // 7 heads, 4 shafts, a head and 4 shafts that lack
    ROW(stand, 0, "", "no shaft yet", "", "Alder 110", "S", "2042-9", "2026-05-05");
    ROW(stand, 3, "", "no shaft yet", "", "Alder 110", "S", "2050-9", "2026-05-05");
}

// --- what is left and what is lost ---------------------------------------------------------------

static void offcuts_of_what_was_chosen(void **state) {
    struct stand *stand = *state;
    fixture_exec(stand->fixture.store->db,
                 "UPDATE shaft SET life = 'cut', remaining = 900000000, club = NULL WHERE ticket = "
                 "'S-0002Q'; UPDATE shaft SET life = 'scrap', remaining = 508000000, club = NULL "
                 "WHERE ticket = 'S-0003O'");
    stand_list(stand, DESK_LIST_STOCK, "", "", "");
    stand_action(stand, ACTION_ROW, 0);
    stand_key(stand, "F6");
    stand_at(stand, "LIST OFFCUTS");
    stand_see(stand, "What is left of Alder 110 S");
    assert_int_equal(rows(stand), 2);
    ROW(stand, 0, "S-0003O", "20", "B1", "scrap");
    ROW(stand, 1, "S-0002Q", "35.4331", "B1", "cut");
    stand_list(stand, DESK_LIST_OFFCUTS, "shaft", "Reed 60", "R");
    stand_see(stand, "Nothing is left of such shafts.");
}

// A shaft of 46 in, cut at its tip by an inch and then too short for its club.
static void an_offcut_is_a_shaft_again(void **state) {
    struct stand *stand = *state;
    fixture_bring(&stand->fixture, 1, STAGE_DECISION);
    struct entry entry = fixture_entry(&stand->fixture, ENTRY_DECIDE, 1);
    entry.refers = fixture_club(&stand->fixture, 1).progress.decision_seq;
    strcpy(entry.cause, "scrap");
    strcpy(entry.note, "too short by an inch");
    assert_int_equal(store_append(stand->fixture.store, &entry), STORE_OK);
    stand_list(stand, DESK_LIST_OFFCUTS, "shaft", "Reed 60", "R");
    assert_int_equal(rows(stand), 1);
    ROW(stand, 0, "S-0001S", "35", "A1", "scrap"); // measured at 35 in
    stand_action(stand, ACTION_ROW, 0);
    stand_key(stand, "F4");
    stand_at(stand, "FORM OFFCUT ticket");
    assert_string_equal(stand_cell(stand, "ticket"), "S-0008E");
    assert_string_equal(stand_cell(stand, "raw_length"), "35");
    assert_string_equal(stand_cell(stand, "tip_cut"), "1");
    assert_string_equal(stand_cell(stand, "model"), "Reed 60");
    stand_fill(stand, "raw_length", "35 3/16");
    stand_key(stand, "F4");
    stand_see(stand, "Length now: longer than the 35 in that were left. Measure again.");
    assert_int_equal(stand_number(stand, "SELECT count(*) FROM log WHERE kind = 'change'"), 0);
    stand_fill(stand, "raw_length", "");
    stand_key(stand, "F4");
    stand_see(stand, "Length now: measure what is left.");
    stand_fill(stand, "raw_length", "34 15/16");
    stand_fill(stand, "weight_g", "47.5");
    stand->save = SAVE_UNKNOWN_THERE;
    stand_key(stand, "F4");
    stand_key(stand, "F4");
    stand_see(stand, "S-0008E: Saved, entry ");
    assert_string_equal(stand->deed_of, "S-0008E");
    assert_int_equal(stand_number(stand, "SELECT count(*) FROM log WHERE kind = 'change'"), 1);
    assert_int_equal(stand_number(stand, "SELECT tip_cut FROM shaft WHERE from_shaft = 'S-0001S' "
                                         "AND ticket = 'S-0008E' AND life = 'raw'"),
                     LENGTH_INCH);
    stand_at(stand, "LIST OFFCUTS");
    assert_int_equal(rows(stand), 0);                          // it is one shaft, not two
    stand_form_of(stand, DESK_FORM_OFFCUT, "S-0007G", "", ""); // raw: nothing is left of it
    stand_see(stand, "There is nothing of the kind any more.");
}

static void decide(struct stand *stand, int64_t club, const char *cause, int64_t wall_ms) {
    fixture_bring(&stand->fixture, club, STAGE_DECISION);
    struct entry entry = fixture_entry(&stand->fixture, ENTRY_DECIDE, club);
    entry.refers = fixture_club(&stand->fixture, club).progress.decision_seq;
    strcpy(entry.worker, SUPERVISOR);
    strcpy(entry.cause, cause);
    strcpy(entry.note, "too short by an inch");
    entry.wall_ms = wall_ms;
    assert_int_equal(store_append(stand->fixture.store, &entry), STORE_OK);
}

static void scrap_is_counted_on_the_day_of_the_decision(void **state) {
    struct stand *stand = *state;
    decide(stand, 1, "scrap", stand->wall_ms - 86400000);
    decide(stand, 2, "scrap", stand->wall_ms);
    decide(stand, 3, "use", stand->wall_ms);
    stand_list(stand, DESK_LIST_SCRAP, "", "", "");
    stand_see(stand, "2026-11-01 to 2026-11-30");
    assert_int_equal(rows(stand), 1);
    ROW(stand, 0, "too short", "scrapped", "others", "", "2");
    stand_see(stand, "Shafts lost: 2.");
    stand_scan(stand, "2026-11-29");
    stand_see(stand, "Shafts lost: 1.");
    stand_scan(stand, "2026-11-01/2026-11-28");
    assert_int_equal(rows(stand), 0);
    stand_see(stand, "Shafts lost: 0.");
    stand_scan(stand, "yesterday");
    stand_see(stand, "These are no days.");
    stand_scan(stand, "2026-11-30/2026-11-29");
    stand_see(stand, "These are no days.");
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, stand_open, stand_close)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(lists_deliveries_newest_first), TEST(a_delivery_goes_on_over_pages),
        TEST(stock_says_what_is_short),      TEST(a_level_is_set_and_changed),
        TEST(a_head_has_a_level_too),        TEST(a_pick_list_by_rack),
        TEST(a_long_pick_list_has_pages),    TEST(offcuts_of_what_was_chosen),
        TEST(an_offcut_is_a_shaft_again),    TEST(scrap_is_counted_on_the_day_of_the_decision),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

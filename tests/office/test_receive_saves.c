// What becomes of a part when it cannot be saved, or nobody can say whether it was.

#include "stand.h"

static int64_t changes(struct stand *stand) {
    return stand_number(stand, "SELECT count(*) FROM log WHERE kind = 'change'");
}

static void ready(struct stand *stand) {
    stand_form(stand, DESK_FORM_TAKE_HEADS);
    stand_fill(stand, "model", "Heron 3");
    stand_fill(stand, "weight_g", "210.5");
    stand_fill(stand, "bore_height", "1 1/8");
}

static void all_there(struct stand *stand) {
    assert_string_equal(stand_cell(stand, "model"), "Heron 3");
    assert_string_equal(stand_cell(stand, "weight_g"), "210.5");
    assert_string_equal(stand_cell(stand, "bore_height"), "1 1/8");
}

static void a_disk_that_fails_loses_nothing(void **state) {
    struct stand *stand = *state;
    int64_t before = changes(stand);
    ready(stand);
    stand->save = SAVE_FAILS;
    stand_key(stand, "F4");
    stand_see(stand, "NOT SAVED");
    all_there(stand);
    assert_int_equal(changes(stand), before);
    assert_int_equal(stand->deeds, 0); // no label of what is not there
    stand_key(stand, "F4");
    stand_see(stand, "H-00060: Saved");
    assert_int_equal(changes(stand), before + 1);
}

static void unknown_and_there_is_saved_once(void **state) {
    struct stand *stand = *state;
    int64_t before = changes(stand);
    ready(stand);
    stand->save = SAVE_UNKNOWN_THERE;
    stand_key(stand, "F4");
    stand_see(stand, "Nobody can say whether it was saved.");
    all_there(stand);
    assert_int_equal(changes(stand), before + 1);
    stand_key(stand, "F4");
    stand_see(stand, "H-00060: Saved"); // the same, and its label now
    assert_int_equal(changes(stand), before + 1);
    assert_int_equal(stand->deeds, 1);
    assert_string_equal(stand_cell(stand, "ticket"), "H-0007Z");
}

static void unknown_and_lost_is_saved_then(void **state) {
    struct stand *stand = *state;
    int64_t before = changes(stand);
    ready(stand);
    stand->save = SAVE_UNKNOWN_LOST;
    stand_key(stand, "F4");
    stand_see(stand, "Nobody can say whether it was saved.");
    assert_int_equal(changes(stand), before);
    stand_key(stand, "F4");
    assert_int_equal(changes(stand), before + 1);
}

// Somebody whose badge was withdrawn meanwhile.
static void what_the_store_refuses_stays_in_the_form(void **state) {
    struct stand *stand = *state;
    int64_t before = changes(stand);
    ready(stand);
    strcpy(stand->desk.worker.badge, "W-9Z");
    stand_key(stand, "F4");
    stand_see(stand, "Nobody here has badge");
    all_there(stand);
    assert_int_equal(changes(stand), before);
    assert_int_equal(stand_number(stand, "SELECT count(*) FROM head WHERE ticket = 'H-00060'"), 0);
    strcpy(stand->desk.worker.badge, BUILDER);
    stand_key(stand, "F4");
    assert_int_equal(changes(stand), before + 1);
}

static void two_desks_with_the_same_number(void **state) {
    struct stand *stand = *state;
    ready(stand);
    fixture_exec(stand->fixture.store->db,
                 "INSERT INTO head (ticket, model) VALUES ('H-00060', 'Plover 7')");
    stand_key(stand, "F4");
    stand_see(stand, "H-0007Z: Saved");
    assert_string_equal(stand->deed_of, "H-0007Z");
    assert_int_equal(stand_number(stand, "SELECT weight FROM head WHERE ticket = 'H-0007Z'"),
                     210500);
    assert_int_equal(
        stand_number(stand, "SELECT count(*) FROM head WHERE model = 'Heron 3' AND lot <> ''"), 1);
}

static void a_printer_that_fails_is_said_beside_what_was_saved(void **state) {
    struct stand *stand = *state;
    ready(stand);
    stand->printer_fails = true;
    stand_key(stand, "F4");
    stand_see(stand, "H-00060: Saved, entry ");
    stand_see(stand, "Not printed: no paper.");
    assert_int_equal(stand_view(stand)->band_tone, TONE_CAUTION);
}

static void no_numbers_left_a_ticket_is_scanned(void **state) {
    struct stand *stand = *state;
    fixture_exec(stand->fixture.store->db,
                 "UPDATE ticket_number SET number = 999999999999 WHERE kind = 'H'");
    ready(stand);
    assert_string_equal(stand_cell(stand, "ticket"), "");
    stand_key(stand, "F4");
    assert_int_equal(stand->deeds, 0);
    stand_scan(stand, "H-A18");
    stand_key(stand, "F4");
    stand_see(stand, "H-A18: Saved");
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, stand_open, stand_close)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(a_disk_that_fails_loses_nothing),
        TEST(unknown_and_there_is_saved_once),
        TEST(unknown_and_lost_is_saved_then),
        TEST(what_the_store_refuses_stays_in_the_form),
        TEST(two_desks_with_the_same_number),
        TEST(a_printer_that_fails_is_said_beside_what_was_saved),
        TEST(no_numbers_left_a_ticket_is_scanned),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

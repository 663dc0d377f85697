// Taking in heads and shafts one after the other: the scale, codes, tapes, what is unlike its
// model, a run of forty.

#include "stand.h"

#include <stdio.h>

#define GTIN_HERON "2004100001019"
#define GTIN_REED "2004100001026"
#define GTIN_NOBODY "2004100001033"

static int with_codes(void **state) {
    stand_open(state);
    struct stand *stand = *state;
    fixture_exec(stand->fixture.store->db,
                 "INSERT INTO supplier_code (gtin, head_model, shaft_model, flex) VALUES "
                 "('02004100001019', 'Heron 3', NULL, ''), ('02004100001026', NULL, 'Reed 60', "
                 "'R')");
    return 0;
}

static int64_t heads(struct stand *stand) {
    return stand_number(stand, "SELECT count(*) FROM head");
}

static int64_t changes(struct stand *stand) {
    return stand_number(stand, "SELECT count(*) FROM log WHERE kind = 'change'");
}

static void says(struct stand *stand, const char *sql, const char *text) {
    sqlite3_stmt *statement;
    assert_int_equal(sqlite3_prepare_v2(stand->fixture.store->db, sql, -1, &statement, NULL),
                     SQLITE_OK);
    assert_int_equal(sqlite3_step(statement), SQLITE_ROW);
    assert_string_equal((const char *)sqlite3_column_text(statement, 0), text);
    sqlite3_finalize(statement);
}

// --- heads ---------------------------------------------------------------------------------------

static void takes_a_head_by_code_and_scale(void **state) {
    struct stand *stand = *state;
    stand_form(stand, DESK_FORM_TAKE_HEADS);
    stand_at(stand, "FORM TAKE_HEADS model");
    assert_string_equal(stand_cell(stand, "ticket"), "H-00060"); // after H-00052
    assert_string_equal(stand_cell(stand, "lot"), "2026-11-30");
    stand_scan(stand, GTIN_HERON);
    assert_string_equal(stand_cell(stand, "model"), "Heron 3");
    stand_at(stand, "FORM TAKE_HEADS weight_g");
    stand_weigh(stand, 211400, true);
    assert_string_equal(stand_cell(stand, "weight_g"), "211.4");
    stand_enter_key(stand);
    stand_at(stand, "FORM TAKE_HEADS dry_fit_overall");
    stand_type(stand, "47.125\n46\n"); // and with that the bore height is known: saved
    stand_see(stand, "H-00060: Saved, entry ");
    stand_see(stand, "1 label.");
    assert_int_equal(stand->deeds, 1);
    assert_int_equal(stand->deed, DESK_DEED_PART_TICKET);
    assert_string_equal(stand->deed_of, "H-00060");
    says(stand,
         "SELECT model || ' ' || weight || ' ' || bore_height || ' ' || lot FROM head "
         "WHERE ticket = 'H-00060'",
         "Heron 3 211400 28575000 2026-11-30");
    says(stand, "SELECT worker FROM log ORDER BY seq DESC LIMIT 1", BUILDER);
    // The next one: what is common stays, what was measured does not.
    stand_at(stand, "FORM TAKE_HEADS weight_g");
    assert_string_equal(stand_cell(stand, "model"), "Heron 3");
    assert_string_equal(stand_cell(stand, "lot"), "2026-11-30");
    assert_string_equal(stand_cell(stand, "weight_g"), "");
    assert_string_equal(stand_cell(stand, "bore_height"), "");
    assert_string_equal(stand_cell(stand, "dry_fit_raw"), "");
    assert_string_equal(stand_cell(stand, "ticket"), "H-0007Z");
}

static void the_delivery_named_otherwise_stays(void **state) {
    struct stand *stand = *state;
    stand_form(stand, DESK_FORM_TAKE_HEADS);
    stand_scan(stand, GTIN_HERON);
    stand_fill(stand, "lot", "Crate 12");
    stand_fill(stand, "weight_g", "210");
    stand_key(stand, "F4");
    assert_string_equal(stand_cell(stand, "lot"), "Crate 12");
    assert_int_equal(stand_number(stand, "SELECT heads FROM lot WHERE name = 'Crate 12'"), 1);
}

// The whole of a crate, each by one key once it lies still.
static void forty_heads_in_a_run(void **state) {
    struct stand *stand = *state;
    int64_t before = heads(stand);
    stand_form(stand, DESK_FORM_TAKE_HEADS);
    stand_scan(stand, GTIN_HERON);
    for (int i = 0; i < 40; i++) {
        stand_weigh(stand, 209000 + 50 * i, false);
        stand_weigh(stand, 209000 + 50 * i, true);
        stand_key(stand, "F4");
        stand_see(stand, ": Saved, entry ");
        stand_weigh(stand, 0, true);
    }
    assert_int_equal(heads(stand), before + 40);
    assert_int_equal(stand->deeds, 40);
    assert_int_equal(stand_number(stand, "SELECT count(DISTINCT weight) FROM head WHERE lot <> ''"),
                     40);
    stand_see(stand, "Of this model in delivery 2026-11-30 so far: 40.");
    // 209.0 to 210.95 in steps of 0.05: mean 209.975; the deviation of 40 equal steps is the step
    // times the square root of n (n + 1) / 12, 11.69 steps, by hand.
    stand_see(stand, "Weight of 40 heads: mean 210.0 g, standard deviation 0.58 g.");
}

// --- the scale -----------------------------------------------------------------------------------

static void only_what_lies_still_counts(void **state) {
    struct stand *stand = *state;
    stand_form(stand, DESK_FORM_TAKE_HEADS);
    stand_weigh(stand, 211400, true); // the model is asked for, no weight
    assert_string_equal(stand_cell(stand, "model"), "");
    assert_string_equal(stand_cell(stand, "weight_g"), "");
    stand_weigh(stand, 150000, false);
    stand_scan(stand, GTIN_HERON);
    assert_string_equal(stand_cell(stand, "weight_g"), "");
    assert_string_equal(stand_unit(stand, "Weight"), "150 g, still moving");
    stand_weigh(stand, 211400, true);
    assert_string_equal(stand_cell(stand, "weight_g"), "211.4");
    stand_weigh(stand, 211500, false);
    assert_string_equal(stand_cell(stand, "weight_g"), "");
    stand_weigh(stand, 211300, true);
    assert_string_equal(stand_cell(stand, "weight_g"), "211.3");
    stand_weigh(stand, 0, true);
    assert_string_equal(stand_cell(stand, "weight_g"), "");
    assert_string_equal(stand_unit(stand, "Weight"), "g, or from the scale");
    stand_weigh(stand, 4999, true); // dust
    assert_string_equal(stand_cell(stand, "weight_g"), "");
    stand_weigh(stand, MASS_UNKNOWN, false);
    assert_string_equal(stand_cell(stand, "weight_g"), "");
}

static void the_weight_is_there_before_the_field_is(void **state) {
    struct stand *stand = *state;
    stand_weigh(stand, 210200, true);
    stand_form(stand, DESK_FORM_TAKE_HEADS);
    stand_scan(stand, GTIN_HERON);
    assert_string_equal(stand_cell(stand, "weight_g"), "210.2");
}

static void what_was_typed_is_left_alone(void **state) {
    struct stand *stand = *state;
    stand_form(stand, DESK_FORM_TAKE_HEADS);
    stand_scan(stand, GTIN_HERON);
    stand_type(stand, "20");
    stand_weigh(stand, 211400, true);
    assert_string_equal(stand_cell(stand, "weight_g"), "20");
    stand_type(stand, "9\n");
    stand_weigh(stand, 205000, true);
    assert_string_equal(stand_cell(stand, "weight_g"), "209");
    // Rubbed out it is weighed anew, and what the scale said can be typed over.
    stand_action(stand, ACTION_FIELD, 2);
    stand_type(stand, "\b\b\b\b");
    assert_string_equal(stand_cell(stand, "weight_g"), "");
    stand_weigh(stand, 205100, true);
    assert_string_equal(stand_cell(stand, "weight_g"), "205.1");
    stand_type(stand, "207");
    assert_string_equal(stand_cell(stand, "weight_g"), "207");
}

// The head before still lies there when the next one is begun.
static void one_weight_is_of_one_head(void **state) {
    struct stand *stand = *state;
    stand_form(stand, DESK_FORM_TAKE_HEADS);
    stand_scan(stand, GTIN_HERON);
    stand_weigh(stand, 211400, true);
    stand_key(stand, "F4");
    assert_string_equal(stand_cell(stand, "weight_g"), "");
    assert_string_equal(stand_unit(stand, "Weight"), "g. Take the last one off");
    stand_weigh(stand, 211500, true); // a draught
    stand_weigh(stand, 216399, true);
    assert_string_equal(stand_cell(stand, "weight_g"), "");
    stand_weigh(stand, 216400, true); // 5 g: another
    assert_string_equal(stand_cell(stand, "weight_g"), "216.4");
}

static void a_weight_that_was_taken_stays(void **state) {
    struct stand *stand = *state;
    stand_form(stand, DESK_FORM_TAKE_HEADS);
    stand_scan(stand, GTIN_HERON);
    stand_weigh(stand, 211400, true);
    stand_enter_key(stand);
    stand_weigh(stand, 0, true); // taken off for the dry fit
    stand_action(stand, ACTION_FIELD, 2);
    stand_at(stand, "FORM TAKE_HEADS weight_g");
    assert_string_equal(stand_cell(stand, "weight_g"), "211.4");
}

// --- unlike its model ----------------------------------------------------------------------------

static void a_head_unlike_its_model_needs_a_reason(void **state) {
    struct stand *stand = *state;
    int64_t before = changes(stand);
    stand_form(stand, DESK_FORM_TAKE_HEADS);
    stand_scan(stand, GTIN_HERON);
    stand_type(stand, "216.4");
    stand_key(stand, "F4");
    stand_see(stand, "Weight: 6.4 g off its model's 210 g. Weigh again, or write why.");
    assert_int_equal(changes(stand), before);
    assert_int_equal(stand->deeds, 0);
    stand_fill(stand, "why", "  ");
    stand_key(stand, "F4");
    assert_int_equal(changes(stand), before); // blanks are no reason
    stand_fill(stand, "why", "heavier batch, see the box");
    stand_see(stand, "6.4 g off its model's 210 g. It is saved with the reason.");
    stand_key(stand, "F4");
    assert_int_equal(changes(stand), before + 1);
    says(stand, "SELECT note FROM log ORDER BY seq DESC LIMIT 1", "heavier batch, see the box");
    assert_string_equal(stand_cell(stand, "why"), ""); // of that one alone
    stand_see(stand, "1 out of family");
}

static void six_grams_are_asked_about_and_less_is_not(void **state) {
    struct stand *stand = *state;
    static const struct {
        const char *weight;
        bool asked;
    } cases[] = {{"204.001", false}, {"204", true}, {"215.999", false}, {"216", true}};
    stand_form(stand, DESK_FORM_TAKE_HEADS);
    stand_scan(stand, GTIN_HERON);
    for (size_t i = 0; i < COUNT(cases); i++) {
        stand_fill(stand, "weight_g", cases[i].weight);
        assert_int_equal(stand_sees(stand, "Weigh again, or write why."), cases[i].asked);
    }
}

static void a_head_that_is_not_weighed_needs_a_reason(void **state) {
    struct stand *stand = *state;
    int64_t before = changes(stand);
    stand_form(stand, DESK_FORM_TAKE_HEADS);
    stand_scan(stand, GTIN_HERON);
    assert_false(stand_sees(stand, "not weighed")); // not before it is to be saved
    stand_key(stand, "F4");
    stand_see(stand, "Weight: not weighed. Weigh it, or write why.");
    assert_int_equal(changes(stand), before);
    stand_fill(stand, "why", "scale at the doctor's");
    stand_key(stand, "F4");
    assert_int_equal(changes(stand), before + 1);
}

// --- shafts --------------------------------------------------------------------------------------

static void takes_a_shaft_with_a_tape_that_types(void **state) {
    struct stand *stand = *state;
    stand_form(stand, DESK_FORM_TAKE_SHAFTS);
    assert_string_equal(stand_cell(stand, "ticket"), "S-0008E"); // after S-0007G
    stand_scan(stand, GTIN_REED);
    assert_string_equal(stand_cell(stand, "model"), "Reed 60");
    assert_string_equal(stand_cell(stand, "flex"), "R");
    stand_at(stand, "FORM TAKE_SHAFTS rack");
    stand_type(stand, "A3\n");
    stand_at(stand, "FORM TAKE_SHAFTS raw_length");
    stand_scan(stand, "46.0625"); // as quick as a scanner
    stand_at(stand, "FORM TAKE_SHAFTS weight_g");
    assert_string_equal(stand_cell(stand, "raw_length"), "46 1/16");
    stand_weigh(stand, 62700, true);
    stand_enter_key(stand);
    stand_see(stand, "S-0008E: Saved, entry ");
    says(stand,
         "SELECT raw_length || ' ' || weight || ' ' || rack || flex FROM shaft "
         "WHERE ticket = 'S-0008E'",
         "1169987500 62700 A3R");
    stand_at(stand, "FORM TAKE_SHAFTS raw_length"); // the rack is kept
    assert_string_equal(stand_cell(stand, "rack"), "A3");
    assert_string_equal(stand_cell(stand, "flex"), "R");
    stand_type(stand, "1168.4 mm\n"); // and as slowly as a hand
    assert_string_equal(stand_cell(stand, "raw_length"), "46");
}

// What a tape or a scanner sends is never the word to save.
static void a_scan_alone_saves_nothing(void **state) {
    struct stand *stand = *state;
    int64_t before = changes(stand);
    stand_form(stand, DESK_FORM_TAKE_SHAFTS);
    stand_scan(stand, GTIN_REED);
    stand_fill(stand, "rack", "A3");
    stand_fill(stand, "weight_g", "62.5");
    stand_action(stand, ACTION_FIELD, 4);
    stand_at(stand, "FORM TAKE_SHAFTS raw_length");
    stand_scan(stand, "46"); // the last that was empty
    stand_see(stand, "Enter saves it.");
    assert_int_equal(changes(stand), before);
    stand_enter_key(stand);
    assert_int_equal(changes(stand), before + 1);
}

static void a_shaft_unlike_its_model(void **state) {
    struct stand *stand = *state;
    int64_t before = changes(stand);
    stand_form(stand, DESK_FORM_TAKE_SHAFTS);
    stand_scan(stand, GTIN_REED);
    stand_key(stand, "F4");
    stand_see(stand, "Raw length: not measured. Measure it, or write why.");
    stand_fill(stand, "raw_length", "45 33/64"); // 31/64 off
    assert_false(stand_sees(stand, "write why"));
    stand_fill(stand, "raw_length", "45 1/2");
    stand_see(stand, "Raw length: 1/2 in off its model's 46 in. Measure again, or write why.");
    stand_key(stand, "F4");
    assert_int_equal(changes(stand), before);
    stand_fill(stand, "raw_length", "46");
    stand_fill(stand, "weight_g", "65.625"); // 5 % of 62.5 g is 3.125 g
    assert_false(stand_sees(stand, "more than 5 %"));
    stand_fill(stand, "weight_g", "65.626");
    stand_see(stand, "Weight 3.126 g off its model's 62.5 g, more than 5 %.");
    stand_key(stand, "F4"); // said, and no hindrance
    assert_int_equal(changes(stand), before + 1);
}

// --- codes ---------------------------------------------------------------------------------------

static void a_code_goes_where_it_belongs(void **state) {
    struct stand *stand = *state;
    stand_form(stand, DESK_FORM_TAKE_HEADS);
    stand_scan(stand, GTIN_HERON);
    stand_at(stand, "FORM TAKE_HEADS weight_g");
    stand_scan(stand, "H-00881"); // a roll printed before
    assert_string_equal(stand_cell(stand, "ticket"), "H-00881");
    assert_string_equal(stand_cell(stand, "weight_g"), "");
    stand_at(stand, "FORM TAKE_HEADS weight_g");
    stand_fill(stand, "model", "Plover 7");
    stand_action(stand, ACTION_FIELD, 2);
    stand_scan(stand, GTIN_HERON);
    assert_string_equal(stand_cell(stand, "model"), "Heron 3");
    stand_weigh(stand, 210000, true);
    stand_key(stand, "F4");
    stand_see(stand, "H-00881: Saved, entry ");
}

static void codes_of_something_else(void **state) {
    struct stand *stand = *state;
    int64_t before = changes(stand);
    stand_form(stand, DESK_FORM_TAKE_HEADS);
    stand_scan(stand, GTIN_NOBODY);
    stand_see(stand, "Model: no model here has this barcode. Choose the model by its name.");
    stand_scan(stand, GTIN_REED);
    stand_see(stand, "Model: this barcode is of shafts, Reed 60. Take them in as shafts.");
    stand_fill(stand, "model", "Heron 3");
    stand_fill(stand, "weight_g", "210");
    stand_scan(stand, "S-0099D");
    stand_key(stand, "F4");
    stand_scan(stand, "H-0001A"); // there already, and of no run
    stand_key(stand, "F4");
    stand_see(stand, "Ticket: another part has this ticket. Scan another.");
    stand_form(stand, DESK_FORM_TAKE_SHAFTS);
    stand_scan(stand, GTIN_HERON);
    stand_see(stand, "Model: this barcode is of heads, Heron 3. Take them in as heads.");
    assert_int_equal(changes(stand), before);
}

static void bad_input_is_named_and_nothing_is_lost(void **state) {
    struct stand *stand = *state;
    static const struct {
        const char *cell;
        const char *text;
        const char *right;
        const char *label;
    } cases[] = {
        {"model", "Nobody's", "Heron 3", "Model: "},
        {"weight_g", "2l0", "210", "Weight: "},
        {"weight_g", "-3", "210", "Weight: "},
        {"weight_g", "21000", "210", "Weight: "},
        {"bore_height", "1 1/7", "1 1/8", "or bore height: "},
        {"bore_height", "5", "1 1/8", "or bore height: "},
        {"ticket", "H-0099X", "H-00060", "Ticket: "},
        {"ticket", "", "H-00060", "Ticket: "},
        {"lot", "a delivery with a name that is too long", "Crate", "Delivery: "},
    };
    int64_t before = changes(stand);
    stand_form(stand, DESK_FORM_TAKE_HEADS);
    stand_fill(stand, "model", "Heron 3");
    stand_fill(stand, "weight_g", "210");
    stand_fill(stand, "bore_height", "1 1/8");
    for (size_t i = 0; i < COUNT(cases); i++) {
        stand_fill(stand, cases[i].cell, cases[i].text);
        stand_key(stand, "F4");
        if (strncmp(stand_view(stand)->band, cases[i].label, strlen(cases[i].label)) != 0) {
            fail_msg("%s: the band says %s", cases[i].text, stand_view(stand)->band);
        }
        assert_int_equal(changes(stand), before);
        assert_string_equal(stand_cell(stand, cases[i].cell), cases[i].text);
        stand_fill(stand, cases[i].cell, cases[i].right);
    }
    stand_key(stand, "F4");
    assert_int_equal(changes(stand), before + 1);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, with_codes, stand_close)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(takes_a_head_by_code_and_scale),
        TEST(the_delivery_named_otherwise_stays),
        TEST(forty_heads_in_a_run),
        TEST(only_what_lies_still_counts),
        TEST(the_weight_is_there_before_the_field_is),
        TEST(what_was_typed_is_left_alone),
        TEST(one_weight_is_of_one_head),
        TEST(a_weight_that_was_taken_stays),
        TEST(a_head_unlike_its_model_needs_a_reason),
        TEST(six_grams_are_asked_about_and_less_is_not),
        TEST(a_head_that_is_not_weighed_needs_a_reason),
        TEST(takes_a_shaft_with_a_tape_that_types),
        TEST(a_scan_alone_saves_nothing),
        TEST(a_shaft_unlike_its_model),
        TEST(a_code_goes_where_it_belongs),
        TEST(codes_of_something_else),
        TEST(bad_input_is_named_and_nothing_is_lost),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

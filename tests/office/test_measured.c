// What is measured after assembly, in its form and its list, and what a supervisor accepts.
//
// Club 7 of order 2042: 37 in of playing length. Tolerances: common practice, no source.

#include "builds.h"
#include "shop.h"

#include <stdio.h>

static int opened(void **state) {
    static struct shop shop;
    shop_open(&shop);
    shop.settings.finals = (struct assembly_tolerance)ASSEMBLY_TOLERANCE_DEFAULT;
    *state = &shop;
    return 0;
}

static int closed(void **state) {
    shop_close(*state);
    return 0;
}

static struct final_values values_of(const struct shop *shop) {
    struct final_values values;
    assert_int_equal(store_final_values(shop->fixture.store, 3, &values), STORE_OK);
    return values;
}

static struct desk_draft measured(struct shop *shop) {
    return shop_draft(shop, DESK_FORM_MEASURED, "2042", "7", NULL);
}

static enum desk_result saves(struct shop *shop, struct desk_draft *draft, const char *words) {
    struct desk_said said = {0};
    enum desk_result result = shop->ops.save(shop->ops.ctx, &shop->who, draft, &said);
    if (strstr(said.message, words) == NULL) {
        fail_msg("%s", said.message);
    }
    return result;
}

static void what_was_measured_is_an_entry_each(void **state) {
    struct shop *shop = *state;
    fixture_bring(&shop->fixture, 3, STAGE_DONE);
    int64_t before = shop_entries(shop);
    struct desk_draft draft = shop_draft(shop, DESK_FORM_MEASURED, "2042", "7", NULL);
    shop_set(&draft, "length", "37 1/4");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    assert_int_equal(remarks.note_tone[0], TONE_STOP); // 1/4 in off, 1/8 in is allowed
    shop_set(&draft, "length", "37 1/8");
    remarks = shop_consider(shop, &draft);
    shop_expect_note(&remarks, 0, TONE_FINE, "Length: planned 37 in, up to 1/8 in off");
    shop_set(&draft, "frequency", "301.5");
    shop_save(shop, &draft);
    assert_int_equal(shop_entries(shop), before + 2);
    struct final_values values;
    assert_int_equal(store_final_values(shop->fixture.store, 3, &values), STORE_OK);
    assert_int_equal(values.length, 297 * LENGTH_INCH / 8);
    assert_int_equal(values.frequency, 3015);
    // It stands in the form again, and saved unchanged it writes nothing.
    draft = shop_draft(shop, DESK_FORM_MEASURED, "2042", "7", NULL);
    assert_string_equal(document_value(&draft.now, "frequency"), "301.5");
    struct desk_said said = {0};
    assert_int_equal(shop->ops.save(shop->ops.ctx, &shop->who, &draft, &said), DESK_DONE);
    assert_int_equal(shop_entries(shop), before + 2);
    shop_set(&draft, "frequency", "");
    remarks = shop_consider(shop, &draft);
    shop_expect_complaint(&remarks, "frequency", "what was measured stays");
}

static void nothing_is_measured_on_a_club_that_is_not_cut(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = shop_draft(shop, DESK_FORM_MEASURED, "2042", "7", NULL);
    shop_set(&draft, "length", "37");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_complaint(&remarks, "", "not cut yet");
    struct desk_said said = {0};
    assert_int_equal(shop->ops.save(shop->ops.ctx, &shop->who, &draft, &said), DESK_REFUSED);
}

// Whether one of the notes has this tone and text.
static bool told(size_t count, const char notes[][VIEW_TEXT_MAX], const enum view_tone *tones,
                 enum view_tone tone, const char *text) {
    for (size_t i = 0; i < count; i++) {
        if (tones[i] == tone && strcmp(notes[i], text) == 0) {
            return true;
        }
    }
    return false;
}

static const char *state_of(struct shop *shop, struct desk_table *table) {
    struct desk_query query = {.list = DESK_LIST_ASSEMBLY, .has_selected = true};
    strcpy(query.of.key[0], "2042");
    strcpy(query.selected.key[0], "2042");
    strcpy(query.selected.key[1], "7");
    memset(table, 0, sizeof *table);
    assert_int_equal(shop->ops.list(shop->ops.ctx, &query, table), DESK_DONE);
    for (size_t i = 0; i < table->set.row_count; i++) {
        if (strcmp(table->set.row[i].cell[0], "2042-7") == 0) {
            return table->set.row[i].cell[6];
        }
    }
    fail_msg("2042-7 is not in the list");
    return "";
}

static void what_is_out_is_used_on_a_supervisors_word(void **state) {
    static struct desk_table table;
    struct shop *shop = *state;
    struct worker supervisor = shop->who;
    fixture_bring(&shop->fixture, 3, STAGE_DONE);
    shop->settings.finals.wanted = 1u << ASSEMBLY_LENGTH;
    int64_t before = shop_entries(shop);
    struct desk_draft draft = measured(shop);
    shop_set(&draft, "length", "37 1/4");
    shop_set(&draft, "frequency", "301.5");
    shop_save(shop, &draft);
    assert_string_equal(state_of(shop, &table), "open");
    // A builder may not, whatever the screen let through.
    assert_int_equal(store_worker(shop->fixture.store, BUILDER, &shop->who), STORE_OK);
    draft = measured(shop);
    shop_set(&draft, "accept", "the customer is tall");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_complaint(&remarks, "accept", "a supervisor's badge and PIN first: F9");
    assert_int_equal(saves(shop, &draft, "Only a supervisor"), DESK_REFUSED);
    shop_set(&draft, "swingweight", "D2"); // nor does what was measured with it go in alone
    assert_int_equal(saves(shop, &draft, "Only a supervisor"), DESK_REFUSED);
    assert_int_equal(shop_entries(shop), before + 2);
    shop->who = supervisor;
    draft = measured(shop);
    shop_set(&draft, "accept", "the customer is tall");
    remarks = shop_consider(shop, &draft);
    assert_int_equal(remarks.complaint_count, 0);
    shop_save(shop, &draft);
    assert_int_equal(shop_entries(shop), before + 3); // of the one that is out
    assert_int_equal(values_of(shop).accepted[ASSEMBLY_LENGTH], before + 3);
    assert_string_equal(state_of(shop, &table), "done");
    const char *words = "Length: accepted by " SUPERVISOR ": the customer is tall";
    assert_true(
        told(table.set.note_count, table.set.note, table.set.note_tone, TONE_CAUTION, words));
    draft = measured(shop);
    assert_string_equal(document_value(&draft.now, "accept"), "");
    remarks = shop_consider(shop, &draft);
    assert_true(told(remarks.note_count, remarks.note, remarks.note_tone, TONE_CAUTION, words));
    shop_set(&draft, "length", "37 5/16"); // what is typed now is another value
    remarks = shop_consider(shop, &draft);
    assert_false(told(remarks.note_count, remarks.note, remarks.note_tone, TONE_CAUTION, words));
    assert_int_equal(remarks.note_tone[0], TONE_STOP);
    shop_save(shop, &draft);
    assert_string_equal(state_of(shop, &table), "open");
}

static void a_new_value_is_accepted_in_the_same_save(void **state) {
    struct shop *shop = *state;
    fixture_bring(&shop->fixture, 3, STAGE_DONE);
    int64_t before = shop_entries(shop);
    struct desk_draft draft = measured(shop);
    shop_set(&draft, "accept", "as it is");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    shop_expect_complaint(&remarks, "accept", "nothing is out of its tolerance");
    assert_int_equal(saves(shop, &draft, "Nothing was changed."), DESK_DONE);
    shop_set(&draft, "length", "37 1/4");
    shop_set(&draft, "frequency", "301.5"); // nothing to hold it against
    remarks = shop_consider(shop, &draft);
    assert_int_equal(remarks.complaint_count, 0);
    for (int again = 0; again < 2; again++) { // a second try of the same draft writes nothing
        assert_int_equal(saves(shop, &draft, "Saved"), DESK_DONE);
        assert_int_equal(shop_entries(shop), before + 3);
    }
    struct final_values values = values_of(shop);
    assert_int_equal(values.accepted[ASSEMBLY_LENGTH], before + 3);
    assert_int_equal(values.accepted[ASSEMBLY_FREQUENCY], 0);
    struct entry note;
    assert_int_equal(store_entry(shop->fixture.store, before + 3, &note), STORE_OK);
    assert_int_equal(note.refers, before + 1); // the length, not what stands right before
    assert_string_equal(note.cause, ENTRY_ACCEPTED);
    assert_string_equal(note.note, "as it is");
}

static void nobody_accepts_what_they_have_not_seen(void **state) {
    struct shop *shop = *state;
    fixture_bring(&shop->fixture, 3, STAGE_DONE);
    struct desk_draft first = measured(shop);
    shop_set(&first, "length", "37 1/4");
    shop_save(shop, &first);
    struct desk_draft draft = measured(shop);
    shop_set(&draft, "accept", "near enough");
    struct desk_draft other = measured(shop); // another desk
    shop_set(&other, "length", "38");
    shop_save(shop, &other);
    int64_t before = shop_entries(shop);
    assert_int_equal(saves(shop, &draft, "Length was measured again"), DESK_REFUSED);
    assert_int_equal(shop_entries(shop), before);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, opened, closed)
int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(what_was_measured_is_an_entry_each),
        TEST(nothing_is_measured_on_a_club_that_is_not_cut),
        TEST(what_is_out_is_used_on_a_supervisors_word),
        TEST(a_new_value_is_accepted_in_the_same_save),
        TEST(nobody_accepts_what_they_have_not_seen),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

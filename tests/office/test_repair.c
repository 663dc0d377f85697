// A repair in one form.
//
// Worked out by hand beside each test; sizes of bores and the rules of the plan are common
// practice.

#include "shop.h"
#include "workshop.h"

#include <stdio.h>

static struct desk_draft iron(struct shop *shop) {
    struct desk_draft draft = shop_draft(shop, DESK_FORM_REPAIR, NULL, NULL, NULL);
    shop_set(&draft, "model", "from elsewhere 7");
    shop_set(&draft, "kind", "iron");
    shop_set(&draft, "weight_g", "272");
    shop_set(&draft, "pin_goes", "0.371");
    shop_set(&draft, "pin_stops", "0.380");
    shop_set(&draft, "rod", "7");
    shop_set(&draft, "rod_outside", "5 3/4");
    shop_set(&draft, "hosel_top", "2 1/4");
    shop_set(&draft, "pieces", "18 1/2, 18");
    shop_set(&draft, "missing", "1/2");
    shop_set(&draft, "shaft", "S-0005K");
    return draft;
}

// Insertion 7 - 5 3/4 = 1 1/4; bore height 2 1/4 - 1 1/4 = 1; playing 18 1/2 + 18 + 1/2 = 37. The
// chart's 272 g column takes 2 1/2 off; 37 - 1 - 1/8 = 35 7/8 are kept.
static void what_is_measured_on_the_pieces_makes_the_club(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = iron(shop);
    int64_t before = shop_entries(shop);
    struct desk_remarks remarks = shop_consider(shop, &draft);
    if (remarks.complaint_count > 0) {
        fail_msg("%s: %s", remarks.complaint[0].cell, remarks.complaint[0].text);
    }
    assert_string_equal(document_value(&draft.now, "hosel_bore"), "0.37");
    assert_string_equal(document_value(&draft.now, "insertion"), "1 1/4");
    assert_string_equal(document_value(&draft.now, "bore_height"), "1");
    assert_string_equal(document_value(&draft.now, "playing_length"), "37");
    shop_expect_note(&remarks, 0, TONE_FINE, "Tip mark 2 1/2, butt mark 35 7/8");
    assert_int_equal(shop_entries(shop), before);
    shop_save(shop, &draft);
    assert_int_equal(shop_entries(shop), before + 4); // model, head, order, club
    int64_t id;
    struct club club;
    assert_int_equal(store_club_named(shop->fixture.store, "2043", "1", &id), STORE_OK);
    assert_int_equal(store_club(shop->fixture.store, id, &club), STORE_OK);
    assert_string_equal(club.head.model, "from elsewhere 7");
    assert_string_equal(club.shaft.ticket, "S-0005K");
    assert_int_equal(club.order.status, ORDER_RELEASED);
}

// The same club measured in millimetres. The form gives a bare length its unit when the field is
// left; pieces stand bare, and what was worked out is in inches, as the store reads it.
static void it_may_be_measured_in_millimetres(void **state) {
    struct shop *shop = *state;
    shop->settings.metric_first = true;
    struct desk_draft draft = iron(shop);
    shop_set(&draft, "rod", "177.8 mm");
    shop_set(&draft, "rod_outside", "146.05 mm");
    shop_set(&draft, "hosel_top", "57.15 mm");
    shop_set(&draft, "pieces", "469.9, 457.2");
    shop_set(&draft, "missing", "12.7 mm");
    struct desk_remarks remarks = shop_consider(shop, &draft);
    if (remarks.complaint_count > 0) {
        fail_msg("%s: %s", remarks.complaint[0].cell, remarks.complaint[0].text);
    }
    assert_string_equal(document_value(&draft.now, "insertion"), "1 1/4");
    assert_string_equal(document_value(&draft.now, "bore_height"), "1");
    assert_string_equal(document_value(&draft.now, "playing_length"), "37");
}

static enum station_save forgetful(void *ctx, struct entry *all, size_t count) {
    struct shop *shop = ctx;
    assert_int_equal(store_append_all(shop->fixture.store, all, count), STORE_OK);
    return STATION_SAVE_UNKNOWN;
}

// The answer to the commit is lost: the second try says that it was saved.
static void a_repair_saved_twice_is_there_once(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = iron(shop);
    struct desk_said said = {0};
    int64_t before = shop_entries(shop);
    shop->world.save_all = forgetful;
    assert_int_equal(shop->ops.save(shop->ops.ctx, &shop->who, &draft, &said), DESK_FAILED);
    struct desk_remarks remarks = shop_consider(shop, &draft);
    assert_int_equal(remarks.complaint_count, 0);
    assert_int_equal(shop->ops.save(shop->ops.ctx, &shop->who, &draft, &said), DESK_DONE);
    assert_non_null(strstr(said.message, "The try before has saved it"));
    assert_int_equal(said.next.which, DESK_LIST_CLUBS);
    assert_int_equal(shop_entries(shop), before + 4);
}

static void a_given_trim_stands_in_for_the_chart(void **state) {
    struct shop *shop = *state;
    struct desk_draft draft = iron(shop);
    shop_set(&draft, "kind", "hybrid"); // there is no chart for one
    struct desk_remarks remarks = shop_consider(shop, &draft);
    assert_int_equal(remarks.note_tone[0], TONE_STOP);
    assert_non_null(strstr(remarks.note[0], "No chart"));
    shop_set(&draft, "given_trim", "1");
    remarks = shop_consider(shop, &draft);
    shop_expect_note(&remarks, 0, TONE_FINE, "Tip mark 1, butt mark 35 7/8");
}

static void what_cannot_be_is_asked_again(void **state) {
    static const struct {
        const char *cell, *value, *about, *words;
    } cases[] = {
        {"pin_stops", "0.340", "hosel_bore", "thinner than the one that does not"},
        {"pin_goes", "0.300", "hosel_bore", "More than one trade size"},
        {"rod_outside", "7", "insertion", "1/2 to 3 in"},
        {"hosel_top", "5", "bore_height", "between 0 and 2 in"},
        {"pieces", "18 1/2 and 18", "pieces", "commas"},
        {"pieces", "2", "playing_length", "10 to 70 in"},
        {"missing", "some", "missing", "no length"},
        {"model", "", "model", "name the head"},
        {"weight_g", "2", "weight_g", ""},
        {"kind", "spoon", "kind", ""},
        {"shaft", "S-9999J", "shaft", ""},
        {"given_trim", "no", "given_trim", ""},
    };
    struct shop *shop = *state;
    int64_t before = shop_entries(shop);
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct desk_draft draft = iron(shop);
        struct desk_said said = {0};
        shop_set(&draft, cases[i].cell, cases[i].value);
        struct desk_remarks remarks = shop_consider(shop, &draft);
        shop_expect_complaint(&remarks, cases[i].about, cases[i].words);
        assert_int_equal(shop->ops.save(shop->ops.ctx, &shop->who, &draft, &said), DESK_REFUSED);
        assert_string_not_equal(said.message, "");
        assert_string_equal(document_value(&draft.now, cases[i].cell), cases[i].value);
    }
    assert_int_equal(shop_entries(shop), before);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, shop_opened, shop_closed)
int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(what_is_measured_on_the_pieces_makes_the_club),
        TEST(a_repair_saved_twice_is_there_once),
        TEST(it_may_be_measured_in_millimetres),
        TEST(a_given_trim_stands_in_for_the_chart),
        TEST(what_cannot_be_is_asked_again),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

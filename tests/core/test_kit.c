#include "check.h"
#include "kit.h"
#include "match_sample.h"

static struct match_sample sample;
static struct kit kit;

static void test_list(void **state) {
    (void)state;
    struct match_result result;
    match_sample_make(&sample, 2, 2);
    strcpy(sample.shaft[0].ticket, "S-0001S");
    strcpy(sample.shaft[1].ticket, "S-0002Q");
    strcpy(sample.shaft[1].rack, "B4");
    strcpy(sample.club[0].order.build, "2050");
    strcpy(sample.club[0].order.club, "5i");
    sample.club[0].id = 77;
    sample.club[0].head.weight = GRAMS(210);
    sample.club[1].head.weight = GRAMS(212);
    sample.shaft[0].weight = GRAMS(60);
    sample.shaft[1].weight = GRAMS(69);
    result = match_sample_build(&sample);
    kit_make(&sample.request, &result, &kit);
    assert_string_equal(kit.build, "2050");
    assert_int_equal(kit.count, 2);
    assert_int_equal(kit.chosen, 2);
    assert_int_equal(kit.stock, 2);
    assert_true(kit.spread == result.spread);
    assert_int_equal(kit.club[0].club_id, 77);
    assert_string_equal(kit.club[0].club, "5i");
    assert_string_equal(kit.club[0].head, sample.club[0].head.ticket);
    assert_string_equal(kit.club[0].shaft, "S-0002Q");
    assert_string_equal(kit.club[0].rack, "B4");
    assert_int_equal(kit.club[0].shaft_weight, GRAMS(69));
    assert_int_equal(kit.club[0].raw_length, sample.shaft[1].raw_length);
    assert_true(kit.club[0].value == result.club[0].value);
    assert_string_equal(kit.club[1].shaft, "S-0001S");
}

static void test_no_shaft_no_number(void **state) {
    (void)state;
    struct match_result result;
    match_sample_make(&sample, 2, 1);
    result = match_sample_build(&sample);
    kit_make(&sample.request, &result, &kit);
    assert_int_equal(kit.count, 2);
    assert_int_equal(kit.chosen, 1);
    assert_string_equal(kit.club[1].shaft, "");
    assert_int_equal(kit.club[1].shaft_weight, MASS_UNKNOWN);
    assert_true(kit.club[1].value == 0);
    assert_true(strlen(kit.club[1].words) > 20);
}

static void test_who_waits(void **state) {
    (void)state;
    struct club club = {.order.wished_model = "Reed 60"};
    assert_true(kit_waits(&club));
    strcpy(club.shaft.ticket, "S-0001S");
    assert_false(kit_waits(&club));
    club.shaft.ticket[0] = '\0';
    club.progress.stage = STAGE_DONE;
    assert_false(kit_waits(&club));
    club = (struct club){.id = 1};
    assert_false(kit_waits(&club));
}

static void test_words(void **state) {
    (void)state;
    char text[KIT_TEXT_MAX];
    kit_value_text(MATCH_BY_SWINGWEIGHT, 213.5, text);
    assert_string_equal(text, "D0.0");
    kit_value_text(MATCH_BY_SWINGWEIGHT, 20, text); // off the scale
    assert_string_equal(text, "20.0 in oz");
    kit_value_text(MATCH_BY_FLEX, 261.46, text);
    assert_string_equal(text, "261.5 cpm");
    kit_spread_text(MATCH_BY_SWINGWEIGHT, 0.44, text);
    assert_string_equal(text, "0.4 points");
    kit_spread_text(MATCH_BY_FLEX, 1.25, text);
    assert_string_equal(text, "1.3 cpm");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_list),
        cmocka_unit_test(test_no_shaft_no_number),
        cmocka_unit_test(test_who_waits),
        cmocka_unit_test(test_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

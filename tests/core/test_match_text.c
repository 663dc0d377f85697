#include "check.h"
#include "match_sample.h"

static struct match_sample sample;

static void says(size_t club, const char *words) {
    static char buffer[MATCH_TEXT_MAX];
    struct match_result result = match_sample_build(&sample);
    match_text(&sample.request, &result, club, buffer, sizeof buffer);
    assert_string_equal(buffer, words);
}

static void chosen(void **state) {
    (void)state;
    match_sample_make(&sample, 1, 1);
    says(0, "No other shaft is as good here.");
    match_sample_make(&sample, 1, 2);
    says(0, "Another choice is just as good; this one comes first in the stock.");
    match_sample_make(&sample, 3, 3);
    says(0, "Could trade shafts with 2 or 3: just as good.");
    memcpy(sample.club[2].order.swingweight, "D2", 3);
    says(1,
         "Could trade shafts with 1 or 3: just as good. No swingweight wished: matched to that of "
         "the other clubs.");
    says(2, "Could trade shafts with 1 or 2: just as good.");
}

static void left_out(void **state) {
    (void)state;
    match_sample_make(&sample, 4, 2);
    says(2, "Clubs 1, 2 and 3 have only 2 shafts they can use between them. This club is left out; "
            "add a shaft, or another wish.");
    match_sample_make(&sample, 2, 1);
    says(1,
         "Clubs 1 and 2 have only 1 shaft they can use between them. This club is left out; add a "
         "shaft, or another wish.");
}

static void none_usable(void **state) {
    (void)state;
    match_sample_make(&sample, 1, 0);
    says(0, "No shaft in stock can be used. The stock is empty.");
    match_sample_make(&sample, 1, 1);
    memcpy(sample.club[0].order.wished_flex, "S", 2);
    says(0, "No shaft in stock can be used. 1 shaft of another model or flex than ordered.");
    match_sample_make(&sample, 1, 6);
    memcpy(sample.shaft[0].model, "Sedge", 6);
    memcpy(sample.club[0].order.wished_model, "Reed 60", 8);
    sample.shaft[1].raw_length = LENGTH_UNKNOWN;
    sample.shaft[2].raw_length = IN(41, 1, 2);
    sample.shaft[3].raw_length = IN(41, 0, 1);
    sample.shaft[4].weight = MASS_UNKNOWN;
    sample.shaft[5].weight = GRAMS(900);
    says(0,
         "No shaft in stock can be used. 1 shaft of another model or flex than ordered. 2 shafts "
         "refused, S-3 for one: The shaft is too short by 7/8 in. Take a longer shaft. "
         "1 shaft refused for other reasons. 1 shaft: shaft weight not known. "
         "1 shaft: figures that no club has.");
    sample.shaft[2] = sample.shaft[0];
    sample.shaft[3] = sample.shaft[0];
    says(0,
         "No shaft in stock can be used. 3 shafts of another model or flex than ordered. 1 shaft "
         "refused, S-2: The raw length of this shaft is not known. Measure the shaft. "
         "1 shaft: shaft weight not known. 1 shaft: figures that no club has.");
}

static void not_tried(void **state) {
    (void)state;
    match_sample_make(&sample, 1, 1);
    memcpy(sample.club[0].order.swingweight, "2D", 3);
    says(0, "The wished swingweight \"2D\" cannot be read. Correct the order.");
    sample.club[0].head.ticket[0] = '\0';
    says(0, "No head is reserved for this club. Reserve one.");
}

// Every text fits: the longest refusal, all counts in hundreds, every gap there is.
static void fits(void **state) {
    char words[MATCH_TEXT_MAX];
    struct match_result result;
    (void)state;
    match_sample_make(&sample, 1, 1);
    sample.shaft[0].raw_length = IN(41, 0, 1);
    result = match_sample_build(&sample);
    result.club[0].other.shafts = 1000;
    result.club[0].refused[PLAN_F_TOO_SHORT_SHAFT].shafts = 1000;
    result.club[0].refused[PLAN_F_NO_CHART].shafts = 1000;
    for (size_t gap = 0; gap < ESTIMATE_GAP_COUNT; gap++) {
        result.club[0].unknown[gap].shafts = gap == ESTIMATE_GAP_NONE ? 0 : 1000;
    }
    match_text(&sample.request, &result, 0, words, sizeof words);
    assert_true(strlen(words) + 1 < sizeof words);
    assert_string_equal(words + strlen(words) - 5, " has.");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(chosen),    cmocka_unit_test(left_out), cmocka_unit_test(none_usable),
        cmocka_unit_test(not_tried), cmocka_unit_test(fits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

#include "check.h"
#include "sample.h"

#include <stdio.h>

static void words(const struct sample *sample, enum plan_code code, int64_t a, int64_t b,
                  char buffer[PLAN_LINE_TEXT_MAX]) {
    struct plan_input input = sample_input(sample);
    struct plan_line line = {.code = code, .a = a, .b = b};
    plan_line_text(&input, &line, buffer, PLAN_LINE_TEXT_MAX);
}

static void test_words(void **state) {
    (void)state;
    static const struct {
        enum plan_code code;
        int64_t a;
        int64_t b;
        const char *words;
    } rows[] = {
        {PLAN_R_COLUMN, 1, 0, "Chart, column 3 (210 g)"},
        {PLAN_R_STEP, -1, 0, "Soft-step 1, column 1 (200 g)"},
        {PLAN_R_STEP, 2, 3, "Hard-step 2, column 7 (230 g)"},
        {PLAN_R_BORE_ADD, IN(1, 1, 8), 0, "Bore 1 1/8 in, chart asks for all of it"},
        {PLAN_R_BORE_NONE, IN(1, 1, 8), 0, "Bore 1 1/8 in, chart adds nothing"},
        {PLAN_R_ROUND, IN(0, 17, 32), 0, "To the nearest mark, from 17/32 in"},
        {PLAN_W_NOT_ENGRAVED, 2, 0,
         "Engraved 3, but at 210 g it weighs like column 5 (220 g). The chart goes by weight."},
        {PLAN_W_SHIM, 0, 0,
         "Tip 0.335 in in a 0.335 in bore: fit the shim the supervisor agreed "
         "to."},
        {PLAN_F_TOO_SHORT_SHAFT, IN(0, 3, 8), 0,
         "The shaft is too short by 3/8 in. Take a longer shaft."},
        {PLAN_F_STEP_OFF_END, -2, 1,
         "Soft-step 2 from column 3 (210 g) runs off the chart. Change the step in the order."},
        {PLAN_F_NO_CHART, 0, 0,
         "No chart of Reed 60 R for a fairway wood. Enter the maker's chart or take another "
         "shaft."},
    };
    struct sample sample = sample_make();
    for (size_t i = 0; i < COUNT(rows); i++) {
        char text[PLAN_LINE_TEXT_MAX];
        words(&sample, rows[i].code, rows[i].a, rows[i].b, text);
        assert_string_equal(text, rows[i].words);
    }
}

// Every line says something; a refusal says what is wrong and then what to do. With the longest
// names and numbers nothing is cut off.
static void test_every_code_has_words(void **state) {
    (void)state;
    struct sample sample = sample_make();
    memset(sample.model.name, 'M', PARTS_NAME_MAX - 1);
    memset(sample.shaft.flex, 'F', PARTS_SHORT_MAX - 1);
    memset(sample.head.engraved, 'E', PARTS_SHORT_MAX - 1);
    memset(sample.order.picked_column, 'P', PARTS_SHORT_MAX - 1);
    memset(sample.chart.column[1].name, 'C', PARTS_SHORT_MAX - 1);
    sample.chart.column[1].weight = GRAMS(5000) - 1;
    sample.head.weight = GRAMS(5000) - 1;
    for (int code = PLAN_NONE + 1; code < PLAN_CODE_COUNT; code++) {
        char text[PLAN_LINE_TEXT_MAX];
        const char *name = plan_code_name((enum plan_code)code);
        words(&sample, (enum plan_code)code, 1, 1, text);
        if (strlen(text) < 10 || strlen(text) > 150 || strchr(text, '%') != NULL) {
            fail_msg("%s: %s", name, text);
        }
        if (name[0] == 'F') {
            char *stop = strchr(text, '.');
            while (stop != NULL && stop[1] != ' ' && stop[1] != '\0') {
                stop = strchr(stop + 1, '.'); // a decimal point
            }
            if (stop == NULL || stop[1] == '\0' || text[strlen(text) - 1] != '.') {
                fail_msg("%s does not say what to do: %s", name, text);
            }
        }
    }
}

static void test_small_buffers(void **state) {
    (void)state;
    struct sample sample = sample_make();
    struct plan_input input = sample_input(&sample);
    struct plan_line line = {.code = PLAN_R_COLUMN, .a = 1};
    for (size_t size = 0; size < 20; size++) {
        char text[24];
        memset(text, 'x', sizeof text);
        plan_line_text(&input, &line, text, size);
        assert_int_equal(text[size], 'x');
        assert_true(size == 0 || strlen(text) == size - 1);
    }
}

static void test_names(void **state) {
    (void)state;
    assert_string_equal(plan_code_name(PLAN_NONE), "NONE");
    assert_string_equal(plan_code_name(PLAN_R_COLUMN), "R_COLUMN");
    assert_string_equal(plan_code_name(PLAN_F_NOTHING_LEFT), "F_NOTHING_LEFT");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_words),
        cmocka_unit_test(test_every_code_has_words),
        cmocka_unit_test(test_small_buffers),
        cmocka_unit_test(test_names),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

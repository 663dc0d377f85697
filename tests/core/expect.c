#include "expect.h"
#include "check.h"

bool expect_made(const struct sample *sample, struct plan *ret_plan) {
    struct plan_input input = sample_input(sample);
    return plan_make(&input, ret_plan);
}

bool expect_has(const struct plan_line *line, size_t count, enum plan_code code) {
    for (size_t i = 0; i < count; i++) {
        if (line[i].code == code) {
            return true;
        }
    }
    return false;
}

void expect_warning(const struct sample *sample, enum plan_code code, bool expected) {
    struct plan made;
    assert_true(expect_made(sample, &made));
    if (expect_has(made.warning, made.warning_count, code) != expected) {
        fail_msg("%s is%s there", plan_code_name(code), expected ? " not" : "");
    }
}

void expect_refusal(const struct sample *sample, enum plan_code code) {
    struct plan made;
    assert_false(expect_made(sample, &made));
    assert_string_equal(plan_code_name(made.refusal.code), plan_code_name(code));
    assert_int_equal(made.tip_trim, LENGTH_UNKNOWN);
    assert_int_equal(made.tip_mark, LENGTH_UNKNOWN);
    assert_int_equal(made.finished, LENGTH_UNKNOWN);
    assert_int_equal(made.butt_mark, LENGTH_UNKNOWN);
    assert_int_equal(made.butt_trim, LENGTH_UNKNOWN);
    assert_int_equal(made.extension, LENGTH_UNKNOWN);
    assert_int_equal(made.proud, LENGTH_UNKNOWN);
    assert_false(made.butt_cut);
}

length_nm expect_tip_trim(const struct sample *sample) {
    struct plan made;
    if (!expect_made(sample, &made)) {
        fail_msg("refused: %s", plan_code_name(made.refusal.code));
    }
    return made.tip_trim;
}

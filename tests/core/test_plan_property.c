// What must hold of every plan, on random clubs: arithmetic done here a second time, apart from
// the program's rules.

#include "check.h"
#include "sample.h"

#include <stdio.h>

#define PLANS 400000
#define PAIRS 200000

static length_nm chance_length(uint64_t *seed, length_nm low, length_nm high) {
    length_nm grid[] = {1, LENGTH_64TH, LENGTH_INCH / 16, LENGTH_MM / 10};
    length_nm step = grid[sample_random(seed) % 4];
    return low + sample_between(seed, 0, (high - low) / step) * step;
}

static length_nm maybe(uint64_t *seed, length_nm length) {
    return sample_random(seed) % 40 == 0 ? LENGTH_UNKNOWN : length;
}

static void chance_chart(uint64_t *seed, struct chart *chart) {
    mass_mg weight = sample_between(seed, GRAMS(190), GRAMS(210));
    length_nm trim = 0;
    chart->count = (size_t)sample_between(seed, 1, 9);
    for (size_t i = 0; i < chart->count; i++) {
        chart->column[i].weight = weight;
        chart->column[i].tip_trim = maybe(seed, trim);
        weight += sample_between(seed, 1, GRAMS(12));
        trim += chance_length(seed, 0, IN(0, 1, 2)); // a heavier column never trims less
    }
}

static struct sample chance_sample(uint64_t *seed) {
    static const length_nm steps[] = {LENGTH_INCH / 16, LENGTH_INCH / 32, LENGTH_INCH / 64,
                                      LENGTH_MM / 2, LENGTH_MM};
    struct sample sample = sample_make();
    chance_chart(seed, &sample.chart);
    sample.head.kind = sample_random(seed) % 2 == 0 ? HEAD_KIND_DRIVER : HEAD_KIND_FAIRWAY;
    sample.head.weight = sample_between(seed, GRAMS(185), GRAMS(260));
    sample.head.bore_height = maybe(seed, chance_length(seed, 0, IN(2, 1, 16)));
    sample.head.bore = (enum bore_kind)(sample_random(seed) % BORE_KIND_COUNT);
    sample.shaft.raw_length = maybe(seed, chance_length(seed, IN(40, 0, 1), IN(48, 0, 1)));
    sample.model.tip = sample_random(seed) % 8 == 0 ? TIP_TAPER : TIP_PARALLEL;
    sample.model.max_tip_trim = maybe(seed, chance_length(seed, 0, IN(6, 0, 1)));
    sample.model.tip_section = maybe(seed, chance_length(seed, IN(3, 0, 1), IN(9, 0, 1)));
    sample.model.bore_note = (enum bore_note)(sample_random(seed) % BORE_NOTE_COUNT);
    sample.model.bore_reference = maybe(seed, chance_length(seed, 0, IN(2, 0, 1)));
    sample.model.note_kinds = (unsigned)sample_random(seed) % 4;
    sample.model.note_not_through = sample_random(seed) % 4 == 0;
    sample.order.playing_length = chance_length(seed, IN(34, 0, 1), IN(47, 0, 1));
    sample.order.grip_cap = chance_length(seed, 0, IN(0, 1, 4));
    sample.order.step = sample_random(seed) % 3 == 0 ? (int)sample_between(seed, -2, 2) : 0;
    sample.order.uniform_flex = sample_random(seed) % 2 == 0;
    sample.order.uniform_reference = maybe(seed, chance_length(seed, 0, IN(2, 0, 1)));
    sample.shaft.tip_cut = sample_random(seed) % 6 == 0 ? chance_length(seed, 0, IN(1, 1, 2)) : 0;
    if (sample_random(seed) % 8 == 0) {
        length_nm *given =
            sample_random(seed) % 2 == 0 ? &sample.order.given_trim : &sample.order.trim_consent;
        *given = chance_length(seed, 0, IN(4, 0, 1));
    }
    sample.order.extension = sample_random(seed) % 4 == 0;
    sample.order.extension_consent = sample_random(seed) % 4 == 0;
    sample.rules.extension_max = chance_length(seed, 0, IN(2, 0, 1));
    sample.rules.through_allowance = chance_length(seed, 0, IN(0, 1, 2));
    sample.rules.mark_step = steps[sample_random(seed) % COUNT(steps)];
    if (sample_random(seed) % 4 == 0) {
        sample.tip_made = chance_length(seed, 0, IN(4, 0, 1));
    }
    return sample;
}

static size_t count_of(const struct plan *plan, enum plan_code code) {
    size_t count = 0;
    for (size_t i = 0; i < plan->reason_count; i++) {
        count += plan->reason[i].code == code ? 1 : 0;
    }
    return count;
}

static void check_refused(const struct plan *plan) {
    assert_int_not_equal(plan->refusal.code, PLAN_NONE);
    assert_int_equal(plan->tip_trim, LENGTH_UNKNOWN);
    assert_int_equal(plan->tip_mark, LENGTH_UNKNOWN);
    assert_int_equal(plan->finished, LENGTH_UNKNOWN);
    assert_int_equal(plan->butt_mark, LENGTH_UNKNOWN);
    assert_int_equal(plan->butt_trim, LENGTH_UNKNOWN);
    assert_int_equal(plan->extension, LENGTH_UNKNOWN);
    assert_int_equal(plan->proud, LENGTH_UNKNOWN);
    assert_false(plan->butt_cut);
}

static bool passes_the_sole(const struct sample *sample) {
    return sample->head.bore == BORE_THROUGH;
}

// Marks lie within half a step, rounding never adds up, and nothing of the shaft goes missing.
static void check_lengths(const struct sample *sample, const struct plan *plan) {
    length_nm step = sample->rules.mark_step;
    length_nm raw = sample->shaft.raw_length;
    length_nm height = passes_the_sole(sample) ? 0 : sample->head.bore_height;
    length_nm proud = passes_the_sole(sample) ? sample->rules.through_allowance : 0;
    length_nm finished = sample->order.playing_length - height - sample->order.grip_cap + proud;
    length_nm kept = plan->butt_cut ? plan->butt_mark : raw + plan->extension - plan->tip_mark;
    length_nm playing = kept - proud + height + sample->order.grip_cap;
    length_nm off = playing - sample->order.playing_length;
    assert_int_equal(plan->proud, proud);
    assert_int_equal(plan->finished, finished);
    assert_int_equal(plan->tip_mark + plan->finished + plan->butt_trim, raw + plan->extension);
    assert_int_equal(plan->butt_mark % step, 0);
    assert_true(2 * (plan->butt_mark - finished) <= step);
    assert_true(2 * (finished - plan->butt_mark) <= step);
    assert_true(2 * off <= step && -2 * off <= step);
    assert_true(plan->butt_trim >= 0);
}

// Nothing is added that nobody allowed, no more than may be, and never where something is cut.
static void check_extension(const struct sample *sample, const struct plan *plan) {
    length_nm missing = plan->finished - (sample->shaft.raw_length - plan->tip_mark);
    assert_int_equal(plan->extension, missing > 0 ? missing : 0);
    if (plan->extension > 0) {
        assert_true(sample->order.extension || sample->order.extension_consent);
        assert_true(plan->extension <= sample->rules.extension_max);
        assert_int_equal(plan->butt_trim, 0);
        assert_false(plan->butt_cut);
    }
}

static void check_reasons(const struct sample *sample, const struct plan *plan) {
    length_nm sum = 0;
    assert_true(plan->reason_count <= PLAN_REASONS_MAX);
    assert_true(plan->warning_count <= PLAN_WARNINGS_MAX);
    for (size_t i = 0; i < plan->reason_count; i++) {
        sum += plan->reason[i].amount;
    }
    assert_int_equal(sum, plan->tip_mark);
    if (sample->tip_made != LENGTH_UNKNOWN) {
        assert_int_equal(plan->tip_mark, sample->tip_made);
        return;
    }
    assert_int_equal(plan->tip_mark % sample->rules.mark_step, 0);
    assert_true(2 * (plan->tip_mark - plan->tip_trim) <= sample->rules.mark_step);
    assert_true(2 * (plan->tip_trim - plan->tip_mark) <= sample->rules.mark_step);
}

static length_nm chart_trim(const struct sample *sample, const struct plan *plan) {
    length_nm height = passes_the_sole(sample) ? 0 : sample->head.bore_height;
    size_t note = count_of(plan, PLAN_R_BORE_ADD) + count_of(plan, PLAN_R_BORE_REFERENCE);
    size_t uniform = count_of(plan, PLAN_R_UNIFORM);
    length_nm expected = sample->chart.column[plan->column].tip_trim;
    assert_true(note + uniform <= 1);
    assert_int_equal(note + count_of(plan, PLAN_R_BORE_NONE), 1);
    if (count_of(plan, PLAN_R_BORE_ADD) == 1) {
        expected += height;
    } else if (note == 1) {
        expected += height - sample->model.bore_reference;
    } else if (uniform == 1) {
        expected += height - sample->order.uniform_reference;
    }
    if (note == 1) {
        assert_int_not_equal(sample->model.bore_note, BORE_NOTE_NONE);
    }
    return expected > 0 ? expected : 0;
}

// Bore height enters the tip trim once at most: by the chart's note or by uniform flex, and not at
// all when a supervisor gave the trim. An offcut is cut by the rest alone, and R6 sees the whole.
static void check_tip(const struct sample *sample, const struct plan *plan) {
    length_nm given = sample->order.trim_consent != LENGTH_UNKNOWN ? sample->order.trim_consent
                                                                   : sample->order.given_trim;
    length_nm wanted = given != LENGTH_UNKNOWN ? given : chart_trim(sample, plan);
    length_nm rest = wanted - sample->shaft.tip_cut;
    length_nm off = plan->tip_mark + sample->shaft.tip_cut;
    assert_int_equal(plan->tip_trim, rest > 0 ? rest : 0);
    assert_true(-2 * rest < sample->rules.mark_step);
    if (given != LENGTH_UNKNOWN) {
        assert_int_equal(plan->reason[0].code, PLAN_R_GIVEN);
        assert_true(plan->column == PLAN_COLUMN_NONE);
        assert_int_equal(count_of(plan, PLAN_R_COLUMN) + count_of(plan, PLAN_R_BORE_NONE) +
                             count_of(plan, PLAN_R_UNIFORM),
                         0);
    }
    assert_true(sample->model.max_tip_trim == LENGTH_UNKNOWN || off <= sample->model.max_tip_trim);
    if (sample->model.tip == TIP_PARALLEL && sample->model.tip_section != LENGTH_UNKNOWN) {
        assert_true(sample->model.tip_section - off >= sample->head.insertion + plan->proud);
    }
}

static void test_random_plans(void **state) {
    (void)state;
    uint64_t seed = 20261125;
    size_t valid = 0;
    size_t made = 0;
    size_t given = 0;
    size_t offcuts = 0;
    size_t extended = 0;
    size_t through = 0;
    for (int i = 0; i < PLANS; i++) {
        struct sample sample = chance_sample(&seed);
        struct plan_input input = sample_input(&sample);
        struct plan plan;
        if (!plan_make(&input, &plan)) {
            check_refused(&plan);
            continue;
        }
        valid++;
        extended += plan.extension > 0 ? 1 : 0;
        through += plan.proud > 0 ? 1 : 0;
        assert_int_equal(plan.refusal.code, PLAN_NONE);
        check_lengths(&sample, &plan);
        check_extension(&sample, &plan);
        check_reasons(&sample, &plan);
        if (sample.tip_made == LENGTH_UNKNOWN) {
            check_tip(&sample, &plan);
            given += plan.reason[0].code == PLAN_R_GIVEN ? 1 : 0;
            offcuts += count_of(&plan, PLAN_R_TIP_CUT);
        } else {
            made++;
        }
    }
    print_message(
        "%d random clubs, %zu plans, %zu of them after a tip cut, %zu given, %zu offcuts, "
        "%zu extended, %zu through the sole\n",
        PLANS, valid, made, given, offcuts, extended, through);
    assert_true(valid > PLANS / 4);
    assert_true(made > PLANS / 20);
    assert_true(given > PLANS / 100 && offcuts > PLANS / 100 && through > PLANS / 100);
    assert_true(extended > PLANS / 500);
}

// Within one chart, all else equal, a heavier head never trims less.
static void test_heavier_never_trims_less(void **state) {
    (void)state;
    uint64_t seed = 210;
    size_t compared = 0;
    size_t more = 0;
    for (int i = 0; i < PAIRS; i++) {
        struct sample sample = chance_sample(&seed);
        struct plan_input input = sample_input(&sample);
        struct plan light;
        struct plan heavy;
        sample.tip_made = LENGTH_UNKNOWN;
        input = sample_input(&sample);
        bool first = plan_make(&input, &light);
        sample.head.weight += sample_between(&seed, 0, GRAMS(30));
        if (first && plan_make(&input, &heavy)) {
            compared++;
            more += heavy.tip_mark > light.tip_mark ? 1 : 0;
            assert_true(heavy.tip_trim >= light.tip_trim);
            assert_true(heavy.tip_mark >= light.tip_mark);
        }
    }
    print_message("%d pairs, %zu compared, %zu of them trim more\n", PAIRS, compared, more);
    assert_true(compared > PAIRS / 10);
    assert_true(more > PAIRS / 100);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_random_plans),
        cmocka_unit_test(test_heavier_never_trims_less),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// What must hold of every shaft and head, on random plausible ones.

#include "check.h"
#include "flex_shaft.h"
#include "sample.h"

#include <math.h>

#define SHAFTS 3000

// Stiffness that never falls towards the butt, mass spread evenly.
static struct flex_shaft rising(uint64_t *seed) {
    struct shaft shaft = {
        .raw_length = sample_between(seed, IN(36, 0, 1), IN(47, 0, 1)),
        .weight = sample_between(seed, GRAMS(45), GRAMS(130)),
    };
    struct shaft_model model = {.material = MATERIAL_GRAPHITE};
    struct profile profile = {.count = (size_t)sample_between(seed, 1, 8)};
    length_nm at = sample_between(seed, 0, IN(3, 0, 1));
    int64_t stiffness = sample_between(seed, 8000, 25000);
    for (size_t i = 0; i < profile.count; i++) {
        profile.point[i] = (struct profile_point){at, stiffness};
        at += sample_between(seed, 1, IN(8, 0, 1));
        stiffness += sample_between(seed, 0, 12000);
    }
    struct flex_shaft flex;
    assert_int_equal(flex_shaft_make(&shaft, &model, &profile, &flex), FLEX_KNOWN);
    return flex;
}

static struct flex_tip head(uint64_t *seed) {
    return (struct flex_tip){
        .point = (double)sample_between(seed, 0, 6000) * 1e-6,
        .mass = (double)sample_between(seed, GRAMS(180), GRAMS(350)) * 1e-6,
        .beyond = (double)sample_between(seed, 0, IN(1, 1, 2)) * 1e-9,
        .inertia = (double)sample_between(seed, 0, 4000) * 1e-7,
    };
}

static double frequency(const struct flex_shaft *shaft, length_nm tip_trim, length_nm finished,
                        const struct flex_tip *tip) {
    double cpm = 0;
    assert_true(flex_shaft_frequency(shaft, tip_trim, finished, tip, &cpm));
    assert_true(cpm > 50 && cpm < 1600);
    return cpm;
}

// Rayleigh's principle: more stiffness everywhere, mass as before, is never slower. Elements end at
// other places of the shaft after another cut, so 3e-7 is left to their error: 0.0001 cpm.
static void test_tip_trim_never_softens(void **state) {
    (void)state;
    uint64_t seed = 41;
    int stiffer = 0;
    for (int i = 0; i < SHAFTS; i++) {
        struct flex_shaft shaft = rising(&seed);
        struct flex_tip tip = head(&seed);
        length_nm finished = shaft.length - IN(4, 0, 1);
        length_nm little = sample_between(&seed, 0, IN(3, 0, 1));
        length_nm more = sample_between(&seed, little, IN(4, 0, 1));
        double before = frequency(&shaft, little, finished, &tip);
        double after = frequency(&shaft, more, finished, &tip);
        assert_true(after >= before * (1 - 3e-7));
        stiffer += after > before * (1 + 1e-5) ? 1 : 0;
    }
    assert_in_range(stiffer, SHAFTS / 2, SHAFTS);
}

// Anything more at the end, or a longer shaft, slows it.
static void test_more_is_slower(void **state) {
    (void)state;
    uint64_t seed = 250;
    for (int i = 0; i < SHAFTS; i++) {
        struct flex_shaft shaft = rising(&seed);
        struct flex_tip tip = head(&seed);
        length_nm finished = sample_between(&seed, IN(31, 0, 1), shaft.length - IN(2, 0, 1));
        double before = frequency(&shaft, IN(1, 0, 1), finished, &tip);
        double *parts[] = {&tip.point, &tip.mass, &tip.beyond, &tip.inertia};
        const double more[] = {0.001, 0.001, 0.001, 0.00002};
        for (size_t part = 0; part < COUNT(parts); part++) {
            double kept = *parts[part];
            *parts[part] += more[part];
            assert_true(frequency(&shaft, IN(1, 0, 1), finished, &tip) < before);
            *parts[part] = kept;
        }
        // Longer at the tip: the clamp stays where it was on the shaft.
        assert_true(frequency(&shaft, IN(0, 3, 4), finished + IN(0, 1, 4), &tip) < before);
    }
}

// Twice as stiff and twice as heavy is as fast as before; four times as stiff, twice as fast.
static void test_scaling(void **state) {
    (void)state;
    uint64_t seed = 2;
    for (int i = 0; i < SHAFTS / 10; i++) {
        struct flex_shaft shaft = rising(&seed);
        struct flex_tip tip = head(&seed);
        length_nm finished = shaft.length - IN(2, 0, 1);
        double before = frequency(&shaft, IN(1, 0, 1), finished, &tip);
        shaft.scale = 2;
        shaft.density.tip *= 2;
        struct flex_tip heavy = {tip.point * 2, tip.mass * 2, tip.beyond, tip.inertia * 2};
        assert_true(fabs(frequency(&shaft, IN(1, 0, 1), finished, &heavy) / before - 1) < 1e-9);
        shaft.scale = 4;
        shaft.density.tip /= 2;
        assert_true(fabs(frequency(&shaft, IN(1, 0, 1), finished, &tip) / before - 2) < 1e-8);
    }
}

// A steel tube with a parallel tip.
static struct flex_shaft tube(uint64_t *seed) {
    struct shaft shaft = {
        .raw_length = sample_between(seed, IN(36, 0, 1), IN(42, 0, 1)),
        .weight = sample_between(seed, GRAMS(90), GRAMS(130)),
    };
    struct shaft_model model = {
        .material = MATERIAL_STEEL,
        .tip_diameter = 9398000,
        .butt_diameter = 15240000,
        .tip_section = sample_between(seed, 0, IN(16, 0, 1)),
        .tip_wall = sample_between(seed, 300000, 450000),
        .butt_wall = sample_between(seed, 280000, 400000),
    };
    struct profile profile = {.count = 0};
    struct flex_shaft flex;
    assert_int_equal(flex_shaft_make(&shaft, &model, &profile, &flex), FLEX_KNOWN);
    return flex;
}

struct given {
    const struct flex_shaft *shaft;
    double clamp;
};

static struct flex_section given_section(const void *of, double from_clamp) {
    const struct given *given = of;
    return flex_shaft_section(given->shaft, given->clamp - from_clamp);
}

// Relative distance to five times as many elements.
static double coarseness(const struct flex_shaft *shaft, const struct flex_tip *tip) {
    length_nm finished = shaft->length - IN(1, 0, 1);
    struct given given = {shaft, (double)(shaft->length - FLEX_CLAMP) * 1e-9};
    struct flex_beam beam = {.length = (double)(finished - FLEX_CLAMP) * 1e-9,
                             .section = given_section,
                             .of = &given,
                             .tip = *tip};
    for (size_t point = shaft->count; point > 0; point--) {
        beam.breaks[beam.break_count] = given.clamp - shaft->point[point - 1].at;
        beam.break_count++;
    }
    if (shaft->shape == FLEX_SHAPE_TUBE) {
        beam.breaks[0] = given.clamp - shaft->tube.parallel;
        beam.break_count = 1;
    }
    double fine = 0;
    assert_true(flex_frequency(&beam, FLEX_ELEMENTS_MAX, &fine));
    return fabs(frequency(shaft, IN(1, 0, 1), finished, tip) / fine - 1);
}

// The number of elements used is enough. Points closer than a thousandth of the beam are not all
// given an element's end of their own, hence the difference.
static void test_enough_elements(void **state) {
    (void)state;
    uint64_t seed = 24;
    double points = 0;
    double tubes = 0;
    for (int i = 0; i < SHAFTS / 10; i++) {
        struct flex_tip tip = head(&seed);
        struct flex_shaft shaft = rising(&seed);
        points = fmax(points, coarseness(&shaft, &tip));
        shaft = tube(&seed);
        tubes = fmax(tubes, coarseness(&shaft, &tip));
    }
    print_message("worst of %d shafts by points %.1e, of as many tubes %.1e\n", SHAFTS / 10, points,
                  tubes);
    assert_true(points < 1e-5);
    assert_true(tubes < 1e-6);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_tip_trim_never_softens),
        cmocka_unit_test(test_more_is_slower),
        cmocka_unit_test(test_scaling),
        cmocka_unit_test(test_enough_elements),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

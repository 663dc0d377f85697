// Where a shaft's stiffness comes from, what a cut leaves of it, and steel tubes computed
// elsewhere.

#include "check.h"
#include "flex_shaft.h"
#include "sample.h"

#include <math.h>

#define NEAR(a, b, off) assert_true(fabs((a) - (b)) <= (off))

struct parts {
    struct shaft shaft;
    struct shaft_model model;
    struct profile profile;
};

// An invented steel iron shaft, 0.370 to 0.600 in, and an invented profile.
static struct parts steel(void) {
    return (struct parts){
        .shaft = {.raw_length = IN(41, 0, 1), .weight = GRAMS(110)},
        .model = {.material = MATERIAL_STEEL,
                  .tip_diameter = 9398000,
                  .butt_diameter = 15240000,
                  .raw_length = IN(41, 0, 1),
                  .tip_section = IN(8, 0, 1),
                  .tip_wall = 370000,
                  .butt_wall = 320000},
    };
}

static struct parts profiled(void) {
    struct parts parts = steel();
    parts.profile = (struct profile){
        .count = 3,
        .point = {{IN(4, 0, 1), 20000}, {IN(12, 0, 1), 30000}, {IN(36, 0, 1), 70000}},
    };
    return parts;
}

static enum flex_known make(const struct parts *parts, struct flex_shaft *ret_shaft) {
    return flex_shaft_make(&parts->shaft, &parts->model, &parts->profile, ret_shaft);
}

static double frequency(const struct flex_shaft *shaft, length_nm tip_trim, length_nm finished) {
    struct flex_tip tip = {.mass = 0.25};
    double cpm = 0;
    assert_true(flex_shaft_frequency(shaft, tip_trim, finished, &tip, &cpm));
    return cpm;
}

static void test_profile(void **state) {
    (void)state;
    struct parts parts = profiled();
    struct flex_shaft shaft;
    assert_int_equal(make(&parts, &shaft), FLEX_KNOWN);
    NEAR(flex_shaft_section(&shaft, 0.0254).stiffness, 20, 1e-12); // level before the first
    NEAR(flex_shaft_section(&shaft, 4 * 0.0254).stiffness, 20, 1e-12);
    NEAR(flex_shaft_section(&shaft, 8 * 0.0254).stiffness, 25, 1e-12);
    NEAR(flex_shaft_section(&shaft, 24 * 0.0254).stiffness, 50, 1e-12);
    NEAR(flex_shaft_section(&shaft, 40 * 0.0254).stiffness, 70, 1e-12); // and after the last
}

// One even point is the even beam: 1.2479174096 at mu = 1 (see test_flex.c).
static void test_even_beam(void **state) {
    (void)state;
    struct parts parts = profiled();
    struct flex_shaft shaft;
    parts.profile.count = 1;
    parts.profile.point[0].stiffness = 40000;
    parts.shaft.balance = IN(20, 1, 2);
    assert_int_equal(make(&parts, &shaft), FLEX_KNOWN);
    double length = 31 * 0.0254;
    double mass = 0.110 / (41 * 0.0254);
    struct flex_tip tip = {.mass = mass * length};
    double cpm = 0;
    assert_true(flex_shaft_frequency(&shaft, IN(2, 0, 1), IN(36, 0, 1), &tip, &cpm));
    double square = 1.2479174096 * 1.2479174096;
    NEAR(cpm, square * sqrt(40 / mass) / (length * length) * 60 / (2 * acos(-1)), 1e-5);
}

// The better source wins: points, then walls, then diameters with a measured frequency.
static void test_sources(void **state) {
    (void)state;
    struct parts parts = profiled();
    struct flex_shaft shaft;
    assert_int_equal(make(&parts, &shaft), FLEX_KNOWN);
    assert_int_equal(shaft.shape, FLEX_SHAPE_POINTS);
    parts.profile.count = 0;
    assert_int_equal(make(&parts, &shaft), FLEX_KNOWN);
    assert_int_equal(shaft.shape, FLEX_SHAPE_TUBE);
    NEAR(flex_shaft_section(&shaft, 0).stiffness,
         200e9 * acos(-1) / 64 * (pow(9.398e-3, 4) - pow(9.398e-3 - 0.74e-3, 4)), 1e-9);
    parts.model.material = MATERIAL_GRAPHITE; // a wall says nothing there
    assert_int_equal(make(&parts, &shaft), FLEX_NOT_KNOWN);
    parts.shaft.raw_frequency = 2600;
    assert_int_equal(make(&parts, &shaft), FLEX_NOT_KNOWN); // with what on its tip?
    parts.shaft.frequency_mass = MASS_UNKNOWN;
    assert_int_equal(make(&parts, &shaft), FLEX_NOT_KNOWN);
    parts.shaft.frequency_mass = GRAMS(250);
    assert_int_equal(make(&parts, &shaft), FLEX_KNOWN);
    assert_int_equal(shaft.shape, FLEX_SHAPE_EVEN_WALL);
    parts.model.butt_diameter = LENGTH_UNKNOWN;
    assert_int_equal(make(&parts, &shaft), FLEX_NOT_KNOWN);
    parts = profiled();
    parts.shaft.weight = MASS_UNKNOWN;
    assert_int_equal(make(&parts, &shaft), FLEX_NOT_KNOWN);
    parts = steel();
    parts.model.butt_wall = 0;
    assert_int_equal(make(&parts, &shaft), FLEX_NOT_KNOWN);
    parts = steel();
    parts.model.tip_section = IN(41, 0, 1); // where does it grow thicker?
    assert_int_equal(make(&parts, &shaft), FLEX_NOT_KNOWN);
    parts = profiled();
    parts.shaft.raw_length = LENGTH_UNKNOWN;
    assert_int_equal(make(&parts, &shaft), FLEX_NOT_KNOWN);
}

// EI goes with mass per length times diameter squared: over the parallel tip as the mass, and at
// the butt (600 / 370)^2 times what it is at the tip for an even shaft.
static void test_even_wall(void **state) {
    (void)state;
    struct parts parts = steel();
    struct flex_shaft shaft;
    parts.model.material = MATERIAL_GRAPHITE;
    parts.shaft.raw_frequency = 2605;
    parts.shaft.frequency_mass = GRAMS(250);
    assert_int_equal(make(&parts, &shaft), FLEX_KNOWN);
    double tip = flex_shaft_section(&shaft, 0).stiffness;
    NEAR(flex_shaft_section(&shaft, 7.9 * 0.0254).stiffness / tip, 1, 1e-12);
    NEAR(flex_shaft_section(&shaft, 41 * 0.0254).stiffness / tip, pow(60.0 / 37, 2), 1e-9);
    NEAR(frequency(&shaft, 0, IN(41, 0, 1)), 260.5, 1e-6);
    parts.shaft.balance = IN(20, 0, 1);
    assert_int_equal(make(&parts, &shaft), FLEX_KNOWN);
    struct flex_section low = flex_shaft_section(&shaft, 0);
    struct flex_section high = flex_shaft_section(&shaft, 41 * 0.0254);
    NEAR(high.stiffness / low.stiffness, pow(60.0 / 37, 2) * high.mass / low.mass, 1e-9);
}

// A measured frequency moves every cut of the shaft in proportion.
static void test_measured(void **state) {
    (void)state;
    struct parts all[] = {profiled(), steel()};
    for (size_t i = 0; i < COUNT(all); i++) {
        struct flex_shaft plain;
        struct flex_shaft scaled;
        assert_int_equal(make(&all[i], &plain), FLEX_KNOWN);
        double computed = frequency(&plain, 0, IN(41, 0, 1));
        all[i].shaft.raw_frequency = 3000;
        all[i].shaft.frequency_mass = GRAMS(250);
        assert_int_equal(make(&all[i], &scaled), FLEX_KNOWN);
        NEAR(frequency(&scaled, 0, IN(41, 0, 1)), 300, 1e-6);
        NEAR(frequency(&scaled, IN(2, 0, 1), IN(36, 0, 1)) /
                 frequency(&plain, IN(2, 0, 1), IN(36, 0, 1)),
             300 / computed, 1e-9);
    }
}

// Cutting is the same as a shaft that begins where the cut was.
static void test_cut(void **state) {
    (void)state;
    struct parts parts = profiled();
    struct flex_shaft whole;
    struct flex_shaft cut;
    parts.shaft.balance = IN(20, 1, 2); // even, so that what is left is even too
    assert_int_equal(make(&parts, &whole), FLEX_KNOWN);
    for (size_t i = 0; i < parts.profile.count; i++) {
        parts.profile.point[i].from_tip -= IN(2, 0, 1);
    }
    parts.shaft.raw_length = IN(37, 0, 1);
    parts.shaft.weight = GRAMS(110) * 37 / 41;
    parts.shaft.balance = IN(18, 1, 2);
    assert_int_equal(make(&parts, &cut), FLEX_KNOWN);
    NEAR(frequency(&whole, IN(2, 0, 1), IN(37, 0, 1)), frequency(&cut, 0, IN(37, 0, 1)), 1e-4);
}

static void test_cut_limits(void **state) {
    (void)state;
    struct parts parts = profiled();
    struct flex_shaft shaft;
    struct flex_tip tip = {.mass = 0.25};
    double cpm = 77;
    assert_int_equal(make(&parts, &shaft), FLEX_KNOWN);
    assert_false(flex_shaft_frequency(&shaft, -1, IN(36, 0, 1), &tip, &cpm));
    assert_false(flex_shaft_frequency(&shaft, IN(5, 0, 1) + 1, IN(36, 0, 1), &tip, &cpm));
    assert_false(flex_shaft_frequency(&shaft, 0, IN(5, 0, 1), &tip, &cpm));
    assert_true(cpm == 77);
    assert_true(flex_shaft_frequency(&shaft, IN(5, 0, 1), IN(36, 0, 1), &tip, &cpm));
}

static void test_implausible(void **state) {
    (void)state;
    struct flex_shaft shaft;
    struct parts parts = profiled();
    parts.profile.point[0].stiffness = 900;
    assert_int_equal(make(&parts, &shaft), FLEX_IMPLAUSIBLE);
    parts.profile.point[0].stiffness = -20000;
    assert_int_equal(make(&parts, &shaft), FLEX_IMPLAUSIBLE);
    parts = profiled();
    parts.profile.point[2].stiffness = 501000;
    assert_int_equal(make(&parts, &shaft), FLEX_IMPLAUSIBLE);
    parts = steel();
    parts.model.tip_wall = 4700000; // more than half of 9.398 mm
    assert_int_equal(make(&parts, &shaft), FLEX_IMPLAUSIBLE);
    parts = steel();
    parts.shaft.balance = IN(13, 1, 2); // not within the middle third of 41 in
    assert_int_equal(make(&parts, &shaft), FLEX_IMPLAUSIBLE);
    parts = steel();
    parts.shaft.raw_frequency = 30000; // 3000 cpm
    parts.shaft.frequency_mass = GRAMS(250);
    assert_int_equal(make(&parts, &shaft), FLEX_IMPLAUSIBLE);
}

// What flex_shaft.h says of the part glued into the head: 1 1/4 in of it rigid.
struct glued {
    const struct flex_shaft *shaft;
    double stiff;
};

static struct flex_section glued_section(const void *of, double from_clamp) {
    const struct glued *glued = of;
    struct flex_section section = flex_shaft_section(glued->shaft, 36 * 0.0254 - from_clamp);
    section.stiffness *= from_clamp > 34.75 * 0.0254 ? glued->stiff : 1;
    return section;
}

static void test_insertion(void **state) {
    (void)state;
    struct parts parts = profiled();
    struct flex_shaft shaft;
    assert_int_equal(make(&parts, &shaft), FLEX_KNOWN);
    double cpm[2];
    for (int i = 0; i < 2; i++) {
        struct glued glued = {&shaft, i == 0 ? 1 : 1000};
        struct flex_beam beam = {
            .length = 36 * 0.0254,
            .section = glued_section,
            .of = &glued,
            .tip = {.mass = 0.25, .beyond = 0.02, .inertia = 2e-4},
            .break_count = 1,
            .breaks = {34.75 * 0.0254},
        };
        assert_true(flex_frequency(&beam, 64, &cpm[i]));
    }
    print_message("glued part rigid: %.4f to %.4f cpm, %.3f %%\n", cpm[0], cpm[1],
                  (cpm[1] / cpm[0] - 1) * 100);
    assert_true(cpm[1] > cpm[0] && cpm[1] < cpm[0] * 1.001);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_profile),    cmocka_unit_test(test_even_beam),
        cmocka_unit_test(test_sources),    cmocka_unit_test(test_even_wall),
        cmocka_unit_test(test_measured),   cmocka_unit_test(test_cut),
        cmocka_unit_test(test_cut_limits), cmocka_unit_test(test_implausible),
        cmocka_unit_test(test_insertion),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// The beam against closed forms and tables, and how fast it gets there.

#include "check.h"
#include "flex.h"

#include <math.h>

#define PI 3.14159265358979323846
#define LIMIT 3e-8 // relative, at FLEX_ELEMENTS

// Length, and stiffness and mass at the clamp, are 1, so omega is w = omega L^2 sqrt(m0 / EI0).
struct taper {
    double loss; // share of the diameter (or height) lost from clamp to tip
    int power;   // EI goes with diameter^power, mass with diameter^(power - 2)
};

static struct flex_section tapered(const void *of, double from_clamp) {
    const struct taper *taper = of;
    double left = 1 - taper->loss * from_clamp;
    return (struct flex_section){
        .stiffness = pow(left, taper->power),
        .mass = pow(left, taper->power - 2),
    };
}

static struct flex_beam beam_of(const struct taper *taper, double tip_mass) {
    return (struct flex_beam){
        .length = 1, .section = tapered, .of = taper, .tip = {.mass = tip_mass}};
}

static double omega(const struct flex_beam *beam, int elements) {
    double cpm = 0;
    assert_true(flex_frequency(beam, elements, &cpm));
    return cpm / 60 * 2 * PI;
}

static void check(const struct flex_beam *beam, double expected, double relative) {
    double off = omega(beam, FLEX_ELEMENTS) / expected - 1;
    if (fabs(off) > relative) {
        print_message("expected %.9f, off by %.2e\n", expected, off);
    }
    assert_true(fabs(off) <= relative);
}

static struct flex_section even(const void *of, double from_clamp) {
    (void)of;
    (void)from_clamp;
    return (struct flex_section){1, 1};
}

// Root of 1 + cos l cosh l + mu l (cos l sinh l - sin l cosh l) = 0 (Karnovsky and Lebed, 7.5.2
// and 7.5.3); roots computed from it. For mu = 0 Blevins 1979 table 8-1 (value from memory).
static void test_tip_mass(void **state) {
    (void)state;
    static const double rows[][2] = {
        {0, 1.8751040687},   {0.01, 1.8567869770}, {0.05, 1.7911705622}, {0.1, 1.7227415206},
        {0.2, 1.6163996602}, {0.25, 1.5737513027}, {0.5, 1.4199644298},  {1, 1.2479174096},
        {2, 1.0761956641},   {5, 0.87002145889},   {10, 0.73578191939},  {100, 0.41593424067},
    };
    struct flex_beam beam = {.length = 1, .section = even};
    for (size_t i = 0; i < COUNT(rows); i++) {
        beam.tip = (struct flex_tip){.mass = rows[i][0]};
        check(&beam, rows[i][1] * rows[i][1], LIMIT);
        beam.tip = (struct flex_tip){.point = rows[i][0]};
        check(&beam, rows[i][1] * rows[i][1], LIMIT);
    }
    beam.tip = (struct flex_tip){0};
    check(&beam, 3.5160152685, LIMIT);
    // Published with six decimals: Mathematical Problems in Engineering 2017, 1568019, table 1.
    beam.tip.mass = 1;
    assert_true(fabs(omega(&beam, FLEX_ELEMENTS) - 1.557298) < 6e-7);
}

// Linear tapers cut off at ratio c of the clamped diameter. c = 0.5 is widely tabulated (4.6252,
// 3.8238: Downs 1977, Naguleswaran 1994; value from memory); the others were computed by shooting
// with a fourth-order Runge-Kutta method.
static void test_tapers(void **state) {
    (void)state;
    static const double rows[][3] = {
        {0.5, 4.625150, 3.823785}, {0.6, 4.318779, 3.737076}, {0.7, 4.066933, 3.666749},
        {0.8, 3.855117, 3.608275}, {0.9, 3.673701, 3.558702},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct taper cone = {1 - rows[i][0], 4};
        struct taper wedge = {1 - rows[i][0], 3};
        struct flex_beam round = beam_of(&cone, 0);
        struct flex_beam flat = beam_of(&wedge, 0);
        check(&round, rows[i][1], 4e-7); // the tables' last digit
        check(&flat, rows[i][2], 4e-7);
    }
}

// Kirchhoff 1879: the complete cone, J2(z) I3(z) + I2(z) J3(z) = 0 with w = z^2 / 4, and the
// complete wedge, the same of order 1 and 2. Nothing is left of the section at the tip.
static void test_complete(void **state) {
    (void)state;
    struct taper cone = {1, 4};
    struct taper wedge = {1, 3};
    struct flex_beam round = beam_of(&cone, 0);
    struct flex_beam flat = beam_of(&wedge, 0);
    check(&round, 8.71925886, 1e-5);
    check(&flat, 5.31509942, 1e-5);
}

// A cone with a mass M / (m0 L) at its tip, by shooting with an eighth-order Runge-Kutta method
// (scipy's DOP853, relative tolerance 1e-13); with fewer digits by the method above.
static void test_cone_tip_mass(void **state) {
    (void)state;
    static const double rows[][3] = {{0.5, 0.2, 2.375501896},
                                     {0.5, 1, 1.186895483},
                                     {0.7, 0.2, 2.549799450},
                                     {0.7, 1, 1.368505375}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        struct taper cone = {1 - rows[i][0], 4};
        struct flex_beam beam = beam_of(&cone, rows[i][1]);
        check(&beam, rows[i][2], 3e-7);
    }
}

// Length: f goes with L^-2 for a bare even beam and L^-1.5 for one without mass. 40 to 39 in.
static void test_length(void **state) {
    (void)state;
    struct flex_beam beam = {.length = 40 * 0.0254, .section = even};
    double bare = omega(&beam, FLEX_ELEMENTS);
    beam.tip.mass = 1e6;
    double loaded = omega(&beam, FLEX_ELEMENTS);
    beam.length = 39 * 0.0254;
    assert_true(fabs(omega(&beam, FLEX_ELEMENTS) / loaded - 1.038707) < 1e-6);
    beam.tip.mass = 0;
    assert_true(fabs(omega(&beam, FLEX_ELEMENTS) / bare - 1.051940) < 1e-6);
}

// Cubic elements: the error of a frequency falls with the fourth power of their size.
static void check_order(const char *name, const struct flex_beam *beam, double exact) {
    for (int elements = 8; elements <= 16; elements *= 2) {
        double coarse = omega(beam, elements) / exact - 1;
        double fine = omega(beam, 2 * elements) / exact - 1;
        double order = log2(coarse / fine);
        print_message("%s: %2d elements off by %.2e, order %.2f\n", name, elements, coarse, order);
        assert_true(coarse > 0 && fine > 0); // never below: Rayleigh's principle
        assert_true(order > 3.8 && order < 4.2);
    }
}

static void test_order(void **state) {
    (void)state;
    struct taper cone = {0.5, 4};
    struct flex_beam beam = {.length = 1, .section = even};
    check_order("even beam", &beam, 3.516015268500);
    beam.tip.mass = 0.2;
    check_order("even beam with tip mass", &beam, 1.6163996602 * 1.6163996602);
    beam = beam_of(&cone, 0);
    check_order("cone", &beam, 4.625150252); // shooting, as above
    beam = beam_of(&cone, 0.2);
    check_order("cone with tip mass", &beam, 2.375501896);
}

// Two even halves, the outer one a sixteenth as stiff: elements that end at the step keep the
// fourth order; without the break one element in the middle of an odd count straddles it.
static struct flex_section halves(const void *of, double from_clamp) {
    (void)of;
    return (struct flex_section){.stiffness = from_clamp < 0.5 ? 1 : 1.0 / 16, .mass = 1};
}

static void test_step(void **state) {
    (void)state;
    struct flex_beam beam = {.length = 1, .section = halves, .break_count = 1, .breaks = {0.5}};
    double exact = omega(&beam, 64);
    double with = omega(&beam, 7) / exact - 1;
    check_order("step at a break", &beam, exact);
    beam.break_count = 0;
    double without = omega(&beam, 7) / exact - 1;
    print_message("step: %.1e with a break, %.1e without\n", with, without);
    assert_true(fabs(with) < 1e-4);
    assert_true(fabs(without) > 1e-3);
}

// Breaks that touch each other, an end, or lie outside change nothing.
static void test_odd_breaks(void **state) {
    (void)state;
    struct flex_beam beam = {.length = 1, .section = halves, .break_count = 1, .breaks = {0.5}};
    double clean = omega(&beam, FLEX_ELEMENTS);
    beam.break_count = 7;
    const double odd[] = {-0.5, 0, 1e-9, 0.5, 0.5 + 1e-9, 1 - 1e-9, 2};
    memcpy(beam.breaks, odd, sizeof odd);
    assert_true(fabs(omega(&beam, FLEX_ELEMENTS) / clean - 1) < 1e-12);
    beam.break_count = FLEX_BREAKS_MAX;
    for (int i = 0; i < FLEX_BREAKS_MAX; i++) {
        beam.breaks[i] = (i + 1) / (FLEX_BREAKS_MAX + 1.0);
    }
    assert_true(fabs(omega(&beam, FLEX_ELEMENTS_MAX) / clean - 1) < 1e-3);
}

static struct flex_section negative(const void *of, double from_clamp) {
    (void)of;
    return (struct flex_section){.stiffness = from_clamp < 0.5 ? 1 : -1, .mass = 1};
}

// Hardly anything: the sum over its element is still above 0.
static struct flex_section dip(const void *of, double from_clamp) {
    (void)of;
    return (struct flex_section){.stiffness = from_clamp > 0.99 ? -0.001 : 1, .mass = 1};
}

static struct flex_section lifting(const void *of, double from_clamp) {
    (void)of;
    return (struct flex_section){.stiffness = 1, .mass = from_clamp > 0.99 ? -0.001 : 1};
}

static struct flex_section massless(const void *of, double from_clamp) {
    (void)of;
    (void)from_clamp;
    return (struct flex_section){.stiffness = 1, .mass = 0};
}

static struct flex_section no_number(const void *of, double from_clamp) {
    (void)of;
    (void)from_clamp;
    return (struct flex_section){.stiffness = NAN, .mass = 1};
}

static void test_refused(void **state) {
    (void)state;
    double cpm = 77;
    struct flex_beam beam = {.length = 1, .section = even};
    assert_false(flex_frequency(&beam, 0, &cpm));
    assert_false(flex_frequency(&beam, FLEX_ELEMENTS_MAX + 1, &cpm));
    beam.length = 0;
    assert_false(flex_frequency(&beam, FLEX_ELEMENTS, &cpm));
    beam.length = NAN;
    assert_false(flex_frequency(&beam, FLEX_ELEMENTS, &cpm));
    beam.length = 1;
    beam.section = negative;
    assert_false(flex_frequency(&beam, FLEX_ELEMENTS, &cpm));
    beam.section = dip;
    assert_false(flex_frequency(&beam, FLEX_ELEMENTS, &cpm));
    beam.section = lifting;
    assert_false(flex_frequency(&beam, FLEX_ELEMENTS, &cpm));
    beam.section = no_number;
    assert_false(flex_frequency(&beam, FLEX_ELEMENTS, &cpm));
    beam.section = massless;
    assert_false(flex_frequency(&beam, FLEX_ELEMENTS, &cpm));
    assert_true(cpm == 77);
    beam.tip.mass = 1; // sqrt(3 EI / (L^3 M)), a spring with a mass
    assert_true(fabs(omega(&beam, 1) - sqrt(3)) < 1e-12);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_tip_mass), cmocka_unit_test(test_tapers),
        cmocka_unit_test(test_complete), cmocka_unit_test(test_cone_tip_mass),
        cmocka_unit_test(test_length),   cmocka_unit_test(test_order),
        cmocka_unit_test(test_step),     cmocka_unit_test(test_odd_breaks),
        cmocka_unit_test(test_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

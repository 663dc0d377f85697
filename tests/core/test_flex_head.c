// A head whose centre of gravity lies beyond the shaft's end and that resists turning, against the
// exact frequency equation of an even beam with such a body.

#include "check.h"
#include "flex.h"
#include "sample.h"

#include <math.h>

static struct flex_section even(const void *of, double from_clamp) {
    (void)of;
    (void)from_clamp;
    return (struct flex_section){1, 1};
}

// w(x) = a (cosh bx - cos bx) + c (sinh bx - sin bx) meets clamp and equation; at the end x = 1,
// with w = omega = b^2: w'' = omega^2 (M e w + (M e^2 + J) w'), -w''' = omega^2 M (w + e w').
// The determinant of the two conditions on a and c.
static double determinant(const struct flex_tip *tip, double b) {
    double ch = cosh(b);
    double sh = sinh(b);
    double co = cos(b);
    double si = sin(b);
    double square = pow(b, 4);
    double turn = tip->mass * tip->beyond * tip->beyond + tip->inertia;
    double both = tip->mass * tip->beyond;
    double mass = tip->mass + tip->point;
    double w[2] = {ch - co, sh - si};
    double d[2] = {b * (sh + si), b * (ch - co)};
    double dd[2] = {b * b * (ch + co), b * b * (sh + si)};
    double ddd[2] = {b * b * b * (sh - si), b * b * b * (ch + co)};
    double moment[2];
    double force[2];
    for (int i = 0; i < 2; i++) {
        moment[i] = dd[i] - square * (both * w[i] + turn * d[i]);
        force[i] = ddd[i] + square * (mass * w[i] + both * d[i]);
    }
    return moment[0] * force[1] - moment[1] * force[0];
}

static double exact(const struct flex_tip *tip) {
    double low = 1e-3;
    double high = low;
    while (determinant(tip, high) * determinant(tip, low) > 0) {
        low = high;
        high += 1e-3;
        assert_true(high < 2);
    }
    for (int i = 0; i < 60; i++) {
        double middle = (low + high) / 2;
        if (determinant(tip, low) * determinant(tip, middle) > 0) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return low * low;
}

static double computed(const struct flex_tip *tip) {
    struct flex_beam beam = {.length = 1, .section = even, .tip = *tip};
    double cpm = 0;
    assert_true(flex_frequency(&beam, FLEX_ELEMENTS, &cpm));
    return cpm / 60 * 2 * acos(-1);
}

// The equation itself gives the known roots when there is no offset and no inertia.
static void test_equation(void **state) {
    (void)state;
    struct flex_tip none = {0};
    struct flex_tip one = {.mass = 1};
    assert_true(fabs(exact(&none) - 3.5160152685) < 1e-9);
    assert_true(fabs(exact(&one) - 1.5572978612) < 1e-9);
}

static void test_body(void **state) {
    (void)state;
    uint64_t seed = 5;
    double worst = 0;
    for (int i = 0; i < 400; i++) {
        struct flex_tip tip = {
            .point = (double)sample_between(&seed, 0, 100) / 1000,
            .mass = (double)sample_between(&seed, 0, 5000) / 1000,
            .beyond = (double)sample_between(&seed, 0, 100) / 1000,
            .inertia = (double)sample_between(&seed, 0, 20) / 1000,
        };
        double off = fabs(computed(&tip) / exact(&tip) - 1);
        worst = off > worst ? off : worst;
    }
    print_message("400 bodies, worst relative error %.1e\n", worst);
    assert_true(worst < 3e-8);
}

// Each of the four slows the beam, and by what a hand calculation says of a stiff massless beam
// whose end is loaded at L + e: f^2 goes with 1 / (L^3 / 3 + L^2 e + L e^2).
static void test_offset_by_hand(void **state) {
    (void)state;
    struct flex_tip tip = {.mass = 1e5};
    double before = computed(&tip);
    tip.beyond = 0.03;
    double by_hand = sqrt((1.0 / 3) / (1.0 / 3 + 0.03 + 0.0009));
    assert_true(fabs(computed(&tip) / before / by_hand - 1) < 1e-5);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_equation),
        cmocka_unit_test(test_body),
        cmocka_unit_test(test_offset_by_hand),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

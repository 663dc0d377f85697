// Steel tubes: frequencies computed elsewhere, sections and centres of gravity by hand.

#include "check.h"
#include "flex_shaft.h"
#include "sample.h"

#include <math.h>

#define NEAR(a, b, off) assert_true(fabs((a) - (b)) <= (off))
#define MM(count) ((length_nm)((count)*1000000))

// Tubes of 1 mm wall and 15 mm at the clamp, 1 m out of it, E = 200 GPa, 7850 kg/m3: frequencies by
// shooting (fourth-order Runge-Kutta), apart from this program. The shaft goes on for 5 in.
static void test_steel_tubes(void **state) {
    (void)state;
    static const struct {
        length_nm tip;
        length_nm butt;
        mass_mg mass; // on the tip
        double cpm;
    } rows[] = {
        {MM(15), MM(15), 0, 840.989},
        {MM(15), MM(15), GRAMS(200), 458.348},
        {MM(9), 15762000, 0, 899.919},
        {MM(9), 15762000, GRAMS(200), 401.062},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        double middle = (double)(rows[i].tip + rows[i].butt) / 2e9 - 0.001;
        double kilos = 7850 * acos(-1) * 0.001 * middle * 1.127;
        struct profile none = {.count = 0};
        struct shaft raw = {.raw_length = MM(1127), .weight = (mass_mg)llround(kilos * 1e6)};
        struct shaft_model model = {
            .material = MATERIAL_STEEL,
            .tip_diameter = rows[i].tip,
            .butt_diameter = rows[i].butt,
            .tip_wall = MM(1),
            .butt_wall = MM(1),
        };
        struct flex_tip tip = {.mass = (double)rows[i].mass * 1e-6};
        struct flex_shaft shaft;
        double cpm = 0;
        assert_int_equal(flex_shaft_make(&raw, &model, &none, &shaft), FLEX_KNOWN);
        assert_true(flex_shaft_frequency(&shaft, 0, MM(1127), &tip, &cpm));
        NEAR(cpm, rows[i].cpm, 0.001);
    }
}

static void test_tube(void **state) {
    (void)state;
    struct flex_tube tube = {.length = 1, .tip_diameter = 0.009, .butt_diameter = 0.015};
    tube.tip_wall = 0.001;
    tube.butt_wall = 0.001;
    // I of 15 x 13 mm: 1.083064067e-9 m4 (pi / 64 (D^4 - d^4)); area pi / 4 (D^2 - d^2).
    NEAR(flex_tube_second_moment(&tube, 1), 1.083064067e-9, 1e-18);
    NEAR(flex_tube_area(&tube, 1), acos(-1) / 4 * (225e-6 - 169e-6), 1e-15);
    // Area goes with D - 1 mm, 8 to 14: centre of a trapezium, L / 3 (8 + 2 14) / (8 + 14).
    NEAR(flex_tube_balance(&tube), 36.0 / 22 / 3, 1e-12);
    tube.parallel = 0.5; // 8 over the first half, then 8 to 14 with its centre at 0.5 + 6 / 22
    double first = 8 * 0.5;
    double second = 11 * 0.5;
    NEAR(flex_tube_balance(&tube),
         (first * 0.25 + second * (0.5 + 36.0 / 22 / 6)) / (first + second), 1e-12);
    NEAR(flex_tube_diameter(&tube, 0.3), 0.009, 1e-15);
    NEAR(flex_tube_diameter(&tube, 0.75), 0.012, 1e-15);
}

// Measured, or the model's in proportion to the length, or that of the steel tube.
static void test_balance(void **state) {
    (void)state;
    struct shaft shaft = {.raw_length = IN(41, 0, 1), .balance = IN(20, 0, 1)};
    struct shaft_model model = {
        .material = MATERIAL_STEEL,
        .tip_diameter = 9398000,
        .butt_diameter = 15240000,
        .raw_length = IN(41, 0, 1),
        .tip_wall = 370000,
        .butt_wall = 320000,
        .balance = IN(21, 0, 1),
    };
    assert_int_equal(flex_shaft_balance(&shaft, &model), IN(20, 0, 1));
    shaft.balance = LENGTH_UNKNOWN;
    assert_int_equal(flex_shaft_balance(&shaft, &model), IN(21, 0, 1));
    shaft.raw_length = IN(20, 1, 2); // half the catalogue's
    assert_int_equal(flex_shaft_balance(&shaft, &model), IN(10, 1, 2));
    shaft.raw_length = IN(41, 0, 1);
    model.balance = 0;
    // Slices: pi (D - t) t with D and t straight.
    double area = 0;
    double moment = 0;
    for (int i = 0; i < 10000; i++) {
        double at = (i + 0.5) / 10000;
        double wall = 0.37 - 0.05 * at;
        double slice = (9.398 + 5.842 * at - wall) * wall;
        area += slice;
        moment += slice * at * 41 * 25400000;
    }
    NEAR((double)flex_shaft_balance(&shaft, &model), moment / area, 1000);
    model.tip_wall = 0;
    assert_int_equal(flex_shaft_balance(&shaft, &model), LENGTH_UNKNOWN);
    model.tip_wall = 370000;
    model.material = MATERIAL_GRAPHITE;
    assert_int_equal(flex_shaft_balance(&shaft, &model), LENGTH_UNKNOWN);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_steel_tubes),
        cmocka_unit_test(test_tube),
        cmocka_unit_test(test_balance),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

// Answers flex_oracle.py: one shaft, its cuts and its head a line, the frequency in cpm back.

#include "flex_shaft.h"

#include <inttypes.h>
#include <stdio.h>

static bool read_numbers(int64_t *numbers, int count) {
    for (int i = 0; i < count; i++) {
        if (scanf("%" SCNd64, &numbers[i]) != 1) {
            return false;
        }
    }
    return true;
}

int main(void) {
    enum {
        RAW,
        WEIGHT,
        BALANCE,
        TIP_DIAMETER,
        BUTT_DIAMETER,
        WALL,
        TIP_SECTION,
        TIP_TRIM,
        FINISHED,
        HEAD,
        BEYOND,
        INERTIA,
        POINT,
        POINTS,
        COUNT
    };
    int64_t number[COUNT];
    while (read_numbers(number, COUNT)) {
        struct shaft shaft = {
            .raw_length = number[RAW],
            .weight = number[WEIGHT],
            .balance = number[BALANCE],
        };
        struct shaft_model model = {
            .material = MATERIAL_STEEL,
            .tip_diameter = number[TIP_DIAMETER],
            .butt_diameter = number[BUTT_DIAMETER],
            .tip_wall = number[WALL],
            .butt_wall = number[WALL],
            .tip_section = number[TIP_SECTION],
        };
        struct profile profile = {.count = (size_t)number[POINTS]};
        struct flex_tip tip = {
            .mass = (double)number[HEAD] * 1e-6,
            .beyond = (double)number[BEYOND] * 1e-9,
            .inertia = (double)number[INERTIA] * 1e-7,
            .point = (double)number[POINT] * 1e-6,
        };
        struct flex_shaft flex;
        double cpm = 0;
        for (size_t i = 0; i < profile.count && i < PROFILE_POINTS_MAX; i++) {
            int64_t pair[2];
            if (!read_numbers(pair, 2)) {
                return 1;
            }
            profile.point[i] = (struct profile_point){pair[0], pair[1]};
        }
        if (flex_shaft_make(&shaft, &model, &profile, &flex) != FLEX_KNOWN ||
            !flex_shaft_frequency(&flex, number[TIP_TRIM], number[FINISHED], &tip, &cpm)) {
            return 1;
        }
        printf("%.9f\n", cpm);
    }
    return 0;
}

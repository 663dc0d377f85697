// Time of a whole set's frequencies on one core: 14 clubs through estimate_make, ten of steel by
// their dimensions and four of graphite by a profile and a measured frequency (two beams a club).
// Beside it in the same run: the dearest such set, and the same beams with elements a quarter as
// long, to show what those used leave undone. Fails when the two disagree, never on time.

#include "estimate.h"
#include "flex_shaft.h"

#include <math.h>
#include <stdio.h>
#include <time.h>

#define CLUBS 14
#define STEEL 10
#define ROUNDS 400

static double milliseconds(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

// Club `place` of an invented set, the longest first.
static struct club club_at(int place, bool profiled) {
    struct club club = {
        .head = {.weight = (200 + 7 * place) * MASS_GRAM, .cg_beyond = LENGTH_INCH / 2},
        .shaft = {.raw_length = 45 * LENGTH_INCH, .weight = 110 * MASS_GRAM},
        .model = {.material = MATERIAL_STEEL,
                  .tip_diameter = 9398000,
                  .butt_diameter = 15240000,
                  .tip_section = 9 * LENGTH_INCH,
                  .tip_wall = 400000,
                  .butt_wall = 330000},
        .order = {.grip_weight = 50 * MASS_GRAM, .grip_cap = LENGTH_INCH / 8},
    };
    if (profiled) {
        club.shaft.raw_frequency = 2400;
        club.shaft.frequency_mass = 200 * MASS_GRAM;
        club.profile.count = PROFILE_POINTS_MAX;
        for (int i = 0; i < PROFILE_POINTS_MAX; i++) {
            club.profile.point[i].from_tip = (i + 1) * LENGTH_INCH * 4 / 3;
            club.profile.point[i].stiffness = 18000 + 1500 * i + (i % 3) * 400;
        }
    }
    return club;
}

static struct plan plan_at(int place) {
    length_nm trim = place * LENGTH_INCH / 4;
    return (struct plan){.tip_mark = trim, .finished = 43 * LENGTH_INCH - place * LENGTH_INCH / 2};
}

struct cut {
    struct flex_shaft shaft;
    double clamp;
};

static struct flex_section section(const void *of, double from_clamp) {
    const struct cut *cut = of;
    return flex_shaft_section(&cut->shaft, cut->clamp - from_clamp);
}

// The club's frequency with elements a quarter as long.
static double finer(const struct club *club, const struct plan *plan) {
    struct cut cut;
    double cpm = 0;
    if (flex_shaft_make(&club->shaft, &club->model, &club->profile, &cut.shaft) != FLEX_KNOWN) {
        return 0;
    }
    cut.clamp = (double)(plan->tip_mark + plan->finished - FLEX_CLAMP) * 1e-9;
    struct flex_beam beam = {
        .length = (double)(plan->finished - FLEX_CLAMP) * 1e-9,
        .section = section,
        .of = &cut,
        .tip = {.point = 0.005, .mass = (double)club->head.weight * 1e-6, .beyond = 0.0127},
    };
    return flex_frequency(&beam, 4 * FLEX_ELEMENTS, &cpm) ? cpm : 0;
}

// Milliseconds a set; the first `profiled` clubs go by their profile.
static double time_set(int profiled, double cpm[CLUBS]) {
    const struct assembly assembly = ASSEMBLY_DEFAULT;
    double start = milliseconds();
    for (int round = 0; round < ROUNDS; round++) {
        for (int i = 0; i < CLUBS; i++) {
            struct club club = club_at(i, i < profiled);
            struct plan plan = plan_at(i);
            struct estimate estimate;
            estimate_make(&club, &plan, &assembly, &estimate);
            cpm[i] = estimate.frequency.value;
        }
    }
    return (milliseconds() - start) / ROUNDS;
}

static double time_finer(int profiled, double cpm[CLUBS]) {
    double start = milliseconds();
    for (int round = 0; round < ROUNDS; round++) {
        for (int i = 0; i < CLUBS; i++) {
            struct club club = club_at(i, i < profiled);
            struct plan plan = plan_at(i);
            cpm[i] = finer(&club, &plan);
        }
    }
    return (milliseconds() - start) / ROUNDS;
}

int main(void) {
    double cpm[CLUBS];
    double fine[CLUBS];
    double worst = 0;
    double set = time_set(CLUBS - STEEL, cpm);
    double fine_set = time_finer(CLUBS - STEEL, fine);
    for (int i = 0; i < CLUBS; i++) {
        if (!(cpm[i] > 0) || !(fine[i] > 0)) {
            fprintf(stderr, "bench_flex: club %d has no frequency\n", i + 1);
            return 1;
        }
        worst = fmax(worst, fabs(cpm[i] - fine[i]));
    }
    double heavy = time_set(CLUBS, cpm);
    printf("frequencies of 14 clubs, one core: %.2f ms (aim 5), %.1f to %.1f cpm\n", set, fine[0],
           fine[CLUBS - 1]);
    printf("  all 14 by 32 points and a measured frequency: %.2f ms\n", heavy);
    printf("  elements a quarter as long: %.2f ms, ratio %.1f, worst difference %.4f cpm\n",
           fine_set, fine_set / set, worst);
    if (worst > 0.01) {
        fprintf(stderr, "bench_flex: too coarse\n");
        return 1;
    }
    return 0;
}

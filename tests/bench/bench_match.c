// Processor time of a stock match, 14 heads against 500 shafts on one core, with and without the
// estimates it rests on, median and worst of many random builds and of problems made to be hard.
// Beside it in the same run: the same window with its matching made anew at every step, and a
// greedy choice. Prints; fails only when a spread is not what the slow way finds, never on time.

#include "match.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define CLUBS 14
#define SHAFTS 500
#define ROUNDS 60

static struct match_work work;
static int32_t value[CLUBS * SHAFTS];
static uint64_t seed = 500;

static double milliseconds(void) {
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

// xorshift64*.
static int64_t between(int64_t low, int64_t high) {
    seed ^= seed >> 12;
    seed ^= seed << 25;
    seed ^= seed >> 27;
    return low + (int64_t)(seed * UINT64_C(2685821657736338717) % (uint64_t)(high - low + 1));
}

static int rising(const void *a, const void *b) {
    double x = *(const double *)a;
    double y = *(const double *)b;
    return x < y ? -1 : x > y;
}

static void print(const char *name, double *times, size_t count) {
    qsort(times, count, sizeof *times, rising);
    printf("  %-44s median %7.3f ms, worst %7.3f ms\n", name, times[count / 2], times[count - 1]);
}

// --- bare problems -----------------------------------------------------------------------------

static void shop(void) { // heads and shafts add up, as in swingweights
    int64_t head[CLUBS];
    for (size_t i = 0; i < CLUBS; i++) {
        head[i] = between(-300, 300);
    }
    for (size_t k = 0; k < SHAFTS; k++) {
        int64_t shaft = between(-150, 150);
        for (size_t i = 0; i < CLUBS; i++) {
            value[i * SHAFTS + k] = (int32_t)(head[i] + shaft + between(-2, 2));
        }
    }
}

static void scattered(void) {
    for (size_t i = 0; i < CLUBS * SHAFTS; i++) {
        value[i] = (int32_t)between(-100000, 100000);
    }
}

static void equal(void) {
    for (size_t i = 0; i < CLUBS * SHAFTS; i++) {
        value[i] = (int32_t)between(0, 3);
    }
}

static void sparse(void) { // 3 of 100 cells, some clubs short
    for (size_t i = 0; i < CLUBS * SHAFTS; i++) {
        value[i] = between(1, 100) <= 3 ? (int32_t)between(-500, 500) : ASSIGN_NONE;
    }
}

static void ladder(void) { // 487 windows of the same spread, every order of clubs as good
    for (size_t i = 0; i < CLUBS * SHAFTS; i++) {
        value[i] = (int32_t)(i % SHAFTS);
    }
}

static void far_apart(void) { // clubs share no value: the window spans nearly all cells
    for (size_t i = 0; i < CLUBS * SHAFTS; i++) {
        value[i] = (int32_t)((int64_t)(i / SHAFTS) * 10000 + between(0, 4000));
    }
}

// The same window, but every matching from nothing.
static int32_t slow_spread(size_t count) {
    const uint64_t *key = work.assign.key; // as assign_solve sorted them
    struct assign_pairs *pairs = &work.assign.pairs;
    size_t first = 0;
    size_t end = 1;
    int64_t best = INT64_MAX;
    while (end <= count) {
        size_t matched = 0;
        uint32_t reached;
        assign_pairs_init(pairs, 0);
        for (size_t i = first; i < end; i++) {
            assign_pairs_add(pairs, key[i] >> 16 & 0xffff, key[i] & 0xffff);
        }
        for (size_t row = 0; row < CLUBS; row++) {
            matched += assign_pairs_augment(pairs, row, &reached) ? 1 : 0;
        }
        if (matched == CLUBS) {
            int64_t spread = (int64_t)(key[end - 1] >> 32) - (int64_t)(key[first] >> 32);
            best = spread < best ? spread : best;
            first++;
        } else {
            end++;
        }
    }
    return (int32_t)best;
}

// Club after club takes the shaft that widens the spread least.
static int64_t greedy_spread(void) {
    bool taken[SHAFTS] = {false};
    int64_t low = INT64_MAX;
    int64_t high = INT64_MIN;
    for (size_t i = 0; i < CLUBS; i++) {
        size_t best = SHAFTS;
        int64_t least = INT64_MAX;
        for (size_t k = 0; k < SHAFTS; k++) {
            int64_t v = value[i * SHAFTS + k];
            int64_t spread = i == 0 ? llabs(v) : (v > high ? v : high) - (v < low ? v : low);
            if (!taken[k] && v != ASSIGN_NONE && spread < least) {
                least = spread;
                best = k;
            }
        }
        if (best < SHAFTS) {
            int64_t v = value[i * SHAFTS + best];
            taken[best] = true;
            low = v < low ? v : low;
            high = v > high ? v : high;
        }
    }
    return high - low;
}

static bool bare(const char *name, void (*make)(void), enum assign_aim aim, bool compare) {
    const struct assign_problem problem = {
        .value = value, .rows = CLUBS, .columns = SHAFTS, .aim = aim};
    double times[ROUNDS];
    double fast = 0;
    double slow = 0;
    double greedy = 0;
    double best = 0;
    for (size_t round = 0; round < ROUNDS; round++) {
        struct assign_result result;
        make();
        double start = milliseconds();
        if (!assign_solve(&problem, &work.assign, &result)) {
            return false;
        }
        times[round] = milliseconds() - start;
        if (compare && round < 5) {
            start = milliseconds();
            if (slow_spread(CLUBS * SHAFTS) != result.high - result.low) {
                fprintf(stderr, "bench_match: %s: the slow way finds another spread\n", name);
                return false;
            }
            slow += milliseconds() - start;
            fast += times[round];
        }
        greedy += (double)greedy_spread();
        best += (double)result.high - result.low;
    }
    print(name, times, ROUNDS);
    if (compare) {
        printf(
            "    matching anew at every step: %.1f times as long; greedy: spread %.2f, best %.2f\n",
            slow / fast, greedy / ROUNDS / 100, best / ROUNDS / 100);
    }
    return true;
}

// --- builds ------------------------------------------------------------------------------------

static struct club clubs[CLUBS];
static struct shaft shafts[SHAFTS];
static struct match_shaft stock[SHAFTS];
static struct shaft_model model;
static struct chart chart = {.kind = CHART_KIND_IRON, .count = CLUBS};
static struct profile profile = {
    .count = 3,
    .point = {{0, 14000}, {20 * LENGTH_INCH, 34000}, {40 * LENGTH_INCH, 70000}},
};

// Irons 7 g and half an inch a club apart, a gram off; shafts of one model, 110 g +- 3 g,
// 40 in +- 1/4 in.
static void make_build(void) {
    model = (struct shaft_model){.material = MATERIAL_STEEL,
                                 .tip = TIP_PARALLEL,
                                 .tip_diameter = LENGTH_INCH / 1000 * 370,
                                 .butt_diameter = LENGTH_INCH / 1000 * 600,
                                 .raw_length = 40 * LENGTH_INCH,
                                 .weight = 110 * MASS_GRAM,
                                 .tip_section = 9 * LENGTH_INCH,
                                 .max_tip_trim = 7 * LENGTH_INCH,
                                 .max_butt_trim = 10 * LENGTH_INCH};
    for (size_t i = 0; i < CLUBS; i++) {
        chart.column[i].weight = (200 + 7 * (int64_t)i) * MASS_GRAM;
        chart.column[i].tip_trim = (length_nm)i * LENGTH_INCH / 2;
        clubs[i] = (struct club){
            .order = {.position = (int)i + 1,
                      .count = CLUBS,
                      .playing_length = 39 * LENGTH_INCH - (length_nm)i * LENGTH_INCH / 2,
                      .grip_cap = LENGTH_INCH / 8,
                      .grip_weight = 50 * MASS_GRAM,
                      .uniform_reference = LENGTH_UNKNOWN,
                      .given_trim = LENGTH_UNKNOWN,
                      .trim_consent = LENGTH_UNKNOWN},
            .head = {.ticket = "H",
                     .kind = HEAD_KIND_IRON,
                     .weight = chart.column[i].weight + between(-1000, 1000),
                     .hosel_bore = LENGTH_INCH / 1000 * 370,
                     .insertion = LENGTH_INCH,
                     .bore_height = LENGTH_INCH,
                     .bore = BORE_BLIND},
        };
    }
    for (size_t k = 0; k < SHAFTS; k++) {
        shafts[k].raw_length = 40 * LENGTH_INCH + between(-16, 16) * LENGTH_64TH;
        shafts[k].weight = 110 * MASS_GRAM + between(-30, 30) * MASS_GRAM / 10;
        stock[k] = (struct match_shaft){.shaft = &shafts[k],
                                        .model = &model,
                                        .chart[CHART_KIND_IRON] = &chart,
                                        .profile = &profile};
    }
}

static bool builds(const char *name, enum match_by by, const char *wish, size_t rounds) {
    const struct bench_rules rules = BENCH_RULES_DEFAULT;
    const struct assembly assembly = ASSEMBLY_DEFAULT;
    const struct match_request request = {.by = by,
                                          .line = {.slope = MATCH_SLOPE_DEFAULT},
                                          .clubs = clubs,
                                          .club_count = CLUBS,
                                          .stock = stock,
                                          .shaft_count = SHAFTS,
                                          .rules = &rules,
                                          .assembly = &assembly};
    double times[ROUNDS];
    struct match_result result;
    for (size_t round = 0; round < rounds; round++) {
        make_build();
        for (size_t i = 0; i < CLUBS; i++) {
            memcpy(clubs[i].order.swingweight, wish, strlen(wish) + 1);
        }
        double start = milliseconds();
        if (!match_build(&request, &work, &result) || result.chosen != CLUBS) {
            fprintf(stderr, "bench_match: only %zu clubs got a shaft\n", result.chosen);
            return false;
        }
        times[round] = milliseconds() - start;
    }
    print(name, times, rounds);
    printf("    spread of the last: %.2f %s\n", result.spread,
           by == MATCH_BY_FLEX ? "cpm" : "points");
    return true;
}

int main(void) {
    printf("stock match, %d heads against %d shafts, processor time (aim 50 ms), %zu kB of work "
           "space\n",
           CLUBS, SHAFTS, sizeof work / 1000);
    bool done =
        bare("shop", shop, ASSIGN_AIM_ZERO, true) &&
        bare("shop, likeness alone", shop, ASSIGN_AIM_MIDDLE, true) &&
        bare("scattered", scattered, ASSIGN_AIM_ZERO, true) &&
        bare("clubs far apart", far_apart, ASSIGN_AIM_ZERO, true) &&
        bare("four values only", equal, ASSIGN_AIM_ZERO, true) &&
        bare("3 cells of 100 usable", sparse, ASSIGN_AIM_ZERO, false) &&
        bare("487 equal windows", ladder, ASSIGN_AIM_MIDDLE, false) &&
        builds("build by swingweight, with estimates", MATCH_BY_SWINGWEIGHT, "D2", ROUNDS) &&
        builds("the same for likeness alone", MATCH_BY_SWINGWEIGHT, "", ROUNDS) &&
        builds("build by flex, with estimates", MATCH_BY_FLEX, "", ROUNDS);
    return done ? 0 : 1;
}

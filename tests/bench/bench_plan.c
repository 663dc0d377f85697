// Plans a second on one core, against the same plan with its lines put into words, so that the
// figure shows what keeping text out of plan_make is worth. Prints; never fails on time.

#include "club.h"

#include <stdio.h>
#include <string.h>
#include <time.h>

static double seconds(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

static struct club sample(void) {
    struct club club = {
        .id = 1,
        .order = {.build = "1",
                  .club = "1",
                  .position = 1,
                  .count = 1,
                  .playing_length = 43 * LENGTH_INCH,
                  .grip_cap = LENGTH_INCH / 8,
                  .uniform_reference = LENGTH_UNKNOWN,
                  .given_trim = LENGTH_UNKNOWN,
                  .trim_consent = LENGTH_UNKNOWN},
        .head = {.kind = HEAD_KIND_FAIRWAY,
                 .engraved = "3",
                 .weight = 210 * MASS_GRAM,
                 .hosel_bore = LENGTH_INCH / 1000 * 335,
                 .insertion = LENGTH_INCH,
                 .bore_height = LENGTH_INCH,
                 .bore = BORE_BLIND},
        .shaft = {.raw_length = 46 * LENGTH_INCH, .weight = 65 * MASS_GRAM},
        .model = {.material = MATERIAL_GRAPHITE,
                  .tip = TIP_PARALLEL,
                  .tip_diameter = LENGTH_INCH / 1000 * 335,
                  .tip_section = 6 * LENGTH_INCH,
                  .max_tip_trim = 4 * LENGTH_INCH,
                  .max_butt_trim = 8 * LENGTH_INCH,
                  .bore_note = BORE_NOTE_ADD_HEIGHT},
        .chart = {.kind = CHART_KIND_WOOD, .count = 5},
    };
    for (size_t i = 0; i < club.chart.count; i++) {
        club.chart.column[i].weight = (mass_mg)(200 + 10 * (int64_t)i) * MASS_GRAM;
        club.chart.column[i].tip_trim = (length_nm)i * LENGTH_INCH / 2;
    }
    return club;
}

int main(void) {
    const struct bench_rules rules = BENCH_RULES_DEFAULT;
    struct club club = sample();
    struct plan_input input;
    struct plan plan;
    length_nm sum = 0;
    long valid = 0;

    const long plans = 5000000;
    double start = seconds();
    for (long i = 0; i < plans; i++) {
        club.head.weight = (200 + i % 41) * MASS_GRAM;
        valid += club_plan(&club, &rules, &input, &plan);
        sum += plan.tip_mark;
    }
    const double bare = (double)plans / (seconds() - start);

    const long worded_plans = 200000;
    char text[PLAN_LINE_TEXT_MAX];
    start = seconds();
    for (long i = 0; i < worded_plans; i++) {
        club.head.weight = (200 + i % 41) * MASS_GRAM;
        valid += club_plan(&club, &rules, &input, &plan);
        for (size_t line = 0; line < plan.reason_count; line++) {
            plan_line_text(&input, &plan.reason[line], text, sizeof text);
            sum += (length_nm)strlen(text);
        }
    }
    const double worded = (double)worded_plans / (seconds() - start);

    if (valid != plans + worded_plans) {
        fprintf(stderr, "bench_plan: the sample club was refused\n");
        return 1;
    }
    printf("plans a second, one core: %.2f million (aim 1 million)\n", bare / 1e6);
    printf("  with every reason in words: %.2f million, ratio %.1f (checksum %lld)\n", worded / 1e6,
           bare / worded, (long long)sum);
    return 0;
}

#include "guided.h"

#include "tongue.h"

#include <math.h>

#define THOUSANDTH (LENGTH_INCH / 1000)
#define CLEARANCE (5 * THOUSANDTH)
#define INSERTION_MIN (LENGTH_INCH / 2)
#define INSERTION_MAX (3 * LENGTH_INCH)
#define BORE_HEIGHT_MAX (2 * LENGTH_INCH)

static const char *const problems[GUIDED_PROBLEM_COUNT] = {
#define X(name, text) text,
    GUIDED_PROBLEMS(X)
#undef X
};

const char *guided_problem_text(enum guided_problem problem) {
    return _(problems[problem]);
}

static bool known(length_nm a, length_nm b) {
    return a != LENGTH_UNKNOWN && b != LENGTH_UNKNOWN;
}

enum guided_problem guided_bore(length_nm goes, length_nm stops, length_nm *ret_bore) {
    static const length_nm sizes[] = {335 * THOUSANDTH, 350 * THOUSANDTH, 355 * THOUSANDTH,
                                      370 * THOUSANDTH};
    length_nm found = 0;
    if (!known(goes, stops)) {
        return GUIDED_NOT_MEASURED;
    }
    if (goes <= 0 || goes >= stops) {
        return GUIDED_PINS;
    }
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        if (goes < sizes[i] + CLEARANCE && stops > sizes[i]) {
            if (found != 0) {
                return GUIDED_PINS_COARSE;
            }
            found = sizes[i];
        }
    }
    if (found == 0) {
        return GUIDED_PINS_ODD;
    }
    *ret_bore = found;
    return GUIDED_NONE;
}

enum guided_problem guided_insertion(length_nm rod, length_nm outside, length_nm *ret_insertion) {
    if (!known(rod, outside)) {
        return GUIDED_NOT_MEASURED;
    }
    if (outside < 0 || rod - outside < INSERTION_MIN || rod - outside > INSERTION_MAX) {
        return GUIDED_INSERTION;
    }
    *ret_insertion = rod - outside;
    return GUIDED_NONE;
}

enum guided_problem guided_bore_by_fit(length_nm overall, length_nm raw, length_nm *ret_height) {
    if (!known(overall, raw)) {
        return GUIDED_NOT_MEASURED;
    }
    return plan_dry_fit(overall, raw, ret_height) ? GUIDED_NONE : GUIDED_BORE_HEIGHT;
}

enum guided_problem guided_bore_by_hosel(length_nm top_to_ground, length_nm insertion,
                                         length_nm *ret_height) {
    if (!known(top_to_ground, insertion)) {
        return GUIDED_NOT_MEASURED;
    }
    if (top_to_ground < insertion || top_to_ground - insertion > BORE_HEIGHT_MAX) {
        return GUIDED_BORE_HEIGHT;
    }
    *ret_height = top_to_ground - insertion;
    return GUIDED_NONE;
}

enum guided_problem guided_playing(const length_nm *pieces, size_t count, length_nm missing,
                                   length_nm *ret_playing) {
    length_nm sum = missing;
    if (count == 0 || count > GUIDED_PIECES_MAX || missing == LENGTH_UNKNOWN) {
        return GUIDED_NOT_MEASURED;
    }
    if (missing < 0 || missing > LENGTH_LIMIT) {
        return GUIDED_PLAYING;
    }
    for (size_t i = 0; i < count; i++) {
        if (pieces[i] == LENGTH_UNKNOWN) {
            return GUIDED_NOT_MEASURED;
        }
        if (pieces[i] <= 0 || pieces[i] > LENGTH_LIMIT) {
            return GUIDED_PLAYING;
        }
        sum += pieces[i];
    }
    if (!entry_final_length(sum)) {
        return GUIDED_PLAYING;
    }
    *ret_playing = sum;
    return GUIDED_NONE;
}

// --- flex ----------------------------------------------------------------------------------------

static struct guided_flex judge(const struct club *club, double cpm,
                                const struct guided_candidate *candidate,
                                const struct bench_rules *rules, const struct assembly *assembly) {
    struct club with = *club;
    struct guided_flex flex = {0};
    struct plan_input input;
    struct plan plan;
    struct estimate estimate;
    with.shaft = *candidate->shaft;
    with.model = *candidate->model;
    with.chart = candidate->chart != NULL ? *candidate->chart : (struct chart){0};
    with.profile = candidate->profile != NULL ? *candidate->profile : (struct profile){0};
    with.progress = (struct progress){.attempt = 1, .tip_made = LENGTH_UNKNOWN};
    club_plan(&with, rules, &input, &plan);
    estimate_make(&with, &plan, assembly, &estimate);
    flex.refusal = plan.refusal.code;
    flex.frequency = estimate.frequency;
    flex.off = flex.frequency.gap == ESTIMATE_GAP_NONE ? flex.frequency.value - cpm : 0;
    return flex;
}

static bool before(const struct guided_flex *a, const struct guided_flex *b) {
    bool a_known = a->frequency.gap == ESTIMATE_GAP_NONE;
    bool b_known = b->frequency.gap == ESTIMATE_GAP_NONE;
    return a_known && (!b_known || fabs(a->off) < fabs(b->off));
}

void guided_flex_rank(const struct club *club, double cpm,
                      const struct guided_candidate *candidates, size_t count,
                      const struct bench_rules *rules, const struct assembly *assembly,
                      struct guided_flex *ret_ranked) {
    for (size_t i = 0; i < count; i++) {
        struct guided_flex next = judge(club, cpm, &candidates[i], rules, assembly);
        size_t at = i;
        next.candidate = i;
        while (at > 0 && before(&next, &ret_ranked[at - 1])) {
            ret_ranked[at] = ret_ranked[at - 1];
            at--;
        }
        ret_ranked[at] = next;
    }
}

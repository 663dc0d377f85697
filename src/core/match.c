#include "match.h"

#include "match_value.h"

#include <math.h>

static void count(struct match_count *to, size_t shaft) {
    to->first = to->shafts == 0 ? shaft : to->first;
    to->shafts++;
}

// The cell of one club and one shaft; counts why it is none.
static int32_t cell(const struct match_request *request, size_t index, size_t shaft,
                    struct match_club *club) {
    struct club whole;
    match_value_club(request, index, shaft, &whole);
    struct match_value made = match_value_make(request, &whole);
    double hundredths = (made.value - club->aim) / match_value_unit(request->by) * MATCH_HUNDREDTHS;
    switch (made.kind) {
    case MATCH_VALUE_OTHER:
        count(&club->other, shaft);
        return ASSIGN_NONE;
    case MATCH_VALUE_REFUSED:
        count(&club->refused[made.refusal], shaft);
        return ASSIGN_NONE;
    case MATCH_VALUE_GAP:
        count(&club->unknown[made.gap], shaft);
        return ASSIGN_NONE;
    case MATCH_VALUE_KNOWN:
        break;
    }
    // Written so that what is no number is refused too: a line without a slope, say.
    if (!(fabs(hundredths) < ASSIGN_VALUE_MAX)) {
        count(&club->unknown[ESTIMATE_GAP_IMPLAUSIBLE], shaft);
        return ASSIGN_NONE;
    }
    club->usable++;
    return (int32_t)lround(hundredths);
}

static void fill(const struct match_request *request, struct match_result *result, int32_t *value) {
    for (size_t i = 0; i < result->count; i++) {
        for (size_t shaft = 0; shaft < request->shaft_count; shaft++) {
            *value++ = result->club[i].outcome == MATCH_CHOSEN
                           ? cell(request, i, shaft, &result->club[i])
                           : ASSIGN_NONE;
        }
    }
}

static void take_row(const struct match_request *request, const struct assign_row *row,
                     size_t index, struct match_club *club) {
    struct club whole;
    club->shaft = row->column;
    club->swaps = row->swaps;
    club->open = row->open;
    if (club->outcome != MATCH_CHOSEN) {
        return;
    }
    if (row->column == ASSIGN_NO_COLUMN) {
        club->outcome = club->usable == 0 ? MATCH_NONE_USABLE : MATCH_TOO_FEW;
        club->short_of = club->usable == 0 ? 0 : row->short_of;
        return;
    }
    match_value_club(request, index, (size_t)row->column, &whole);
    club->value = match_value_make(request, &whole).value;
}

bool match_build(const struct match_request *request, struct match_work *work,
                 struct match_result *ret_result) {
    struct assign_result assigned;
    struct assign_problem problem = {
        .value = work->value,
        .rows = request->club_count,
        .columns = request->shaft_count,
    };
    if (request->club_count > MATCH_CLUBS_MAX || request->shaft_count > MATCH_SHAFTS_MAX) {
        return false;
    }
    *ret_result = (struct match_result){.count = request->club_count};
    match_value_aims(request, ret_result);
    fill(request, ret_result, work->value);
    problem.aim = ret_result->aimed ? ASSIGN_AIM_ZERO : ASSIGN_AIM_MIDDLE;
    // Limits and values are within what assign.h takes, so it cannot refuse.
    if (!assign_solve(&problem, &work->assign, &assigned)) {
        return false;
    }
    double unit = match_value_unit(request->by);
    double middle = ((double)assigned.low + assigned.high) / 2 / MATCH_HUNDREDTHS * unit;
    ret_result->chosen = assigned.matched;
    ret_result->spread = ((double)assigned.high - assigned.low) / MATCH_HUNDREDTHS;
    for (size_t i = 0; i < ret_result->count; i++) {
        take_row(request, &assigned.row[i], i, &ret_result->club[i]);
        ret_result->club[i].aim += ret_result->aimed ? 0 : middle;
    }
    return true;
}

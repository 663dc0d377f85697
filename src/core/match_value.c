#include "match_value.h"

#include "text.h"

double match_value_unit(enum match_by by) {
    return by == MATCH_BY_SWINGWEIGHT ? BALANCE_POINT : 1;
}

// R4: the clubs that wish the same model share it.
static length_nm reference(const struct match_request *request, const struct order *order) {
    struct plan_bore bores[MATCH_CLUBS_MAX];
    size_t count = 0;
    for (size_t i = 0; i < request->club_count; i++) {
        const struct club *club = &request->clubs[i];
        if (club->head.ticket[0] != '\0' &&
            text_same(club->order.wished_model, order->wished_model)) {
            bores[count].kind = club->head.kind;
            bores[count].bore_height = head_bore_height(&club->head);
            count++;
        }
    }
    return plan_uniform_reference(bores, count);
}

void match_value_club(const struct match_request *request, size_t club, size_t shaft,
                      struct club *ret_club) {
    const struct match_shaft *from = &request->stock[shaft];
    enum chart_kind kind;
    *ret_club = request->clubs[club];
    ret_club->shaft = *from->shaft;
    ret_club->model = *from->model;
    ret_club->chart = (struct chart){0};
    ret_club->profile = (struct profile){0};
    if (chart_kind_for_head(ret_club->head.kind, &kind) && from->chart[kind] != NULL) {
        ret_club->chart = *from->chart[kind];
    }
    if (from->profile != NULL) {
        ret_club->profile = *from->profile;
    }
    if (ret_club->order.uniform_flex && ret_club->order.uniform_reference == LENGTH_UNKNOWN) {
        ret_club->order.uniform_reference = reference(request, &ret_club->order);
    }
}

static bool wished(const struct club *club) {
    const struct order *order = &club->order;
    return (order->wished_model[0] == '\0' || text_same(order->wished_model, club->shaft.model)) &&
           (order->wished_flex[0] == '\0' || text_same(order->wished_flex, club->shaft.flex));
}

static struct match_value swingweight(const struct match_request *request, const struct club *club,
                                      const struct plan *plan) {
    struct balance_club parts;
    bool assumed;
    enum estimate_gap gap = estimate_balance(club, plan, request->assembly, &parts, &assumed);
    if (gap != ESTIMATE_GAP_NONE) {
        return (struct match_value){.kind = MATCH_VALUE_GAP, .gap = gap};
    }
    struct balance_sum sum = balance_add(&parts);
    return (struct match_value){.kind = MATCH_VALUE_KNOWN, .value = balance_swingweight(&sum)};
}

static struct match_value frequency(const struct match_request *request, const struct club *club,
                                    const struct plan *plan) {
    struct estimate estimate;
    estimate_make(club, plan, request->assembly, &estimate);
    if (estimate.frequency.gap != ESTIMATE_GAP_NONE) {
        return (struct match_value){.kind = MATCH_VALUE_GAP, .gap = estimate.frequency.gap};
    }
    return (struct match_value){.kind = MATCH_VALUE_KNOWN, .value = estimate.frequency.value};
}

struct match_value match_value_make(const struct match_request *request, const struct club *club) {
    struct plan_input input;
    struct plan plan;
    if (!wished(club)) {
        return (struct match_value){.kind = MATCH_VALUE_OTHER};
    }
    if (!club_plan(club, request->rules, &input, &plan)) {
        return (struct match_value){.kind = MATCH_VALUE_REFUSED, .refusal = plan.refusal.code};
    }
    return request->by == MATCH_BY_SWINGWEIGHT ? swingweight(request, club, &plan)
                                               : frequency(request, club, &plan);
}

// --- aims --------------------------------------------------------------------------------------

static void flex_aims(const struct match_request *request, struct match_result *result) {
    const struct match_line *line = &request->line;
    result->aimed = line->anchored;
    for (size_t i = 0; i < result->count; i++) {
        int position = request->clubs[i].order.position;
        result->club[i].aim = line->anchored ? line->cpm + line->slope * (position - line->position)
                                             : line->slope * position;
    }
}

// A club that counts and says itself what it wishes.
static bool wishes(const struct match_result *result, size_t i) {
    return result->club[i].outcome == MATCH_CHOSEN && !result->club[i].wish_assumed;
}

static bool common_wish(const struct match_result *result, double *ret_wish) {
    size_t most = 0;
    for (size_t i = 0; i < result->count; i++) {
        size_t same = 0;
        for (size_t k = 0; wishes(result, i) && k < result->count; k++) {
            same += wishes(result, k) && result->club[k].aim == result->club[i].aim ? 1 : 0;
        }
        if (same > most) {
            most = same;
            *ret_wish = result->club[i].aim;
        }
    }
    return most > 0;
}

static void swingweight_aims(const struct match_request *request, struct match_result *result) {
    double wish = 0;
    for (size_t i = 0; i < result->count; i++) {
        struct match_club *club = &result->club[i];
        enum balance_scale_error error =
            balance_scale_parse(request->clubs[i].order.swingweight, &club->aim);
        club->wish_assumed = error == BALANCE_SCALE_EMPTY;
        if (error != BALANCE_SCALE_OK && error != BALANCE_SCALE_EMPTY &&
            club->outcome == MATCH_CHOSEN) {
            club->outcome = MATCH_BAD_WISH;
        }
    }
    result->aimed = common_wish(result, &wish);
    for (size_t i = 0; i < result->count; i++) {
        if (result->club[i].wish_assumed) {
            result->club[i].aim = wish;
            result->club[i].wish_assumed = result->aimed;
        }
    }
}

void match_value_aims(const struct match_request *request, struct match_result *result) {
    for (size_t i = 0; i < result->count; i++) {
        bool head = request->clubs[i].head.ticket[0] != '\0';
        result->club[i].outcome = head ? MATCH_CHOSEN : MATCH_NO_HEAD;
    }
    if (request->by == MATCH_BY_FLEX) {
        flex_aims(request, result);
    } else {
        swingweight_aims(request, result);
    }
}

#include "kit_before.h"
#include "balance.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

struct before {
    const struct kit *kit;
    const struct bench_rules *rules;
    const struct assembly *assembly;
    size_t count; // clubs that wait, in the order of the kit list
    struct club club[SET_CLUBS_MAX];
    char taken[SET_CLUBS_MAX][TICKET_TEXT_MAX];
    struct stock stock; // that one of them wishes
    struct shaft shaft[STORE_STOCK_MAX];
};

static bool keep_waiting(void *context, const struct club *club,
                         const struct final_values *values) {
    struct before *before = context;
    (void)values;
    if (kit_waits(club)) {
        before->club[before->count++] = *club;
    }
    return before->count < SET_CLUBS_MAX;
}

// The club made of that shaft; false when it has no valid plan or no known value.
static bool value_with(const struct before *before, const struct club *waiting,
                       const struct shaft *shaft, double *ret_value) {
    struct club club = *waiting;
    struct plan_input input;
    struct plan plan;
    struct estimate estimate;
    enum chart_kind kind;
    if (!chart_kind_for_head(club.head.kind, &kind)) {
        return false;
    }
    club.shaft = *shaft;
    club.model = before->stock.model;
    club.chart = before->stock.chart[kind];
    club.profile = before->stock.profile;
    if (!club_plan(&club, before->rules, &input, &plan)) {
        return false;
    }
    estimate_make(&club, &plan, before->assembly, &estimate);
    const struct estimate_value *value =
        before->kit->by == MATCH_BY_SWINGWEIGHT ? &estimate.swingweight : &estimate.frequency;
    if (value->gap != ESTIMATE_GAP_NONE) {
        return false;
    }
    *ret_value = value->value;
    return true;
}

static bool is_taken(const struct before *before, size_t clubs, const char *ticket) {
    for (size_t i = 0; i < clubs; i++) {
        if (strcmp(before->taken[i], ticket) == 0) {
            return true;
        }
    }
    return false;
}

static bool take_next(struct store *store, struct before *before, size_t at, double *ret_value) {
    const struct club *club = &before->club[at];
    int count = store_stock(store, club->order.wished_model, club->order.wished_flex,
                            &before->stock, before->shaft, STORE_STOCK_MAX);
    for (int i = 0; i < count; i++) {
        if (!is_taken(before, at, before->shaft[i].ticket) &&
            value_with(before, club, &before->shaft[i], ret_value)) {
            memcpy(before->taken[at], before->shaft[i].ticket, sizeof before->taken[at]);
            return true;
        }
    }
    return false;
}

static bool spread(struct store *store, struct before *before, double *ret_spread) {
    double least = INFINITY;
    double most = -INFINITY;
    for (size_t i = 0; i < before->count; i++) {
        double value;
        if (!take_next(store, before, i, &value)) {
            return false;
        }
        least = fmin(least, value - before->kit->club[i].aim);
        most = fmax(most, value - before->kit->club[i].aim);
    }
    *ret_spread = (most - least) / (before->kit->by == MATCH_BY_SWINGWEIGHT ? BALANCE_POINT : 1);
    return true;
}

bool kit_before(struct store *store, const struct kit *kit, const struct bench_rules *rules,
                const struct assembly *assembly, double *ret_spread) {
    struct before *before = calloc(1, sizeof *before);
    bool known = false;
    if (before == NULL) {
        return false;
    }
    before->kit = kit;
    before->rules = rules;
    before->assembly = assembly;
    if (kit->chosen == kit->count &&
        store_build_clubs(store, kit->build, keep_waiting, before) == STORE_OK &&
        before->count == kit->count) {
        known = spread(store, before, ret_spread);
    }
    free(before);
    return known;
}

#include "builds.h"
#include "balance.h"

#include <stdlib.h>
#include <string.h>

struct build {
    size_t count;
    struct club club[SET_CLUBS_MAX];
    struct final_values values[SET_CLUBS_MAX];
};

static struct set_measured measured_of(const struct final_values *values) {
    struct set_measured to = {0};
    double inch_ounces;
    if (values->length != LENGTH_UNKNOWN) {
        to.known[SET_LENGTH] = true;
        to.value[SET_LENGTH] = (double)values->length / (double)LENGTH_INCH;
    }
    if (balance_scale_parse(values->swingweight, &inch_ounces) == BALANCE_SCALE_OK) {
        to.known[SET_SWINGWEIGHT] = true;
        to.value[SET_SWINGWEIGHT] = inch_ounces;
    }
    if (values->frequency != FREQUENCY_UNKNOWN) {
        to.known[SET_FREQUENCY] = true;
        to.value[SET_FREQUENCY] = (double)values->frequency / 10;
    }
    return to;
}

// What the assembled club is worth, as assembly_check says it.
static void judge(const struct club *club, const struct final_values *values,
                  const struct bench_rules *rules, const struct assembly *assembly,
                  const struct assembly_tolerance *tolerance, struct set_measured *measured) {
    static const enum set_value of[] = {[ASSEMBLY_LENGTH] = SET_LENGTH,
                                        [ASSEMBLY_SWINGWEIGHT] = SET_SWINGWEIGHT,
                                        [ASSEMBLY_FREQUENCY] = SET_FREQUENCY};
    struct assembly_values planned, made;
    struct assembly_check check;
    assembly_planned(club, rules, assembly, &planned);
    assembly_measured(values, &made);
    assembly_check(&planned, &made, assembly_accepted(values), tolerance, &check);
    for (size_t i = 0; i < sizeof of / sizeof *of; i++) {
        measured->out[of[i]] = check.state[i] == ASSEMBLY_OUT;
    }
}

static bool take_club(void *context, const struct club *club, const struct final_values *values) {
    struct build *build = context;
    build->club[build->count] = *club;
    build->values[build->count] = *values;
    build->count++;
    return build->count < SET_CLUBS_MAX;
}

static bool take_waiting(void *context, const struct club *club,
                         const struct final_values *values) {
    return !kit_waits(club) || take_club(context, club, values);
}

static enum store_result read_build(struct store *store, const char *name, store_club_each *each,
                                    struct build **ret_build) {
    struct build *build = calloc(1, sizeof *build);
    if (build == NULL) {
        return STORE_FAILED;
    }
    enum store_result result = store_build_clubs(store, name, each, build);
    if (result == STORE_OK && build->count == 0) {
        result = STORE_NONE;
    }
    if (result != STORE_OK) {
        free(build);
        return result;
    }
    *ret_build = build;
    return STORE_OK;
}

enum store_result builds_set(struct store *store, const char *build,
                             const struct bench_rules *rules, const struct assembly *assembly,
                             const struct assembly_tolerance *tolerance, struct set *ret_set) {
    struct set_measured measured[SET_CLUBS_MAX];
    struct build *read;
    enum store_result result = read_build(store, build, take_club, &read);
    if (result == STORE_OK) {
        for (size_t i = 0; i < read->count; i++) {
            measured[i] = measured_of(&read->values[i]);
            if (tolerance != NULL) {
                judge(&read->club[i], &read->values[i], rules, assembly, tolerance, &measured[i]);
            }
        }
        set_make(read->club, measured, read->count, rules, assembly, ret_set);
        free(read);
    }
    return result;
}

// --- the kit list -------------------------------------------------------------------------------

// All the stock that some club of the build wishes, one entry a model and flex.
struct shelves {
    size_t count;
    struct stock stock[SET_CLUBS_MAX];
    size_t shaft_count;
    struct shaft shaft[MATCH_SHAFTS_MAX];
    struct match_shaft match[MATCH_SHAFTS_MAX];
    struct match_work work;
    struct match_result result;
};

static bool wished_before(const struct build *build, size_t at) {
    const struct order *order = &build->club[at].order;
    for (size_t i = 0; i < at; i++) {
        const struct order *other = &build->club[i].order;
        if (strcmp(order->wished_model, other->wished_model) == 0 &&
            strcmp(order->wished_flex, other->wished_flex) == 0) {
            return true;
        }
    }
    return false;
}

static void offer(struct shelves *shelves, const struct stock *stock, int count) {
    for (int i = 0; i < count; i++) {
        size_t at = shelves->shaft_count++;
        struct match_shaft *to = &shelves->match[at];
        *to = (struct match_shaft){
            .shaft = &shelves->shaft[at], .model = &stock->model, .profile = &stock->profile};
        for (int kind = 0; kind < CHART_KIND_COUNT; kind++) {
            to->chart[kind] = stock->chart[kind].count > 0 ? &stock->chart[kind] : NULL;
        }
    }
}

static enum store_result fetch(struct store *store, const struct build *build,
                               struct shelves *shelves) {
    for (size_t i = 0; i < build->count; i++) {
        const struct order *order = &build->club[i].order;
        int room = (int)(MATCH_SHAFTS_MAX - shelves->shaft_count);
        if (wished_before(build, i) || room == 0) {
            continue;
        }
        struct stock *stock = &shelves->stock[shelves->count++];
        int count = store_stock(store, order->wished_model, order->wished_flex, stock,
                                shelves->shaft + shelves->shaft_count, room);
        if (count < 0) {
            return STORE_FAILED;
        }
        offer(shelves, stock, count);
    }
    return STORE_OK;
}

enum store_result builds_kit(struct store *store, const char *build, enum match_by by,
                             const struct bench_rules *rules, const struct assembly *assembly,
                             struct kit *ret_kit) {
    struct build *read;
    enum store_result result = read_build(store, build, take_waiting, &read);
    struct shelves *shelves;
    if (result != STORE_OK) {
        return result;
    }
    shelves = calloc(1, sizeof *shelves);
    result = shelves != NULL ? fetch(store, read, shelves) : STORE_FAILED;
    if (result == STORE_OK) {
        struct match_request request = {.by = by,
                                        .line = {.slope = MATCH_SLOPE_DEFAULT},
                                        .clubs = read->club,
                                        .club_count = read->count,
                                        .stock = shelves->match,
                                        .shaft_count = shelves->shaft_count,
                                        .rules = rules,
                                        .assembly = assembly};
        match_build(&request, &shelves->work, &shelves->result);
        kit_make(&request, &shelves->result, ret_kit);
    }
    free(shelves);
    free(read);
    return result;
}

#include "explore.h"
#include "explore_state.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

// How a state was reached, for the report of a broken law.
struct origin {
    uint32_t parent;
    uint8_t step;
    uint8_t depth;
};

struct seen {
    uint64_t *hash; // 0: empty
    uint32_t *id;
    size_t size; // power of two
    size_t used;
};

struct frontier {
    struct packed *item;
    size_t count;
    size_t room;
};

struct explorer {
    struct catalogue catalogue;
    struct seen seen;
    struct seen probed; // law 7: progress of clubs already tried
    struct origin *origins;
    size_t origin_count;
    size_t origin_room;
    struct frontier now;
    struct frontier next;
    uint32_t *edge; // where each event of each expanded state leads, in the order of ids
    size_t edge_count;
    size_t edge_room;
    size_t *first_edge; // by id
    struct explore_report *report;
};

static void seen_grow(struct seen *seen);

// The id this hash has, *ret_new when it is the one given now.
static uint32_t seen_add(struct seen *seen, uint64_t hash, uint32_t id, bool *ret_new) {
    if (2 * (seen->used + 1) > seen->size) {
        seen_grow(seen);
    }
    size_t at = (size_t)hash & (seen->size - 1);
    while (seen->hash[at] != 0) {
        if (seen->hash[at] == hash) {
            *ret_new = false;
            return seen->id[at];
        }
        at = (at + 1) & (seen->size - 1);
    }
    seen->hash[at] = hash;
    seen->id[at] = id;
    seen->used++;
    *ret_new = true;
    return id;
}

static void seen_grow(struct seen *seen) {
    struct seen larger = {.size = seen->size == 0 ? 1 << 16 : 2 * seen->size};
    bool added;
    larger.hash = explore_must(calloc(larger.size, sizeof larger.hash[0]));
    larger.id = explore_must(calloc(larger.size, sizeof larger.id[0]));
    for (size_t i = 0; i < seen->size; i++) {
        if (seen->hash[i] != 0) {
            seen_add(&larger, seen->hash[i], seen->id[i], &added);
        }
    }
    free(seen->hash);
    free(seen->id);
    *seen = larger;
}

// --- the walk ------------------------------------------------------------------------------------

static uint32_t remember(struct explorer *e, uint32_t parent, size_t step, int depth) {
    if (e->origin_count == e->origin_room) {
        e->origin_room = e->origin_room == 0 ? 1 << 16 : 2 * e->origin_room;
        e->origins = explore_must(realloc(e->origins, e->origin_room * sizeof e->origins[0]));
        e->first_edge =
            explore_must(realloc(e->first_edge, e->origin_room * sizeof e->first_edge[0]));
    }
    e->origins[e->origin_count] =
        (struct origin){.parent = parent, .step = (uint8_t)step, .depth = (uint8_t)depth};
    return (uint32_t)e->origin_count++;
}

static void put(struct frontier *frontier, const struct state *state, uint32_t id) {
    if (frontier->count == frontier->room) {
        frontier->room = frontier->room == 0 ? 1024 : 2 * frontier->room;
        frontier->item =
            explore_must(realloc(frontier->item, frontier->room * sizeof frontier->item[0]));
    }
    struct packed *item = &frontier->item[frontier->count++];
    item->id = id;
    state_pack(state, item);
}

static void lead(struct explorer *e, uint32_t to) {
    if (e->edge_count == e->edge_room) {
        e->edge_room = e->edge_room == 0 ? 1 << 16 : 2 * e->edge_room;
        e->edge = explore_must(realloc(e->edge, e->edge_room * sizeof e->edge[0]));
    }
    e->edge[e->edge_count++] = to;
}

// Sequences of exactly `depth` events: every one of them passes through expanded states only.
static double count_paths(const struct explorer *e, int depth, size_t expanded, size_t edges) {
    double *now = explore_must(calloc(e->origin_count, sizeof *now));
    double *next = explore_must(calloc(e->origin_count, sizeof *next));
    double sum = 0;
    now[0] = 1;
    for (int i = 0; i < depth; i++) {
        memset(next, 0, e->origin_count * sizeof *next);
        for (size_t id = 0; id < expanded; id++) {
            size_t end = id + 1 < expanded ? e->first_edge[id + 1] : edges;
            for (size_t at = e->first_edge[id]; now[id] > 0 && at < end; at++) {
                next[e->edge[at]] += now[id];
            }
        }
        double *swap = now;
        now = next;
        next = swap;
    }
    for (size_t id = 0; id < e->origin_count; id++) {
        sum += now[id];
    }
    free(now);
    free(next);
    return sum;
}

static void begin(struct explorer *e, struct state *state, const struct station_ops *ops) {
    struct station_settings settings = shop_settings();
    memset(state, 0, sizeof *state);
    shop_catalogue(&e->catalogue);
    shop_init(&state->shop, &e->catalogue);
    station_init(&state->station, &settings, ops);
}

// Walks the whole way to `id` again, so that each event of it can be named.
static void tell_path(struct explorer *e, uint32_t id, size_t last, int faults) {
    static struct state state;
    static struct view view;
    struct station_ops ops = shop_ops_for(&state.shop);
    uint8_t steps[64];
    int count = 0;
    char *to = e->report->path;
    size_t room = sizeof e->report->path;
    for (uint32_t at = id; e->origins[at].depth > 0; at = e->origins[at].parent) {
        steps[e->origins[at].depth - 1] = e->origins[at].step;
        count = count == 0 ? e->origins[at].depth : count;
    }
    steps[count++] = (uint8_t)last;
    begin(e, &state, &ops);
    for (int i = 0; i < count; i++) {
        struct step list[EXPLORE_EVENTS];
        char name[160];
        station_view(&state.station, &view);
        explore_steps(&state.station, &view, faults > 0, list, EXPLORE_EVENTS);
        faults -= list[steps[i]].is_fault ? 1 : 0;
        explore_name(&list[steps[i]], name, sizeof name);
        explore_apply(&list[steps[i]], &state.station, &state.shop);
        int written =
            snprintf(to, room, "  %s -> %s\n", name, station_state_name(state.station.state));
        if (written < 0 || (size_t)written >= room) {
            return;
        }
        to += written;
        room -= (size_t)written;
    }
}

static const char *probe(struct explorer *e, const struct shop *shop) {
    for (int64_t id = 1; id <= 2; id++) {
        const struct progress *progress = &shop->club[id - 1].progress;
        uint64_t key[3] = {
            (uint64_t)id << 8 | (uint64_t)progress->stage, (uint64_t)progress->tip_made,
            (uint64_t)shop->club[id - 1].bore_height << 1 | (progress->butt_seq != 0)};
        bool added;
        seen_add(&e->probed, state_mix(99, key, sizeof key) | 1, 0, &added);
        if (added) {
            e->report->restarts++;
            const char *broken = laws_restart(shop, id);
            if (broken != NULL) {
                return broken;
            }
        }
    }
    return NULL;
}

static void expand(struct explorer *e, const struct packed *item, int depth, int faults) {
    static struct state from;
    static struct state to;
    static struct view view;
    static struct view after;
    struct step steps[EXPLORE_EVENTS];
    struct station_ops ops = shop_ops_for(&to.shop);
    e->first_edge[item->id] = e->edge_count;
    state_unpack(item, &from);
    memcpy(&to, &from, sizeof to);
    to.station.ops = &ops;
    station_view(&to.station, &view);
    size_t count = explore_steps(&to.station, &view, from.faults_left > 0, steps, EXPLORE_EVENTS);
    for (size_t i = 0; i < count; i++) {
        struct laws_before before;
        memcpy(&to, &from, sizeof to);
        to.station.ops = &ops;
        to.faults_left -= steps[i].is_fault ? 1 : 0;
        to.shop.now_ms += steps[i].ms;
        laws_remember(&to.station, &to.shop, &before);
        to.shop.now_ms -= steps[i].ms;
        explore_apply(&steps[i], &to.station, &to.shop);
        station_view(&to.station, &after);
        e->report->transitions++;
        const char *broken = laws_judge(&to.station, &to.shop, &before, &steps[i].event, &after);
        broken = broken != NULL ? broken : probe(e, &to.shop);
        if (broken != NULL && e->report->broken == NULL) {
            e->report->broken = broken;
            tell_path(e, item->id, i, faults);
            return;
        }
        bool added;
        to.station.ops = NULL;
        uint32_t id = seen_add(&e->seen, state_hash(&to), (uint32_t)e->origin_count, &added);
        lead(e, id);
        if (added) {
            e->report->logged += to.station.state == STATION_LOGGED ? 1 : 0;
            put(&e->next, &to, remember(e, item->id, i, depth + 1));
        }
    }
}

static double clock_s(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

static void clear(struct frontier *frontier) {
    for (size_t i = 0; i < frontier->count; i++) {
        free(frontier->item[i].words);
    }
    frontier->count = 0;
}

void explore(const struct explore_limits *limits, struct explore_report *ret_report) {
    static struct explorer e;
    static struct state start;
    struct station_ops ops = shop_ops_for(&start.shop);
    double end = clock_s() + limits->seconds;
    memset(&e, 0, sizeof e);
    memset(ret_report, 0, sizeof *ret_report);
    e.report = ret_report;
    begin(&e, &start, &ops);
    start.faults_left = limits->faults;
    start.station.ops = NULL;
    bool added;
    size_t expanded = 0;
    size_t edges = 0;
    seen_add(&e.seen, state_hash(&start), 0, &added);
    put(&e.now, &start, remember(&e, 0, 0, 0));
    for (int depth = 0; depth < limits->depth && ret_report->broken == NULL; depth++) {
        for (size_t i = 0; i < e.now.count && ret_report->broken == NULL; i++) {
            expand(&e, &e.now.item[i], depth, limits->faults);
            if ((i % 256 == 0 && clock_s() > end) || e.seen.used > limits->max_states) {
                goto stop;
            }
        }
        expanded += e.now.count;
        edges = e.edge_count;
        ret_report->depth = depth + 1;
        ret_report->at_depth[depth + 1] = e.next.count;
        clear(&e.now);
        struct frontier swap = e.now;
        e.now = e.next;
        e.next = swap;
        if (e.now.count == 0) {
            ret_report->complete = true;
            break;
        }
    }
stop:
    ret_report->paths = count_paths(&e, ret_report->depth, expanded, edges);
    ret_report->states = e.seen.used;
    clear(&e.now);
    clear(&e.next);
    free(e.now.item);
    free(e.next.item);
    free(e.seen.hash);
    free(e.seen.id);
    free(e.probed.hash);
    free(e.probed.id);
    free(e.edge);
    free(e.first_edge);
    free(e.origins);
}

#include "explore.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

struct state {
    struct station station;
    struct shop shop;
    int faults_left;
};

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

struct packed {
    uint32_t id;
    size_t size;
    uint64_t *words;
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

static void *must(void *memory) {
    if (memory == NULL) {
        fprintf(stderr, "explore: no memory\n");
        exit(1);
    }
    return memory;
}

// --- states as sparse words: most of a state is zero -------------------------------------------

#define STATE_WORDS (sizeof(struct state) / sizeof(uint64_t))
_Static_assert(sizeof(struct state) % sizeof(uint64_t) == 0, "a state is whole words");

static void pack(const struct state *state, struct packed *packed) {
    const uint64_t *from = (const uint64_t *)(const void *)state;
    static uint64_t words[2 * STATE_WORDS];
    size_t used = 0;
    for (size_t i = 0; i < STATE_WORDS;) {
        size_t start = i;
        while (i < STATE_WORDS && from[i] == 0) {
            i++;
        }
        size_t zeros = i - start;
        start = i;
        while (i < STATE_WORDS && from[i] != 0) {
            i++;
        }
        words[used++] = (uint64_t)zeros << 32 | (i - start);
        memcpy(words + used, from + start, (i - start) * sizeof(uint64_t));
        used += i - start;
    }
    packed->size = used;
    packed->words = must(malloc(used * sizeof(uint64_t)));
    memcpy(packed->words, words, used * sizeof(uint64_t));
}

static void unpack(const struct packed *packed, struct state *state) {
    uint64_t *to = (uint64_t *)(void *)state;
    size_t at = 0;
    memset(state, 0, sizeof *state);
    for (size_t i = 0; i < packed->size;) {
        size_t zeros = (size_t)(packed->words[i] >> 32);
        size_t words = (size_t)(packed->words[i] & 0xFFFFFFFFu);
        at += zeros;
        memcpy(to + at, packed->words + i + 1, words * sizeof(uint64_t));
        at += words;
        i += 1 + words;
    }
}

// --- what makes two states the same ------------------------------------------------------------

static int64_t left(int64_t until, int64_t now) {
    return until > now ? until - now : 0;
}

static int64_t stands(int64_t seq, int64_t fact) {
    return seq == 0 ? 0 : seq == fact ? 1 : 2;
}

static void canonical_progress(struct progress *progress, const struct progress *fact) {
    progress->tip_seq = stands(progress->tip_seq, fact->tip_seq);
    progress->butt_seq = stands(progress->butt_seq, fact->butt_seq);
    progress->measure_seq = stands(progress->measure_seq, fact->measure_seq);
    progress->decision_seq = stands(progress->decision_seq, fact->decision_seq);
}

// Workers of one role are alike: the alphabet has the badges of both.
static void canonical_worker(char badge[TICKET_TEXT_MAX]) {
    bool somebody = badge[0] != '\0';
    memset(badge, 0, TICKET_TEXT_MAX);
    badge[0] = (char)somebody;
}

static bool needs_number(const struct station *s) {
    return s->state == STATION_DRY_FIT || s->state == STATION_MISCUT ||
           s->state == STATION_MEASURE || s->state == STATION_HOLD || s->state == STATION_LOGGED;
}

static void canonical_station(struct station *s, const struct shop *shop) {
    int64_t now = shop->now_ms;
    s->dead_until_ms = 0; // a bounce is tried on each state when it is first met
    s->last_cause = HOLD_NONE;
    s->last_words = 0; // only whether a repeated stop is logged again
    canonical_worker(s->worker.badge);
    memset(s->worker.name, 0, sizeof s->worker.name);
    canonical_worker(s->pending.worker);
    if (!needs_number(s)) {
        memset(&s->number, 0, sizeof s->number);
    }
    s->club.progress.attempt = s->club.progress.attempt > 1 ? 2 : s->club.progress.attempt;
    s->pending.attempt = s->pending.attempt > 1 ? 2 : s->pending.attempt;
    s->retry_ms = s->saving == SAVING_NONE ? 0 : left(s->retry_ms, now);
    s->last_input_ms = 0; // the long tick is longer than any idling
    s->entered_ms = 0;    // so is the short one for the logged view
    s->shown_seq = s->shown_seq != 0;
    s->cut_id[0] = s->cut_id[0] != '\0';
    memset(s->cut_id + 1, 0, sizeof s->cut_id - 1);
    if (s->club.id != 0) {
        canonical_progress(&s->club.progress, &shop->club[s->club.id - 1].progress);
    }
    s->pending.wall_ms = 0;
    s->pending.mono_ms = 0;
    s->pending.seq = 0;
    s->pending.refers = s->pending.refers != 0;
    if (s->pending.confirm_id[0] != '\0') {
        int64_t seq;
        struct shop look = *shop;
        look.blind = 0;
        bool there = shop_ops.saved(&look, s->pending.confirm_id, &seq) == STATION_FOUND;
        memset(s->pending.confirm_id, 0, sizeof s->pending.confirm_id);
        s->pending.confirm_id[0] = there ? 'f' : 'a';
    }
}

// Only what later events can depend on.
struct shop_essence {
    struct shop_club club[SHOP_CLUBS];
    bool care[MATERIAL_COUNT];
    char worker[TICKET_TEXT_MAX];
    int blind;
    int faults_left;
    enum verdict measured;
};

static uint64_t mix(uint64_t hash, const void *bytes, size_t size) {
    const uint64_t *at = bytes;
    for (size_t i = 0; i < size / sizeof(uint64_t); i++) {
        hash = (hash ^ at[i]) * 0x9E3779B97F4A7C15u;
        hash ^= hash >> 29;
    }
    const unsigned char *rest = (const unsigned char *)bytes + size / 8 * 8;
    for (size_t i = 0; i < size % 8; i++) {
        hash = (hash ^ rest[i]) * 0x9E3779B97F4A7C15u;
        hash ^= hash >> 29;
    }
    return hash;
}

static uint64_t state_hash(const struct state *state) {
    static struct station station;
    static struct shop_essence essence;
    const struct shop *shop = &state->shop;
    memcpy(&station, &state->station, sizeof station);
    canonical_station(&station, shop);
    memset(&essence, 0, sizeof essence);
    for (int i = 0; i < SHOP_CLUBS; i++) {
        memcpy(&essence.club[i], &shop->club[i], sizeof essence.club[i]);
        struct progress fact = shop->club[i].progress;
        canonical_progress(&essence.club[i].progress, &fact);
        essence.club[i].progress.attempt = fact.attempt > 1 ? 2 : fact.attempt;
        essence.club[i].tip_cut = stands(shop->club[i].tip_cut, fact.tip_seq);
        essence.club[i].butt_cut = stands(shop->club[i].butt_cut, fact.butt_seq);
    }
    memcpy(essence.care, shop->care, sizeof essence.care);
    memcpy(essence.worker, shop->worker, sizeof essence.worker);
    canonical_worker(essence.worker);
    essence.blind = shop->blind;
    essence.measured = shop->measured;
    essence.faults_left = state->faults_left;
    uint64_t hash = mix(0x243F6A8885A308D3u, &station, sizeof station);
    hash = mix(hash, &essence, sizeof essence);
    return hash == 0 ? 1 : hash;
}

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
    larger.hash = must(calloc(larger.size, sizeof larger.hash[0]));
    larger.id = must(calloc(larger.size, sizeof larger.id[0]));
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
        e->origins = must(realloc(e->origins, e->origin_room * sizeof e->origins[0]));
        e->first_edge = must(realloc(e->first_edge, e->origin_room * sizeof e->first_edge[0]));
    }
    e->origins[e->origin_count] =
        (struct origin){.parent = parent, .step = (uint8_t)step, .depth = (uint8_t)depth};
    return (uint32_t)e->origin_count++;
}

static void put(struct frontier *frontier, const struct state *state, uint32_t id) {
    if (frontier->count == frontier->room) {
        frontier->room = frontier->room == 0 ? 1024 : 2 * frontier->room;
        frontier->item = must(realloc(frontier->item, frontier->room * sizeof frontier->item[0]));
    }
    struct packed *item = &frontier->item[frontier->count++];
    item->id = id;
    pack(state, item);
}

static void lead(struct explorer *e, uint32_t to) {
    if (e->edge_count == e->edge_room) {
        e->edge_room = e->edge_room == 0 ? 1 << 16 : 2 * e->edge_room;
        e->edge = must(realloc(e->edge, e->edge_room * sizeof e->edge[0]));
    }
    e->edge[e->edge_count++] = to;
}

// Sequences of exactly `depth` events: every one of them passes through expanded states only.
static double count_paths(const struct explorer *e, int depth, size_t expanded, size_t edges) {
    double *now = must(calloc(e->origin_count, sizeof *now));
    double *next = must(calloc(e->origin_count, sizeof *next));
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
        seen_add(&e->probed, mix(99, key, sizeof key) | 1, 0, &added);
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
    unpack(item, &from);
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

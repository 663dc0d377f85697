// What a state is, when two are the same, and how to keep many.

#include "explore_state.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void *explore_must(void *memory) {
    if (memory == NULL) {
        fprintf(stderr, "explore: no memory\n");
        exit(1);
    }
    return memory;
}

// --- states as sparse words: most of a state is zero -------------------------------------------

#define STATE_WORDS (sizeof(struct state) / sizeof(uint64_t))
_Static_assert(sizeof(struct state) % sizeof(uint64_t) == 0, "a state is whole words");

void state_pack(const struct state *state, struct packed *packed) {
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
    packed->words = explore_must(malloc(used * sizeof(uint64_t)));
    memcpy(packed->words, words, used * sizeof(uint64_t));
}

void state_unpack(const struct packed *packed, struct state *state) {
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
    s->begun = false;     // only news of the bench itself asks for it
    s->looked_page = 0;   // as is nothing but what is shown
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
    s->club.order.changed_seq = stands(s->club.order.changed_seq, shop->changed_seq);
    s->hold.told = stands(s->hold.told, shop->newest_seq);
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
    int changes;
};

uint64_t state_mix(uint64_t hash, const void *bytes, size_t size) {
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

uint64_t state_hash(const struct state *state) {
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
    essence.changes = shop->changes;
    essence.faults_left = state->faults_left;
    uint64_t hash = state_mix(0x243F6A8885A308D3u, &station, sizeof station);
    hash = state_mix(hash, &essence, sizeof essence);
    return hash == 0 ? 1 : hash;
}

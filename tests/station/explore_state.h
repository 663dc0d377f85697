#ifndef EXPLORE_STATE_H
#define EXPLORE_STATE_H

// A bench and its workshop as one value. Two are the same when no later event can tell them apart.

#include "shop.h"

struct state {
    struct station station;
    struct shop shop;
    int faults_left;
};

// A state as sparse words: most of it is zero.
struct packed {
    uint32_t id;
    size_t size;
    uint64_t *words;
};

void state_pack(const struct state *state, struct packed *packed);
void state_unpack(const struct packed *packed, struct state *state);

// Never 0. Times count as what is left of them, entries as whether they stand, ids as whether they
// are used, workers as their role.
uint64_t state_hash(const struct state *state);
uint64_t state_mix(uint64_t hash, const void *bytes, size_t size);

void *explore_must(void *memory); // ends the program when there is none

#endif

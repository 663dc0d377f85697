#ifndef SCAN_SET_H
#define SCAN_SET_H

// The pictures of the comparison: this shop's tickets, each group worse from level to level until
// nobody reads it, so that rates compare readers and do not foretell a shop.

#include "scene.h"

#define SET_LEVELS 13
#define SET_GROUPS 12
#define SET_SIZE (SET_GROUPS * 2 * SET_LEVELS * 2) // symbologies, sizes of the frame

const char *set_group_name(int group);

// Scene `index` of the set made from `seed`; *ret_group says which group it is of.
struct scene set_scene(uint64_t seed, int index, int *ret_group);

// A scene with nothing in it that may be read as a part: no code, codes of others, tickets with a
// wrong check character, tickets torn.
struct scene set_negative(uint64_t seed, int index);

#endif

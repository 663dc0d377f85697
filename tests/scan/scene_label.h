#ifndef SCENE_LABEL_H
#define SCENE_LABEL_H

// The label of a scene, flat: share of ink per dot.

#include "scene.h"

#define LABEL_DOTS 6 // a module

struct label {
    int width; // dots
    int height;
    float *ink;      // 0 paper to 1 ink
    int symbol_left; // where on it the symbol is, dots
    int symbol_top;
    int symbol_width;
    int symbol_height;
};

bool label_draw(const struct scene *scene, uint64_t *random, struct label *ret_label);

#endif

#ifndef SCENE_H
#define SCENE_H

// Made-up camera pictures of a label on a bench: the symbol comes from libzint, what spoils it from
// a seed. The same scene is the same picture everywhere.

#include "frame.h"

enum scene_symbol {
    SCENE_NOTHING, // a blank label
    SCENE_CODE128,
    SCENE_QR,
    SCENE_EAN13,
    SCENE_CODE39,
    SCENE_ITF,
    SCENE_CODABAR,
    SCENE_DATAMATRIX
};

struct scene {
    uint64_t seed;
    int width;
    int height;
    enum scene_symbol symbol;
    char text[WEDGE_TEXT_MAX];
    bool bare;     // no label at all: the bench alone
    double module; // pixels
    double x;      // middle of the label, 0 to 1 of the frame
    double y;
    double angle; // degrees
    double tilt;  // degrees out of the picture's plane, the far edge getting smaller
    double turn;  // degrees, the same about the other axis
    double tube;  // radius in modules of a tube along the code; 0: flat
    double blur;  // sigma in pixels
    double noise; // standard deviation in grey levels
    double ink;   // grey levels
    double paper;
    double shade;   // how much darker it is at one side of the frame, 0 to 1
    int dust;       // specks on the label, dark or light, about a module or two in size
    double scratch; // share of the label's area under light strips across it
    double torn;    // share of the symbol that is gone, from its end
};
#define SCENE_DEFAULT                                                                              \
    { .width = 1280, .height = 720, .module = 3, .x = 0.5, .y = 0.5, .ink = 30, .paper = 220 }

// False when there is no memory or no such symbol. The caller frees the pixels. ret_corner (may be
// NULL): the symbol's corners in the frame.
bool scene_draw(const struct scene *scene, struct frame *ret_frame, struct code_point *ret_corner);

// Seeded numbers (SplitMix64).
uint64_t scene_random(uint64_t *state);
double scene_between(uint64_t *state, double low, double high);
double scene_normal(uint64_t *state);

#endif

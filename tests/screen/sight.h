#ifndef SIGHT_H
#define SIGHT_H

// What eyes make of colours: contrast, difference, and the sight of the colour-blind.

#include <SDL.h>

#include <stdbool.h>

// WCAG 2.2, contrast ratio, 1 to 21.
double sight_contrast(SDL_Color a, SDL_Color b);

// CIEDE2000, ISO/CIE 11664-6, of sRGB colours under D65.
double sight_difference(SDL_Color a, SDL_Color b);
struct lab {
    double l;
    double a;
    double b;
};
double sight_difference_lab(struct lab x, struct lab y);

// PROTAN and DEUTAN after Vienot, Brettel, Mollon 1999 (Color Research and Application 24:243);
// the MACHADO ones after Machado, Oliveira, Fernandes 2009 (IEEE TVCG 15:1291), severity 1.0; GREY
// is luminance alone. All in linear light. The matrices' numbers are values from memory, which
// sight_is_right holds against properties.
enum sight {
    SIGHT_PROTAN,
    SIGHT_DEUTAN,
    SIGHT_MACHADO_PROTAN,
    SIGHT_MACHADO_DEUTAN,
    SIGHT_MACHADO_TRITAN,
    SIGHT_GREY,
    SIGHT_COUNT
};
extern const char *const sight_names[SIGHT_COUNT];
SDL_Color sight_of(enum sight sight, SDL_Color colour);

#endif

#ifndef THEME_H
#define THEME_H

// Colours, after the safety-colour standards (ISO 3864, ANSI Z535): blue working, amber caution,
// red stop, green fine; light ground, since dust and glare hide on it. Text on bench views keeps a
// contrast of 7:1 (WCAG 2.2 SC 1.4.6); tests/screen checks every pair.

#include "view.h"

#include <SDL.h>

#define THEME_GROUND ((SDL_Color){0xF5, 0xF3, 0xEE, 0xFF})
#define THEME_PANEL ((SDL_Color){0xFF, 0xFF, 0xFF, 0xFF})
#define THEME_LINE ((SDL_Color){0xC9, 0xC5, 0xBA, 0xFF})
#define THEME_DARK ((SDL_Color){0x16, 0x1A, 0x1F, 0xFF})
#define THEME_INK ((SDL_Color){0x14, 0x17, 0x1B, 0xFF})
#define THEME_SOFT ((SDL_Color){0x47, 0x4D, 0x55, 0xFF}) // secondary text
#define THEME_LIGHT ((SDL_Color){0xFF, 0xFF, 0xFF, 0xFF})
#define THEME_DIM ((SDL_Color){0xC8, 0xCC, 0xD2, 0xFF}) // secondary text on dark
#define THEME_BLUE ((SDL_Color){0x0B, 0x46, 0x78, 0xFF})
#define THEME_AMBER ((SDL_Color){0xF2, 0xB1, 0x34, 0xFF})
#define THEME_AMBER_PALE ((SDL_Color){0xFF, 0xF3, 0xDA, 0xFF})
#define THEME_RED ((SDL_Color){0x9E, 0x15, 0x19, 0xFF})
#define THEME_RED_PALE ((SDL_Color){0xFB, 0xE9, 0xE8, 0xFF})
#define THEME_GREEN ((SDL_Color){0x14, 0x5C, 0x32, 0xFF})
#define THEME_GREEN_PALE ((SDL_Color){0xE6, 0xF3, 0xEA, 0xFF})
#define THEME_BLUE_PALE ((SDL_Color){0xE6, 0xEE, 0xF6, 0xFF})
#define THEME_GREEN_LIT ((SDL_Color){0x7B, 0xDB, 0x9C, 0xFF}) // a tick on the dark header
#define THEME_RED_LIT ((SDL_Color){0xFF, 0xA3, 0xA0, 0xFF})
#define THEME_STEEL ((SDL_Color){0xB4, 0xBC, 0xC4, 0xFF}) // the kept shaft
#define THEME_WASTE ((SDL_Color){0xE4, 0xDF, 0xD0, 0xFF})
#define THEME_HATCH ((SDL_Color){0x8C, 0x84, 0x6E, 0xFF})

// Fill, pale fill, and the text that stands on the fill.
struct theme_tone {
    SDL_Color fill;
    SDL_Color pale;
    SDL_Color text;
};
struct theme_tone theme_tone(enum view_tone tone);

#endif

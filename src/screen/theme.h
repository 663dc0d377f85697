#ifndef THEME_H
#define THEME_H

// Colours, after the safety-colour standards (ISO 3864, ANSI Z535): blue working, amber caution,
// red stop, green fine; light ground, since dust and glare hide on it. Text keeps a contrast of 7:1
// (WCAG 2.2 SC 1.4.6), in the theme for poor light and poor sight 10:1; tests/screen checks what is
// drawn, as it is and as colour-blind eyes see it.

#include "screen.h"

#include <SDL.h>

// Fill, pale fill, the text that stands on the fill, the line round the pale one.
struct theme_tone {
    SDL_Color fill;
    SDL_Color pale;
    SDL_Color text;
    SDL_Color line;
};

struct theme {
    SDL_Color ground;
    SDL_Color panel;
    SDL_Color line; // round panels and between rows
    SDL_Color dark; // the header
    SDL_Color ink;
    SDL_Color soft;  // secondary text
    SDL_Color light; // text on dark
    SDL_Color dim;   // secondary text on dark
    struct theme_tone work;
    struct theme_tone caution;
    struct theme_tone stop;
    struct theme_tone fine;
    struct theme_tone plain;
    SDL_Color caution_lit; // on the dark header
    SDL_Color stop_lit;
    SDL_Color fine_lit;
    SDL_Color steel; // the kept shaft
    SDL_Color waste;
    SDL_Color hatch;
    int outline; // design pixels that every line round a panel is thicker
};

const struct theme *theme_named(enum screen_theme name);
struct theme_tone theme_tone(const struct theme *theme, enum view_tone tone);

#endif

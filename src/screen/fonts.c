// B612, one TTF_Font a size: SDL_ttf throws its glyphs away whenever a font is resized.

#include "language.h"
#include "screen_inner.h"

#include <stdio.h>
#include <stdlib.h>

#define FONTS_MAX 80
#define PROBE 200
#define BOLDER 30 // of the size: more would fill what a kanji leaves free between its strokes

static const char *const files[FACE_COUNT] = {
    [FACE_REGULAR] = "B612-Regular.otf",
    [FACE_BOLD] = "B612-Bold.otf",
    [FACE_MONO] = "B612Mono-Regular.otf",
    [FACE_MONO_BOLD] = "B612Mono-Bold.otf",
}; // and LANGUAGE_FONT for FACE_EAST and FACE_EAST_BOLD

struct font {
    TTF_Font *font;
    enum face face;
    int pixels;
    unsigned used;
};

struct fonts {
    void *data[FACE_COUNT];
    size_t size[FACE_COUNT];
    struct font font[FONTS_MAX];
    int caps[FACE_COUNT]; // height of capitals in PROBE pixels of font size; 0: not known yet
    size_t count;
    unsigned clock;
};

bool fonts_init(struct screen *screen, const char *assets, char *message, size_t size) {
    struct fonts *fonts = calloc(1, sizeof *fonts);
    screen->fonts = fonts;
    if (fonts == NULL || TTF_Init() != 0) {
        snprintf(message, size, "Cannot start the font library: %s.", SDL_GetError());
        return false;
    }
    fonts->data[FACE_EAST] = SDL_LoadFile(LANGUAGE_FONT, &fonts->size[FACE_EAST]); // may be missing
    for (int face = 0; face < FACE_EAST; face++) {
        char path[512];
        snprintf(path, sizeof path, "%s/fonts/%s", assets, files[face]);
        fonts->data[face] = SDL_LoadFile(path, &fonts->size[face]);
        if (fonts->data[face] == NULL) {
            snprintf(message, size, "Cannot read the font %s. Install Kerfside's assets folder.",
                     path);
            return false;
        }
    }
    return true;
}

void fonts_destroy(struct screen *screen) {
    struct fonts *fonts = screen->fonts;
    if (fonts == NULL) {
        return;
    }
    for (size_t i = 0; i < fonts->count; i++) {
        TTF_CloseFont(fonts->font[i].font);
    }
    for (int face = 0; face < FACE_COUNT; face++) {
        SDL_free(fonts->data[face]);
    }
    free(fonts);
    screen->fonts = NULL;
    if (TTF_WasInit() != 0) {
        TTF_Quit();
    }
}

static size_t oldest(const struct fonts *fonts) {
    size_t at = 0;
    for (size_t i = 1; i < fonts->count; i++) {
        if (fonts->font[i].used < fonts->font[at].used) {
            at = i;
        }
    }
    return at;
}

TTF_Font *fonts_get(struct screen *screen, enum face face, int pixels) {
    struct fonts *fonts = screen->fonts;
    struct font *slot;
    TTF_Font *font;
    for (size_t i = 0; i < fonts->count; i++) {
        if (fonts->font[i].face == face && fonts->font[i].pixels == pixels) {
            fonts->font[i].used = ++fonts->clock;
            return fonts->font[i].font;
        }
    }
    enum face of = face == FACE_EAST_BOLD ? FACE_EAST : face; // it has no bold of its own
    if (fonts->data[of] == NULL) {
        return fonts_get(screen, FACE_REGULAR, pixels);
    }
    font = TTF_OpenFontRW(SDL_RWFromConstMem(fonts->data[of], (int)fonts->size[of]), 1, pixels);
    if (font == NULL) {
        return NULL;
    }
    TTF_SetFontHinting(font, TTF_HINTING_LIGHT);
    if (fonts->count < FONTS_MAX) {
        slot = &fonts->font[fonts->count++];
    } else {
        slot = &fonts->font[oldest(fonts)];
        TTF_CloseFont(slot->font);
    }
    *slot = (struct font){font, face, pixels, ++fonts->clock};
    return font;
}

enum face fonts_face(enum face face, const char *text) {
    for (const unsigned char *at = (const unsigned char *)text; *at != '\0'; at++) {
        if (*at >= 0xE3) { // U+3000 and on: kana, kanji, their punctuation
            return face == FACE_BOLD || face == FACE_MONO_BOLD ? FACE_EAST_BOLD : FACE_EAST;
        }
    }
    return face;
}

int fonts_bolder(enum face face, int pixels) {
    return face == FACE_EAST_BOLD ? pixels / BOLDER : 0;
}

static int probe_caps(struct screen *screen, enum face face) {
    int *caps = &screen->fonts->caps[face];
    if (*caps == 0) {
        TTF_Font *font = fonts_get(screen, face, PROBE);
        if (font == NULL || TTF_GlyphMetrics32(font, '0', NULL, NULL, NULL, caps, NULL) != 0) {
            *caps = 0;
        }
    }
    return *caps;
}

int fonts_size_for_caps(struct screen *screen, enum face face, int height) {
    int top = probe_caps(screen, face);
    return top > 0 ? height * PROBE / top : height;
}

int fonts_caps(struct screen *screen, enum face face, int pixels) {
    return pixels * probe_caps(screen, face) / PROBE;
}

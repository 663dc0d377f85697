#include "page_fonts.h"

#include "language.h"
#include "tongue.h"

#include <cairo-ft.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

static const char *const names[PAGE_FONT_COUNT] = {
    [PAGE_REGULAR] = "B612-Regular.otf",
    [PAGE_BOLD] = "B612-Bold.otf",
};
static const cairo_user_data_key_t key;

// cairo keeps scaled fonts for later, beyond the last face that anybody holds; so each face owns
// its file and its library until cairo itself lets go of it.
struct source {
    FT_Library library;
    FT_Face file;
};

static void source_free(void *of) {
    struct source *source = of;
    if (source->file != NULL) {
        FT_Done_Face(source->file);
    }
    if (source->library != NULL) {
        FT_Done_FreeType(source->library);
    }
    free(source);
}

static cairo_font_face_t *face_open(const char *path) {
    struct source *source = calloc(1, sizeof *source);
    if (source == NULL) {
        return NULL;
    }
    if (FT_Init_FreeType(&source->library) != 0 ||
        FT_New_Face(source->library, path, 0, &source->file) != 0) {
        source_free(source);
        return NULL;
    }
    cairo_font_face_t *face = cairo_ft_font_face_create_for_ft_face(source->file, 0);
    if (cairo_font_face_set_user_data(face, &key, source, source_free) != CAIRO_STATUS_SUCCESS) {
        cairo_font_face_destroy(face);
        source_free(source);
        return NULL;
    }
    return face;
}

bool page_fonts_init(struct page_fonts *fonts, const char *folder, char *message, size_t size) {
    char path[1200];
    *fonts = (struct page_fonts){.face = {NULL}};
    for (int i = 0; i < PAGE_FONT_COUNT; i++) {
        snprintf(path, sizeof path, "%.1100s/%s", folder, names[i]);
        fonts->face[i] = face_open(path);
        if (fonts->face[i] == NULL) {
            snprintf(message, size, _("Cannot read the font %.300s. Is it there, and readable?"),
                     path);
            page_fonts_release(fonts);
            return false;
        }
    }
    if (access(LANGUAGE_FONT, R_OK) == 0) {
        fonts->east[PAGE_REGULAR] = face_open(LANGUAGE_FONT);
        fonts->east[PAGE_BOLD] = face_open(LANGUAGE_FONT);
        if (fonts->east[PAGE_BOLD] != NULL) { // the font has no bold of its own
            cairo_ft_font_face_set_synthesize(fonts->east[PAGE_BOLD], CAIRO_FT_SYNTHESIZE_BOLD);
        }
    }
    return true;
}

cairo_font_face_t *page_fonts_face(const struct page_fonts *fonts, enum page_font font,
                                   const char *words) {
    for (const unsigned char *at = (const unsigned char *)words; *at != '\0'; at++) {
        if (*at >= 0xE3 && fonts->east[font] != NULL) { // U+3000 and on
            return fonts->east[font];
        }
    }
    return fonts->face[font];
}

void page_fonts_release(struct page_fonts *fonts) {
    for (int i = 0; i < PAGE_FONT_COUNT; i++) {
        if (fonts->face[i] != NULL) {
            cairo_font_face_destroy(fonts->face[i]);
            fonts->face[i] = NULL;
        }
        if (fonts->east[i] != NULL) {
            cairo_font_face_destroy(fonts->east[i]);
            fonts->east[i] = NULL;
        }
    }
}

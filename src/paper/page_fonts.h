#ifndef PAGE_FONTS_H
#define PAGE_FONTS_H

// The bundled fonts, by FreeType, as cairo takes them.

#include "page.h"

#include <cairo.h>

struct page_fonts {
    cairo_font_face_t *face[PAGE_FONT_COUNT];
    cairo_font_face_t *east[PAGE_FONT_COUNT]; // for letters that the others lack; NULL: not there
};

// False: `message` names the file. Nothing to release then.
bool page_fonts_init(struct page_fonts *fonts, const char *folder, char *message, size_t size);
// The one that has the letters of this text.
cairo_font_face_t *page_fonts_face(const struct page_fonts *fonts, enum page_font font,
                                   const char *words);
void page_fonts_release(struct page_fonts *fonts);

#endif

#ifndef PAGE_FONTS_H
#define PAGE_FONTS_H

// The bundled fonts, by FreeType, as cairo takes them.

#include "page.h"

#include <cairo.h>

struct page_fonts {
    cairo_font_face_t *face[PAGE_FONT_COUNT];
};

// False: `message` names the file. Nothing to release then.
bool page_fonts_init(struct page_fonts *fonts, const char *folder, char *message, size_t size);
void page_fonts_release(struct page_fonts *fonts);

#endif

#ifndef PAGE_FIT_H
#define PAGE_FIT_H

#include "page.h"

// One line, made smaller until it is no wider than `width`.
void page_fit(struct page *page, enum page_font font, double size, enum page_align align, double x,
              double baseline, double width, const char *words);

#endif

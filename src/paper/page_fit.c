#include "page_fit.h"

#include <math.h>

void page_fit(struct page *page, enum page_font font, double size, enum page_align align, double x,
              double baseline, double width, const char *words) {
    double wide = page_width(page, font, size, words);
    page_text(page, font, size * fmin(1, width / fmax(wide, 1e-9)), align, x, baseline, words);
}

#ifndef CARD_SHEET_H
#define CARD_SHEET_H

// Assembly cards on paper: a page a club, with boxes to tick off and room for what is measured.

#include "assembly_card.h"
#include "page.h"

struct card_page {
    struct assembly_card card;
    char ready[32]; // its ready_ms as people write it, empty: not known
};
struct card_sheet {
    const struct card_page *pages;
    size_t count;     // 1 and more
    const char *shop; // its name, may be empty
    const char *printed;
    enum length_method method;
    enum page_paper paper;
    const char *fonts; // folder of the font files
};

// Writes or replaces the file at `path`. False: `message` says why and nothing half-written is
// left. `watch` may be NULL.
bool card_sheet_write(const struct card_sheet *sheet, const char *path,
                      const struct page_watch *watch, char *message, size_t size);

#endif

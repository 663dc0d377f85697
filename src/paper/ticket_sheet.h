#ifndef TICKET_SHEET_H
#define TICKET_SHEET_H

// Tickets as a PDF, one cell each, as many pages as they need.

#include "ticket_label.h"

struct ticket_sheet {
    const struct ticket_label *labels;
    size_t count; // 1 or more
    const struct ticket_stock *stock;
    int from;          // first free cell of the first page, counted along rows from 1
    const char *title; // of the file
    const char *fonts; // folder of the font files
};

// Cells of one page.
int ticket_sheet_cells(const struct ticket_stock *stock);
size_t ticket_sheet_pages(const struct ticket_sheet *sheet);

// Writes or replaces the file at `path`. False: `message` says why and nothing half-written is
// left. `watch` may be NULL.
bool ticket_sheet_write(const struct ticket_sheet *sheet, const char *path,
                        const struct page_watch *watch, char *message, size_t size);

#endif

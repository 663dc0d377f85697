#include "ticket_sheet.h"
#include "tongue.h"

#include <stdio.h>

int ticket_sheet_cells(const struct ticket_stock *stock) {
    return stock->columns * stock->rows;
}

size_t ticket_sheet_pages(const struct ticket_sheet *sheet) {
    size_t cells = (size_t)ticket_sheet_cells(sheet->stock);
    return (sheet->count + (size_t)sheet->from - 1 + cells - 1) / cells;
}

static bool draw(struct page *page, const struct ticket_sheet *sheet, char *message, size_t size) {
    int at = sheet->from - 1;
    for (size_t i = 0; i < sheet->count; i++, at++) {
        if (at == ticket_sheet_cells(sheet->stock)) {
            page_next(page);
            at = 0;
        }
        struct page_box cell = ticket_stock_cell(sheet->stock, at);
        if (!ticket_label_draw(page, sheet->stock, &cell, &sheet->labels[i])) {
            snprintf(message, size, _("Cannot make the codes of ticket %s."),
                     sheet->labels[i].ticket);
            return false;
        }
    }
    return true;
}

bool ticket_sheet_write(const struct ticket_sheet *sheet, const char *path,
                        const struct page_watch *watch, char *message, size_t size) {
    struct page *page = NULL;
    bool done = page_open(path, sheet->fonts, &page, message, size);
    if (done) {
        struct page_box paper = {0, 0, sheet->stock->width, sheet->stock->height};
        page_begin(page, &paper, sheet->title, watch);
        done = draw(page, sheet, message, size) && page_save(page, message, size);
    }
    page_close(page);
    return done;
}

#include "tongue.h"
#include "worksheet_inner.h"

#include <stdio.h>
#include <stdlib.h>

static void draw(struct sheet *sheet) {
    double y = PAGE_MARGIN;
    header_draw(sheet, y);
    y += sheet->at.header;
    table_draw(sheet, y);
    y += sheet->at.heads + sheet->at.row * (double)sheet->of->count;
    plots_draw(sheet, y);
    y += sheet->at.plots;
    notes_draw(sheet, y);
    footer_draw(sheet, sheet->at.sheet.height - PAGE_MARGIN - sheet->at.footer);
}

bool worksheet_write(const struct worksheet *worksheet, const char *path,
                     const struct page_watch *watch, char *message, size_t size) {
    char title[160];
    struct sheet *sheet = calloc(1, sizeof *sheet);
    if (sheet == NULL) {
        snprintf(message, size, "%s", _("No memory for a worksheet."));
        return false;
    }
    bool done = page_open(path, worksheet->fonts, &sheet->page, message, size);
    if (done) {
        sheet->of = worksheet;
        sheet_fill(sheet);
        sheet_arrange(sheet);
        snprintf(title, sizeof title, _("Build %s, worksheet"), worksheet->set->build);
        page_begin(sheet->page, &sheet->at.sheet, title, watch);
        draw(sheet);
        done = page_save(sheet->page, message, size);
    }
    page_close(sheet->page);
    free(sheet);
    return done;
}

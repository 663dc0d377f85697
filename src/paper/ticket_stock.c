#include "ticket_stock.h"

#include <string.h>

#define MM (72 / 25.4)
#define INCH 72.0

const struct ticket_stock ticket_stocks[TICKET_STOCK_COUNT] = {
    {"a4", "A4", 210 * MM, 297 * MM, 3, 7, 62 * MM, 39 * MM, 0, 1 * MM, INCH / 300},
    {"letter", "Letter", 8.5 * INCH, 11 * INCH, 3, 7, 62 * MM, 36 * MM, 0, 1 * MM, INCH / 300},
    {"63.5x38.1", "A4", 210 * MM, 297 * MM, 3, 7, 63.5 * MM, 38.1 * MM, 2.5 * MM, 2 * MM,
     INCH / 300},
    {"62mm", "Custom.62x36mm", 62 * MM, 36 * MM, 1, 1, 62 * MM, 36 * MM, 0, 1.6 * MM, INCH / 300},
    {"2.25x1.25", "Custom.2.25x1.25in", 2.25 * INCH, 1.25 * INCH, 1, 1, 2.25 * INCH, 1.25 * INCH, 0,
     1 * MM, MM / 8},
};

const struct ticket_stock *ticket_stock_named(const char *name) {
    for (int i = 0; i < TICKET_STOCK_COUNT; i++) {
        if (strcmp(ticket_stocks[i].name, name) == 0) {
            return &ticket_stocks[i];
        }
    }
    return NULL;
}

struct page_box ticket_stock_cell(const struct ticket_stock *stock, int index) {
    double pitch = stock->cell_width + stock->between;
    double left = (stock->width - pitch * stock->columns + stock->between) / 2;
    double top = (stock->height - stock->cell_height * stock->rows) / 2;
    int row = index / stock->columns;
    return (struct page_box){left + pitch * (index % stock->columns),
                             top + stock->cell_height * row, stock->cell_width, stock->cell_height};
}

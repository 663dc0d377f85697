#ifndef TICKET_STOCK_H
#define TICKET_STOCK_H

// What tickets are printed on.
//
//   name        page           tickets             printer's dot
//   a4          210 x 297 mm   3 x 7 of 62 x 39 mm   1/300 in   plain paper, to be cut
//   letter      8.5 x 11 in    3 x 7 of 62 x 36 mm   1/300 in   plain paper, to be cut
//   63.5x38.1   210 x 297 mm   3 x 7 of that, mm     1/300 in   labels on A4, 2.5 mm between
//   columns 62mm        62 x 36 mm     1                     1/300 in   continuous roll, cut by the
//   printer 2.25x1.25   that, in       1                     1/8 mm     single labels ("203 dpi")
//
// The block of tickets lies in the middle of its page. The grids of plain paper are our own; label
// sizes are common practice. The narrow side of every module is a whole number of the printer's
// dots: no length but 1.25 in is whole at both resolutions, so each stock has its own.

#include "page.h"

struct ticket_stock {
    const char *name;
    const char *media; // as CUPS names it
    double width;      // of the page, points
    double height;
    int columns;
    int rows;
    double cell_width;
    double cell_height;
    double between; // columns
    double margin;  // of a cell, on which nothing is printed
    double dot;
};

#define TICKET_STOCK_COUNT 5
extern const struct ticket_stock ticket_stocks[TICKET_STOCK_COUNT];

// NULL: there is none of that name.
const struct ticket_stock *ticket_stock_named(const char *name);

// Place of ticket `index` on its page, counted along rows from 0.
struct page_box ticket_stock_cell(const struct ticket_stock *stock, int index);

#endif

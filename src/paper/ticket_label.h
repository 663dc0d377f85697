#ifndef TICKET_LABEL_H
#define TICKET_LABEL_H

// One ticket: its number, large, words about what it hangs on, and its codes, in one cell of paper.
//
// A flat ticket has a QR code beside the words and Code 128 below. One that wraps a shaft has both
// in a strip along the shaft (ticket_wrap.h), or Code 128 alone when a long number leaves no room.
// Modules are whole numbers of the printer's dots and begin on one; no Code 128 module is narrower
// than 0.25 mm.

#include "page.h"
#include "parts.h"
#include "ticket_stock.h"

#define TICKET_LABEL_LINES 4
#define TICKET_LABEL_WORDS_MAX 240

struct ticket_label {
    char ticket[TICKET_TEXT_MAX];
    char title[LENGTH_TEXT_MAX + 8]; // large in its place, empty: the ticket
    bool wraps;
    length_nm diameter; // of the tube it wraps, LENGTH_UNKNOWN: the thinnest
    char words[TICKET_LABEL_LINES][TICKET_LABEL_WORDS_MAX]; // up to the first empty one
};

struct ticket_label ticket_label_head(const struct head *head, const char *build, const char *club);
// `diameter` at the tip.
struct ticket_label ticket_label_shaft(const struct shaft *shaft, length_nm diameter);
struct ticket_label ticket_label_worker(const char *badge, const char *name, const char *role);
// `clubs` are their names in one text; empty: not told.
struct ticket_label ticket_label_build(const struct ticket *ticket, const char *build, size_t count,
                                       const char *clubs, const char *due);
// The commands the bench knows; none of them confirms. `index` from 0; false: no more.
bool ticket_label_command(int index, struct ticket_label *ret_label);
// Those that type a number (ticket_number.h), alike.
bool ticket_label_number(int index, struct ticket_label *ret_label);

// False: no memory for its codes, or the number has no code that fits.
bool ticket_label_draw(struct page *page, const struct ticket_stock *stock,
                       const struct page_box *cell, const struct ticket_label *label);

#endif

#ifndef STOCK_CSV_H
#define STOCK_CSV_H

// The stock and pick lists of the desk as CSV (RFC 4180, UTF-8, a header first), for whoever orders
// or fetches.
//
//   stock: part (head, shaft), model, flex, free, reserved, needed, short, least, wanted, to_order;
//          least and wanted empty where no level is set
//   pick:  rack, part (head, shaft, no head, no shaft), ticket, model, flex, order, club, due

#include "workshop.h"

#include <stdio.h>

// False: store_message says why, or ferror of the file.
bool stock_csv(struct store *store, FILE *file);
// Of one order, or (empty) of all released ones with clubs that have a day they are due.
bool pick_csv(struct store *store, const char *build, FILE *file);

#endif

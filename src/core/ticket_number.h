#ifndef TICKET_NUMBER_H
#define TICKET_NUMBER_H

// Command tickets that type: a digit, sixteenths of an inch, rub out, the next field. They put
// something into a field, as a key does; none of them confirms.

#include "ticket.h"

enum { TICKET_NUMBER_COUNT = 30 };

struct ticket_number {
    const char *body; // K-<body>
    char key;         // what it types, '\b' rubs out, '\t' goes to the next field, or 0
    int sixteenths;   // 1 to 15: sets the fraction, or 0
};

// `index` from 0; NULL: no more.
const struct ticket_number *ticket_number(int index);

// The one whose ticket `text` (canonical) is, or NULL.
const struct ticket_number *ticket_number_of(const char *text);

#endif

#ifndef PAPER_SIZE_H
#define PAPER_SIZE_H

#include "page.h"

#include <stdbool.h>

// What is printed on: as the setting says, 0: the size that is usual where the computer is (LC_ALL,
// else LC_PAPER, LANG), else enum page_paper from 1.
enum page_paper paper_size(unsigned setting);

// `a4` or `letter`, as it is asked for; NULL: paper_size. False: it is neither.
bool paper_size_take(const char *asked, unsigned setting, enum page_paper *ret_paper);

// `a4`, `letter`: the stock of tickets.
const char *paper_size_name(enum page_paper paper);

#endif

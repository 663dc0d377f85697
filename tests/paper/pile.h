#ifndef PILE_H
#define PILE_H

// Piles of invented tickets, printed to the paper tests' folder, with what the page was told.

#include "job.h"
#include "ticket_sheet.h"

#define PILE_MAX 80

struct pile {
    struct ticket_label label[PILE_MAX];
    struct ticket_sheet sheet;
    struct job_seen seen;
    struct page_watch watch;
    char path[256];
    char message[512];
};

// To be freed.
struct pile *pile_make(const char *stock);
// Ticket of a build, heads and shafts of so many clubs; `long_names`: as long as they may be.
void pile_build(struct pile *pile, int clubs, bool long_names);
// Badges and all commands.
void pile_people(struct pile *pile);

// `name` is a file of the folder, or an absolute path.
bool pile_write(struct pile *pile, const char *name);

#endif

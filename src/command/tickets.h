#ifndef TICKETS_H
#define TICKETS_H

// Tickets of what is in the store: collected first, then written to one PDF.

#include "store.h"
#include "ticket_sheet.h"

// To be zeroed before, and freed after with tickets_release.
struct tickets {
    struct ticket_label *label;
    size_t count;
    size_t room;
    bool no_memory;
};
void tickets_release(struct tickets *tickets);

// Each adds tickets behind those that are there.
//
// A build's own ticket, then heads and shafts by position. STORE_NONE: no such build. A build whose
// name cannot stand on a ticket has none of its own.
enum store_result tickets_add_build(struct tickets *tickets, struct store *store,
                                    const char *build);
// A head, a shaft, a badge or a command. Parts that are in no club show only what store_part
// tells. STORE_NONE: nobody and nothing has this ticket.
enum store_result tickets_add_one(struct tickets *tickets, struct store *store,
                                  const struct ticket *ticket);
// Everybody's badge but of those who were withdrawn.
enum store_result tickets_add_workers(struct tickets *tickets, struct store *store);
// Raw, unreserved shafts of a model and flex. STORE_NONE: there is none.
enum store_result tickets_add_stock(struct tickets *tickets, struct store *store, const char *model,
                                    const char *flex);
bool tickets_add_commands(struct tickets *tickets);
bool tickets_add_numbers(struct tickets *tickets);

// Fonts from the assets; `from` as in ticket_sheet.h. False: `message` says why.
bool tickets_write(const struct tickets *tickets, const char *path,
                   const struct ticket_stock *stock, int from, size_t *ret_pages, char *message,
                   size_t size);

// All of a build at once, for the bench. Anything but STORE_OK: `message` says why.
enum store_result tickets_build(struct store *store, const char *build, const char *path,
                                const struct ticket_stock *stock, char *message, size_t size);

#endif

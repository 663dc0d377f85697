#include "tickets.h"
#include "assets.h"
#include "text.h"
#include "tongue.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define CLUBS_TEXT_MAX 160

void tickets_release(struct tickets *tickets) {
    free(tickets->label);
    *tickets = (struct tickets){0};
}

static bool add(struct tickets *tickets, const struct ticket_label *label) {
    if (tickets->count == tickets->room) {
        size_t room = 2 * tickets->room + 32;
        struct ticket_label *more = reallocarray(tickets->label, room, sizeof *more);
        if (more == NULL) {
            tickets->no_memory = true;
            return false;
        }
        tickets->label = more;
        tickets->room = room;
    }
    tickets->label[tickets->count++] = *label;
    return true;
}

// What was read is no use when there was no room for it.
static enum store_result whole(const struct tickets *tickets, enum store_result result) {
    return tickets->no_memory ? STORE_FAILED : result;
}

// --- a build -----------------------------------------------------------------------------------

struct adding {
    struct tickets *tickets;
    char build[PARTS_BUILD_MAX];
    char due[12]; // the first
    char clubs[CLUBS_TEXT_MAX];
    size_t count;
    size_t named; // of them in `clubs`
};

static void name_club(struct adding *adding, const char *club) {
    size_t used = strlen(adding->clubs);
    if (adding->named == adding->count && used + strlen(club) + 2 < sizeof adding->clubs) {
        snprintf(adding->clubs + used, sizeof adding->clubs - used, "%s%s", used > 0 ? ", " : "",
                 club);
        adding->named++;
    }
    adding->count++;
}

static bool add_club(void *context, const struct club *club, const struct final_values *values) {
    struct adding *adding = context;
    const struct order *order = &club->order;
    (void)values;
    snprintf(adding->build, sizeof adding->build, "%s", order->build);
    name_club(adding, order->club);
    if (order->due[0] != '\0' && (adding->due[0] == '\0' || strcmp(order->due, adding->due) < 0)) {
        snprintf(adding->due, sizeof adding->due, "%s", order->due);
    }
    if (club->head.ticket[0] != '\0') {
        struct ticket_label label = ticket_label_head(&club->head, order->build, order->club);
        add(adding->tickets, &label);
    }
    if (club->shaft.ticket[0] != '\0') {
        struct ticket_label label = ticket_label_shaft(&club->shaft, club->model.tip_diameter);
        add(adding->tickets, &label);
    }
    return !adding->tickets->no_memory;
}

enum store_result tickets_add_build(struct tickets *tickets, struct store *store,
                                    const char *build) {
    static const struct ticket_label room = {.diameter = LENGTH_UNKNOWN};
    struct adding adding = {.tickets = tickets};
    struct ticket ticket;
    char clubs[CLUBS_TEXT_MAX + 32];
    size_t first = tickets->count;
    if (!add(tickets, &room)) { // the build's own, filled in when its clubs are known
        return STORE_FAILED;
    }
    enum store_result result = store_build_clubs(store, build, add_club, &adding);
    if (result != STORE_OK || tickets->no_memory) {
        tickets->count = first;
        return whole(tickets, result);
    }
    if (!ticket_make(TICKET_BUILD, adding.build, &ticket)) {
        tickets->count--;
        memmove(tickets->label + first, tickets->label + first + 1,
                (tickets->count - first) * sizeof *tickets->label);
        return STORE_OK;
    }
    struct text text = text_open(clubs, sizeof clubs);
    text_add(&text, adding.clubs);
    if (adding.named < adding.count) {
        text_add(&text, " and ");
        text_add_number(&text, (int64_t)(adding.count - adding.named));
        text_add(&text, " more");
    }
    tickets->label[first] =
        ticket_label_build(&ticket, adding.build, adding.count, clubs, adding.due);
    return STORE_OK;
}

// --- single tickets ----------------------------------------------------------------------------

static enum store_result add_reserved(struct tickets *tickets, struct store *store,
                                      const struct part *part) {
    struct club club;
    enum store_result result = store_club(store, part->club_id, &club);
    if (result == STORE_OK) {
        struct ticket_label label =
            part->kind == TICKET_HEAD
                ? ticket_label_head(&club.head, club.order.build, club.order.club)
                : ticket_label_shaft(&club.shaft, club.model.tip_diameter);
        add(tickets, &label);
    }
    return whole(tickets, result);
}

static enum store_result add_part(struct tickets *tickets, struct store *store,
                                  const char *ticket) {
    struct part part;
    struct ticket_label label;
    enum store_result result = store_part(store, ticket, &part);
    if (result != STORE_OK) {
        return result;
    }
    if (part.club_id != 0) {
        return add_reserved(tickets, store, &part);
    }
    if (part.kind == TICKET_HEAD) {
        struct head head = {.weight = MASS_UNKNOWN};
        memcpy(head.ticket, part.ticket, sizeof head.ticket);
        memcpy(head.model, part.model, sizeof head.model);
        label = ticket_label_head(&head, "", "");
    } else {
        struct shaft shaft = {.raw_length = LENGTH_UNKNOWN, .weight = MASS_UNKNOWN};
        memcpy(shaft.ticket, part.ticket, sizeof shaft.ticket);
        memcpy(shaft.model, part.model, sizeof shaft.model);
        memcpy(shaft.rack, part.rack, sizeof shaft.rack);
        label = ticket_label_shaft(&shaft, LENGTH_UNKNOWN);
    }
    add(tickets, &label);
    return whole(tickets, STORE_OK);
}

static bool add_badge(struct tickets *tickets, const struct worker *worker) {
    struct ticket_label label =
        ticket_label_worker(worker->badge, worker->name, role_words(worker->role));
    return add(tickets, &label);
}

static enum store_result add_command(struct tickets *tickets, const char *ticket) {
    struct ticket_label label;
    for (int i = 0; ticket_label_command(i, &label); i++) {
        if (strcmp(label.ticket, ticket) == 0) {
            return add(tickets, &label) ? STORE_OK : STORE_FAILED;
        }
    }
    return STORE_NONE;
}

enum store_result tickets_add_one(struct tickets *tickets, struct store *store,
                                  const struct ticket *ticket) {
    struct worker worker;
    enum store_result result = STORE_NONE;
    switch (ticket->kind) {
    case TICKET_HEAD:
    case TICKET_SHAFT:
        return add_part(tickets, store, ticket->text);
    case TICKET_BUILD:
        return tickets_add_build(tickets, store, ticket->text);
    case TICKET_WORKER:
        result = store_worker(store, ticket->text, &worker);
        if (result == STORE_OK) {
            add_badge(tickets, &worker);
        }
        return whole(tickets, result);
    case TICKET_COMMAND:
        return add_command(tickets, ticket->text);
    case TICKET_KIND_COUNT:
        break;
    }
    return result;
}

// --- whole lists -------------------------------------------------------------------------------

static bool add_person(void *context, const struct person *person) {
    return person->withdrawn || add_badge(context, &person->worker);
}

enum store_result tickets_add_workers(struct tickets *tickets, struct store *store) {
    return whole(tickets, store_people(store, add_person, tickets));
}

enum store_result tickets_add_stock(struct tickets *tickets, struct store *store, const char *model,
                                    const char *flex) {
    struct stock *stock = calloc(1, sizeof *stock);
    struct shaft *shafts = calloc(STORE_STOCK_MAX, sizeof *shafts);
    int count = -1;
    if (stock == NULL || shafts == NULL) {
        tickets->no_memory = true;
    } else {
        count = store_stock(store, model, flex, stock, shafts, STORE_STOCK_MAX);
    }
    for (int i = 0; i < count; i++) {
        struct ticket_label label = ticket_label_shaft(&shafts[i], stock->model.tip_diameter);
        add(tickets, &label);
    }
    free(stock);
    free(shafts);
    return whole(tickets, count < 0 ? STORE_FAILED : count == 0 ? STORE_NONE : STORE_OK);
}

bool tickets_add_commands(struct tickets *tickets) {
    struct ticket_label label;
    for (int i = 0; ticket_label_command(i, &label); i++) {
        add(tickets, &label);
    }
    return !tickets->no_memory;
}

bool tickets_add_numbers(struct tickets *tickets) {
    struct ticket_label label;
    for (int i = 0; ticket_label_number(i, &label); i++) {
        add(tickets, &label);
    }
    return !tickets->no_memory;
}

// --- the file ----------------------------------------------------------------------------------

bool tickets_write(const struct tickets *tickets, const char *path,
                   const struct ticket_stock *stock, int from, size_t *ret_pages, char *message,
                   size_t size) {
    char fonts[1100];
    snprintf(fonts, sizeof fonts, "%.1000s/fonts", assets_folder());
    struct ticket_sheet sheet = {.labels = tickets->label,
                                 .count = tickets->count,
                                 .stock = stock,
                                 .from = from,
                                 .title = "Tickets",
                                 .fonts = fonts};
    if (!ticket_sheet_write(&sheet, path, NULL, message, size)) {
        return false;
    }
    *ret_pages = ticket_sheet_pages(&sheet);
    return true;
}

enum store_result tickets_build(struct store *store, const char *build, const char *path,
                                const struct ticket_stock *stock, char *message, size_t size) {
    struct tickets tickets = {0};
    size_t pages;
    enum store_result result = tickets_add_build(&tickets, store, build);
    if (result == STORE_OK && tickets.count == 0) {
        result = STORE_NONE;
    }
    if (result == STORE_NONE) {
        snprintf(message, size, _("There are no tickets for a build %s."), build);
    } else if (tickets.no_memory) {
        snprintf(message, size, _("No memory for the tickets."));
    } else if (result != STORE_OK) {
        snprintf(message, size, "%s", store_message(store));
    } else if (!tickets_write(&tickets, path, stock, 1, &pages, message, size)) {
        result = STORE_FAILED;
    }
    tickets_release(&tickets);
    return result;
}

#include "command.h"
#include "database.h"
#include "options.h"
#include "paper_size.h"
#include "print.h"
#include "text.h"
#include "tickets.h"
#include "tongue.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct wanted {
    bool workers;
    bool commands;
    bool numbers;
    const char *stock; // MODEL,FLEX
    char **names;      // builds and tickets
    int count;
};

static void complain(const char *words) {
    fprintf(stderr, "kerfside tickets: %s\n", words);
}

static bool found(const struct tickets *tickets, struct store *store, enum store_result result,
                  const char *name) {
    if (tickets->no_memory) {
        complain(_("no memory for the tickets."));
    } else if (result == STORE_NONE) {
        fprintf(stderr,
                _("kerfside tickets: there is nothing called %s. Name a build, as 2041, or a whole "
                  "ticket, as H-0001A.\n"),
                name);
    } else if (result != STORE_OK) {
        database_complain("tickets", store);
    }
    return result == STORE_OK;
}

// A whole ticket is one; anything else is the name of a build.
static bool add_named(struct tickets *tickets, struct store *store, const char *name) {
    struct ticket ticket;
    bool is_ticket = ticket_parse(name, &ticket) == TICKET_OK;
    return found(tickets, store,
                 is_ticket ? tickets_add_one(tickets, store, &ticket)
                           : tickets_add_build(tickets, store, name),
                 name);
}

// Models may have commas, flexes hardly: the last one parts them.
static bool add_stock(struct tickets *tickets, struct store *store, const char *stock) {
    char model[PARTS_NAME_MAX] = "";
    const char *comma = strrchr(stock, ',');
    if (comma != NULL && (size_t)(comma - stock) < sizeof model) {
        memcpy(model, stock, (size_t)(comma - stock));
    }
    enum store_result result =
        comma != NULL ? tickets_add_stock(tickets, store, model, comma + 1) : STORE_NONE;
    if (result == STORE_NONE) {
        fprintf(stderr,
                _("kerfside tickets: there is no raw, unreserved shaft of %s. Name model and flex, "
                  "as \"Reed 58,R\".\n"),
                stock);
        return false;
    }
    return found(tickets, store, result, stock);
}

static bool collect(struct tickets *tickets, struct store *store, const struct wanted *wanted) {
    bool done = true;
    for (int i = 0; done && i < wanted->count; i++) {
        done = add_named(tickets, store, wanted->names[i]);
    }
    if (done && wanted->workers) {
        done = found(tickets, store, tickets_add_workers(tickets, store), "--workers");
    }
    if (done && wanted->stock != NULL) {
        done = add_stock(tickets, store, wanted->stock);
    }
    if (done && wanted->commands && !tickets_add_commands(tickets)) {
        done = found(tickets, store, STORE_FAILED, "--commands");
    }
    if (done && wanted->numbers && !tickets_add_numbers(tickets)) {
        done = found(tickets, store, STORE_FAILED, "--numbers");
    }
    if (done && tickets->count == 0) {
        complain(_("there is nothing to print."));
        done = false;
    }
    return done;
}

static bool usage(const char *what) {
    fprintf(stderr, _("kerfside tickets: %s See kerfside --help.\n"), what);
    return false;
}

static bool take_stock(const char *name, const struct ticket_stock **ret_stock) {
    const struct ticket_stock *stock = ticket_stock_named(name);
    if (stock == NULL) {
        fprintf(stderr, _("kerfside tickets: no paper is %s; it can be"), name);
        for (int i = 0; i < TICKET_STOCK_COUNT; i++) {
            fprintf(stderr, "%s %s",
                    i == 0                       ? ""
                    : i + 1 < TICKET_STOCK_COUNT ? ","
                                                 : " or",
                    ticket_stocks[i].name);
        }
        fputs(".\n", stderr);
        return false;
    }
    *ret_stock = stock;
    return true;
}

static bool take_from(const char *text, const struct ticket_stock *stock, int *ret_from) {
    char *end;
    if (text == NULL) {
        *ret_from = 1;
        return true;
    }
    long from = strtol(text, &end, 10);
    if (*end != '\0' || end == text || from < 1 || from > ticket_sheet_cells(stock)) {
        fprintf(stderr, _("kerfside tickets: --from %s is no place on %s; it has %d.\n"), text,
                stock->name, ticket_sheet_cells(stock));
        return false;
    }
    *ret_from = (int)from;
    return true;
}

int command_tickets(int argc, char **argv) {
    const char *db = NULL, *path = NULL, *on = paper_size_name(paper_size(0)), *from_text = NULL,
               *queue = NULL;
    bool print = false;
    struct wanted wanted = {0};
    const struct ticket_stock *stock;
    struct tickets tickets = {0};
    struct store *store;
    char message[1200];
    size_t pages;
    int from;
    const struct option options[] = {
        {"--db", &db, NULL},
        {"--pdf", &path, NULL},
        {"--on", &on, NULL},
        {"--from", &from_text, NULL},
        {"--queue", &queue, NULL},
        {"--stock", &wanted.stock, NULL},
        {"--workers", NULL, &wanted.workers},
        {"--commands", NULL, &wanted.commands},
        {"--numbers", NULL, &wanted.numbers},
        {"--print", NULL, &print},
    };
    if (!options_read(argc, argv, options, sizeof options / sizeof options[0], &wanted.count) ||
        !take_stock(on, &stock) || !take_from(from_text, stock, &from)) {
        return COMMAND_USAGE;
    }
    wanted.names = argv + 1;
    if (path == NULL || (queue != NULL && !print)) {
        usage(path == NULL ? _("name the file with --pdf.") : _("--queue belongs to --print."));
        return COMMAND_USAGE;
    }
    if (wanted.count == 0 && !wanted.workers && !wanted.commands && !wanted.numbers &&
        wanted.stock == NULL) {
        usage(_("name builds or tickets, or --workers, --commands, --numbers, --stock."));
        return COMMAND_USAGE;
    }
    if (!database_open(argv[0], db, STORE_READ, &store)) {
        return COMMAND_REFUSED;
    }
    bool done = collect(&tickets, store, &wanted);
    store_close(store);
    if (done && !tickets_write(&tickets, path, stock, from, &pages, message, sizeof message)) {
        complain(message);
        done = false;
    }
    if (done) {
        char said[500];
        struct text text = text_open(said, sizeof said);
        char sheets[100];
        struct text paper = text_open(sheets, sizeof sheets);
        text_say(&paper, tongue_plural("%1 page", "%1 pages", pages),
                 text_number((int64_t)pages).digits);
        // TRANSLATORS: %2 how many tickets, as `12 tickets` on `2 pages` of a kind of paper.
        text_say(&text,
                 tongue_plural("%1 ticket on %2 of %3", "%1 tickets on %2 of %3", tickets.count),
                 text_number((int64_t)tickets.count).digits, sheets, stock->name);
        printf("%s: %s\n", path, said);
    }
    tickets_release(&tickets);
    if (done && print && !print_pdf(path, stock->media, queue, message, sizeof message)) {
        complain(message);
        done = false;
    }
    return done ? COMMAND_DONE : COMMAND_REFUSED;
}

// What to fetch for an order, or for all that are due: parts by rack, then what is missing.

#include "columns.h"
#include "command.h"
#include "database.h"
#include "days.h"
#include "options.h"
#include "tongue.h"
#include "workshop.h"

#include <stdio.h>
#include <string.h>

static bool put(void *context, const struct pick_line *line) {
    enum { RACK, PART, TICKET, ORDER, CLUB, MODEL, COLUMNS };
    static const struct column columns[COLUMNS] = {
        [RACK] = {NT_("list", "rack"), -12, " ", {NULL}},
        [PART] = {NT_("list", "part"), -12, " ", {NULL}},
        [TICKET] = {NT_("list", "ticket"), -15, " ", {NULL}},
        [ORDER] = {NT_("list", "order"), -12, " ", {NULL}},
        [CLUB] = {NT_("list", "club"), -15, "  ", {NULL}},
        [MODEL] = {NT_("list", "model"), 0, "", {NULL}},
    };
    static const char *const whats[PICK_WHAT_COUNT] = {[PICK_HEAD] = N_("head"),
                                                       [PICK_SHAFT] = N_("shaft"),
                                                       [PICK_NO_HEAD] = N_("no head yet"),
                                                       [PICK_NO_SHAFT] = N_("no shaft yet")};
    int64_t *lines = context;
    if ((*lines)++ == 0) {
        columns_heads(stdout, columns, COLUMNS);
    }
    columns_cell(stdout, &columns[RACK], line->rack);
    columns_cell(stdout, &columns[PART], _(whats[line->what]));
    columns_cell(stdout, &columns[TICKET], line->ticket);
    columns_cell(stdout, &columns[ORDER], line->build);
    columns_cell(stdout, &columns[CLUB], line->club);
    printf("%s%s%s\n", line->model, line->flex[0] != '\0' ? ", " : "", line->flex);
    return true;
}

static enum store_result pick(struct store *store, const char *build, const char *due) {
    struct ticket ticket;
    char body[TICKET_TEXT_MAX];
    int64_t lines = 0;
    enum store_result result = store_pick(store, build, due, put, &lines);
    if (result == STORE_NONE && ticket_parse(build, &ticket) == TICKET_OK &&
        ticket.kind == TICKET_BUILD) {
        ticket_body(&ticket, body);
        result = store_pick(store, body, due, put, &lines);
    }
    return result;
}

int command_pick(int argc, char **argv) {
    const char *db = NULL, *due = NULL;
    const struct option options[] = {{"--db", &db, NULL}, {"--due", &due, NULL}};
    struct store *store;
    int64_t day;
    int count;
    if (!options_read_plain(argc, argv, options, 2, 0, 1, N_("the order"), &count) ||
        !days_take(argv[0], "--due", due, 0, &day)) {
        return COMMAND_USAGE;
    }
    if ((count == 1) == (due != NULL)) {
        fprintf(stderr,
                _("kerfside %s: name an order, or a day with --due. See kerfside --help.\n"),
                argv[0]);
        return COMMAND_USAGE;
    }
    if (!database_open(argv[0], db, STORE_READ, &store)) {
        return COMMAND_REFUSED;
    }
    enum store_result result = pick(store, count == 1 ? argv[1] : "", due != NULL ? due : "");
    if (result == STORE_NONE) {
        fprintf(stderr, _("kerfside %s: nothing is to be fetched for %s.\n"), argv[0],
                count == 1 ? argv[1] : _("that day"));
    } else if (result != STORE_OK) {
        database_complain(argv[0], store);
    }
    store_close(store);
    return result == STORE_OK ? COMMAND_DONE : COMMAND_REFUSED;
}

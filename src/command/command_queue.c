// What waits for the benches, in their order.

#include "columns.h"
#include "command.h"
#include "database.h"
#include "options.h"
#include "tongue.h"
#include "workshop.h"

#include <stdio.h>

#define LINES_MAX 500

enum { ORDER, CLUB, HEAD, SHAFT, DUE, COLUMNS };

static const struct column columns[COLUMNS] = {
    [ORDER] = {NT_("list", "order"), -12, " ", {NULL}},
    [CLUB] = {NT_("list", "club"), -15, " ", {NULL}},
    [HEAD] = {NT_("list", "head"), -15, " ", {NULL}},
    [SHAFT] = {NT_("list", "shaft"), -15, " ", {NULL}},
    [DUE] = {NT_("list", "due"), -10, "  ", {NULL}},
};

static void put_lines(const struct club_line *lines, int count, bool half) {
    for (int i = 0; i < count; i++) {
        const struct club_line *line = &lines[i];
        columns_cell(stdout, &columns[ORDER], line->build);
        columns_cell(stdout, &columns[CLUB], line->club);
        columns_cell(stdout, &columns[HEAD], line->head);
        columns_cell(stdout, &columns[SHAFT], line->shaft);
        columns_cell(stdout, &columns[DUE], line->due);
        puts(line->held ? _("half cut, on hold") : half ? _("half cut") : "");
    }
}

static bool list(struct store *store) {
    static struct club_line half[LINES_MAX], next[LINES_MAX];
    int64_t half_total = 0;
    int64_t total = 0;
    int half_count = store_clubs(store, CLUBS_HALF_CUT, half, LINES_MAX, &half_total);
    int count = store_clubs(store, CLUBS_NEXT, next, LINES_MAX, &total);
    if (half_count < 0 || count < 0) {
        return false;
    }
    if (half_count + count > 0) {
        columns_heads(stdout, columns, COLUMNS);
    }
    put_lines(half, half_count, true);
    put_lines(next, count, false);
    printf(_("%lld clubs wait, %lld are half cut.\n"), (long long)total, (long long)half_total);
    if (half_count < half_total || count < total) {
        printf(_("The first %d of each are listed.\n"), LINES_MAX);
    }
    return true;
}

int command_queue(int argc, char **argv) {
    const char *db = NULL;
    const struct option options[] = {{"--db", &db, NULL}};
    struct store *store;
    int count;
    if (!options_read_plain(argc, argv, options, 1, 0, 0, "", &count)) {
        return COMMAND_USAGE;
    }
    if (!database_open(argv[0], db, STORE_READ, &store)) {
        return COMMAND_REFUSED;
    }
    bool done = list(store);
    if (!done) {
        database_complain(argv[0], store);
    }
    store_close(store);
    return done ? COMMAND_DONE : COMMAND_REFUSED;
}

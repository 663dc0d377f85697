// What lies in stock, what is needed of it, and what to order again.

#include "columns.h"
#include "command.h"
#include "csv.h"
#include "database.h"
#include "options.h"
#include "tongue.h"
#include "workshop.h"

#include <stdio.h>

#define PAGE 50

enum { PART, MODEL, FREE, RESERVED, NEEDED, SHORT, LEVEL, ORDER, COLUMNS };

static const struct column columns[COLUMNS] = {
    [PART] = {NT_("list", "part"), -5, " ", {N_("head"), N_("shaft")}},
    [MODEL] = {NT_("list", "model"), -40, " ", {NULL}},
    [FREE] = {NT_("list", "free"), 6, " ", {NULL}},
    [RESERVED] = {NT_("list", "reserved"), 9, " ", {NULL}},
    [NEEDED] = {NT_("list", "needed"), 7, " ", {NULL}},
    [SHORT] = {NT_("list", "short"), 6, "  ", {NULL}},
    [LEVEL] = {NT_("list", "level"), -12, " ", {NULL}},
    [ORDER] = {NT_("to buy", "order"), 6, "", {NULL}},
};

typedef void put_line(const struct stock_line *line);

static void put_text(const struct stock_line *line) {
    char model[PARTS_NAME_MAX + PARTS_SHORT_MAX + 2];
    char level[48] = "";
    char order[24] = "";
    snprintf(model, sizeof model, "%s%s%s", line->model, line->head ? "" : ", ", line->flex);
    if (line->levelled) {
        snprintf(level, sizeof level, _("%lld to %lld"), (long long)line->least,
                 (long long)line->wanted);
    }
    if (line->reorder > 0) {
        snprintf(order, sizeof order, "%lld", (long long)line->reorder);
    }
    columns_cell(stdout, &columns[PART], line->head ? _("head") : _("shaft"));
    columns_cell(stdout, &columns[MODEL], model);
    columns_number(stdout, &columns[FREE], line->free);
    columns_number(stdout, &columns[RESERVED], line->reserved);
    columns_number(stdout, &columns[NEEDED], line->needed);
    columns_number(stdout, &columns[SHORT], line->short_by);
    columns_cell(stdout, &columns[LEVEL], level);
    columns_cell(stdout, &columns[ORDER], order);
    putchar('\n');
}

static void put_csv(const struct stock_line *line) {
    char model[2 * PARTS_NAME_MAX + 4];
    char flex[2 * PARTS_SHORT_MAX + 4];
    csv_cell(line->model, model, sizeof model);
    csv_cell(line->flex, flex, sizeof flex);
    printf("%s,%s,%s,%lld,%lld,%lld,%lld,", line->head ? "head" : "shaft", model, flex,
           (long long)line->free, (long long)line->reserved, (long long)line->needed,
           (long long)line->short_by);
    if (line->levelled) {
        printf("%lld,%lld", (long long)line->least, (long long)line->wanted);
    } else {
        fputs(",", stdout);
    }
    printf(",%lld\r\n", (long long)line->reorder);
}

static bool list(struct store *store, bool heads, put_line *put) {
    static struct stock_line lines[PAGE];
    struct stock_line last;
    int count = store_stock_lines(store, heads, NULL, lines, PAGE);
    while (count > 0) {
        for (int i = 0; i < count; i++) {
            put(&lines[i]);
        }
        last = lines[count - 1];
        count = count == PAGE ? store_stock_lines(store, heads, &last, lines, PAGE) : 0;
    }
    return count == 0;
}

int command_stock(int argc, char **argv) {
    const char *db = NULL;
    bool csv = false;
    const struct option options[] = {{"--db", &db, NULL}, {"--csv", NULL, &csv}};
    struct store *store;
    int count;
    if (!options_read_plain(argc, argv, options, 2, 0, 0, "", &count)) {
        return COMMAND_USAGE;
    }
    if (!database_open(argv[0], db, STORE_READ, &store)) {
        return COMMAND_REFUSED;
    }
    if (csv) {
        fputs("part,model,flex,free,reserved,needed,short,least,wanted,order\r\n", stdout);
    } else {
        columns_heads(stdout, columns, COLUMNS);
    }
    bool done =
        list(store, true, csv ? put_csv : put_text) && list(store, false, csv ? put_csv : put_text);
    if (!done) {
        database_complain(argv[0], store);
    }
    store_close(store);
    return done ? COMMAND_DONE : COMMAND_REFUSED;
}

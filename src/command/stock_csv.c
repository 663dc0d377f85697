#include "stock_csv.h"
#include "csv.h"

#include <string.h>

#define CELL_MAX (2 * PARTS_NAME_MAX + 4) // every quote doubled, two around, an apostrophe, NUL
#define LINES 64

static void put(FILE *file, const char *text, const char *after) {
    char cell[CELL_MAX];
    size_t size = csv_cell(text, cell, sizeof cell);
    fwrite(cell, 1, size, file);
    fputs(after, file);
}

static void put_number(FILE *file, int64_t number, const char *after) {
    fprintf(file, "%lld%s", (long long)number, after);
}

static void put_stock(FILE *file, const struct stock_line *line) {
    put(file, line->head ? "head" : "shaft", ",");
    put(file, line->model, ",");
    put(file, line->flex, ",");
    put_number(file, line->free, ",");
    put_number(file, line->reserved, ",");
    put_number(file, line->needed, ",");
    put_number(file, line->short_by, ",");
    if (line->levelled) {
        put_number(file, line->least, ",");
        put_number(file, line->wanted, ",");
    } else {
        fputs(",,", file);
    }
    put_number(file, line->reorder, "\r\n");
}

bool stock_csv(struct store *store, FILE *file) {
    struct stock_line lines[LINES];
    fputs("part,model,flex,free,reserved,needed,short,least,wanted,to_order\r\n", file);
    for (int heads = 0; heads < 2; heads++) {
        struct stock_line last;
        int count = LINES;
        for (bool first = true; count == LINES; first = false) {
            count = store_stock_lines(store, heads == 1, first ? NULL : &last, lines, LINES);
            for (int i = 0; i < count; i++) {
                put_stock(file, &lines[i]);
                last = lines[i];
            }
        }
        if (count < 0) {
            return false;
        }
    }
    return !ferror(file);
}

static bool put_pick(void *context, const struct pick_line *line) {
    static const char *const parts[PICK_WHAT_COUNT] = {[PICK_HEAD] = "head",
                                                       [PICK_SHAFT] = "shaft",
                                                       [PICK_NO_HEAD] = "no head",
                                                       [PICK_NO_SHAFT] = "no shaft"};
    FILE *file = context;
    put(file, line->rack, ",");
    put(file, parts[line->what], ",");
    put(file, line->ticket, ",");
    put(file, line->model, ",");
    put(file, line->flex, ",");
    put(file, line->build, ",");
    put(file, line->club, ",");
    put(file, line->due, "\r\n");
    return !ferror(file);
}

bool pick_csv(struct store *store, const char *build, FILE *file) {
    fputs("rack,part,ticket,model,flex,order,club,due\r\n", file);
    enum store_result result = store_pick(store, build, PICK_EVER, put_pick, file);
    return (result == STORE_OK || result == STORE_NONE) && !ferror(file);
}

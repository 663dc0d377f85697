// Stock: what lies there, what to fetch, what is left of shafts.

#include "office_inner.h"
#include "text.h"
#include "workshop.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

// --- what lies there -----------------------------------------------------------------------------

// `4, 2 short`; nothing when none is needed.
static void needed_cell(const struct stock_line *line, char *cell) {
    struct text text = text_open(cell, VIEW_CELL_MAX);
    if (line->short_by > 0) {
        // TRANSLATORS: parts that are needed, and how many of these are not there.
        text_say(&text, _("%1, %2 short"), text_number(line->needed).digits,
                 text_number(line->short_by).digits);
    } else if (line->needed > 0) {
        text_add_number(&text, line->needed);
    }
}

static void level_cell(const struct stock_line *line, char *cell) {
    struct text text = text_open(cell, VIEW_CELL_MAX);
    if (line->levelled) {
        // TRANSLATORS: a range, as `4 to 10`.
        text_say(&text, _("%1 to %2"), text_number(line->least).digits,
                 text_number(line->wanted).digits);
    }
}

static void add_stock(const struct stock_line *line, struct desk_table *table) {
    int row = rows_add(table);
    if (row < 0) {
        return;
    }
    char(*cell)[VIEW_CELL_MAX] = table->set.row[row].cell;
    SET(table->ref[row].key[0], line->head ? "head" : "shaft");
    SET(table->ref[row].key[1], line->model);
    SET(table->ref[row].key[2], line->flex);
    SET(cell[0], line->model);
    SET(cell[1], line->head ? _("head") : line->flex);
    rows_number(line->free, cell[2], VIEW_CELL_MAX);
    rows_number(line->reserved, cell[3], VIEW_CELL_MAX);
    needed_cell(line, cell[4]);
    level_cell(line, cell[5]);
    if (line->reorder > 0) {
        rows_number(line->reorder, cell[6], VIEW_CELL_MAX);
    }
    table->set.row[row].tone = line->reorder > 0 ? TONE_CAUTION : TONE_PLAIN;
}

static bool each_stock(struct office *office, const struct desk_query *query, bool heads,
                       bool from_after, struct desk_table *table) {
    struct stock_line lines[ROWS_ASKED];
    struct stock_line last;
    int count = ROWS_ASKED;
    memset(&last, 0, sizeof last);
    SET(last.model, from_after ? query->after.key[1] : "");
    SET(last.flex, from_after ? query->after.key[2] : "");
    while (count == ROWS_ASKED && !table->more) {
        count = store_stock_lines(office->store, heads, last.model[0] != '\0' ? &last : NULL, lines,
                                  ROWS_ASKED);
        for (int i = 0; i < count && !table->more; i++) {
            if (rows_wanted(query, lines[i].model, lines[i].flex)) {
                add_stock(&lines[i], table);
            }
            last = lines[i];
        }
    }
    return count >= 0;
}

// Shafts first, then heads.
enum desk_result list_stock(struct office *office, const struct desk_query *query,
                            struct desk_table *table) {
    const char *const heads[] = {_("Model"),  _("Flex"),  _("Free"),    _("Reserved"),
                                 _("Needed"), _("Level"), _("To order")};
    bool to_heads = strcmp(query->after.key[0], "head") == 0;
    SET(table->set.title, _("Stock"));
    rows_head(table, heads, sizeof heads / sizeof *heads);
    bool good = to_heads || each_stock(office, query, false, true, table);
    good = good && each_stock(office, query, true, to_heads, table);
    return good ? DESK_DONE : DESK_FAILED;
}

int64_t stock_to_order(struct office *office) {
    struct stock_line lines[ROWS_ASKED];
    int64_t total = 0;
    for (int heads = 0; heads < 2; heads++) {
        int count = ROWS_ASKED;
        const struct stock_line *after = NULL;
        struct stock_line last;
        while (count == ROWS_ASKED) {
            count = store_stock_lines(office->store, heads == 1, after, lines, ROWS_ASKED);
            if (count < 0) {
                return -1;
            }
            for (int i = 0; i < count; i++) {
                total += lines[i].reorder > 0;
                last = lines[i];
            }
            after = &last;
        }
    }
    return total;
}

// --- what to fetch -------------------------------------------------------------------------------

struct picking {
    const struct desk_query *query;
    struct desk_table *table;
    int64_t passed; // lines of the pages before this one
    int64_t at;
    int64_t missing;
};

static const char *pick_words(enum pick_what what) {
    static const char *const words[PICK_WHAT_COUNT] = {[PICK_HEAD] = N_("head"),
                                                       [PICK_SHAFT] = N_("shaft"),
                                                       [PICK_NO_HEAD] = N_("no head yet"),
                                                       [PICK_NO_SHAFT] = N_("no shaft yet")};
    return _(words[what]);
}

static bool pick(void *context, const struct pick_line *line) {
    struct picking *picking = context;
    struct desk_table *table = picking->table;
    bool missing = line->what == PICK_NO_HEAD || line->what == PICK_NO_SHAFT;
    int64_t at = ++picking->at;
    bool wanted = rows_wanted(picking->query, line->ticket, line->model) ||
                  rows_wanted(picking->query, line->rack, line->build);
    picking->missing += missing;
    int row = at > picking->passed && wanted ? rows_add(table) : -1;
    if (row < 0) {
        return true; // goes on to count what is missing
    }
    char(*cell)[VIEW_CELL_MAX] = table->set.row[row].cell;
    struct text club = text_open(cell[5], VIEW_CELL_MAX);
    rows_number(at, table->ref[row].key[1], DESK_KEY_MAX);
    SET(table->ref[row].key[0], line->ticket);
    SET(cell[0], line->rack);
    SET(cell[1], pick_words(line->what));
    SET(cell[2], line->ticket);
    SET(cell[3], line->model);
    SET(cell[4], line->flex);
    text_add(&club, line->build);
    text_add(&club, "-");
    text_add(&club, line->club);
    SET(cell[6], line->due);
    table->set.row[row].tone = missing ? TONE_CAUTION : TONE_PLAIN;
    return true;
}

enum desk_result list_pick(struct office *office, const struct desk_query *query,
                           struct desk_table *table) {
    const char *const heads[] = {_("Rack"), _("Part"), _("Ticket"), _("Model"),
                                 _("Flex"), _("Club"), _("Due")};
    const char *build = query->of.key[0];
    struct picking picking = {
        .query = query, .table = table, .passed = strtoll(query->after.key[1], NULL, 10)};
    struct text title = text_open(table->set.title, sizeof table->set.title);
    char words[VIEW_TEXT_MAX];
    text_say(&title, build[0] != '\0' ? _("Pick list of order %1") : _("Pick list of all orders"),
             build);
    rows_head(table, heads, sizeof heads / sizeof *heads);
    enum store_result result = store_pick(office->store, build, PICK_EVER, pick, &picking);
    if (picking.missing > 0) {
        snprintf(words, sizeof words, _("Parts that no club has been given yet: %lld."),
                 (long long)picking.missing);
        rows_note(table, TONE_CAUTION, words);
    }
    if (result == STORE_NONE) {
        rows_note(table, TONE_FINE, _("Nothing is to be fetched."));
    }
    if (build[0] == '\0') {
        rows_note(table, TONE_PLAIN,
                  _("Released orders with a day they are due. Those without one have a pick list "
                    "of their own."));
    }
    return result == STORE_NONE ? DESK_DONE : office_result(result);
}

// --- what is left of shafts ----------------------------------------------------------------------

static void add_offcut(const struct office *office, const struct offcut_line *line,
                       struct desk_table *table) {
    int row = rows_add(table);
    if (row >= 0) {
        char(*cell)[VIEW_CELL_MAX] = table->set.row[row].cell;
        rows_number(line->remaining, table->ref[row].key[1], DESK_KEY_MAX);
        SET(table->ref[row].key[0], line->ticket);
        SET(cell[0], line->ticket);
        office_length(office, line->remaining, cell[1], VIEW_CELL_MAX);
        SET(cell[2], line->rack);
        SET(cell[3], line->life == PART_SCRAP ? _("scrap") : _("cut"));
    }
}

// Of the model and flex that was chosen in the stock; the shortest first.
enum desk_result list_offcuts(struct office *office, const struct desk_query *query,
                              struct desk_table *table) {
    const char *const heads[] = {_("Ticket"), _("Left of it"), _("Rack"), _("It was")};
    struct offcut_line lines[ROWS_ASKED];
    struct offcut_line last;
    bool begun = query->after.key[0][0] != '\0';
    int count = ROWS_ASKED;
    struct text title = text_open(table->set.title, sizeof table->set.title);
    memset(&last, 0, sizeof last);
    SET(last.ticket, query->after.key[0]);
    last.remaining = strtoll(query->after.key[1], NULL, 10);
    // TRANSLATORS: a shaft's model and flex.
    text_say(&title, _("What is left of %1 %2"), query->of.key[1], query->of.key[2]);
    rows_head(table, heads, sizeof heads / sizeof *heads);
    while (count == ROWS_ASKED && !table->more) {
        count = store_offcuts(office->store, query->of.key[1], query->of.key[2], 0,
                              begun ? &last : NULL, lines, ROWS_ASKED);
        for (int i = 0; i < count && !table->more; i++) {
            if (rows_wanted(query, lines[i].ticket, lines[i].rack)) {
                add_offcut(office, &lines[i], table);
            }
            last = lines[i];
            begun = true;
        }
    }
    if (count >= 0 && table->set.row_count == 0) {
        rows_note(table, TONE_PLAIN, _("Nothing is left of such shafts."));
    }
    return count < 0 ? DESK_FAILED : DESK_DONE;
}

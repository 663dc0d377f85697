// Deliveries: what came together, and how much it spreads about the models' figures.

#include "spread.h"
#include "text.h"

#include <stdlib.h>
#include <string.h>

// --- one delivery --------------------------------------------------------------------------------

static void spread_out(const struct spread *spread, struct desk_table *table) {
    char words[VIEW_TEXT_MAX] = "";
    struct view_set *set = &table->set;
    spread_words(spread, words, sizeof words);
    if (words[0] != '\0') {
        rows_note(table, spread->off > 0 ? TONE_CAUTION : TONE_PLAIN, words);
    }
    if (set->plot_count < VIEW_PLOTS_MAX && spread_plot(spread, &set->plot[set->plot_count])) {
        set->plot_count++;
    }
}

static bool one_model(const struct lot_part *parts, int count) {
    for (int i = 1; i < count; i++) {
        if (strcmp(parts[i].model, parts[0].model) != 0) {
            return false;
        }
    }
    return count > 0;
}

// Of one model what was measured, of several what each differs from its own model's.
static void look_at(const struct office *office, bool heads, const struct lot_part *parts,
                    int count, struct desk_table *table) {
    static const enum spread_of all[] = {SPREAD_WEIGHT, SPREAD_LENGTH};
    struct spread spread;
    bool one = one_model(parts, count);
    for (size_t i = 0; i < 2; i++) {
        if (one) {
            spread_fill(office, all[i], heads, parts[0].model,
                        all[i] == SPREAD_WEIGHT ? parts[0].model_weight : parts[0].model_length,
                        parts, count, &spread);
        } else {
            spread_differences(office, all[i], heads, parts, count, &spread);
        }
        spread_out(&spread, table);
    }
    if (count > 0 && !one) {
        rows_note(table, TONE_PLAIN,
                  heads ? _("Heads of several models: what each is over its own model's figure.")
                        : _("Shafts of several models: what each is over its own model's figure."));
    }
    if (count == SPREAD_MAX) {
        rows_note(table, TONE_CAUTION, _("A large delivery: only its first 1 000 are looked at."));
    }
}

static bool describe(struct office *office, const char *lot, struct desk_table *table) {
    static const enum ticket_kind kinds[] = {TICKET_HEAD, TICKET_SHAFT};
    struct lot_part parts[SPREAD_MAX];
    for (size_t i = 0; i < 2; i++) {
        int count = spread_parts(office, lot, kinds[i], parts);
        if (count < 0) {
            return false;
        }
        look_at(office, kinds[i] == TICKET_HEAD, parts, count, table);
    }
    return true;
}

// `+6.4`, `-1/2`; empty when it is not known.
static void difference(const struct office *office, enum spread_of of, int64_t made, int64_t figure,
                       char *cell) {
    char size[VIEW_CELL_MAX] = "";
    struct text text = text_open(cell, VIEW_CELL_MAX);
    if (made == LENGTH_UNKNOWN || figure == LENGTH_UNKNOWN) {
        return;
    }
    if (of == SPREAD_WEIGHT) {
        office_weight(llabs(made - figure), size, sizeof size);
    } else {
        office_length(office, llabs(made - figure), size, sizeof size);
    }
    text_add(&text, made > figure ? "+" : made < figure ? "-" : "");
    text_add(&text, size);
}

static bool add_part(const struct office *office, const struct lot_part *part,
                     struct desk_table *table) {
    int row = rows_add(table);
    if (row < 0) {
        return false;
    }
    char(*cell)[VIEW_CELL_MAX] = table->set.row[row].cell;
    SET(table->ref[row].key[0], part->ticket);
    SET(cell[0], part->ticket);
    SET(cell[1], part->model);
    SET(cell[2], part->flex);
    office_weight(part->weight, cell[3], VIEW_CELL_MAX);
    difference(office, SPREAD_WEIGHT, part->weight, part->model_weight, cell[4]);
    office_length(office, part->length, cell[5], VIEW_CELL_MAX);
    difference(office, SPREAD_LENGTH, part->length, part->model_length, cell[6]);
    table->set.row[row].tone = spread_off(part, SPREAD_WEIGHT) || spread_off(part, SPREAD_LENGTH)
                                   ? TONE_CAUTION
                                   : TONE_PLAIN;
    return true;
}

static bool add_parts(struct office *office, const struct desk_query *query, enum ticket_kind kind,
                      const char *after, struct desk_table *table) {
    struct lot_part parts[ROWS_ASKED];
    int count = ROWS_ASKED;
    char last[TICKET_TEXT_MAX];
    words_copy(last, sizeof last, after);
    while (count == ROWS_ASKED && !table->more) {
        count = store_lot_parts(office->store, query->of.key[0], kind, last, parts, ROWS_ASKED);
        for (int i = 0; i < count && !table->more; i++) {
            if (rows_wanted(query, parts[i].ticket, parts[i].model)) {
                add_part(office, &parts[i], table);
            }
            words_copy(last, sizeof last, parts[i].ticket);
        }
    }
    return count >= 0;
}

enum desk_result list_lot(struct office *office, const struct desk_query *query,
                          struct desk_table *table) {
    const char *const heads[] = {_("Ticket"), _("Model"),          _("Flex"), _("g"),
                                 _("off"),    _("Length or bore"), _("off")};
    const char *after = query->after.key[0];
    bool to_shafts = after[0] == 'S';
    struct text title = text_open(table->set.title, sizeof table->set.title);
    text_say(&title, _("Delivery %1"), query->of.key[0]);
    rows_head(table, heads, sizeof heads / sizeof *heads);
    bool good = to_shafts || add_parts(office, query, TICKET_HEAD, after, table);
    good = good && add_parts(office, query, TICKET_SHAFT, to_shafts ? after : "", table);
    return good && describe(office, query->of.key[0], table) ? DESK_DONE : DESK_FAILED;
}

// --- all of them ---------------------------------------------------------------------------------

static void add_lot(const struct lot_line *line, struct desk_table *table) {
    int row = rows_add(table);
    if (row >= 0) {
        char(*cell)[VIEW_CELL_MAX] = table->set.row[row].cell;
        rows_number(line->id, table->ref[row].key[1], DESK_KEY_MAX);
        SET(table->ref[row].key[0], line->lot);
        SET(cell[0], line->lot);
        rows_number(line->heads, cell[1], VIEW_CELL_MAX);
        rows_number(line->shafts, cell[2], VIEW_CELL_MAX);
    }
}

enum desk_result list_lots(struct office *office, const struct desk_query *query,
                           struct desk_table *table) {
    const char *const heads[] = {_("Delivery"), _("Heads"), _("Shafts")};
    struct lot_line lines[ROWS_ASKED];
    int64_t before = strtoll(query->after.key[1], NULL, 10);
    int count = ROWS_ASKED;
    SET(table->set.title, _("Deliveries"));
    rows_head(table, heads, sizeof heads / sizeof *heads);
    while (count == ROWS_ASKED && !table->more) {
        count = store_lots(office->store, before, lines, ROWS_ASKED);
        for (int i = 0; i < count && !table->more; i++) {
            if (rows_wanted(query, lines[i].lot, "")) {
                add_lot(&lines[i], table);
            }
            before = lines[i].id;
        }
    }
    if (count < 0 || (query->has_selected && !describe(office, query->selected.key[0], table))) {
        return DESK_FAILED;
    }
    if (table->set.row_count == 0) {
        rows_note(table, TONE_PLAIN, _("Nothing was taken in with a delivery yet."));
    }
    return DESK_DONE;
}

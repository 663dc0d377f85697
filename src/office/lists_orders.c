// Orders, and the clubs of one with their plans.

#include "plans.h"
#include "text.h"
#include "workshop.h"

#include <stdlib.h>
#include <string.h>

static const char *const statuses[ORDER_STATUS_COUNT] = {[ORDER_DRAFT] = N_("draft"),
                                                         [ORDER_RELEASED] = N_("released"),
                                                         [ORDER_HELD] = N_("held"),
                                                         [ORDER_CANCELLED] = N_("cancelled")};

static enum view_tone order_tone(const struct order_line *line) {
    if (line->status == ORDER_RELEASED) {
        return line->clubs > 0 && line->done == line->clubs ? TONE_FINE
               : line->short_parts > 0                      ? TONE_CAUTION
                                                            : TONE_PLAIN;
    }
    return line->status == ORDER_HELD ? TONE_CAUTION : TONE_PLAIN;
}

static void of_words(int64_t some, int64_t all, char *buffer) {
    struct text text = text_open(buffer, VIEW_CELL_MAX);
    text_say(&text, _("%1 of %2"), text_number(some).digits, text_number(all).digits);
}

static void order_row(const struct order_line *line, int row, struct desk_table *table) {
    char(*cell)[VIEW_CELL_MAX] = table->set.row[row].cell;
    SET(table->ref[row].key[0], line->build);
    SET(cell[0], line->build);
    SET(cell[1], _(statuses[line->status]));
    rows_number(line->priority, cell[2], VIEW_CELL_MAX);
    SET(cell[3], line->due);
    of_words(line->done, line->clubs, cell[4]);
    if (line->short_parts > 0) {
        rows_number(line->short_parts, cell[5], VIEW_CELL_MAX);
    }
    words_copy(cell[6], VIEW_CELL_MAX, line->reference);
    table->set.row[row].tone = order_tone(line);
}

static void order_notes(struct office *office, const char *build, struct desk_table *table) {
    struct order_line line;
    struct change_line change[3];
    if (store_order(office->store, build, &line) != STORE_OK) {
        return;
    }
    if (line.note[0] != '\0') {
        rows_note(table, TONE_PLAIN, line.note);
    }
    if (line.short_parts > 0) {
        rows_note(table, TONE_CAUTION, _("Some clubs wait for a head or a shaft."));
    }
    if (line.bench_waits) {
        int count = store_order_changes(office->store, build, 0, change, 3);
        rows_note(table, TONE_CAUTION,
                  _("Changed after a cut; the bench is told at its next club."));
        for (int i = 0; i < count; i++) {
            rows_note(table, TONE_PLAIN, change[i].words);
        }
    }
}

enum desk_result list_orders(struct office *office, const struct desk_query *query,
                             struct desk_table *table) {
    const char *const heads[] = {_("Order"), _("Status"), _("Priority"), _("Due"),
                                 _("Done"),  _("Short"),  _("Reference")};
    struct order_line lines[ROWS_ASKED];
    const char *after = query->after.key[0];
    size_t prefix = strlen(query->find);
    int count = 0;
    // The order of just this name comes first, behind it those that begin so.
    if (prefix > 0 && after[0] == '\0') {
        count = store_order(office->store, query->find, &lines[0]) == STORE_OK ? 1 : 0;
        after = query->find;
    }
    int more = store_orders(office->store, NULL, after, lines + count, ROWS_ASKED - count);
    SET(table->set.title, _("Orders"));
    rows_head(table, heads, sizeof heads / sizeof *heads);
    for (int i = 0; i < count + more && strncmp(lines[i].build, query->find, prefix) == 0; i++) {
        int row = rows_add(table);
        if (row < 0) {
            break;
        }
        order_row(&lines[i], row, table);
    }
    if (query->has_selected) {
        order_notes(office, query->selected.key[0], table);
    }
    return more < 0 ? DESK_FAILED : DESK_DONE;
}

// --- the clubs of one ----------------------------------------------------------------------------

#define CLUBS_MAX 200
struct clubs {
    const struct office *office;
    size_t count;
    struct club_row {
        struct club club;
        struct plans_words words;
    } * row;
};

static bool take_club(void *context, const struct club *club, const struct final_values *values) {
    struct clubs *clubs = context;
    struct club_row *row = &clubs->row[clubs->count++];
    (void)values;
    row->club = *club;
    plans_club(clubs->office, club, &row->words);
    return clubs->count < CLUBS_MAX;
}

static bool cancelled(const struct club_row *row) {
    return row->club.order.cancelled || row->club.order.status == ORDER_CANCELLED;
}

// What has no plan comes first, then what waits for parts, then by position.
static int urgency(const struct club_row *row) {
    return cancelled(row)                  ? 3
           : row->words.refusal[0] != '\0' ? 0
           : row->words.missing[0] != '\0' ? 1
                                           : 2;
}

static int by_urgency(const void *a, const void *b) {
    const struct club_row *one = a;
    const struct club_row *other = b;
    int first = urgency(one) - urgency(other);
    return first != 0 ? first : one->club.order.position - other->club.order.position;
}

static const char *stage_words(const struct club_row *row) {
    static const char *const words[STAGE_COUNT] = {
        [STAGE_PENDING] = N_("to be cut"), [STAGE_TIP_SHOWN] = N_("tip cut next"),
        [STAGE_TIP_CUT] = N_("butt next"), [STAGE_BUTT_SHOWN] = N_("butt next"),
        [STAGE_BUTT_CUT] = N_("measure"),  [STAGE_DECISION] = N_("to be decided"),
        [STAGE_DONE] = N_("cut")};
    if (cancelled(row)) {
        return _("cancelled");
    }
    if (row->club.progress.stage == STAGE_PENDING) {
        return row->words.refusal[0] != '\0'   ? _("no plan")
               : row->words.missing[0] != '\0' ? row->words.missing
                                               : _(words[STAGE_PENDING]);
    }
    return _(words[row->club.progress.stage]);
}

static void club_row(const struct office *office, const struct club_row *from, int row,
                     struct desk_table *table) {
    char(*cell)[VIEW_CELL_MAX] = table->set.row[row].cell;
    const struct order *order = &from->club.order;
    SET(table->ref[row].key[0], order->build);
    SET(table->ref[row].key[1], order->club);
    SET(cell[0], order->club);
    SET(cell[1], from->club.head.ticket);
    SET(cell[2],
        from->club.shaft.ticket[0] != '\0' ? from->club.shaft.ticket : order->wished_model);
    office_length(office, order->playing_length, cell[3], VIEW_CELL_MAX);
    SET(cell[4], from->words.tip);
    SET(cell[5], from->words.butt);
    SET(cell[6], stage_words(from));
    table->set.row[row].tone = urgency(from) == 0                        ? TONE_STOP
                               : urgency(from) == 1                      ? TONE_CAUTION
                               : from->club.progress.stage == STAGE_DONE ? TONE_FINE
                                                                         : TONE_PLAIN;
}

static void club_notes(const struct club_row *row, struct desk_table *table) {
    const struct plans_words *words = &row->words;
    rows_note(table,
              words->planned              ? TONE_FINE
              : words->refusal[0] != '\0' ? TONE_STOP
                                          : TONE_CAUTION,
              words->planned              ? words->marks
              : words->refusal[0] != '\0' ? words->refusal
                                          : words->missing);
    for (size_t i = 0; i < words->line_count; i++) {
        rows_note(table, words->tone[i], words->line[i]);
    }
}

static void clubs_title(struct office *office, const char *build, struct desk_table *table) {
    struct order_line line;
    struct text text = text_open(table->set.title, sizeof table->set.title);
    text_say(&text, _("Order %1"), build);
    if (store_order(office->store, build, &line) == STORE_OK) {
        text = text_open(table->set.subtitle, sizeof table->set.subtitle);
        // TRANSLATORS: of an order; %1 its status, as `released`, %2 a day.
        text_say(&text, line.due[0] != '\0' ? _("%1, due %2") : "%1", _(statuses[line.status]),
                 line.due);
        text_add(&text, line.reference[0] != '\0' ? ", " : "");
        text_add(&text, line.reference);
    }
}

static void club_rows(const struct office *office, const struct clubs *clubs,
                      const struct desk_query *query, struct desk_table *table) {
    bool from = query->after.key[1][0] == '\0';
    for (size_t i = 0; i < clubs->count; i++) {
        const struct club_row *club = &clubs->row[i];
        const char *name = club->club.order.club;
        int row = from ? rows_add(table) : -1;
        if (row >= 0) {
            club_row(office, club, row, table);
        }
        from = from || strcmp(name, query->after.key[1]) == 0;
        if (query->has_selected ? strcmp(query->selected.key[1], name) == 0
                                : i == 0 && urgency(club) == 0) {
            club_notes(club, table);
        }
    }
}

enum desk_result list_clubs(struct office *office, const struct desk_query *query,
                            struct desk_table *table) {
    const char *const heads[] = {_("Club"), _("Head"), _("Shaft"), _("Length"),
                                 _("Tip"),  _("Butt"), _("State")};
    struct clubs clubs = {.office = office};
    clubs.row = calloc(CLUBS_MAX, sizeof *clubs.row);
    if (clubs.row == NULL) {
        return DESK_FAILED;
    }
    enum store_result result =
        store_build_clubs(office->store, query->of.key[0], take_club, &clubs);
    clubs_title(office, query->of.key[0], table);
    rows_head(table, heads, sizeof heads / sizeof *heads);
    if (result == STORE_OK) {
        qsort(clubs.row, clubs.count, sizeof *clubs.row, by_urgency);
        club_rows(office, &clubs, query, table);
    }
    free(clubs.row);
    // An order without clubs is one all the same.
    return result == STORE_NONE ? DESK_DONE : office_result(result);
}

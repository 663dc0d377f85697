// Order lines, and which parts are reserved for them.

#include "import_write.h"
#include "tongue.h"

#include <string.h>

#define POSITIONS_MAX 200 // clubs in one build, as the schema has it

// A club as the store has it.
struct known {
    int64_t id;
    struct order order;
    enum stage stage;
    char head[TICKET_TEXT_MAX];
    char shaft[TICKET_TEXT_MAX];
    char shaft_model[PARTS_NAME_MAX]; // of the reserved shaft
    char shaft_flex[PARTS_SHORT_MAX];
    bool cut; // its shaft is not raw any more
    bool off; // its whole order is cancelled
};

static enum store_result look_up(struct store *store, const struct order *order,
                                 struct known *ret_known) {
    struct known known = {.order = order_empty()};
    char word[16];
    struct query query = query_open(store, STATEMENT_IMPORT_CLUB);
    query_bind_text(&query, order->build);
    query_bind_text(&query, order->club);
    if (query_step(&query)) {
        known.id = query_number(&query, 0);
        query_text(&query, 1, known.order.due, sizeof known.order.due);
        known.order.playing_length = query_length(&query, 2);
        known.order.grip_cap = query_length(&query, 3);
        known.order.grip_weight = query_length(&query, 4);
        query_text(&query, 5, known.order.swingweight, sizeof known.order.swingweight);
        known.order.step = query_int(&query, 6);
        known.order.uniform_flex = query_int(&query, 7) != 0;
        query_text(&query, 8, word, sizeof word);
        query.odd |= !stage_from_text(word, &known.stage);
        query_text(&query, 9, known.head, sizeof known.head);
        query_text(&query, 10, known.shaft, sizeof known.shaft);
        query_text(&query, 11, word, sizeof word);
        known.cut = strcmp(word, "cut") == 0;
        query_text(&query, 12, known.order.wished_model, sizeof known.order.wished_model);
        query_text(&query, 13, known.order.wished_flex, sizeof known.order.wished_flex);
        query_text(&query, 14, known.shaft_model, sizeof known.shaft_model);
        query_text(&query, 15, known.shaft_flex, sizeof known.shaft_flex);
        known.order.given_trim = query_length(&query, 16);
        known.order.extension = query_int(&query, 17) != 0;
        known.order.loft = query_length(&query, 18);
        known.order.lie = query_length(&query, 19);
        known.order.cancelled = query_int(&query, 20) != 0;
        query_text(&query, 21, word, sizeof word);
        known.off = strcmp(word, order_status_text(ORDER_CANCELLED)) == 0;
    }
    enum store_result result = query_end(&query, N_("look up an order"));
    if (result == STORE_OK) {
        *ret_known = known;
    }
    return result;
}

enum store_result import_known_club(struct store *store, struct import_club *row) {
    struct known known;
    enum store_result result = look_up(store, &row->order, &known);
    if (result == STORE_OK) {
        memcpy(known.order.build, row->order.build, sizeof known.order.build);
        memcpy(known.order.club, row->order.club, sizeof known.order.club);
        *row = (struct import_club){.order = known.order,
                                    .cancelled = known.order.cancelled ? IMPORT_YES : IMPORT_NO};
        memcpy(row->head, known.head, sizeof row->head);
        memcpy(row->shaft, known.shaft, sizeof row->shaft);
    }
    return result;
}

static bool same_order(const struct order *a, const struct order *b) {
    return strcmp(a->due, b->due) == 0 && a->playing_length == b->playing_length &&
           a->grip_cap == b->grip_cap && a->grip_weight == b->grip_weight &&
           strcmp(a->swingweight, b->swingweight) == 0 && a->step == b->step &&
           a->uniform_flex == b->uniform_flex && strcmp(a->wished_model, b->wished_model) == 0 &&
           strcmp(a->wished_flex, b->wished_flex) == 0 && a->given_trim == b->given_trim &&
           a->extension == b->extension && a->loft == b->loft && a->lie == b->lie &&
           a->cancelled == b->cancelled;
}

static void bind_order(struct query *query, const struct order *order) {
    query_bind_text(query, order->due);
    query_bind_length(query, order->playing_length);
    query_bind_length(query, order->grip_cap);
    query_bind_length(query, order->grip_weight);
    query_bind_text(query, order->swingweight);
    query_bind_number(query, order->step);
    query_bind_number(query, order->uniform_flex ? 1 : 0);
    query_bind_text(query, order->wished_model);
    query_bind_text(query, order->wished_flex);
    query_bind_length(query, order->given_trim);
    query_bind_number(query, order->extension ? 1 : 0);
    query_bind_length(query, order->loft);
    query_bind_length(query, order->lie);
    query_bind_number(query, order->cancelled ? 1 : 0);
}

// What a supervisor gave or allowed for this club alone, no file takes back by leaving it out.
static void keep_given(const struct import_write *write, struct order *order,
                       const struct order *known) {
    order->given_trim = import_or_known(write, order->given_trim, known->given_trim);
    order->loft = import_or_known(write, order->loft, known->loft);
    order->lie = import_or_known(write, order->lie, known->lie);
    order->extension = order->extension || (known->extension && !write->exact);
}

static enum store_result clubs_of(struct store *store, const char *build, int *ret_last) {
    int last = 0;
    struct query query = query_open(store, STATEMENT_IMPORT_CLUBS);
    query_bind_text(&query, build);
    if (query_step(&query)) {
        last = query_int(&query, 0);
    }
    enum store_result result = query_end(&query, N_("look up a build"));
    if (result == STORE_OK) {
        *ret_last = last;
    }
    return result;
}

static enum store_result add_club(struct import_write *write, const struct import_club *club) {
    int last;
    struct query query = query_open(write->store, STATEMENT_IMPORT_ADD_BUILD);
    query_bind_text(&query, club->order.build);
    enum store_result result = query_run(&query, N_("save a build"));
    if (result == STORE_OK) {
        result = clubs_of(write->store, club->order.build, &last);
    }
    if (result != STORE_OK) {
        return result;
    }
    if (last >= POSITIONS_MAX) {
        import_complain(write->say, club->at, "build", _("a build has at most %d clubs; make two"),
                        POSITIONS_MAX);
        return STORE_OK;
    }
    query = query_open(write->store, STATEMENT_IMPORT_ADD_CLUB);
    bind_order(&query, &club->order);
    query_bind_text(&query, club->order.build);
    query_bind_text(&query, club->order.club);
    query_bind_number(&query, last + 1);
    write->count[IMPORT_BUILDS].added++;
    return query_run(&query, N_("save an order"));
}

// The club has another shaft now than the row wants. One that was chosen from stock as the row
// wishes is what it wants.
static bool other_shaft(const struct import_club *club, const struct known *known) {
    bool chosen = club->shaft[0] == '\0' && club->order.wished_model[0] != '\0' &&
                  strcmp(club->order.wished_model, known->shaft_model) == 0 &&
                  strcmp(club->order.wished_flex, known->shaft_flex) == 0;
    return !chosen && strcmp(club->shaft, known->shaft) != 0;
}

static enum store_result on_club(struct store *store, enum statement statement, int64_t id) {
    struct query query = query_open(store, statement);
    query_bind_number(&query, id);
    return query_run(&query, N_("change an order"));
}

static enum store_result change_club(struct import_write *write, const struct import_club *club,
                                     const struct known *known) {
    bool head = strcmp(club->head, known->head) != 0;
    bool shaft = other_shaft(club, known);
    struct query query = query_open(write->store, STATEMENT_IMPORT_SET_CLUB);
    bind_order(&query, &club->order);
    query_bind_number(&query, known->id);
    enum store_result result = query_run(&query, N_("change an order"));
    if (result == STORE_OK && head) {
        result = on_club(write->store, STATEMENT_IMPORT_RELEASE_HEAD, known->id);
    }
    if (result == STORE_OK && shaft) {
        result = on_club(write->store, STATEMENT_IMPORT_RELEASE_SHAFT, known->id);
    }
    if (result == STORE_OK && (head || shaft)) {
        result = on_club(write->store, STATEMENT_WORK_NO_CONSENT, known->id);
    }
    write->count[IMPORT_BUILDS].changed++;
    return result;
}

// The row as it is meant: a file that does not say whether the line is cancelled leaves that, and
// what is cancelled has no parts.
static struct import_club meant(const struct import_write *write, const void *row,
                                const struct known *known) {
    struct import_club club = *(const struct import_club *)row;
    club.order.cancelled = club.cancelled == IMPORT_UNANSWERED && !write->exact
                               ? known->order.cancelled
                               : club.cancelled == IMPORT_YES;
    if (club.order.cancelled || (known->off && !write->exact)) {
        memset(club.head, 0, sizeof club.head);
        memset(club.shaft, 0, sizeof club.shaft);
    }
    return club;
}

enum store_result import_write_club(struct import_write *write, const void *row) {
    static const struct known nobody = {0};
    struct import_club club = meant(write, row, &nobody);
    struct known known;
    enum store_result result = look_up(write->store, &club.order, &known);
    if (result == STORE_NONE) {
        return add_club(write, &club);
    }
    if (result == STORE_OK) {
        club = meant(write, row, &known);
        keep_given(write, &club.order, &known.order);
    }
    if (result != STORE_OK || (same_order(&club.order, &known.order) &&
                               strcmp(club.head, known.head) == 0 && !other_shaft(&club, &known))) {
        return result;
    }
    // A withdrawn cut leaves a club pending whose shaft is cut all the same. The desk has asked
    // order_too_late.
    if (!write->exact &&
        import_write_begun(write, club.at, "club", known.cut ? STAGE_TIP_CUT : known.stage,
                           club.order.build, club.order.club)) {
        return STORE_OK;
    }
    return change_club(write, &club, &known);
}

static enum store_result reserve(struct import_write *write, enum statement statement,
                                 const char *ticket, int64_t id) {
    struct query query = query_open(write->store, statement);
    query_bind_number(&query, id);
    query_bind_text(&query, ticket);
    return query_run(&query, N_("reserve a part"));
}

// Reserves `ticket`, or complains who has it.
static enum store_result take_part(struct import_write *write, const struct import_club *club,
                                   int64_t id, const char *ticket, const char *column,
                                   enum statement statement) {
    struct part part;
    enum store_result result;
    if (*ticket == '\0') {
        return STORE_OK;
    }
    result = store_part(write->store, ticket, &part);
    if (result != STORE_OK || part.club_id == id) {
        return result;
    }
    if (part.club_id != 0) {
        import_complain(write->say, club->at, column,
                        _("%s is reserved for club %s of build %s; take another part"), ticket,
                        part.club, part.build);
        return STORE_OK;
    }
    if (part.life != PART_RAW) {
        import_complain(write->say, club->at, column,
                        _("%s has been cut and is no raw shaft any more; take another shaft"),
                        ticket);
        return STORE_OK;
    }
    return reserve(write, statement, ticket, id);
}

enum store_result import_write_club_parts(struct import_write *write, const void *row) {
    struct import_club club = *(const struct import_club *)row;
    struct known known;
    enum store_result result = look_up(write->store, &club.order, &known);
    if (result != STORE_OK) {
        return result == STORE_NONE ? STORE_OK : result; // refused before
    }
    club = meant(write, row, &known);
    if (known.off && (club.head[0] != '\0' || club.shaft[0] != '\0')) {
        import_complain(write->say, club.at, club.head[0] != '\0' ? "head" : "shaft",
                        _("order %s is cancelled, so no part is kept for it; release it first"),
                        club.order.build);
        return STORE_OK;
    }
    result = take_part(write, &club, known.id, club.head, "head", STATEMENT_IMPORT_RESERVE_HEAD);
    if (result == STORE_OK) {
        result =
            take_part(write, &club, known.id, club.shaft, "shaft", STATEMENT_IMPORT_RESERVE_SHAFT);
    }
    return result;
}

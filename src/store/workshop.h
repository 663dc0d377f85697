#ifndef WORKSHOP_H
#define WORKSHOP_H

// What the desk asks of the store besides documents and changes (store.h): orders, lots, new
// tickets, stock, what to fetch, and what a bench must be told. Reads only; changes are entries.
//
// Lists are paged by key: give the key of the last line again for the next page, an empty text or 0
// for the first. Each returns how many lines it filled, at most `max`, or -1 (store_message).

#include "store.h"

// --- orders ------------------------------------------------------------------------------------
struct order_line {
    char build[PARTS_BUILD_MAX];
    enum order_status status;
    int priority;
    char reference[ORDER_REFERENCE_MAX];
    char note[ORDER_NOTE_MAX];
    char due[12];     // the first day one of its open clubs is due; empty: none
    int clubs;        // without cancelled ones
    int done;         // of them
    int begun;        // of them, not done
    int short_parts;  // of the clubs not begun, without a head or without a shaft
    bool bench_waits; // a change that no bench was told of yet
};
// By name. `status` NULL: of any.
int store_orders(struct store *store, const enum order_status *status, const char *after,
                 struct order_line *lines, int max);
enum store_result store_order(struct store *store, const char *build, struct order_line *ret_line);
// How many orders stand at each status.
enum store_result store_order_counts(struct store *store, int64_t ret_counts[ORDER_STATUS_COUNT]);

// A change of an order, or of a part reserved for it, as the log has it.
#define CHANGE_WORDS_MAX 256
struct change_line {
    int64_t seq;
    int64_t wall_ms;
    char worker[TICKET_TEXT_MAX];
    char club[PARTS_SHORT_MAX]; // empty: the whole order, or a part
    char part[TICKET_TEXT_MAX]; // of a change of one
    char words[CHANGE_WORDS_MAX];
};
// Those a bench must hear of (order_change_tells) from entry `from` on, oldest first. `from`:
// changed_seq of struct order.
int store_order_changes(struct store *store, const char *build, int64_t from,
                        struct change_line *lines, int max);

// --- the bench's day ---------------------------------------------------------------------------
// What this bench takes for a club (pace.h). STORE_NONE: too few clubs to say.
enum store_result store_pace(struct store *store, int64_t *ret_ms);

// --- parts -------------------------------------------------------------------------------------
// The next `count` tickets of a kind that nobody has: the number after the highest, with at least
// four digits; those whose check character would be `*` are left out. Of TICKET_BUILD the body is
// the name of a build. Two desks that ask at once are given the same: the second to say that it
// has made the part is refused, and asks again. STORE_REFUSED: no numbers are left.
#define NEXT_TICKETS_MAX 500
enum store_result store_next_tickets(struct store *store, enum ticket_kind kind, int count,
                                     char ret_tickets[][TICKET_TEXT_MAX]);

struct lot_line {
    int64_t id; // the key
    char lot[PARTS_LOT_MAX];
    int64_t heads;
    int64_t shafts;
};
// Newest first. `before`: id of the last line.
int store_lots(struct store *store, int64_t before, struct lot_line *lines, int max);

struct lot_part {
    enum ticket_kind kind; // TICKET_HEAD or TICKET_SHAFT
    char ticket[TICKET_TEXT_MAX];
    char model[PARTS_NAME_MAX];
    char flex[PARTS_SHORT_MAX]; // of a shaft
    mass_mg weight;             // measured
    mass_mg model_weight;       // the catalogue's figure
    length_nm length;           // raw length of a shaft, bore height of a head, measured
    length_nm model_length;     // the catalogue's figure for that
};
// The heads or the shafts of a lot, by ticket.
int store_lot_parts(struct store *store, const char *lot, enum ticket_kind kind, const char *after,
                    struct lot_part *parts, int max);

// --- stock -------------------------------------------------------------------------------------
struct stock_line {
    bool head;
    char model[PARTS_NAME_MAX];
    char flex[PARTS_SHORT_MAX]; // of a shaft
    int64_t free;               // raw shafts or heads in no order
    int64_t reserved;           // for clubs that are not begun
    int64_t needed;             // by released clubs that wait for a shaft of it to be chosen
    int64_t short_by;           // of what is needed
    bool levelled;              // a level is set
    int64_t least;
    int64_t wanted;
    int64_t reorder; // order_again; without a level what it is short by
};
// Every shaft model and flex that is in stock, wished for or has a level; every head model. By
// model and flex. `after` NULL: the first page; else the last line of the one before.
int store_stock_lines(struct store *store, bool heads, const struct stock_line *after,
                      struct stock_line *lines, int max);

// What to fetch for clubs not begun: their parts by rack, then ticket, and what they lack.
enum pick_what { PICK_HEAD, PICK_SHAFT, PICK_NO_HEAD, PICK_NO_SHAFT, PICK_WHAT_COUNT };
struct pick_line {
    enum pick_what what;
    char rack[PARTS_RACK_MAX];
    char ticket[TICKET_TEXT_MAX];
    char model[PARTS_NAME_MAX]; // PICK_NO_SHAFT: what is wished, may be empty
    char flex[PARTS_SHORT_MAX];
    char build[PARTS_BUILD_MAX];
    char club[PARTS_SHORT_MAX];
    char due[12];
};
#define PICK_EVER "9999-12-31" // all that are due some day
typedef bool store_pick_each(void *context, const struct pick_line *line);
// Of one order, whatever its status, or (build empty) of all released ones with clubs due on `due`
// or before. Calls `each` until it says false; it must not call the store. STORE_NONE: nothing.
enum store_result store_pick(struct store *store, const char *build, const char *due,
                             store_pick_each *each, void *context);

// What is left of shafts in no order and was not made a shaft again, long enough: by length, the
// shortest first.
struct offcut_line {
    char ticket[TICKET_TEXT_MAX];
    char rack[PARTS_RACK_MAX];
    length_nm remaining;
    enum part_life life;
};
// `least` long or longer; see order_offcut_fits of core. `after` NULL: the first page.
int store_offcuts(struct store *store, const char *model, const char *flex, length_nm least,
                  const struct offcut_line *after, struct offcut_line *lines, int max);

#endif

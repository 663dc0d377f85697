#ifndef REPLAY_H
#define REPLAY_H

// What the log says of clubs, parts and times, gathered while it is walked and then held against
// what the tables say. So nobody changes how far a club is, what is left of a shaft or which
// entries a day has without writing it into the log. Private to src/store.

#include "store.h"
#include "table.h"

struct replay_club {
    uint8_t key[TABLE_KEY_SIZE]; // id
    struct progress progress;
    char head[TICKET_TEXT_MAX]; // of the last entry that moved it
    char shaft[TICKET_TEXT_MAX];
    char column[PARTS_SHORT_MAX]; // a supervisor's consents
    bool shim;
    length_nm trim; // LENGTH_UNKNOWN: none
    bool extension;
    bool known; // to the table too
};

struct replay_shaft {
    uint8_t key[TABLE_KEY_SIZE]; // ticket
    length_nm made;              // of the last entry that changed what is left
    enum entry_kind kind;        // of it; ENTRY_GENESIS: none did
    bool cut;
    bool scrap;
    bool known;
};

struct replay_head { // with a dry fit
    uint8_t key[TABLE_KEY_SIZE];
    length_nm overall;
    length_nm bore;
    bool known;
};

struct replay_quarter {
    uint8_t key[TABLE_KEY_SIZE]; // its number
    int64_t done, cuts, off, holds;
};

struct replay_span {             // the entries of a quarter in a run of the clock, see db/0010
    uint8_t key[TABLE_KEY_SIZE]; // run and quarter
    int64_t first, last;
};

struct replay_order {
    uint8_t key[TABLE_KEY_SIZE]; // build
    int begun;                   // clubs of it that are not pending
    int64_t changed;             // what a bench must still hear of, see db/0007
};

struct replay {
    struct store *store;
    int64_t imported; // the last import
    int64_t bad;      // the first entry whose club was not there yet, or not any more; 0: none
    char problem[320];
    int64_t run;     // of the clock, of the last entry; 0: none yet
    int64_t quarter; // of it
    struct table clubs, shafts, heads, quarters, spans, orders;
};

struct replay replay_init(struct store *store);
void replay_release(struct replay *replay);

void replay_number_key(int64_t number, uint8_t ret_key[TABLE_KEY_SIZE]);
void replay_span_key(int64_t run, int64_t quarter, uint8_t ret_key[TABLE_KEY_SIZE]);
void replay_ticket_key(const char *ticket, uint8_t ret_key[TABLE_KEY_SIZE]);

// The next entry, whose hash was right. After one that could not follow no more are taken: what is
// wrong with the chain or its witness is told first.
enum store_result replay_entry(struct replay *replay, const struct entry *entry);

// replay_desk.c: what an entry says of orders and their changes. False: no memory.
bool replay_order_moves(struct replay *replay, const struct entry *entry, enum stage before,
                        enum stage after);
bool replay_order_changes(struct replay *replay, const struct entry *entry);
enum store_result replay_desk(const struct replay *replay, struct store_check *check);

// After the last one. STORE_REFUSED: check->problem names the entry, or the row and what it says.
enum store_result replay_compare(const struct replay *replay, struct store_check *check);

#endif

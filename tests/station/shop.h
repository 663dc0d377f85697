#ifndef SHOP_H
#define SHOP_H

// A workshop in memory for the tests of the station: station_ops over plain values, a clock that
// is set by hand, faults on demand. It keeps the facts of the log apart from what the station
// believes, so that the laws can be checked from outside. A struct shop copies by value; what
// never changes stands in the catalogue it points to.

#include "station.h"

#define SHOP_CLUBS 8
#define SHOP_WORKERS 4
#define SHOP_LOG 24 // last entries kept

struct catalogue {
    size_t club_count;
    struct club club[SHOP_CLUBS];
    struct part loose[4]; // parts in no build, scrap, cut
    size_t worker_count;
    struct worker worker[SHOP_WORKERS];
};

// What became of one club; the station's rules and the log's facts kept apart.
struct shop_club {
    struct progress progress;
    length_nm bore_height;
    char picked_column[PARTS_SHORT_MAX];
    bool shim;
    bool trim_given;
    length_nm trim;
    bool extension;
    int64_t tip_cut; // seq of the tip cut that stands by the log alone, 0 none
    int64_t butt_cut;
    length_nm shown; // mark of the last tip_shown or butt_shown entry
    bool shown_butt;
    uint32_t shown_plan; // digest of its plan text
    bool recut;          // now on the spare shaft
    length_nm longer;    // it is to be now than by the catalogue
    length_nm heard;     // `longer` as a bench was told of it
    length_nm shown_for; // `longer` when the last mark was shown
};

enum shop_fault {
    SHOP_NO_FAULT,
    SHOP_FAIL,           // the next save fails, nothing written
    SHOP_UNKNOWN_FOUND,  // written, but the store cannot say so at first
    SHOP_UNKNOWN_ABSENT, // not written, and the store cannot say so at first
    SHOP_UNKNOWN_BLIND   // written; the lookup fails once too
};

struct shop_entry {
    int64_t seq;
    enum entry_kind kind;
    int64_t club_id;
    int64_t refers;
    length_nm planned;
    length_nm made;
    enum verdict verdict;
    char worker[TICKET_TEXT_MAX];
    char cause[ENTRY_CAUSE_MAX];
    char confirm_id[CONFIRM_ID_MAX];
    bool has_plan;
};

struct shop {
    const struct catalogue *catalogue;
    struct shop_club club[SHOP_CLUBS];
    int64_t now_ms;
    struct station_copies copies;
    struct selfcheck_facts facts; // of the bench itself
    int looks;                    // that were asked for
    int heard;                    // all sounds were played
    uint64_t ids;
    int64_t seq; // of the last entry
    struct shop_entry log[SHOP_LOG];
    enum shop_fault fault; // hits the next save
    bool broken;           // every save fails
    bool full;             // no room
    int blind;             // lookups of an id that will fail
    int lost;              // part, club or worker lookups that will fail
    int calls_to_failure;  // Nth-call injection: 0 off, else the call that fails
    int calls;
    bool care[MATERIAL_COUNT]; // confirmed this session, by the log
    enum order_status status;  // of the one order there is
    int changes;               // of it, that no bench was told of
    int64_t changed_seq;       // the first of them
    int64_t newest_seq;        // and the newest
    struct station_wait wait;
    char worker[TICKET_TEXT_MAX];
    enum verdict measured; // by the last measure
    int sounds[3];
    int64_t moved_ms; // last press or move that did something, 0 not told
    int pin_wait_s;
    char *plan_text;       // ENTRY_PLAN_MAX bytes that get the last plan logged, NULL: not wanted
    int64_t stats_from_ms; // charts leave out what is older, 0: nothing
    struct entry *noted;   // gets the last note logged, NULL: not wanted
    const struct kit *kit; // what a stock match proposes, NULL: nothing
    const struct set_measured *finals; // of the clubs of a set, in their order; NULL: nothing
    int64_t signed_seq;                // entry of the last signed day, 0 none
    enum station_sign signing;         // what becomes of the next
    bool no_stick;                     // with key and witness
    bool checking;                     // the log is checked,
    int64_t check_read;                // so far 3 100 000 entries of 10 000 000 for each look,
    int check_looks;                   // which goes on for so many,
    bool check_fails;                  // and comes to nothing
    const char *violation;             // what the log may never hold, NULL: nothing yet
};

extern const struct station_ops shop_ops; // ctx NULL: copy it and set ctx

// Clubs: 1 steel iron, tip and butt; 2 graphite driver with a bore note, tip and butt; 3 another
// bench's; 4 (tickets 9) iron with no bore height; 5 head beyond the chart; 6 tip too small for the
// bore; 7 no tip cut and no butt cut; 8 shaft too short.
void shop_catalogue(struct catalogue *catalogue);
void shop_init(struct shop *shop, const struct catalogue *catalogue);
struct station_ops shop_ops_for(struct shop *shop);
extern bool shop_one_button; // the bench has nothing but a button and a scanner
struct station_settings shop_settings(void);

enum station_lookup shop_set(void *ctx, const char *build, struct set *ret_set);
enum station_lookup shop_beside(void *ctx, const char *build, bool before,
                                char ret_build[PARTS_BUILD_MAX]);
enum station_lookup shop_kit(void *ctx, const char *build, enum match_by by, struct kit *ret_kit);
enum station_lookup shop_code_model(void *ctx, const char *gtin, struct station_model *ret_model);
enum station_lookup shop_stats(void *ctx, const struct review_filter *filter,
                               struct cut_stats *ret_stats);
bool shop_tickets(void *ctx, const char *build, char *ret_path, size_t size);
enum station_lookup shop_day(void *ctx, int64_t from_ms, int64_t to_ms,
                             struct station_day *ret_day);
bool shop_report(void *ctx, int64_t from_ms, int64_t to_ms, char *ret_path, size_t size);
bool shop_ledger(void *ctx, int64_t from_ms, int64_t to_ms, char *ret_path, size_t size);
bool shop_sign_ready(void *ctx, char *message, size_t size);
bool shop_check_start(void *ctx, char *message, size_t size);
enum station_check shop_check_step(void *ctx, struct station_checked *ret_checked, char *message,
                                   size_t size);
void shop_check_stop(void *ctx);
enum station_sign shop_sign(void *ctx, struct entry *entry, int64_t day_ms,
                            char ret_note[VIEW_NOTE_MAX], char *message, size_t size);
enum station_save shop_save_all(void *ctx, struct entry *entries, size_t count);

// The desk makes every club of the order longer, or shorter, whose butt is not cut yet.
void shop_change(struct shop *shop, length_nm longer);

// Tickets: "H-1" of club 1 and so on, made with their check characters.
const char *shop_ticket(enum ticket_kind kind, const char *body);
// The last entry of this kind among those kept, NULL if there is none.
const struct shop_entry *shop_last(const struct shop *shop, enum entry_kind kind);
int shop_count(const struct shop *shop, enum entry_kind kind);
uint32_t shop_digest(const char *text);

// Appends as a store would: refused when stage_advance says no. Fills entry->seq.
enum station_save shop_append(struct shop *shop, struct entry *entry);
bool shop_find_id(const struct shop *shop, const char *confirm_id, int64_t *ret_seq);
struct shop_entry *shop_slot(struct shop *shop, int64_t seq);

#endif

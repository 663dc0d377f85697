#ifndef STORE_H
#define STORE_H

// The database of one station: catalogue, parts, builds, people and the cut log.
//
// SQLite, WAL, synchronous=EXTRA. Every transaction that writes and every checkpoint, from every
// process, holds an exclusive flock on "<database>.lock" (SQLite 3.7.0 to 3.51.2 can lose pages
// when a checkpoint races a commit that resets the WAL). No function may be called from two
// threads on one handle.
//
// Errors: a function that can fail returns enum store_result and leaves its ret_ arguments
// untouched; store_message() then says what, where and what to do, for a person.

#include "assembly_check.h"
#include "change.h"
#include "club.h"
#include "entry.h"

#include <stdatomic.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct store; // opaque

enum store_result {
    STORE_OK,
    STORE_NONE,    // no such row
    STORE_REFUSED, // the data says no: a rule, a duplicate, an illegal stage
    STORE_BUSY,    // another process holds the lock
    STORE_FULL,    // no room on the disk
    STORE_UNKNOWN, // the commit failed half way: ask store_confirmed after store_reopen
    STORE_FAILED,  // I/O error, damaged file, newer schema, no memory
    STORE_RESULT_COUNT
};

enum store_mode {
    STORE_READ,  // read only, query_only=ON
    STORE_COPY,  // the same, of an older schema too: for store_backup alone
    STORE_WRITE, // must exist; migrates an older schema
    STORE_CREATE // made if missing
};

// Opens and prepares `path`. `bench` names this station in genesis and entries.
// On failure *ret_store is untouched and `message` (size bytes) says why and what to do.
enum store_result store_open(const char *path, enum store_mode mode, const char *bench,
                             struct store **ret_store, char *message, size_t size);
void store_close(struct store *store); // takes NULL; checkpoints nothing
// Closes and opens again after an I/O error: the only cure after a failed sync.
enum store_result store_reopen(struct store *store);
const char *store_message(const struct store *store);
const char *store_path(const struct store *store);

// Reads the end of the log, whatever that costs now: does the database still answer?
enum store_result store_alive(struct store *store);

// Truncating checkpoint under the lock; for idle moments.
enum store_result store_checkpoint(struct store *store);

// True when the file system has room for a whole club with reserve (checked before marks appear).
// KERFSIDE_ROOM_MB in the environment replaces the 64 MiB. As much again lies in the ballast file
// "<database>.ballast": store_append gives it up by itself when a cut already made could not be
// logged otherwise, and store_open or store_checkpoint make it anew once there is room.
bool store_room(const struct store *store);

// --- people ------------------------------------------------------------------------------------
// STORE_NONE, too, for a badge whose name was withdrawn.
enum store_result store_worker(struct store *store, const char *badge, struct worker *ret_worker);

enum pin_result {
    PIN_RIGHT,
    PIN_WRONG,
    PIN_WAIT,      // too many tries: *ret_wait_s seconds to go
    PIN_LOCKED,    // too many in a row: until store_pin_unlock or store_pin_recover
    PIN_NO_PEPPER, // made with a key file that is not the one in use; store_message says more
    PIN_NOT_SET,
    PIN_FAILED // store or memory failed; nothing is let through
};
// What a shop may set about PINs; store_open begins with the default, store_reopen keeps them.
struct pin_rules {
    int min_digits; // of one that is set from now on, STORE_PIN_DIGITS_MIN to _MAX
    int free_tries; // of a badge in a row before it waits, 1 to 5; thrice that of all together
    int lock_after; // tries in a row, 5 to 20
};
#define STORE_PIN_DIGITS_MIN 4
#define STORE_PIN_DIGITS_MAX 12
#define PIN_RULES_DEFAULT                                                                          \
    { .min_digits = STORE_PIN_DIGITS_MIN, .free_tries = 3, .lock_after = 10 }
void store_set_pin_rules(struct store *store, const struct pin_rules *rules);

// Counts the try on disk before the hash is looked at. Argon2id (libsodium), 3 free tries a badge
// and 9 for all supervisors together unless the rules say otherwise, then waits from 30 s doubling
// to 15 min, measured on a clock
// that no wall-clock change moves; what is left of a wait begins again after a restart of the
// machine. The log says when a badge is locked. What was let in or refused, the caller logs.
enum pin_result store_pin_check(struct store *store, const char *badge, const char *pin,
                                int *ret_wait_s);
// As many digits as the rules ask for, to 12. Only for supervisors, and not for a locked badge.
// Logged.
enum store_result store_pin_set(struct store *store, const char *badge, const char *pin);
// The same for a locked badge too: a new PIN, and unlocked. Logged. For root at the console alone,
// which the caller sees to.
enum store_result store_pin_recover(struct store *store, const char *badge, const char *pin);
// `by`: another supervisor, whose PIN the caller has just checked. Logged.
enum store_result store_pin_unlock(struct store *store, const char *badge, const char *by);

// The key file that PINs are mixed with from here on (keyed BLAKE2b, then Argon2id); without it the
// database alone is no use for guessing. Kept through store_reopen. Hashes made without one are
// made anew at the next right PIN.
enum store_result store_set_pepper(struct store *store, const char *path);
bool store_has_pepper(const struct store *store);
// Makes such a file, mode 0400; refuses an existing path. On failure `message` says why.
enum store_result store_new_pepper(const char *path, char *message, size_t size);

struct person {
    struct worker worker;
    bool pin;    // one is set
    bool locked; // its PIN
    bool withdrawn;
};
// Calls `each` with everybody, by badge, until it says false. It must not call the store.
typedef bool store_person_each(void *context, const struct person *person);
enum store_result store_people(struct store *store, store_person_each *each, void *context);
// Takes the name out of view for good: badge and role stay, "withdrawn" stands for the name, nobody
// signs on with the badge again. The log holds badges only and stays as it is. `by`: another
// supervisor, whose PIN the caller has just checked. Logged.
enum store_result store_withdraw(struct store *store, const char *badge, const char *by);

// --- the work ----------------------------------------------------------------------------------
enum store_result store_part(struct store *store, const char *ticket, struct part *ret_part);
// The whole club, ready to be planned: uniform_reference and the chart's latest revision filled in.
enum store_result store_club(struct store *store, int64_t club_id, struct club *ret_club);
// By the names on the order, "2041" and "2". A build may be given as its ticket.
enum store_result store_club_named(struct store *store, const char *build, const char *club,
                                   int64_t *ret_id);

// One line of a list of clubs.
struct club_line {
    int64_t id;
    char build[PARTS_BUILD_MAX];
    char club[PARTS_SHORT_MAX];
    int position;
    int count;
    char head[TICKET_TEXT_MAX];
    char shaft[TICKET_TEXT_MAX];
    char due[12];
    enum stage stage;
    char bench[ENTRY_BENCH_MAX];
    bool held; // its order is not released
};
enum club_list {
    CLUBS_NEXT,     // pending at any bench or this one, of released orders; by priority, due date
                    // (none last), build and position
    CLUBS_HALF_CUT, // something cut or shown, not done; by due date, build and position
    CLUBS_DECISION,
    CLUBS_CUT, // done at this bench, the one measured last first
    CLUBS_ALL  // by build and position
};
// First `max` lines of the list; returns how many, or -1 on failure. *ret_total (may be NULL): all.
int store_clubs(struct store *store, enum club_list list, struct club_line *lines, int max,
                int64_t *ret_total);
// Raw, unreserved shafts of the same model and flex as `shaft`, by ticket.
int store_spare_shafts(struct store *store, const char *shaft, struct part *parts, int max);

// What was measured on the assembled club since it was last done.
// STORE_OK and nothing measured, too, when there is no such club.
enum store_result store_final_values(struct store *store, int64_t club_id,
                                     struct final_values *ret_values);

// Calls `each` with every club of a build, by position, and what was measured on it, until it says
// false. It must not call the store. The build may be given as its ticket. STORE_NONE: no club.
typedef bool store_club_each(void *context, const struct club *club,
                             const struct final_values *values);
enum store_result store_build_clubs(struct store *store, const char *build, store_club_each *each,
                                    void *context);

// The build whose name comes next before or after `build`. STORE_NONE: there is none.
enum store_result store_build_beside(struct store *store, const char *build, bool before,
                                     char ret_build[PARTS_BUILD_MAX]);

// What matching from stock needs of one model and flex besides the shafts themselves.
struct stock {
    struct shaft_model model;
    struct chart chart[CHART_KIND_COUNT]; // by kind; count 0: the maker has none
    struct profile profile;
};
#define STORE_STOCK_MAX 1000
// Raw, unreserved shafts of `model` and `flex`, by ticket: the first `max` of them. Returns how
// many, or -1. A model that is not in the shop has none, and *ret_stock is empty.
int store_stock(struct store *store, const char *model, const char *flex, struct stock *ret_stock,
                struct shaft *shafts, int max);

// What a supplier's code names: a model, and of a shaft perhaps its flex. Never a part.
struct code_model {
    bool is_head;
    char model[PARTS_NAME_MAX];
    char flex[PARTS_SHORT_MAX]; // of a shaft; empty: whatever flex
    int64_t parts; // of it in stock: raw, unreserved shafts (of that flex), or unreserved heads
};
// `gtin`: 8, 12, 13 or 14 digits as scanned. STORE_NONE: no model has it. STORE_REFUSED: it is no
// GTIN, or its check digit is wrong.
enum store_result store_model_of_code(struct store *store, const char *gtin,
                                      struct code_model *ret_model);

// --- the desk ----------------------------------------------------------------------------------
// What is known of one thing as cells of text, those of the CSV files (sheet.h). `sheet`: heads,
// shafts (keys: ticket), head_models, shaft_models (model), charts (model, flex, kind), builds
// (build, club). STORE_NONE: there is no such thing.
enum store_result store_document(struct store *store, const char *sheet, const char *const *keys,
                                 struct document *ret_document);
// Cells as somebody typed them to cells as the store keeps them, `1.5` to `1 1/2`, with what
// follows from others filled in. STORE_REFUSED: store_complaints says which are wrong.
enum store_result store_canonical(struct store *store, struct document *document);

// What was wrong with the newest store_canonical or ENTRY_CHANGE. Valid until the next one.
#define STORE_COMPLAINTS_MAX 8
struct store_complaint {
    char cell[CHANGE_NAME_MAX]; // empty: the whole
    char text[256];
};
size_t store_complaints(const struct store *store, const struct store_complaint **ret_complaints);

// An ENTRY_CHANGE carries its change_write in `plan`; store_append carries it out and logs it.
// STORE_REFUSED: a cell is wrong or not canonical, not as the change found it, or this worker may
// not. Heads and shafts are anybody's, all else is a supervisor's.
// What would be if these entries were appended: calls `then` inside a transaction that is taken
// back in any case. It may read the store and fails with what it returns.
typedef enum store_result store_rehearsal(void *ctx, struct store *store);
enum store_result store_rehearse(struct store *store, struct entry *entries, size_t count,
                                 store_rehearsal *then, void *ctx);

// --- the log -----------------------------------------------------------------------------------
// Appends and moves the club, its parts and its stage in one transaction. Fills entry->seq.
// The same confirm_id again: STORE_OK and the seq of the first, nothing written.
// STORE_REFUSED: stage_advance says no, a cut of this attempt is already there or the attempt is an
// old one, head or shaft are no longer the club's, a decision, consent or kit is no supervisor's,
// the shaft of a recut or kit is not raw, free and of the same model and flex (of those the order
// wishes), a final value is one that no club has, or a note is no supervisor's, has no words, or
// is about no entry or other parts than that names, or it accepts what is not the newest final
// value of its kind.
// STORE_UNKNOWN: reopen, then store_confirmed; until then everything else is STORE_FAILED.
// Anything but STORE_OK and STORE_UNKNOWN: this call has written nothing.
enum store_result store_append(struct store *store, struct entry *entry);
// The same for all of them in one transaction, in order: all are logged or none is. A kit list goes
// this way. Each has a confirm_id of its own; whether one of them is there tells for all. An entry
// may refer to one before it in the same call, whose seq nobody knows yet: refers = -n, the one n
// before it.
#define STORE_APPEND_MAX 32
enum store_result store_append_all(struct store *store, struct entry *entries, size_t count);
enum store_result store_confirmed(struct store *store, const char *confirm_id, int64_t *ret_seq);

enum store_result store_entry(struct store *store, int64_t seq, struct entry *ret_entry);

#define LOG_MATERIAL_MAX 12
// Filter of the log; an empty text or 0 means any. Times are Unix milliseconds, from <= t < to.
struct log_filter {
    int64_t from_ms;
    int64_t to_ms;
    char build[PARTS_BUILD_MAX];
    char worker[TICKET_TEXT_MAX];
    char ticket[TICKET_TEXT_MAX]; // head or shaft
    char bench[ENTRY_BENCH_MAX];
    char material[LOG_MATERIAL_MAX]; // of the entry's shaft when it was written: steel, graphite
    enum verdict verdict;            // VERDICT_NONE: any
    bool needs_decision;
};
// Calls `each` with every entry of the filter, oldest first, until it says false. It must not call
// the store.
typedef bool store_entry_each(void *context, const struct entry *entry);
enum store_result store_log_each(struct store *store, const struct log_filter *filter,
                                 store_entry_each *each, void *context);
// The same with every entry, of whatever day, that refers to one of first_seq to last_seq.
enum store_result store_log_about(struct store *store, int64_t first_seq, int64_t last_seq,
                                  store_entry_each *each, void *context);

// One line of the review table.
struct log_line {
    int64_t seq;
    enum entry_kind kind;
    int64_t wall_ms;
    char worker[TICKET_TEXT_MAX];
    char build[PARTS_BUILD_MAX];
    char club[PARTS_SHORT_MAX];
    char shaft[TICKET_TEXT_MAX];
    length_nm planned;
    length_nm made;
    enum verdict verdict;
    char cause[ENTRY_CAUSE_MAX];
    int64_t refers;
    bool open; // a supervisor must still decide on it
};
// What there is in the log to filter by, sorted; the first `max`. Returns how many, or -1.
#define LOG_CHOICE_MAX 24
enum log_choice { LOG_BENCHES, LOG_WORKERS, LOG_MATERIALS };
int store_log_choices(struct store *store, enum log_choice choice, char texts[][LOG_CHOICE_MAX],
                      int max);

// Newest first, entries with seq < before (0: from the newest); by key, never by offset, and no
// filter passes over entries it does not meet. Returns how many, or -1.
int store_log(struct store *store, const struct log_filter *filter, int64_t before,
              struct log_line *lines, int max);

// Times are taken in whole quarters of an hour (every midnight is one). What was withdrawn does not
// count, and a club is done when the measure was taken that stands.
struct day_count {
    int64_t clubs_done;
    int64_t cuts;
    int64_t out_of_tolerance; // tips cut past the mark, clubs measured short
    int64_t holds;
    int64_t open_decisions; // of all days
};
enum store_result store_day(struct store *store, int64_t from_ms, int64_t to_ms,
                            struct day_count *ret_count);

// Log as CSV, oldest first, to an open file; RFC 4180. Lengths in decimal inches, times in UTC; the
// plans are left out.
enum store_result store_log_csv(struct store *store, const struct log_filter *filter, int fd,
                                int64_t *ret_rows);

// --- care of the database ----------------------------------------------------------------------
struct store_check {
    int64_t entries;
    int64_t first_bad; // seq of the first bad entry, 0: the chain is whole
    char problem[480];
    char incarnation[CONFIRM_ID_MAX];
    uint8_t head[ENTRY_HASH_SIZE];
};
// Integrity of file, foreign keys and chain, and that how far each club is, what is left of each
// shaft, dry fits, consents and counts are what the log says. STORE_OK: all whole. STORE_REFUSED:
// *ret_check says what is wrong. STORE_FAILED: could not read.
enum store_result store_check(struct store *store, struct store_check *ret_check);
// The chain of the last `count` entries alone, for a look in passing; what lies before them is
// taken for right. Results as of store_check.
enum store_result store_check_tail(struct store *store, int64_t count,
                                   struct store_check *ret_check);
// The last entry, and the last that signed a day. STORE_NONE: there is none.
enum store_result store_last(struct store *store, int64_t *ret_seq, int64_t *ret_wall_ms);
enum store_result store_last_signed(struct store *store, int64_t *ret_seq, int64_t *ret_wall_ms);
// The version of the schema that an open database has.
int store_schema(void);
// How large the ballast should be and is; 0: none is wanted, there is none.
void store_ballast(const struct store *store, int64_t *ret_wanted, int64_t *ret_size);
// A store_check_witness seen from another thread: how far it is, and the wish that it ends.
struct store_watch {
    _Atomic int64_t steps; // two for every entry; more when the bad one is looked for
    atomic_bool stop;
};
// `watch` is of every check from now on and must outlive the handle; NULL: of none.
void store_watch(struct store *store, struct store_watch *watch);
// From any thread, while the handle is open: a check that is watched ends soon, STORE_FAILED, as
// does every later one.
void store_stop(struct store *store);
// A complete, checked, synced copy at `path`, while others work; refuses an existing path.
enum store_result store_backup(struct store *store, const char *path);
// The same in a folder, named after the database and the moment in UTC, as
// `kerfside-20260331T104205Z.db`. Of such copies the newest `keep` (from 1) stay, this one among
// them; what an earlier try left half written goes too. STORE_BUSY: another program copies there.
enum store_result store_backup_into(struct store *store, const char *folder, int keep,
                                    char *ret_path, size_t size);
// When the newest such copy of the database at `db` was begun that is not of the future, in Unix
// milliseconds; 0: there is none. False, and errno, when the folder cannot be read.
bool store_backup_newest(const char *db, const char *folder, int64_t before_ms,
                         int64_t *ret_moment);

// --- practice ----------------------------------------------------------------------------------
// A database to practise on is marked inside: store_sign_day, store_backup and store_restore from
// it are refused, and so is opening it by a Kerfside that knows no practice.
bool store_is_practice(const struct store *store);
// A complete, checked copy at `path`, marked before it has that name, in place of an older practice
// there. Reads the original and no more; 192 MiB stay free on the disk beside it.
// STORE_FULL: too little room. STORE_BUSY: the older one is in use. STORE_REFUSED: the original is
// for practice itself, or what stands at `path` is not.
enum store_result store_practice(struct store *store, const char *path);
// Makes a database that was just made at `<path>.part`, and is closed, the practice at `path`.
enum store_result store_practice_take(const char *path, char *message, size_t size);
// Takes away the practice at `path` with the files beside it. STORE_NONE: there is none.
// STORE_REFUSED: it is no practice. STORE_BUSY: it is in use. `message` says so.
enum store_result store_practice_away(const char *path, char *message, size_t size);

#endif

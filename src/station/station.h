#ifndef STATION_H
#define STATION_H

// What the bench does. A pure state machine: events in, a view out; every effect (store, clock,
// random, sound) goes through struct station_ops. No SDL, no SQLite, no files, no globals.
// A struct station is a plain value: copying it copies the bench (the tests explore with that).
//
// Laws, proved by tests/station/test_laws.c over every event sequence to a stated depth:
//  1 No cut mark is in the view unless head and shaft belong to the same pending club, the plan is
//    valid and this worker confirmed the care reminder for this material in this session.
//  2 "Logged" is shown only after the store said so. Until then the view says NOT LOGGED or
//    CHECKING, keeps the numbers, and no other cut starts.
//  3 One shaft, one tip cut, one butt cut, whatever is pressed or scanned twice.
//  4 A scan never confirms, a button never identifies.
//  5 Nothing in the log is changed; a correction is a new entry that refers to the old one.
//  6 What was shown is what is logged.
//  7 After a restart the same two scans lead to the exact next step of a half-cut shaft.
//  8 Whatever is wrong becomes a hold that says what happened and what to do.

#include "assembly_check.h"
#include "cut_stats.h"
#include "entry.h"
#include "event.h"
#include "kit.h"
#include "pace.h"
#include "selfcheck.h"
#include "view.h"

//  SIGNED_OUT --badge--> READY --head or shaft--> PAIR --the other--> [DRY_FIT] --> [CARE] -->
//  [RESUME] --> TIP_CUT --press--> BUTT_CUT --press--> MEASURE --press--> LOGGED --> READY
//  HOLD from anywhere, and back to where it came from or to READY.
//  PIN and REVIEW: supervisor, from READY. SET: a build as a set, from REVIEW; FINAL: what was
//  measured on an assembled club, from SET. CHECK: what a scanner sends, from READY. DESK: orders,
//  parts, charts, which src/desk does, from READY; a supervisor's rights there by way of PIN.
//  SELFCHECK: what the bench is made of, from READY, and by itself from SIGNED_OUT.
//  DRY_FIT also from BUTT_CUT (fit again). MISCUT: how much was really cut, from HOLD or RESUME.
//  CONSENT: what a plan needs a supervisor for, from a HOLD by way of PIN. The whole table:
//  moves.c.
// clang-format off
#define STATION_STATES(X)                                                                          \
    X(SIGNED_OUT) X(READY) X(PAIR) X(DRY_FIT) X(CARE) X(RESUME) X(TIP_CUT) X(BUTT_CUT) X(MEASURE)  \
    X(LOGGED) X(HOLD) X(MISCUT) X(PIN) X(CONSENT) X(REVIEW) X(SET) X(FINAL) X(CHECK) X(DESK) \
    X(SELFCHECK)
// clang-format on
enum station_state {
#define X(name) STATION_##name,
    STATION_STATES(X)
#undef X
        STATION_STATE_COUNT
};

// An independent axis: what became of the last entry.
enum station_saving {
    SAVING_NONE,     // nothing open
    SAVING_CHECKING, // the commit's fate is unknown, being looked up
    SAVING_REFUSED   // NOT LOGGED: disk full or failing; tried again every 2 s
};

enum station_save {
    STATION_SAVED,
    STATION_SAVE_REFUSED,
    STATION_SAVE_FAILED,
    STATION_SAVE_UNKNOWN
};
enum station_lookup { STATION_FOUND, STATION_ABSENT, STATION_LOOKUP_FAILED };
enum station_sound { SOUND_ACCEPTED, SOUND_HOLD, SOUND_LOGGED };
enum station_pin {
    STATION_PIN_RIGHT,
    STATION_PIN_WRONG,
    STATION_PIN_WAIT,
    STATION_PIN_LOCKED,
    STATION_PIN_NO_PEPPER,
    STATION_PIN_NOT_SET,
    STATION_PIN_FAILED
};

#define STATION_ROWS_MAX 12
#define STATION_MATERIAL_MAX 12
struct review_filter {
    int64_t from_ms; // days shown, from midnight to midnight; 0: every day
    int64_t to_ms;
    char ticket[TICKET_TEXT_MAX]; // the whole life of a head or a shaft
    char build[PARTS_BUILD_MAX];
    char worker[TICKET_TEXT_MAX];
    char bench[ENTRY_BENCH_MAX];
    char material[STATION_MATERIAL_MAX];
    enum verdict verdict;
    bool open_only;
};

// What the log can be filtered by and may be asked for.
enum station_choice { CHOICE_WORKERS, CHOICE_BENCHES, CHOICE_MATERIALS };
#define STATION_CHOICE_MAX 24

// A later entry that refers to one.
struct station_remark {
    enum entry_kind kind;
    int64_t wall_ms;
    char worker[TICKET_TEXT_MAX];
    char cause[ENTRY_CAUSE_MAX];
    char note[ENTRY_NOTE_MAX];
};

// What a supplier's code names.
struct station_model {
    bool head;
    char model[PARTS_NAME_MAX];
    char flex[PARTS_SHORT_MAX]; // of a shaft, may be empty
    int64_t parts;              // of it in stock, free
};

// Changes of an order that no bench was told of yet.
#define STATION_CHANGES_MAX 3
struct station_change {
    int64_t wall_ms;
    char worker[TICKET_TEXT_MAX];
    char club[PARTS_SHORT_MAX]; // empty: the whole order
    char part[TICKET_TEXT_MAX]; // of a part of it
    char words[VIEW_TEXT_MAX];  // change_words
};
struct station_changes {
    int count;
    int64_t newest; // its entry
    int shown;      // the newest of them, oldest first
    struct station_change row[STATION_CHANGES_MAX];
};

// The clubs that wait for this bench, and its pace (pace.h); 0: not known.
struct station_wait {
    int64_t clubs;
    int64_t pace_ms;
};

// Copies of the log that the bench makes by itself.
struct station_selfcheck {
    struct selfcheck_finding finding[SELFCHECK_COUNT];
    bool stops; // nothing more must be cut
};
struct station_copies {
    bool wanted;     // a folder for them is set
    int64_t last_ms; // wall time of the newest good one; 0: none
    bool failing;    // the last try did,
    bool late;       // and the newest is older than it should ever be
    char why[VIEW_TEXT_MAX];
};

// A day as the log has it, and its signature.
struct station_day {
    struct view_today today;
    int64_t open;      // to be decided, of all days
    int64_t entries;   // of the whole log
    int64_t uncovered; // of its last, that no signature stands for
    bool is_signed;    // this day
    char who[TICKET_TEXT_MAX];
    int64_t signed_ms;
    char brief[VIEW_SHORT_MAX + 8]; // of the note
};
// The check before a signature: entries read of all.
struct station_checked {
    int64_t entries;
    int64_t all;
};
enum station_check { STATION_CHECK_GOES_ON, STATION_CHECK_GOOD, STATION_CHECK_BAD };
enum station_sign {
    STATION_SIGNED,        // in the log and in the witness
    STATION_SIGNED_UNKEPT, // in the log alone
    STATION_SIGN_UNKNOWN,  // nobody can say
    STATION_NOT_SIGNED
};

// Everything the bench asks of the world. ctx is handed back to each. All are synchronous.
struct station_ops {
    void *ctx;
    int64_t (*mono_ms)(void *ctx);
    int64_t (*wall_ms)(void *ctx);
    // Start of the local day that holds wall_ms, and "10:42" / "25 Nov" of a time, local.
    int64_t (*day_start_ms)(void *ctx, int64_t wall_ms);
    void (*time_text)(void *ctx, int64_t wall_ms, bool date, char *buffer, size_t size);
    void (*random_id)(void *ctx, char ret_id[CONFIRM_ID_MAX]);
    void (*sound)(void *ctx, enum station_sound sound);
    bool (*room)(void *ctx); // disk has room for a whole club
    enum station_lookup (*worker)(void *ctx, const char *badge, struct worker *ret_worker);
    enum station_lookup (*part)(void *ctx, const char *ticket, struct part *ret_part);
    enum station_lookup (*club)(void *ctx, int64_t club_id, struct club *ret_club);
    enum station_lookup (*code_model)(void *ctx, const char *gtin, struct station_model *ret_model);
    // Next clubs for this bench, half-cut ones, today's counts.
    int (*queue)(void *ctx, bool half_cut, struct view_queue_row *rows, int max);
    void (*today)(void *ctx, struct view_today *ret_today);
    void (*wait)(void *ctx, struct station_wait *ret_wait);
    // Those of a build from entry `from` on.
    enum station_lookup (*changes)(void *ctx, const char *build, int64_t from,
                                   struct station_changes *ret_changes);
    // Appends; fills entry->seq when saved. REFUSED: a rule said no (stage moved elsewhere).
    enum station_save (*save)(void *ctx, struct entry *entry);
    // Why the last one failed, in words; empty: not known.
    void (*why)(void *ctx, char *buffer, size_t size);
    // Truth about an earlier save: FOUND and its seq, ABSENT, or still not known.
    enum station_lookup (*saved)(void *ctx, const char *confirm_id, int64_t *ret_seq);
    enum station_pin (*pin)(void *ctx, const char *badge, const char *pin, int *ret_wait_s);
    // Local midnight that begins the day "2026-03-31"; -1: no such day.
    int64_t (*date_ms)(void *ctx, const char *date);
    // What of a kind occurs in the log, sorted; returns how many.
    int (*choices)(void *ctx, enum station_choice choice, char texts[][STATION_CHOICE_MAX],
                   int max);
    // `by`, another supervisor whose PIN was right just now, unlocks the PIN of `badge`. REFUSED:
    // it is not locked.
    enum station_save (*unlock)(void *ctx, const char *badge, const char *by);
    // Review: newest first, seq < before (0: newest).
    int (*log)(void *ctx, const struct review_filter *filter, int64_t before,
               struct view_log_row *rows, int max);
    enum station_lookup (*entry)(void *ctx, int64_t seq, struct entry *ret_entry);
    // What later entries say about one: the newest `max`, oldest of them first; *ret_total of all.
    enum station_lookup (*about)(void *ctx, int64_t seq, struct station_remark *remarks, int max,
                                 int *ret_count, int64_t *ret_total);
    int (*spares)(void *ctx, const char *shaft, struct part *parts, int max);
    bool (*export_csv)(void *ctx, const struct review_filter *filter, char *ret_path, size_t size);
    // How well the entries of a filter were cut, all benches and days of it.
    enum station_lookup (*stats)(void *ctx, const struct review_filter *filter,
                                 struct cut_stats *ret_stats);
    // Set view: a build with its estimates; the build before or after it by name; a kit list from
    // stock for its clubs that wait for a shaft; all entries of an accepted one, or none.
    enum station_lookup (*set)(void *ctx, const char *build, struct set *ret_set);
    enum station_lookup (*beside)(void *ctx, const char *build, bool before,
                                  char ret_build[PARTS_BUILD_MAX]);
    enum station_lookup (*kit)(void *ctx, const char *build, enum match_by by, struct kit *ret_kit);
    // All tickets of a build as a file to print.
    bool (*tickets)(void *ctx, const char *build, char *ret_path, size_t size);
    // A day, of the review: what it came to, its papers as files, its signature. sign_ready tells
    // whether key and witness are at hand, and else what to do. The whole log is checked beside
    // everything else: started (false: `message` says why not), looked after until it is GOOD or
    // BAD
    // (`message`), or given up. `sign` signs what was found GOOD. `entry` is an ENTRY_DAY_SIGNED;
    // the note is there whenever something was signed, `message` whenever not all went well.
    enum station_lookup (*day)(void *ctx, int64_t from_ms, int64_t to_ms,
                               struct station_day *ret_day);
    bool (*report)(void *ctx, int64_t from_ms, int64_t to_ms, char *ret_path, size_t size);
    bool (*ledger)(void *ctx, int64_t from_ms, int64_t to_ms, char *ret_path, size_t size);
    bool (*sign_ready)(void *ctx, char *message, size_t size);
    bool (*check_start)(void *ctx, char *message, size_t size);
    enum station_check (*check_step)(void *ctx, struct station_checked *ret_checked, char *message,
                                     size_t size);
    void (*check_stop)(void *ctx);
    enum station_sign (*sign)(void *ctx, struct entry *entry, int64_t day_ms,
                              char ret_note[VIEW_NOTE_MAX], char *message, size_t size);
    enum station_save (*save_all)(void *ctx, struct entry *entries, size_t count);
    void (*copies)(void *ctx, struct station_copies *ret_copies);
    void (*selfcheck)(void *ctx, struct station_selfcheck *ret_selfcheck);
    void (*selfcheck_again)(void *ctx); // what takes time is asked again; an event tells of it
    void (*sounds)(void *ctx);          // one after the other, to be heard
};

struct station_settings {
    char bench[ENTRY_BENCH_MAX];
    struct bench_rules rules;
    struct assembly assembly;
    struct assembly_tolerance finals; // of what is measured on assembled clubs
    enum length_method length_method; // how the shop measures their length
    bool camera;                      // one is set up, and its state stands in the header
    bool scale;                       // so is one
    bool tip_right;                   // the tip lies on the right at this bench
    bool care_every_club;             // else once per worker, session and material
    bool metric_first;                // mm is the large number
    bool one_button;                  // choices are made with the button alone: lone.c
    int64_t idle_sign_off_ms;         // 0 never
    char wrong[VIEW_TEXT_MAX];        // with the file of settings, `line 12: ...`; empty: nothing
    bool last_good;                   // then the last good settings hold, else the standards
};

#include "station_state.h" // struct station: private fields, complete so that it can be copied

void station_init(struct station *station, const struct station_settings *settings,
                  const struct station_ops *ops);

// Settings that hold from now on; between clubs only.
void station_settle(struct station *station, const struct station_settings *settings);

// Takes one event. Returns true when the view may have changed.
bool station_event(struct station *station, const struct event *event);

// Milliseconds (mono) at which a TICK is due, or -1.
int64_t station_deadline(const struct station *station);

// Fills *ret_view with what is to be seen now. Texts only; no decision is left to the screen.
void station_view(const struct station *station, struct view *ret_view);

// What is to be seen when there is no log to work with; `message` says why, in words.
void station_trouble(const char *bench, const char *message, struct view *ret_view);

// What ended the bench the last time, as whoever started it knows.
enum station_end {
    STATION_END_UNKNOWN,
    STATION_END_STILL,  // it stood still too long
    STATION_END_SIGNAL, // `which`: its name
    STATION_END_STATUS, // `which`: the number
    STATION_END_MEMORY
};
// What is to be seen after so many starts that did not last: a press (ACTION_PRESS) tries again.
void station_safe(const char *bench, int starts, enum station_end end, const char *which,
                  struct view *ret_view);

const char *station_state_name(enum station_state state);

// True if the table allows a move; the one function that moves asks it in every build.
bool station_may_move(enum station_state from, enum station_state to);

#endif
